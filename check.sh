#!/bin/sh
# Set saycheck up with what its tests need, and run every check. The environment goes to .venv-dev, or
# to the folder that VENV names.
set -eu
cd "$(dirname "$0")"
venv=${VENV:-.venv-dev}
sh scripts/setup.sh "$venv" dev
bin=$(cd "$venv/bin" && pwd)
run() {
    echo "== $*" >&2
    tool=$1
    shift
    "$bin/$tool" "$@"
}
run ruff check .
run ruff format --check .
run mypy
run lint-imports
run pytest -n "${WORKERS:-2}" "$@"
