#!/usr/bin/env bash
# bash tests/fuzz/run.sh [SECONDS] [NOUN...]   builds the fuzz harnesses and runs each that long (20 s), or only those named, as many
# at a time as there are cores. What they learn stays in build/sanitizers/corpus; an input that breaks something is written to
# build/sanitizers/found.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
seconds=${1:-20}
[ $# -eq 0 ] || shift
cmake --preset sanitizers >/dev/null
cmake --build --preset fuzzers --parallel "$(nproc)"

fuzz() {
  local seconds=$1 noun=$2 build=build/sanitizers
  mkdir -p "$build/corpus/$noun" "$build/found"
  if "$build/fuzz/${noun}_fuzz" -max_total_time="$seconds" -seed=1 -max_len=4096 -timeout=20 -print_final_stats=1 \
    -artifact_prefix="$build/found/$noun-" "$build/corpus/$noun" "tests/fuzz/seeds/$noun" >"$build/$noun.log" 2>&1; then
    echo "$noun: $(sed -n 's/^stat::number_of_executed_units: *//p' "$build/$noun.log") runs, nothing found"
  else
    tail -n 40 "$build/$noun.log"
    echo "$noun: FAILED; the input is in $build/found"
    return 1
  fi
}
export -f fuzz

nouns=("$@")
if [ ${#nouns[@]} -eq 0 ]; then
  for harness in tests/fuzz/*_fuzz.cpp; do nouns+=("$(basename "$harness" _fuzz.cpp)"); done
fi
printf '%s\n' "${nouns[@]}" | xargs -P "$(nproc)" -I '{}' bash -c 'fuzz "$@"' fuzz "$seconds" '{}'
