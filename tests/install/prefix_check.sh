#!/usr/bin/env bash
# prefix_check.sh BUILD LESSON: `cmake --install` into a fresh folder gives a program that runs from
# there, and a library that a program outside (examples/tree) is built with. That program's tree is
# the one in the lesson.json of the program.
set -euo pipefail
build=$1 lesson=$2
source=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

fail() { echo "prefix_check: $*" >&2; exit 1; }

cmake --install "$build" --prefix "$work/prefix" >/dev/null
program=$work/prefix/bin/plyscribe
[[ $("$program" --version | head -n 1) =~ ^plyscribe\ [0-9]+\.[0-9]+\.[0-9]+$ ]] ||
  fail "plyscribe --version says $("$program" --version)"
for file in share/man/man1/plyscribe.1 share/bash-completion/completions/plyscribe \
            share/zsh/site-functions/_plyscribe share/fish/vendor_completions.d/plyscribe.fish; do
  [[ -s $work/prefix/$file ]] || fail "$file was not installed"
done

# Each header stands by itself: what it includes is installed too.
cmake -S "$source/examples/tree" -B "$work/tree" -G Ninja -DCMAKE_BUILD_TYPE=Release \
      -DCMAKE_PREFIX_PATH="$work/prefix" >/dev/null
cmake --build "$work/tree" >/dev/null
printed=$("$work/tree/tree" "$lesson" | awk '{print $2}' | sort)
# Of moves; ideas have no UCI.
kept=$("$program" extract --json --quiet "$lesson" |
       awk -F'"' '/^   "san": / { san = $4 } /^   "uci": / { print san }' | sort)
[[ -n $printed && $printed == "$kept" ]] ||
  fail "the moves of examples/tree are not those of extract --json:"$'\n'"$(diff <(echo "$printed") <(echo "$kept"))"
! "$work/tree/tree" /no/such/lesson 2>/dev/null || fail "examples/tree read a file that isn't there"
