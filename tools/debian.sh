#!/bin/sh
# Installs the Debian packages of apt.txt where it may (as root, with apt-get); says loudly what cannot be tried otherwise.
set -eu
cd "$(dirname "$0")/.."

missing() {
    # Lines of apt.txt whose program is not here: "package: program: what cannot be tried".
    grep -v '^#' apt.txt | while IFS=: read -r package program part; do
        command -v "$(echo $program)" >/dev/null 2>&1 || printf '%s:%s:%s\n' "$package" "$program" "$part"
    done
}

lacking=$(missing)
[ -z "$lacking" ] && exit 0
if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then
    packages=$(printf '%s\n' "$lacking" | cut -d: -f1)
    echo "installing Debian packages:" $packages
    log=$(mktemp)
    if apt-get -q update >"$log" 2>&1 &&
        DEBIAN_FRONTEND=noninteractive apt-get -qy install --no-install-recommends $packages >>"$log" 2>&1; then :; else tail -n 20 "$log"; fi
    rm -f "$log"
    lacking=$(missing)
fi
[ -z "$lacking" ] && exit 0
echo
echo "  NOT EVERYTHING CAN BE TRIED HERE:"
printf '%s\n' "$lacking" | while IFS=: read -r package program part; do
    echo "  -$part (no$program; Debian package $package)"
done
echo
[ "${CI:-}" = true ] && { echo "  CI=true: this is an error."; exit 1; }
exit 0
