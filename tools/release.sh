#!/bin/sh
# Builds wheel and source archive with the pinned backend, checks both, and tries the wheel in a clean environment.
set -eu
cd "$(dirname "$0")/.."

out=out/release
rm -rf $out
.venv/bin/python -m hatchling build -d $out >/dev/null
.venv/bin/python tools/check_release.py $out

trial=$(mktemp -d)
trap 'rm -rf "$trial"' EXIT
.venv/bin/python -m venv "$trial/venv"
pip() { PIP_DISABLE_PIP_VERSION_CHECK=1 "$trial/venv/bin/python" -m pip --quiet --no-input "$@"; }
pip install --no-compile --only-binary :all: --require-hashes -r requirements/run.txt
pip install --no-index --no-deps $out/*.whl
pip check
(cd "$trial" && venv/bin/wetside --version)
ls -l $out
