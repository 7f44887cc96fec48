#!/bin/sh
# Style, types and import contracts; the environment of `make test` must stand.
set -eu
cd "$(dirname "$0")/.."
.venv/bin/ruff check --quiet --output-format concise
.venv/bin/ruff format --check --output-format concise
.venv/bin/mypy --no-error-summary
.venv/bin/lint-imports --no-logo
