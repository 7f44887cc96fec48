#!/bin/sh
# Runs a command with a private PostgreSQL: tools/postgres.sh COMMAND...
#
# A new cluster in a folder of its own, reached only through a socket in that folder, with WETSIDE_DATABASE set for the
# command; stopped by its process id and thrown away afterwards. Needs Debian's package postgresql (its programs lie in
# /usr/lib/postgresql/*/bin); the server refuses to run as root, so that root hands it to the user postgres.
# Exit code 77 where PostgreSQL is not installed.
set -eu

bin=${WETSIDE_POSTGRES_BIN:-}
if [ -z "$bin" ]; then
    for found in /usr/lib/postgresql/*/bin; do [ -x "$found/initdb" ] && bin=$found; done
fi
if [ -z "$bin" ]; then
    echo "PostgreSQL is not installed here (Debian package postgresql)" >&2
    exit 77
fi

folder=$(mktemp -d "${TMPDIR:-/tmp}/wetside-pg-XXXXXX")
pid=
finish() {
    if [ -z "$pid" ] && [ -f "$folder/data/postmaster.pid" ]; then pid=$(head -n 1 "$folder/data/postmaster.pid"); fi
    if [ -n "$pid" ] && kill -INT "$pid" 2>/dev/null; then
        tries=0
        while kill -0 "$pid" 2>/dev/null && [ $tries -lt 100 ]; do sleep 0.1; tries=$((tries + 1)); done
    fi
    rm -rf "$folder"
}
trap finish EXIT
trap 'exit 130' INT
trap 'exit 143' TERM

chmod 755 "$folder"
mkdir "$folder/data" "$folder/socket"
chmod 700 "$folder/data"
if [ "$(id -u)" = 0 ]; then
    chown postgres "$folder/data" "$folder/socket"
    as() { runuser -u postgres -- "$@"; }
else
    as() { "$@"; }
fi

cd "$folder"
as "$bin/initdb" -D "$folder/data" -U wetside -A trust -E UTF8 --locale=C.UTF-8 -N >"$folder/log" 2>&1 ||
    { cat "$folder/log" >&2; exit 1; }
# Tests only: nothing here outlives the command, so that nothing waits for the disk.
as "$bin/postgres" -D "$folder/data" -k "$folder/socket" -c listen_addresses= -c fsync=off -c full_page_writes=off \
    -c jit=off -c max_connections=60 -c log_min_messages=fatal >>"$folder/log" 2>&1 &
tries=0
until "$bin/psql" -h "$folder/socket" -U wetside -d postgres -qAtc 'select 1' >/dev/null 2>&1; do
    tries=$((tries + 1))
    [ $tries -gt 150 ] && { cat "$folder/log" >&2; exit 1; }
    sleep 0.1
done
pid=$(head -n 1 "$folder/data/postmaster.pid")
"$bin/psql" -h "$folder/socket" -U wetside -d postgres -qc 'create database darkroom'
cd "$OLDPWD"

WETSIDE_DATABASE="postgresql://wetside@/darkroom?host=$folder/socket"
export WETSIDE_DATABASE
set +e
"$@"
code=$?
set -e
exit $code
