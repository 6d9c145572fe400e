#!/usr/bin/env bash
# Writes the JSON Schema of SARIF 2.1.0 to FILE: the one that @microsoft/jest-sarif ships, from npm, held against the
# checksum of its archive. It is the release candidate rtm.5 of the schema; the final one (in the 43 MB of
# @microsoft/sarif-multitool-linux 5.7.0) differs from it in how it writes GUIDs and language tags and in three more
# roles of artifacts, and in nothing that we write.
#
#   tests/schema/sarif_schema.sh FILE          Needs npm and tar.
set -euo pipefail
[ $# -eq 1 ] || { sed -n '2,7s/^# \{0,1\}//p' "$0" >&2; exit 2; }

package=@microsoft/jest-sarif@1.0.0-beta.0
sum=0357ce84f77a21ce620e4e05f583f0d6a341e1717eefe22f891ef197caf617a433424c7972963d2ec1a4dab1318852047016e3a559d29b058606e9004a4890f4
target=$(realpath -m "$1")

scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
cd "$scratch"
echo "Fetching from npm: $package"
archive=$(npm pack --silent "$package" < /dev/null)
echo "$sum  $archive" | sha512sum --check --quiet
tar -xzf "$archive" package/lib/schemas/sarif-2.1.0-rtm.5.json
mv package/lib/schemas/sarif-2.1.0-rtm.5.json "$target"
