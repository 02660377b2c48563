#!/usr/bin/env bash
# doxygen_check.sh: Doxygen finds nothing to warn of in the public headers, not even a class without a
# comment; these are the headers that are installed; each says what it is for before anything else.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
failed=0
complain() { echo "doxygen_check: $*" >&2; failed=1; }

documented=$(grep -oE 'pipeline/[a-z_/]+\.h' docs/Doxyfile | sed 's#pipeline/##' | sort)
installed=$(sed -n '/^set(headers/,/)/p' cmake/install.cmake | grep -oE '[a-z_/]+\.h' | sort)
[[ $documented == "$installed" ]] || complain "docs/Doxyfile and cmake/install.cmake differ: $(diff <(echo "$documented") <(echo "$installed"))"
for header in $installed; do
  [[ $(head -c 3 "pipeline/$header") == '// ' ]] || complain "pipeline/$header does not say what it is for"
done

# Every class is said to be for something; members may speak for themselves.
(cat docs/Doxyfile; printf 'OUTPUT_DIRECTORY = %s\nEXTRACT_ALL = NO\nWARN_AS_ERROR = NO\n' "$work") |
  doxygen - 2>&1 | grep -v 'warning: Member .* is not documented' >"$work/log" || true
[[ ! -s $work/log ]] || complain "doxygen says: $(cat "$work/log")"
grep -q 'From the bytes\|from the bytes' "$work/html/plyscribe_8h.html" || complain "the pages don't have what plyscribe.h says"
exit $failed
