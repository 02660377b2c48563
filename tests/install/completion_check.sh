#!/usr/bin/env bash
# completion_check.sh SHARE: bash and fish complete command lines by the files made for them; zsh
# reads its file. In bash the completion is run as the shell runs it, by Tab on a terminal.
set -euo pipefail
share=$1
file=$share/bash-completion/completions/plyscribe
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"
mkdir "a folder" lessons
touch lesson.vtt "my lesson.txt"
failed=0
complain() { echo "completion_check: $*" >&2; failed=1; }

# shellcheck disable=SC1090
source "$file"
compopt() { :; }  # it fails where no completion is under way

# completes EXPECTED WORD...: what the last word may become, sorted, joined by bars.
completes() {
  local expected=$1 got
  shift
  COMP_WORDS=(plyscribe "$@") COMP_CWORD=$#
  _plyscribe
  got=$(printf '%s\n' "${COMPREPLY[@]-}" | sort | paste -sd '|')
  [[ $got == "$expected" ]] || complain "bash: '$*' gives '$got', expected '$expected'"
}
completes 'explain|extract' ex
completes '--version' --v
completes 'black|white' extract lesson.vtt --side ''
completes 'white' extract --side w
completes '--outline' extract --outl
completes 'lesson.vtt' extract lesson.
completes 'my lesson.txt' extract my
completes 'a folder|lessons' publish lesson.json --out ''
completes 'sheet|slips' publish --as s
completes 'pgn,sheet|pgn,slips' publish --as pgn,s
completes 'slips,sheet' publish --as slips,s
completes '' extract --start Ita
completes 'German' extract --pieces Ger
completes 'srt' review --format s

# On a terminal: Tab, then Return on the completed line, which echo prints.
typed=$(printf 'plyscribe() { echo "<$*>"; }; source %q\nplyscribe extr\tlesson.\t--sid\twh\t\nexit\n' "$file" |
        script -qec 'bash --norc --noprofile -i' /dev/null | tr -d '\r' | grep -o '<extract[^>]*>' || true)
[[ $typed == '<extract lesson.vtt --side white>' ]] ||
  complain "bash on a terminal made '$typed' of extr-Tab lesson.-Tab --sid-Tab wh-Tab"

fish_completes() {
  local got
  got=$(HOME=$work fish --no-config -c "source '$share/fish/vendor_completions.d/plyscribe.fish'
    complete -C '$2'" | cut -f 1 | sort | paste -sd '|')
  [[ $got == "$1" ]] || complain "fish: '$2' gives '$got', expected '$1'"
}
fish_completes 'explain|extract' 'plyscribe ex'
fish_completes 'black|white' 'plyscribe extract lesson.vtt --side '
fish_completes '--outline' 'plyscribe extract --outl'
fish_completes 'a folder/|lessons/' 'plyscribe publish --out '

zsh -n "$share/zsh/site-functions/_plyscribe" || complain "zsh can't read its file"
exit $failed
