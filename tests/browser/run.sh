#!/usr/bin/env bash
# Opens the pages that the program makes in headless Chromium and does with them what people do: read, sort, filter,
# print, count by touch, close and come back, export and check.
#
#   tests/browser/run.sh [--accept] [PROGRAM] [TEST...]
#
# PROGRAM: the program to test, build/boxproof if not given. TEST: only these files of tests/browser, *.test.mjs if none.
# --accept: store the pictures of README.md anew in examples/pictures; look at them before you commit.
# CHROMIUM in the environment names another browser than Debian's /usr/bin/chromium.
# Needs Debian 12 or later, and root or sudo where a package is missing; says what it installs. What npm fetches, the
# pages and the pictures go to a temporary folder that is removed at the end.
# The last line is "N passed, N failed"; the exit status is 0 only if nothing failed.
set -euo pipefail
export LC_ALL=C.UTF-8

here=$(cd "$(dirname "$0")" && pwd)
source=$(cd "$here/../.." && pwd)
accept=
program=
tests=()
for argument in "$@"; do
  case $argument in
    --accept) accept=1 ;;
    *.test.mjs) tests+=("$(basename "$argument")") ;;
    -*) echo "run.sh: unknown option $argument; see the head of $0" >&2; exit 2 ;;
    *) program=$argument ;;
  esac
done
program=$(realpath -m "${program:-$source/build/boxproof}")
[ -x "$program" ] || { echo "run.sh: found no program $program; build it first, see README.md" >&2; exit 2; }
chromium=${CHROMIUM:-/usr/bin/chromium}

scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT

stop() {  # a sentence, then a log to quote from
  echo "run.sh: $1" >&2
  tail -n 15 "$2" >&2
  echo "0 passed, 1 failed"
  exit 1
}

missing=()
[ -x "$chromium" ] || missing+=(chromium)
command -v node > /dev/null || missing+=(nodejs)
command -v npm > /dev/null || missing+=(npm)
command -v pdftotext > /dev/null || missing+=(poppler-utils)
[ -d /usr/share/fonts/truetype/dejavu ] || missing+=(fonts-dejavu-core)
/usr/bin/python3 -c 'import jsonschema' 2> /dev/null || missing+=(python3 python3-jsonschema)
if [ ${#missing[@]} -gt 0 ]; then
  as_root=
  [ "$(id -u)" -eq 0 ] || as_root=sudo
  echo "Installing with apt-get: ${missing[*]}"
  { $as_root apt-get update -q && $as_root apt-get install -y --no-install-recommends "${missing[@]}"; } \
    > "$scratch/apt.log" 2>&1 || stop "apt-get failed:" "$scratch/apt.log"
fi

# Everything happens in the scratch folder, so that the source tree stays as it is.
cp -r "$here/." "$scratch"
cd "$scratch"
echo "Installing with npm into a temporary folder: playwright-core, axe-core (package-lock.json)"
npm ci --ignore-scripts < /dev/null > npm.log 2>&1 || stop "npm failed:" npm.log

# One font family on every machine, so that lines break and pictures look alike.
mkdir work
cat > fonts.conf << EOF
<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <dir>/usr/share/fonts/truetype/dejavu</dir>
  <cachedir>$scratch/font-cache</cachedir>
</fontconfig>
EOF
echo "$("$chromium" --version 2> /dev/null), node $(node --version)"

[ ${#tests[@]} -gt 0 ] || tests=(*.test.mjs)
FONTCONFIG_FILE=$scratch/fonts.conf CHROMIUM=$chromium BOXPROOF_PROGRAM=$program BOXPROOF_SOURCE=$source \
  BOXPROOF_SCRATCH=$scratch/work BOXPROOF_ACCEPT=$accept \
  timeout --kill-after=10 300 node --test --test-reporter=./reporter.mjs "${tests[@]}" < /dev/null || { [ $? -lt 124 ] || echo "0 passed, 1 failed"; exit 1; }
