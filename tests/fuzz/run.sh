#!/usr/bin/env bash
# Fuzzes every target of tests/fuzz with clang's libFuzzer, under address and undefined-behaviour
# sanitizers, two at a time.
#
#   tests/fuzz/run.sh [SECONDS [TARGET...]]      SECONDS each, 15 if not given; all targets
#
# What was learnt stays in build-fuzz/corpus/TARGET and is built upon by the next run. A finding is
# left in build-fuzz/found/TARGET: mend it, and keep the file in tests/fuzz/found/TARGET, which the
# normal tests run. Says executions per target; the last line is "N passed, N failed" over targets.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
source cmake/packages.sh

seconds=${1:-15}
shift || true
need_to_build
need clang-14 libclang-rt-14-dev python3
build=${PLYSCRIBE_FUZZ_BUILD:-build-fuzz}
cmake -S . -B "$build" -G Ninja -DCMAKE_CXX_COMPILER=clang++-14 -DCMAKE_BUILD_TYPE=Release \
      -DCMAKE_CXX_FLAGS_RELEASE=-O1 -DPLYSCRIBE_FUZZ=ON -DPLYSCRIBE_TESTS=OFF \
      -DPLYSCRIBE_WERROR=OFF >/dev/null
cmake --build "$build" --target fuzz
python3 tests/fuzz/seeds.py "$build/seeds"

# one TARGET: its line, and the end of the log of a failure. Leaks are sought once, at the end.
one() {
  local target=$1 status=0
  local corpus=$build/corpus/$target found=$build/found/$target log=$build/$target.log
  mkdir -p "$corpus" "$found" "tests/fuzz/found/$target"
  PLYSCRIBE_FUZZ_TARGET=$target "$build/tests/fuzz/fuzz" -max_total_time="$seconds" -timeout=60 \
    -rss_limit_mb=2500 -detect_leaks=0 -print_final_stats=1 -artifact_prefix="$found/" \
    -max_len=4096 "$corpus" "$build/seeds/$target" "tests/fuzz/found/$target" >"$log" 2>&1 || status=$?
  local runs
  runs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$log")
  if [[ $status -eq 0 ]]; then
    printf '%-10s %10d executions, nothing found\n' "$target" "$runs"
  else
    tail -n 40 "$log"
    printf '%-10s failed: see %s and %s\n' "$target" "$log" "$found"
    return 1
  fi
}
export -f one
export build seconds

targets=("$@")
[[ ${#targets[@]} -gt 0 ]] ||
  targets=(text srt vtt ttml ctm json any fen san pgn game_file lattice decode pins lesson request server)
failed=0
printf '%s\n' "${targets[@]}" | xargs -P 2 -I{} bash -c 'one {} || echo {} >>"$build/failures"' \
  || true
if [[ -s $build/failures ]]; then
  failed=$(wc -l <"$build/failures")
  rm "$build/failures"
fi
echo "$((${#targets[@]} - failed)) passed, $failed failed"
[[ $failed -eq 0 ]]
