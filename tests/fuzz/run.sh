#!/usr/bin/env bash
# bash tests/fuzz/run.sh [SECONDS] [NOUN...]   builds the fuzz harnesses and runs each that long (20 s), or only those named.
# What it learns stays in build/clang-fuzz/corpus; an input that breaks something is written to build/clang-fuzz/found.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
seconds=${1:-20}
[ $# -eq 0 ] || shift
cmake --preset clang-fuzz >/dev/null
cmake --build --preset clang-fuzz --parallel "$(nproc)"

found=build/clang-fuzz/found
mkdir -p "$found"
status=0
ran=0
for program in build/clang-fuzz/fuzz/*_fuzz; do
  noun=$(basename "$program" _fuzz)
  [ -f "tests/fuzz/${noun}_fuzz.cpp" ] || continue  # a harness that has been removed
  if [ $# -gt 0 ] && [[ " $* " != *" $noun "* ]]; then continue; fi
  corpus=build/clang-fuzz/corpus/$noun
  mkdir -p "$corpus"
  ran=$((ran + 1))
  if "$program" -max_total_time="$seconds" -max_len=4096 -timeout=5 -print_final_stats=1 -artifact_prefix="$found/$noun-" \
    "$corpus" "tests/fuzz/seeds/$noun" >"build/clang-fuzz/$noun.log" 2>&1; then
    echo "$noun: $(sed -n 's/^stat::number_of_executed_units: *//p' "build/clang-fuzz/$noun.log") runs, nothing found"
  else
    tail -n 40 "build/clang-fuzz/$noun.log"
    echo "$noun: FAILED; the input is in $found"
    status=1
  fi
done
[ "$ran" -gt 0 ] || { echo "no harness ran"; exit 1; }
exit "$status"
