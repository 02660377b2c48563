#!/usr/bin/env bash
# terminal_check.sh PLYSCRIBE LESSONS: what the program does on a terminal and what in a pipe. The
# terminal is one that script(1) makes.
set -euo pipefail
plyscribe=$1 lessons=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"
cp "$lessons/demo-evening-class/heard.txt" lesson.txt
failed=0
complain() { echo "terminal_check: $*" >&2; failed=1; }
escape=$'\e['

# on_terminal COLUMNS [NAME=VALUE]... -- ARGUMENT...: what it writes there, standard error too.
on_terminal() {
  local columns=$1 settings=() line
  shift
  while [[ $1 != -- ]]; do settings+=("$1"); shift; done
  shift
  printf -v line '%q ' env -u NO_COLOR TERM=xterm LC_ALL=C.UTF-8 "${settings[@]}" "$plyscribe" "$@"
  script -qec "stty cols $columns; $line" /dev/null </dev/null
}
longest() { sed "s/\x1b\[[0-9;]*m//g; s/\r//g" | wc -L; }

# -q, since a busy machine shows a bar, which is looked at below.
seen=$(on_terminal 72 -- extract -q lesson.txt)
[[ $seen == *"$escape"* ]] || complain "a terminal shows no colours"
[[ $seen == *"│"* ]] || complain "a terminal shows no bars"
[[ $(LC_ALL=C.UTF-8 longest <<<"$seen") -le 71 ]] || complain "lines are longer than a terminal of 72 columns"
[[ $(on_terminal 200 -- extract -q lesson.txt | LC_ALL=C.UTF-8 longest) -le 100 ]] || complain "lines of more than 100 columns"
on_terminal 3 -- extract -q lesson.txt >/dev/null || complain "a terminal of 3 columns is too narrow"
[[ $(on_terminal 72 -- extract lesson.txt) == *"plyscribe review lesson.txt"* ]] || complain "a terminal shows no next step"

for setting in NO_COLOR=1 TERM=dumb TERM=; do
  plain=$(on_terminal 72 $setting -- extract -q lesson.txt)
  [[ $plain != *"$escape"* ]] || complain "colours with $setting"
  [[ ${plain//$'\r'/} == "$(sed "s/\x1b\[[0-9;]*m//g; s/\r//g" <<<"$seen")" ]] || complain "$setting changes more than colours"
done
[[ $(on_terminal 72 NO_COLOR= -- extract -q lesson.txt) == *"$escape"* ]] || complain "an empty NO_COLOR counts"
LC_ALL=C grep -q '[^ -~[:space:]]' <<<"$(on_terminal 72 LC_ALL=C NO_COLOR=1 -- extract -q lesson.txt | tr -d '\r')" &&
  complain "letters beyond ASCII in a locale that has none"

pgn=$(on_terminal 72 -- extract -q lesson.txt --pgn)
[[ $pgn == '[Event '* && $pgn != *"$escape"* ]] || complain "--pgn on a terminal prints $pgn"
[[ $("$plyscribe" extract -q lesson.txt) == "${pgn//$'\r'/}" ]] || complain "a pipe gets something else than --pgn prints"
outline=$("$plyscribe" extract lesson.txt --outline 2>&1)
[[ $outline != *"$escape"* && $outline != *"plyscribe review"* ]] || complain "--outline in a pipe writes for a terminal"

# Work of several seconds: four lessons, one behind the other.
begin=0
for heard in $(printf '%s\n' "$lessons"/*/heard.txt | head -n 4); do
  awk -v begin=$begin '/^\[[0-9]+:[0-9][0-9]\]/ {
    end = index($0, "]")
    split(substr($0, 2, end - 2), clock, ":")
    t = begin + 60 * clock[1] + clock[2]
    printf "[%d:%02d:%02d]%s\n\n", t / 3600, t / 60 % 60, t % 60, substr($0, end + 1)
  }' "$heard"
  begin=$((begin + 3600))
done >long.txt
bar=$(on_terminal 72 -- extract long.txt --pgn)
[[ $bar == *"reading long.txt  ["*"] "*" %"* ]] || complain "no bar on a terminal"
[[ $bar == *$'\r'"$(printf '%71s' '')"$'\r'"[Event "* ]] || complain "the bar isn't wiped out before the result"
"$plyscribe" extract long.txt >/dev/null 2>said
grep -qx 'plyscribe: reading long.txt: [0-9]* %' said || complain "no line on the way into a file: $(cat said)"
grep -q $'\r' said && complain "a bar in a file"
"$plyscribe" extract long.txt --quiet >/dev/null 2>said
[[ ! -s said ]] || complain "with --quiet: $(cat said)"
exit $failed
