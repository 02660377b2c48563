#!/usr/bin/env bash
# Installs what the program needs (Debian 12), builds it, reads the demo lesson and shows its tree.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"
source cmake/packages.sh

lesson=corpus/lessons/demo-evening-class/heard.txt
need_to_build
# The tests may be on in this folder already; a folder of its own leaves them so.
cmake -S . -B build/program -G Ninja -DCMAKE_BUILD_TYPE=Release -DPLYSCRIBE_TESTS=OFF >/dev/null
cmake --build build/program --target plyscribe
echo
build/program/pipeline/app/plyscribe extract "$lesson" --out build/demo --outline
echo
echo "Read from $lesson; the game file is build/demo/lesson.pgn, all that is known about it"
echo "build/demo/lesson.json. The program is build/program/pipeline/app/plyscribe."
