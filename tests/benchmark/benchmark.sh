#!/usr/bin/env bash
# Measures the program on invented plants of 600, 6000 and 60000 boxes, alone and with a field record for every box,
# in one run with two yardsticks on the same files (jq, and a bare parse into nlohmann's tree), and prints a Markdown
# table; then 300 small plants in one run on all cores, on one core, and one by one.
#
#   tests/benchmark/benchmark.sh [BUILD]      BUILD: build directory, "build" if not given
#
# Builds nothing: configure with -DCMAKE_BUILD_TYPE=Release -DBOXPROOF_BENCHMARK=ON and build first. Needs bash 5, awk,
# jq, GNU time and taskset (Debian packages jq, time and util-linux). Files go to a temporary folder that is removed
# at the end.
# Wall times are those of whole processes, the best of 5 (600 and 6000 boxes) or of 3 (60000), by the shell's clock;
# memory is the peak resident set that GNU time reports, of one more run.
set -euo pipefail
export LC_ALL=C  # a point in numbers

build=${1:-build}
here=$(cd "$(dirname "$0")" && pwd)
fifty_boxes=$here/../../examples/saltmarsh.json
boxproof=$build/boxproof
plant=$build/tests/benchmark/boxproof_plant
bare_parse=$build/tests/benchmark/boxproof_bare_parse

for program in "$boxproof" "$plant" "$bare_parse" /usr/bin/time; do
  [ -x "$program" ] || { echo "benchmark.sh: found no program $program; see the head of $0" >&2; exit 2; }
done
command -v jq > /dev/null || { echo "benchmark.sh: found no jq; see the head of $0" >&2; exit 2; }

setting() { sed -n "s/^$1:[A-Z]*=//p" "$build/CMakeCache.txt"; }
if [ "$(setting BOXPROOF_SANITIZE)" = ON ]; then
  echo "benchmark.sh: $build is built with sanitizers, its times say nothing" >&2
  exit 2
fi
type=$(setting CMAKE_BUILD_TYPE)

folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# Runs a command. Status 1 is fine, it says that there are findings; anything above ends the benchmark.
run() {
  local status=0
  "$@" > "$folder/stdout" 2> "$folder/stderr" || status=$?
  if [ "$status" -gt 1 ]; then
    echo "benchmark.sh: status $status from: $*" >&2
    head -n 20 "$folder/stderr" >&2
    exit 3
  fi
}

# Prints the wall seconds of a command for each of N runs, sorted.
seconds() {
  local runs=$1 start end
  shift
  for ((i = 0; i < runs; ++i)); do
    start=$EPOCHREALTIME
    run "$@"
    end=$EPOCHREALTIME
    awk -v a="$start" -v b="$end" 'BEGIN { printf "%.6f\n", b - a }'
  done | sort -n
}

best() { seconds "$@" | sed -n 1p; }

mebibytes() {
  run /usr/bin/time -q -o "$folder/memory" -f '%M' "$@"
  awk 'END { printf "%.1f", $1 / 1024 }' "$folder/memory"
}

calculate() { awk -v a="$1" -v b="$2" "BEGIN { printf \"$3\", $4 }"; }

echo "Measured $(date -u +%Y-%m-%d), $(nproc) processors, $(jq --version)," \
     "build type ${type:-Release (by default)}."
echo
echo "| boxes | strings | file, MB | what | wall, s | to jq | memory, MiB | to jq |"
echo "| ---: | ---: | ---: | :--- | ---: | ---: | ---: | ---: |"

declare -A wall memory
for boxes in 600 6000 60000; do
  runs=5
  [ "$boxes" -lt 60000 ] || runs=3
  file=$folder/plant.json record=$folder/record.json
  "$plant" "$boxes" > "$file"
  "$plant" "$boxes" --record > "$record"
  strings=$(jq '[.combiners[].circuits[].strings] | add' "$file")
  megabytes=$(calculate "$(wc -c < "$file")" 0 '%.1f' 'a / 1e6')
  # jq first: what follows is compared with it, up to the next jq
  for what in jq parse json text both visit visit-text; do
    case $what in
      both) command=(jq empty "$file" "$record") name='`jq empty`, plan and record' ;;
      visit | visit-text)
        format=json
        [ "$what" = visit ] || format=text
        command=("$boxproof" check --format "$format" --output "$folder/report.$what" --asbuilt "$record" "$file")
        name="\`boxproof check --asbuilt --format $format\`"
        ;;
      jq) command=(jq empty "$file") name='`jq empty`' ;;
      parse) command=("$bare_parse" "$file") name='bare parse' ;;
      *)
        command=("$boxproof" check --format "$what" --output "$folder/report.$what" "$file")
        name="\`boxproof check --format $what\`"
        ;;
    esac
    wall[$what$boxes]=$(best "$runs" "${command[@]}")
    memory[$what$boxes]=$(mebibytes "${command[@]}")
    yardstick=jq size=$megabytes
    case $what in both | visit*) yardstick=both size=$(calculate "$megabytes" "$(wc -c < "$record")" '%.1f' 'a + b / 1e6') ;; esac
    printf '| %s | %s | %s | %s | %.3f | %s | %s | %s |\n' "$boxes" "$strings" "$size" "$name" \
      "${wall[$what$boxes]}" "$(calculate "${wall[$what$boxes]}" "${wall[$yardstick$boxes]}" '%.2f' 'a / b')" \
      "${memory[$what$boxes]}" "$(calculate "${memory[$what$boxes]}" "${memory[$yardstick$boxes]}" '%.2f' 'a / b')"
  done
done

echo
for what in json text; do
  echo "Report of 60000 boxes as $what: $(calculate "$(wc -c < "$folder/report.$what")" 0 '%.1f' 'a / 1e6') MB."
  echo "Wall time a box as $what, 60000 boxes to 600: $(
    calculate "${wall[${what}60000]}" "${wall[${what}600]}" '%.2f' '(a / 60000) / (b / 600)') times" \
    "(1: linear; $(calculate "${wall[${what}600]}" 0 '%.1f' '1e6 * a / 600') and" \
    "$(calculate "${wall[${what}60000]}" 0 '%.1f' '1e6 * a / 60000') microseconds)."
done

median=$(seconds 20 "$boxproof" check --format json --output "$folder/report.json" "$fifty_boxes" |
  awk '{ all[NR] = $1 } END { printf "%.1f", 500 * (all[NR / 2] + all[NR / 2 + 1]) }')
echo "Fifty boxes ($(basename "$fifty_boxes")), whole process: $median ms, the median of 20."

# Many designs: 300 plants of 20 to 79 boxes, in one run and one by one.
many=$folder/many
mkdir "$many"
for ((i = 100; i < 400; ++i)); do "$plant" $((20 + i % 60)) > "$many/$i.json"; done
one_by_one() {
  local file
  for file in "$many"/*.json; do run "$boxproof" check --output "$folder/report.one" "$file"; done
}
together=$(best 5 "$boxproof" check --output "$folder/report.many" "$many")
apart=$(best 3 one_by_one)
one_core=$(best 5 taskset -c 0 "$boxproof" check --output "$folder/report.many" "$many")
echo "300 designs ($(du -bm "$many" | cut -f 1) MB) in one run: $together s on $(nproc) processors, $one_core s on one" \
  "($(calculate "$one_core" "$together" '%.2f' 'a / b') times); one by one, 300 processes: $apart s" \
  "($(calculate "$apart" "$together" '%.2f' 'a / b') times the one run)."
