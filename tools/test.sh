#!/bin/sh
# Everything that is checked before a change is taken. All parts run, so that one call shows all that is wrong; pytest comes
# last, because its closing line counts the tests.
set -u
cd "$(dirname "$0")/.."

# On two cores three: many tests wait for a page, a process or a clock. Whoever is done takes from the others, or one of them
# is left with all pages.
workers="-n ${WETSIDE_WORKERS:-3} --dist worksteal"

failed=
part() {
    name=$1
    shift
    begin=$(date +%s)
    log=$(mktemp)
    if "$@" >"$log" 2>&1; then verdict=ok; else verdict=FAILED; failed="$failed, $name"; fi
    printf '%-18s %-6s %3d s\n' "$name" "$verdict" $(($(date +%s) - begin))
    if [ "$verdict" = FAILED ] || [ -n "${SHOW:-}" ]; then cat "$log"; else grep '^NOTE' "$log"; fi
    rm -f "$log"
}

tools/environment.sh test || exit 1
tools/debian.sh || exit 1
part 'style' .venv/bin/ruff check --quiet --output-format concise
part 'format' .venv/bin/ruff format --check --output-format concise
part 'types' .venv/bin/mypy --no-error-summary
part 'import contracts' .venv/bin/lint-imports --no-logo
part 'schemas fresh' .venv/bin/python tools/make_schemas.py --check
part 'interface fresh' .venv/bin/python tools/make_interface.py --check
part 'docs fresh' .venv/bin/python tools/print_docs.py --check
on_postgres() {
    # The records once more on PostgreSQL; said loudly where it is not installed, and an error under CI. What does not meet
    # it (files, archives of their own on SQLite) runs below alone: tests/conftest.py.
    tools/postgres.sh .venv/bin/python -m pytest $workers -p no:benchmark -q tests/records tests/contract tests/crash tests/web
    code=$?
    [ $code = 77 ] || return $code
    echo 'NOTE the records were NOT tried on PostgreSQL: it is not installed (Debian package postgresql)'
    [ "${CI:-}" != true ]
}
part 'on PostgreSQL' on_postgres
.venv/bin/python -m pytest $workers -p no:benchmark --require-published || failed="$failed, tests"
[ -z "$failed" ] && exit 0
echo
echo "not in order: ${failed#, }"
exit 1
