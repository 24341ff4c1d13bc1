#!/bin/sh
# Set saycheck up in .venv and hear the demo recording.
set -eu
cd "$(dirname "$0")"
sh scripts/setup.sh .venv
exec .venv/bin/saycheck demo "$@"
