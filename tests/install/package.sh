#!/usr/bin/env bash
# Installs boxproof as users do, out of a build folder: with cmake --install into a folder, where a program outside the
# tree is built against the library; and as a Debian package in a clean Debian 12, where the program must run, its manual
# and completion must be found, and nothing may be left when it is removed.
# Usage: package.sh [BUILD]. Needs Debian 12 with mmdebstrap, dpkg-dev and file, its mirror, and root or sudo. Nothing is
# kept. The last line is "N passed, N failed"; exit status 0 only if nothing failed.
set -uo pipefail
cd "$(dirname "$0")/../.." || exit 2
tree=$PWD build=$(readlink -f "${1:-build}")
as_root=""
[ "$(id -u)" -eq 0 ] || as_root=sudo
work=$(mktemp -d)
trap '$as_root rm -rf "$work"' EXIT
chmod 755 "$work"  # apt in the clean root drops its rights
passed=0 failed=0

# Runs a command; says what is tested, and its output where it fails.
check() {
  local name=$1
  shift
  if "$@" > "$work/said" 2>&1; then
    passed=$((passed + 1))
  else
    failed=$((failed + 1))
    printf '%s: failed\n' "$name"
    tail -n 30 "$work/said"
  fi
}
says() { grep -qxF -- "$2" <<< "$1" || { printf 'found:\n%s\nexpected the line:\n%s\n' "$1" "$2" && return 1; }; }
same() { [ "$1" = "$2" ] || { printf 'found:\n%s\nexpected:\n%s\n' "$1" "$2" && return 1; }; }

# shellcheck disable=SC2016  # apt fills it in
# The clean root is made beside the rest: it waits for the network. Only what the tests need is in it, and the lists of
# packages stay, so that apt in it knows where the dependencies are.
mirror=$(apt-get indextargets --format '$(REPO_URI)' 'Created-By: Packages' 'Codename: bookworm' 'Component: main' | head -n 1)
root=$work/root
$as_root mmdebstrap --mode=root --variant=minbase --include=man-db,bash-completion --skip=cleanup/apt/lists \
  --dpkgopt=force-unsafe-io bookworm "$root" "${mirror:-http://deb.debian.org/debian}" > "$work/bootstrap" 2>&1 &
bootstrap=$!

echo "-- cmake --install, and a program outside the tree"
prefix=$work/prefix
check "cmake --install" cmake --install "$build" --prefix "$prefix"
for file in bin/boxproof lib/libboxproof.a include/boxproof/check.hpp lib/cmake/boxproof/boxproofConfig.cmake \
  lib/cmake/boxproof/boxproofConfigVersion.cmake share/man/man1/boxproof.1 share/man/man1/boxproof-check.1 \
  share/bash-completion/completions/boxproof share/zsh/site-functions/_boxproof \
  share/boxproof/schema/design.schema.json share/doc/boxproof/LICENSE share/doc/boxproof/examples/saltmarsh.json; do
  check "$file" test -s "$prefix/$file"
done
check "headers: as many as in the tree" same "$(cd "$prefix/include" && find . -name '*.hpp' | sort)" \
  "$(cd include && find . -name '*.hpp' | sort)"
check "headers: none includes src/" bash -c "! grep -rn '#include.*src/' '$prefix/include'"
check "schemas: all" same "$(ls "$prefix/share/boxproof/schema")" "$(ls data/schema)"
for schema in data/schema/*.schema.json; do
  name=$(basename "$schema" .schema.json)
  check "schemas: $name as the program prints it" cmp "$prefix/share/boxproof/schema/$name.schema.json" \
    <("$build/boxproof" schema "$name")
done
version=$("$build/boxproof" --version | sed -n '1s/^boxproof //p')
check "the installed program" same "$("$prefix/bin/boxproof" --version)" "$("$build/boxproof" --version)"

# Builds the consumer in $work/$1 and runs it on two designs; the arguments behind are for cmake.
consume() {
  local name=$1
  shift
  check "$name: configure" cmake -S tests/install/consumer -B "$work/$name" -DCMAKE_BUILD_TYPE=Debug "$@"
  check "$name: build" cmake --build "$work/$name"
  check "$name: the plan as it should be" says "$("$work/$name/consumer" examples/saltmarsh.json)" \
    "verdict accept, NEC 2017, 14 findings"
  check "$name: a box of the faulty plan" says "$("$work/$name/consumer" examples/saltmarsh-faults.json)" "A-03 stop"
  check "$name: no design" same "$("$work/$name/consumer" examples/saltmarsh-visit.csv > "$work/said" 2>&1; echo $?)" 3
}
consume installed -DCMAKE_PREFIX_PATH="$prefix"
cmake -S tests/install/consumer -B "$work/later" -DCMAKE_PREFIX_PATH="$prefix" -DBOXPROOF_WANTED=9 > "$work/later.log" 2>&1
check "another version than the wanted one is refused" grep -q "boxproofConfig.cmake, version: $version" "$work/later.log"
# From the sources: configured and its own files compiled; the library would take as long as the whole build.
check "add_subdirectory: configure" cmake -S tests/install/consumer -B "$work/inside" -DBOXPROOF_TREE="$tree"
check "add_subdirectory: compile" make -C "$work/inside" main.o headers.o
check "add_subdirectory: neither tests nor rules to install" same \
  "$(grep -c 'boxproof_tests\|boxproof_pages' "$work/inside/Makefile")" 0

echo "-- Debian packages"
architecture=$(dpkg --print-architecture)
deb=$work/deb/boxproof_${version}_$architecture.deb dev=$work/deb/boxproof-dev_${version}_$architecture.deb
check "cpack" cpack --config "$build/CPackConfig.cmake" -G DEB -B "$work/deb"
fields() { dpkg-deb -f "$1" Package Version Architecture Section Priority Maintainer; }
check "boxproof: fields" same "$(fields "$deb")" "Package: boxproof
Version: $version
Architecture: $architecture
Section: science
Priority: optional
Maintainer: the boxproof authors <authors@boxproof.invalid>"
check "boxproof: depends on libraries" grep -qE '^libc6 \(.*, libfmt[0-9]+ \(.*, libstdc\+\+6 \(' <(dpkg-deb -f "$deb" Depends)
check "boxproof-dev: depends" grep -qE '^libfmt-dev \(>= [0-9]+\)$' <(dpkg-deb -f "$dev" Depends)
check "boxproof: everything belongs to root" same "$(dpkg-deb -c "$deb" | grep -vc ' root/root ')" 0
check "boxproof: unpack" dpkg-deb -x "$deb" "$work/unpacked"
check "boxproof-dev: unpack" dpkg-deb -x "$dev" "$work/unpacked"
check "stripped" grep -q ', stripped' <(file "$work/unpacked/usr/bin/boxproof")
check "the changelog is that of the version" says "$(dpkg-parsechangelog -l "$work/unpacked/usr/share/doc/boxproof/changelog.gz" -S Version)" "$version"
check "copyright" grep -q '^License: Expat$' "$work/unpacked/usr/share/doc/boxproof-dev/copyright"
consume packaged -DCMAKE_PREFIX_PATH="$work/unpacked/usr"

echo "-- a clean Debian 12"
if wait "$bootstrap"; then
  passed=$((passed + 1))
else
  failed=$((failed + 1))
  echo "mmdebstrap could not make a clean root:"
  tail -n 15 "$work/bootstrap"
  echo "$passed passed, $failed failed"
  exit 1
fi
inside() { $as_root chroot "$root" env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin LC_ALL=C.UTF-8 http_proxy="${http_proxy:-}" https_proxy="${https_proxy:-}" DEBIAN_FRONTEND=noninteractive "$@"; }
# Every file, but for what apt and dpkg keep for themselves and the caches of the manual and the linker.
files() {
  $as_root find "$root" -xdev \( -path "$root/var/lib/apt" -o -path "$root/var/lib/dpkg" -o -path "$root/var/cache" \
    -o -path "$root/var/log" -o -path "$root/tmp" -o -path "$root/proc" -o -path "$root/sys" -o -path "$root/dev" \) -prune \
    -o -print | sort
}
$as_root cp /etc/resolv.conf "$root/etc/resolv.conf"
files > "$work/before"
$as_root cp "$deb" "$root/tmp/"
check "nothing of it before" bash -c "! $as_root chroot '$root' sh -c 'command -v boxproof'"
check "install" inside apt-get install -y --no-install-recommends "/tmp/$(basename "$deb")"
# shellcheck disable=SC2016  # for the shell inside
example=/usr/share/doc/boxproof/examples/saltmarsh
check "version" same "$(inside boxproof --version)" "$("$build/boxproof" --version)"
check "check of the plan as it should be" grep -q '^VERDICT  ACCEPT' <(inside boxproof check $example.json)
check "check of the faulty plan: status" same "$(inside boxproof check $example-faults.json > /dev/null; echo $?)" 1
check "check with a field record" grep -q '^VERDICT  STOP' <(inside boxproof check $example.json --asbuilt $example-visit.json)
check "manual" same "$(inside man -w boxproof)" /usr/share/man/man1/boxproof.1.gz
check "manual of a command" same "$(inside man -w boxproof-check)" /usr/share/man/man1/boxproof-check.1.gz
check "manual, shown" grep -q -- '--asbuilt RECORD' <(inside man -P cat boxproof-check)
check "completion" same "$(inside bash -c '. /usr/share/bash-completion/bash_completion; _completion_loader boxproof
  COMP_WORDS=(boxproof comp) COMP_CWORD=1; _boxproof; echo "${COMPREPLY[*]}"')" "compare completion"
check "schema" same "$(inside cat /usr/share/boxproof/schema/design.schema.json)" "$(cat data/schema/design.schema.json)"
check "remove" inside apt-get purge -y --auto-remove boxproof
files > "$work/after"
check "nothing left" diff "$work/before" "$work/after"
check "dpkg has forgotten it" bash -c "! $as_root chroot '$root' dpkg-query -W boxproof"

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
