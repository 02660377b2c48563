#!/usr/bin/env bash
# manual_check.sh PLYSCRIBE PAGE: mandoc and groff find nothing to warn of in the man page, and every
# command and option that --help shows is named in it.
set -euo pipefail
plyscribe=$1 page=$2
failed=0
complain() { echo "manual_check: $*" >&2; failed=1; }

# Left out: the date, which is empty so that the page is the same on every day.
lint=$(mandoc -Tlint -Wwarning "$page" | grep -v 'missing date' || true)
[[ -z $lint ]] || complain "mandoc says: $lint"
warnings=$(groff -man -Tutf8 -ww -z "$page" 2>&1 || true)
[[ -z $warnings ]] || complain "groff says: $warnings"

shown=$(mandoc -Tutf8 "$page" | col -b)
commands=$("$plyscribe" --help | sed -n '/^Commands:/,/^$/s/^  \([a-z]\+\) .*/\1/p')
[[ $(wc -w <<<"$commands") -ge 5 ]] || complain "expected five commands, found: $commands"
for command in '' $commands; do
  [[ -z $command || $shown == *"plyscribe $command"* ]] || complain "$command is not named"
  # shellcheck disable=SC2086
  for option in $("$plyscribe" $command --help | grep -oE '^  -[^ ]+(, --[a-z]+)?' | tr -d ','); do
    [[ $shown == *"$option"* ]] || complain "$command $option is not named"
  done
done
exit $failed
