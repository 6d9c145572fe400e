#!/usr/bin/env bash
# What an editor shows of our schemas: complete.mjs with the JSON language service from npm (MIT), fetched into a
# temporary folder. Needs node and npm. The last line is "N passed, N failed"; the exit status is 0 only if nothing failed.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
cp "$here/complete.mjs" "$scratch"
cd "$scratch"
echo "Fetching with npm: vscode-json-languageservice 5.7.2"
npm install --silent --no-audit --no-fund --no-package-lock vscode-json-languageservice@5.7.2 > npm.log 2>&1 || {
  tail -n 15 npm.log
  echo "0 passed, 1 failed"
  exit 1
}
node complete.mjs "$here/../.."
