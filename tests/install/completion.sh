#!/usr/bin/env bash
# Completes boxproof's command line in bash and in zsh with the scripts that the program prints, and holds what these
# offer against what a user expects. Usage: completion.sh PROGRAM. Needs zsh and shellcheck (both in Debian).
# The last line is "N passed, N failed"; exit status 0 only if nothing failed.
set -uo pipefail
program=$(readlink -f "$1") || exit 2
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
passed=0 failed=0

# Arguments: what is tested, what was found, what was expected.
expect() {
  if [[ $2 == "$3" ]]; then
    passed=$((passed + 1))
  else
    failed=$((failed + 1))
    printf '%s: found "%s", expected "%s"\n' "$@"
  fi
}

# Whether a command succeeds; its output is shown where it does not.
succeeds() {
  local out
  if out=$("${@:2}" 2>&1); then passed=$((passed + 1)); else failed=$((failed + 1)) && printf '%s:\n%s\n' "$1" "$out"; fi
}

mkdir -p "$work/site/plans folder" "$work/zsh"
touch "$work/site/plan.json" "$work/site/plan.txt" "$work/site/visit.csv" "$work/site/visit 2.json"
"$program" completion bash > "$work/boxproof.bash" && "$program" completion zsh > "$work/zsh/_boxproof" || failed=1
succeeds "bash -n" bash -n "$work/boxproof.bash"
succeeds "shellcheck" shellcheck "$work/boxproof.bash"
succeeds "zsh -n" zsh -n "$work/zsh/_boxproof"

# What a shell offers for the words behind "boxproof", the last of them begun: sorted, on one line, with | between.
in_bash() { bash "$here/complete_in.bash" "$work/boxproof.bash" "$work/site" "$@" | LC_ALL=C sort | paste -s -d '|'; }
in_zsh() { zsh -f "$here/complete_in.zsh" "$work/zsh" "$work/site" "$work/offered" "$*" | LC_ALL=C sort | paste -s -d '|'; }

commands='baseline|box|check|compare|completion|draft|labels|man|rules|schedule|schema|tables|tally'
formats='annotations|html|json|junit|markdown|sarif|text'
files='plan.json|plans folder|visit 2.json'
offers() {  # shell, as in_bash or in_zsh
  expect "$1, commands" "$($1 '')" "$commands"
  expect "$1, a command begun" "$($1 comp)" "compare|completion"
  expect "$1, pages" "$($1 man '')" "$commands"
  expect "$1, shells" "$($1 completion '')" "bash|zsh"
  expect "$1, formats" "$($1 check --format '')" "$formats"
  expect "$1, a format begun" "$($1 check --format s)" "sarif"
  expect "$1, formats of another command" "$($1 compare --format '')" "json|markdown|text"
  expect "$1, designs" "$($1 check '')" "$files"
  expect "$1, the second design" "$($1 check plan.json '')" "$files"
  expect "$1, a design behind an option" "$($1 check --edition 2017 pl)" "plan.json|plans folder"
  expect "$1, records" "$($1 check plan.json --asbuilt vis)" "visit 2.json|visit.csv"
  expect "$1, outputs: any file" "$($1 check --output pla)" "plan.json|plan.txt|plans folder"
  expect "$1, editions" "$($1 check --edition 201)" "2011|2014|2017"
  expect "$1, the second place" "$($1 compare plan.json visi)" "visit 2.json"
  expect "$1, rules" "$($1 rules fuse/over-module)" "fuse/over-module-limit"
  expect "$1, several topics" "$($1 tables cold roo)" "roof"
  expect "$1, nothing for a number" "$($1 check --low-c '')" ""
}
offers in_bash
offers in_zsh

expect "bash, options" "$(in_bash --)" "--help|--version"
expect "bash, options of a command" "$(in_bash check --fo)" "--format"
expect "bash, all options of a command" "$(in_bash schema --)" "--help"
expect "bash, a value behind =" "$(in_bash check --format = s)" "sarif"
expect "bash, values behind =" "$(in_bash check --format =)" "$formats"
expect "bash, reports" "$(in_bash check --report sa)" "sarif="
expect "bash, the file of a report" "$(in_bash check --report sarif = pla)" "plan.json|plan.txt|plans folder"
expect "bash, files of a report" "$(in_bash check --report sarif =)" "plan.json|plan.txt|plans folder|visit 2.json|visit.csv"
expect "bash, both with =" "$(in_bash check --report = sarif = plan.t)" "plan.txt"
# Where somebody took = out of COMP_WORDBREAKS, words stay whole.
expect "bash, whole words" "$(in_bash check --format=s)" "--format=sarif"
expect "bash, whole words of a report" "$(in_bash check --report=sarif=plan.t)" "--report=sarif=plan.txt"
expect "bash, a folder's files" "$(in_bash check 'plans folder/')" ""
expect "zsh, options" "$(in_zsh --)" "--help|--version"
expect "zsh, options of a command" "$(in_zsh check --fo)" "--format"
expect "zsh, reports" "$(in_zsh check --report sa)" "sarif"
expect "zsh, the file of a report" "$(in_zsh check --report sarif=plan.t)" "plan.txt"
expect "zsh, a value behind =" "$(in_zsh check --format=s)" "sarif"
expect "zsh, not with what it excludes" "$(in_zsh tally plan.json --sample 3 --pl)" ""

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
