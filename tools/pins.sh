#!/bin/sh
# For maintainers: resolves requirements/ anew from pyproject.toml. Look at the difference before you commit it.
#
# All hashes that a version was published with are kept, so that the files serve every platform; no address is kept.
set -eu
cd "$(dirname "$0")/.."

scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
"${PYTHON:-python3}" -m venv "$scratch/venv"
"$scratch/venv/bin/python" -m pip --quiet install uv

resolve() {
    "$scratch/venv/bin/uv" pip compile --quiet --no-config --universal --fork-strategy fewest --generate-hashes --no-annotate \
        --no-header --no-emit-index-url --no-emit-find-links --only-binary :all: "$@" pyproject.toml
}

resolve --upgrade --extra voice --group build -o "$scratch/run.txt"
resolve --upgrade --extra voice --group build --group test -c "$scratch/run.txt" -o "$scratch/test.txt"
for name in run test; do
    {
        echo "# Made by tools/pins.sh from pyproject.toml; do not edit. Every version with the hashes of all its files."
        cat "$scratch/$name.txt"
    } > "requirements/$name.txt"
done
