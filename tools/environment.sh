#!/bin/sh
# Makes .venv with the pinned wheels and this project in it: tools/environment.sh run|test
#
# A stamp remembers what was installed, so that a second call costs next to nothing. No root, no compiler, no address:
# pip takes the wheels from wherever it is set up to, and refuses any file whose hash is not in requirements/.
set -eu

what=${1:?"run or test"}
python=${PYTHON:-python3}
venv=.venv
cd "$(dirname "$0")/.."

say() { printf '%s\n' "wetside: $*" >&2; }
stop() { say "$*"; exit 1; }

wanted() {
    # What the environment is made from; anything that changes here makes it anew.
    pwd -P
    cat "requirements/$what.txt" pyproject.toml
}

same_python() {
    # Whether the environment is made from the Python that was named; any will do where none was.
    [ -z "${PYTHON:-}" ] && return 0
    kind='import sys; print(sys.version, sys.base_prefix)'
    [ "$("$python" -c "$kind" 2>&1)" = "$($venv/bin/python -c "$kind" 2>&1)" ]
}

stamp=$venv/wetside-$what.stamp
mark=$(wanted | cksum)
[ -x $venv/bin/python ] && [ -f "$stamp" ] && [ "$(cat "$stamp")" = "$mark" ] && same_python && exit 0

command -v "$python" >/dev/null 2>&1 ||
    stop "there is no \"$python\" here. Install Python 3.11 or newer, or name one: make $what PYTHON=/path/to/python3"
found=$("$python" -c 'import sys; print("%d.%d.%d" % sys.version_info[:3])' 2>/dev/null) ||
    stop "\"$python\" does not start. Name another: make $what PYTHON=/path/to/python3"
"$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))' ||
    stop "\"$python\" is Python $found; 3.11 or newer is needed. Name another: make $what PYTHON=python3.11"

clear=
if [ -d $venv ] && { [ ! -x $venv/bin/python ] || ! head -n 3 $venv/bin/pip 2>/dev/null | grep -qF "$(pwd -P)/$venv/"; }; then
    # Its Python is gone, or the folder was moved or copied: programs in it would point to the old place.
    say "$venv does not belong to this place any more and is made anew"
    clear=--clear
elif [ -d $venv ] && ! same_python; then
    say "$venv was made with another Python and is made anew"
    clear=--clear
fi
if [ ! -d $venv ] || [ -n "$clear" ]; then
    "$python" -c 'import venv, ensurepip' 2>/dev/null ||
        stop "Python $found has no venv module (some systems pack it apart). Debian, Ubuntu: apt install python3-venv, as root; then again: make $what"
    say "making $venv with Python $found"
    "$python" -m venv $clear $venv || stop "the environment could not be made; see above"
fi

pip() { PIP_DISABLE_PIP_VERSION_CHECK=1 $venv/bin/python -m pip --quiet --no-input "$@"; }

rm -f "$stamp"
say "installing the pinned wheels of requirements/$what.txt (needs the network once)"
# Byte code is made when a module is first used: most of these modules never are.
pip install --no-compile --only-binary :all: --require-hashes -r "requirements/$what.txt" ||
    stop "the wheels could not be installed; see above. Nothing else was changed; once mended: make $what"
pip install --no-index --no-build-isolation --no-deps --force-reinstall -e . ||
    stop "wetside itself could not be installed; see above"
printf '%s\n' "$mark" > "$stamp"
