#!/bin/sh
# Make a virtual environment, find a browser, and run every check. Needs Python 3.11 and a package index.
# Arguments go to pytest: `sh tests/run.sh -m "not slow"` is the loop of a minute.
set -eu
cd "$(dirname "$0")/.."

venv=${GUIDEGEN_VENV:-.venv}
python=${PYTHON:-python3}

missing() {
    for line in "$@"; do echo "$line" >&2; done
    exit 2
}

command -v "$python" >/dev/null 2>&1 ||
    missing "“$python” was not found; install Python 3.11 or later, or set PYTHON to its path."
"$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))' ||
    missing "guidegen needs Python 3.11 or later; $("$python" --version 2>&1) was found." \
        "Set PYTHON to the path of a later one."
# One that was left half made, or whose Python has gone, is made again.
"$venv/bin/python" -m pip --version >/dev/null 2>&1 || "$python" -m venv "$venv" ||
    missing "No virtual environment could be made in “$venv”; on Debian, install python3-venv."

# What was installed is noted, so that a run goes without a package index until pyproject.toml changes.
wanted=$(pwd; cat pyproject.toml)
if [ "$(cat "$venv/installed-for-tests" 2>/dev/null || true)" != "$wanted" ]; then
    "$venv/bin/python" -m pip install --quiet --disable-pip-version-check --editable '.[test]' ||
        missing "The packages that the tests need could not be installed." \
            "They come from a package index, which pip has to reach; its answer stands above."
    printf '%s\n' "$wanted" >"$venv/installed-for-tests"
fi

. tests/browser/find_chromium.sh

# Else each of the hundreds of processes that tests start would compile all of guidegen anew.
unset PYTHONDONTWRITEBYTECODE

status=0
echo "ruff";   "$venv/bin/python" -m ruff check . || status=1
"$venv/bin/python" -m ruff format --check --quiet . || { echo "ruff format would change files."; status=1; }
echo "mypy";   "$venv/bin/python" -m mypy || status=1
echo "pytest"; "$venv/bin/python" -m pytest -n auto "$@" || status=1
exit $status
