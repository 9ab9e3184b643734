#!/bin/sh
# Make a virtual environment, find a browser, and run every check. Needs Python 3.11 and a package index.
set -eu
cd "$(dirname "$0")/.."

venv=${GUIDEGEN_VENV:-.venv}
python=${PYTHON:-python3}

"$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))' || {
    echo "guidegen needs Python 3.11 or later; $("$python" --version) was found." >&2
    exit 2
}
[ -x "$venv/bin/python" ] || "$python" -m venv "$venv" || {
    echo "No virtual environment could be made; on Debian, install python3-venv." >&2
    exit 2
}
"$venv/bin/python" -m pip install --quiet --disable-pip-version-check --editable '.[test]'

. tests/browser/find_chromium.sh

status=0
echo "ruff";   "$venv/bin/ruff" check . || status=1
"$venv/bin/ruff" format --check --quiet . || { echo "ruff format would change files."; status=1; }
echo "mypy";   "$venv/bin/mypy" || status=1
echo "pytest"; "$venv/bin/python" -m pytest -n auto --dist loadgroup "$@" || status=1
exit $status
