#!/bin/sh
# Make a virtual environment and install saycheck into it.
#
#   sh scripts/setup.sh FOLDER [EXTRA]
#
# FOLDER is where the environment goes; EXTRA is "dev" for what the tests need. Says which system package
# is missing, if one is.
set -eu
venv=$1
extra=${2:-}
cd "$(dirname "$0")/.."

python=
for name in "${PYTHON:-python3}" python3 python3.13 python3.12 python3.11; do
    if command -v "$name" >/dev/null 2>&1 &&
        "$name" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
        python=$name
        break
    fi
done
if [ -z "$python" ]; then
    echo "Python 3.11 or newer is missing; install it first: sudo apt-get install python3 python3-venv" >&2
    exit 2
fi
if ! "$python" -c 'import ensurepip, venv' 2>/dev/null; then
    echo "The package python3-venv is missing; install it first: sudo apt-get install python3-venv" >&2
    exit 2
fi
if ! "$python" -c 'import ctypes.util, sys; sys.exit(ctypes.util.find_library("portaudio") is None)' 2>/dev/null; then
    echo "Note: for the microphone (not for recordings) install libportaudio2 as well: sudo apt-get install libportaudio2" >&2
fi

[ -x "$venv/bin/python" ] || "$python" -m venv "$venv"
pip() {
    "$venv/bin/python" -m pip --disable-pip-version-check --quiet "$@"
}
echo "Installing saycheck into $venv; the first time takes a few minutes." >&2
if [ -n "$extra" ]; then
    pip install --editable ".[$extra]"
else
    pip install .
fi
