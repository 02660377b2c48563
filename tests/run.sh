#!/usr/bin/env bash
# Installs what the tests need (Debian 12), builds everything and runs every test.
#
#   tests/run.sh                                          in build/
#   tests/run.sh --build DIR [cmake options] [-- ctest options]
#
# The last line is "N passed, N failed"; returns 0 if none failed and at least one passed.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
source cmake/packages.sh

build=build
if [[ ${1-} == --build ]]; then
  build=$2
  shift 2
fi
options=()
while [[ $# -gt 0 && $1 != -- ]]; do
  options+=("$1")
  shift
done
[[ ${1-} == -- ]] && shift

need_to_build
need bsdutils mandoc groff-base bsdextrautils fish zsh doxygen
need libgtest-dev python3 pgn-extract chromium poppler-utils libxml2-utils sox fonts-dejavu-core
# Debian's npm insists on Debian's nodejs; where npm came from elsewhere, both are there already.
command -v npm >/dev/null || need nodejs npm
for folder in tests/reference tests/review; do
  (cd "$folder" && npm ci --loglevel=error --no-audit --no-fund)
done

cmake -S . -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DPLYSCRIBE_WERROR=ON \
      -DPLYSCRIBE_TESTS=ON "${options[@]}"
cmake --build "$build"

log=$build/tests.log
ctest --test-dir "$build" -j2 --output-on-failure --no-tests=error "$@" | tee "$log" || true
# "98% tests passed, 2 tests failed out of 100"
summary=$(grep -E '^[0-9]+% tests passed, [0-9]+ tests? failed out of [0-9]+' "$log" || true)
if [[ $summary =~ \ ([0-9]+)\ tests?\ failed\ out\ of\ ([0-9]+) ]]; then
  failed=${BASH_REMATCH[1]}
  passed=$((BASH_REMATCH[2] - failed))
else
  passed=0 failed=1  # ctest itself gave up
fi
echo "$passed passed, $failed failed"
[[ $failed -eq 0 && $passed -gt 0 ]]
