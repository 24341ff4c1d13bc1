#!/bin/sh
# Set saycheck up with what its tests need, and run every check. The environment goes to .venv-dev, or
# to the folder that VENV names. Further words go to pytest (sh check.sh -m "not sound").
set -eu
cd "$(dirname "$0")"
venv=${VENV:-.venv-dev}
sh scripts/setup.sh "$venv" dev
bin=$(cd "$venv/bin" && pwd)
failed=
run() {
    echo "== $*" >&2
    "$bin/$@" || failed="$failed $1"
}
run ruff check .
run ruff format --check .
run mypy
run lint-imports
run pytest -n "${WORKERS:-2}" "$@"
if [ -n "$failed" ]; then
    echo "Not right yet:$failed" >&2
    exit 1
fi
echo "Everything is right." >&2
