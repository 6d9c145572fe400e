#!/usr/bin/env bash
# The manual pages as mandoc and man see them: no warning. Usage: manual.sh PROGRAM. Needs mandoc and man-db.
# The last line is "N passed, N failed"; exit status 0 only if nothing failed.
set -uo pipefail
program=$(readlink -f "$1") || exit 2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
passed=0 failed=0

page() {  # name of the page, then the arguments of the program
  local name=$1 said
  shift
  said=$("$program" "$@" 2>&1 > "$work/$name.1" || echo "exit status $?"
    mandoc -T lint -W warning "$work/$name.1" 2>&1
    LC_ALL=C.UTF-8 MANROFFSEQ='' MANWIDTH=80 man --warnings -E UTF-8 -l -Tutf8 -Z "$work/$name.1" 2>&1 > /dev/null
    lexgrog "$work/$name.1" | grep -q ": \"$name - " || echo "no page that apropos knows")
  if [[ -z $said ]]; then passed=$((passed + 1)); else failed=$((failed + 1)) && printf '%s:\n%s\n' "$name" "$said"; fi
}

page boxproof man
for command in $("$program" completion bash | sed -n 's/^_boxproof_commands="\(.*\)"$/\1/p'); do
  page "boxproof-$command" man "$command"
done
[ "$passed" -gt 10 ] || failed=$((failed + 1))

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
