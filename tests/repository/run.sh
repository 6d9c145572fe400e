#!/usr/bin/env bash
# The example repository, tried as an installer would: the files of examples/repository in a fresh git repository, the
# steps of both jobs and the hook run as they stand there (but for those that install), on a good commit, on bad ones,
# and on a broken file.
#
#   tests/repository/run.sh BOXPROOF
#
# Installs with apt-get: git python3 python3-yaml jq. The last line is "N passed, N failed".
set -uo pipefail
export LC_ALL=C.UTF-8 DEBIAN_FRONTEND=noninteractive
program=$(readlink -f "${1:?"usage: $0 BOXPROOF"}")
here=$(cd "$(dirname "$0")" && pwd)
example=$here/../../examples/repository
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
passed=0 failed=0

check() {  # arguments: what, command …
  local what=$1 status=0
  shift
  "$@" > "$folder/says" 2>&1 || status=$?
  if [ "$status" -eq 0 ]; then
    passed=$((passed + 1))
    echo "  ok   $what"
  else
    failed=$((failed + 1))
    echo "FAIL   $what (status $status)"
    sed 's/^/       /' "$folder/says" | head -n 30
  fi
  mv "$folder/says" "$folder/said"
}
exits() {  # arguments: the expected status, command …
  local expected=$1 status=0
  shift
  "$@" || status=$?
  [ "$status" -eq "$expected" ] || { echo "exit status $status, expected $expected"; return 1; }
}

as_root=""
[ "$(id -u)" -eq 0 ] || as_root=sudo
echo "Installing with apt-get: git python3 python3-yaml jq"
$as_root apt-get install -y --no-install-recommends git python3 python3-yaml jq > "$folder/apt" 2>&1 ||
  { tail -n 5 "$folder/apt"; exit 2; }

mkdir "$folder/bin" "$folder/work"
ln -s "$program" "$folder/bin/boxproof"
export PATH=$folder/bin:$PATH
cp -r "$example/." "$folder/work"
cd "$folder/work" || exit 2
git() { command git -c user.name=installer -c user.email=installer@boxproof.invalid "$@"; }
git init -q
git config core.hooksPath hooks
mkdir schema
for name in design exceptions baseline settings; do boxproof schema "$name" > "schema/$name.schema.json"; done

# The commands of a job, but for those that install.
steps() { # argument: github or gitlab
  /usr/bin/python3 - "$1" <<'PY'
import sys, yaml
if sys.argv[1] == "github":
    job = yaml.safe_load(open(".github/workflows/boxproof.yml"))["jobs"]["designs"]
    lines = [step["run"] for step in job["steps"] if "run" in step]
else:
    job = yaml.safe_load(open(".gitlab-ci.yml"))["boxproof"]
    lines = job["before_script"] + job["script"]
print("\n".join(line for line in lines if "apt-get" not in line))
PY
}
job() { # arguments: github or gitlab, the expected status
  steps "$1" > "$folder/steps"
  grep -q '^boxproof check' "$folder/steps" || { echo "found no check among the steps"; return 1; }
  exits "$2" bash -eu "$folder/steps" > "$folder/log" 2> "$folder/errors" || { cat "$folder/log" "$folder/errors"; return 1; }
}
line_of_change() { # the one line that the last commit changed
  git diff -U0 HEAD~1 -- designs | sed -n 's/^@@ .* +\([0-9]*\) @@.*/\1/p'
}
is_at() { # arguments: a file, a line, what stands there: a result that nothing sets aside points to just that
  local line=$2 found
  found=$(jq -r --arg uri "$1" --argjson line "$line" '.runs[0].results[]
      | select((.suppressions // []) == []) | .locations[0].physicalLocation
      | select(.artifactLocation.uri == $uri and .region.startLine == $line)
      | "\(.region.startColumn) \(.region.endColumn)"' boxproof.sarif | sort -u)
  [ -n "$found" ] || { echo "no result on line $line of $1"; jq -c '.runs[0].results[] | [.ruleId, .locations[0].physicalLocation]' boxproof.sarif; return 1; }
  local from to
  read -r from to <<< "$found"
  local there
  there=$(sed -n "${line}p" "$1" | cut -c "$from-$((to - 1))")
  [ "$there" = "$3" ] || { echo "columns $from to $to of line $line hold \"$there\", expected \"$3\""; return 1; }
}
of_state() { jq -e --arg state "$1" --argjson n "$2" '[.runs[0].results[] | select(.baselineState == $state and (.suppressions // []) == [])] | length == $n' boxproof.sarif; }

git add -A
check "a commit of the designs as they are goes through the hook" exits 0 git commit -qm "designs"
check "the job of the first host is green" job github 0
check "and says that nothing is new" of_state new 0
check "it wrote a page a design" test -s report/designs/boathouse.html -a -s report/designs/upstream/toll-house.html
check "the job of the second host is green" job gitlab 0
check "its test report has no failure" exits 1 grep -q '<failure' boxproof.xml
rm -rf report boxproof.xml boxproof.sarif

# One bad commit: a fuse above what the module takes in reverse.
sed -i 's/"fuse": { "a": 20,/"fuse": { "a": 30,/' designs/boathouse.json
git add -A
check "the hook refuses a bad commit" exits 1 git commit -qm "bigger fuses"
check "and tells of the rule" grep -q 'fuse/over-module-limit' "$folder/said"
git commit -q --no-verify -m "bigger fuses"
check "the job of the first host is red" job github 1
check "the finding is on the line of the change and marks the value" is_at designs/boathouse.json "$(line_of_change)" 30
check "an annotation names file and line" grep -q "^::error file=designs/boathouse.json,line=$(line_of_change)," "$folder/log"
check "the job of the second host is red" job gitlab 1
check "its test report names the box that fails" grep -q 'testcase[^>]*name="B-1"' boxproof.xml
check "a baseline takes no hazard" bash -c '
  boxproof baseline --reason "to go on" --output new.json && ! grep -q over-module-limit new.json &&
  ! boxproof check --baseline new.json > /dev/null; status=$?; rm -f new.json; exit $status'
git reset -q --hard HEAD~1

# Reordered and laid out anew: what is on the baseline stays known.
jq -S '.combiners |= reverse' designs/upstream/toll-house.json > "$folder/laid" && cp "$folder/laid" designs/upstream/toll-house.json
check "a design laid out anew brings no news" job github 0
git checkout -q designs

# What was staged is checked, not what lies in the folder.
sed -i 's/"fuse": { "a": 20,/"fuse": { "a": 30,/' designs/boathouse.json
git add -A
git show HEAD:designs/boathouse.json > designs/boathouse.json
check "the hook looks at what is staged" exits 1 git commit -qm "hidden"
git reset -q --hard

# A file cut short.
head -n 40 designs/boathouse.json > "$folder/cut" && cp "$folder/cut" designs/boathouse.json
check "a broken file gives status 3" job github 3
check "and the other design is reported all the same" jq -e '[.runs[0].results[].locations[0].physicalLocation.artifactLocation.uri] | index("designs/upstream/toll-house.json") != null' boxproof.sarif
check "and the log says where it is broken" grep -q '^::error file=designs/boathouse.json,line=4' "$folder/log"
git checkout -q designs

# What is mended is told.
sed -i 's/"distance_m": 4.5/"distance_m": 2.5/' designs/upstream/toll-house.json
check "what is mended keeps the job green" job github 0
check "and the log tells of the entry that no longer occurs" grep -rqE 'no longer occurs?' "$folder/log" "$folder/errors"

echo
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
