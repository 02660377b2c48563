#!/usr/bin/env bash
# extract.sh PLYSCRIBE: writes docs/extract.png, the demo lesson's outline as a terminal shows it. The
# colours are those that the program sets; script(1) is the terminal, chromium the pencil.
set -euo pipefail
plyscribe=$(realpath "$1")
docs=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"
cp "$docs/../corpus/lessons/demo-evening-class/heard.txt" italian.txt
script -qec "stty cols 80; env -u NO_COLOR TERM=xterm LC_ALL=C.UTF-8 '$plyscribe' extract -q italian.txt" /dev/null </dev/null |
  tr -d '\r' | sed -n 1,31p >seen
{
  echo '<!doctype html><meta charset="utf-8"><style>
    body { margin: 0; background: #10151c; color: #d5dbe3 }
    pre { margin: 18px 22px; font: 15px/1.4 "DejaVu Sans Mono", monospace }
    .c1 { font-weight: bold } .c2 { color: #7d8896 } .c36 { color: #5fb8c4 }
    .c32 { color: #7fc77a } .c33 { color: #e0b94f }
  </style><pre>'
  echo '<b>$</b> plyscribe extract italian.txt'
  sed 's/&/\&amp;/g; s/</\&lt;/g; s/\x1b\[0m/<\/span>/g; s/\x1b\[\([0-9]*\)m/<span class="c\1">/g' seen
  echo '</pre>'
} >page.html
chromium --headless --no-sandbox --disable-gpu --hide-scrollbars --force-device-scale-factor=1.5 \
  --window-size=780,728 --screenshot="$docs/extract.png" page.html 2>/dev/null
echo "docs/extract.png"
