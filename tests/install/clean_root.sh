#!/usr/bin/env bash
# clean_root.sh BUILD [--development]: packs the build as Debian packages, installs them in a fresh
# Debian 12 in a folder, and uses them there: the program reads the demo lesson and prints what it
# prints here; with --development, examples/tree is built there against libplyscribe-dev. As root.
set -euo pipefail
build=$(cd "$1" && pwd) development=${2-}
source=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
lesson=$source/corpus/lessons/demo-evening-class/heard.txt
source "$source/cmake/packages.sh"
need debootstrap dpkg-dev file mandoc

work=$(mktemp -d)
root=$work/root
trap 'rm -rf --one-file-system "$work"' EXIT
fail() { echo "clean_root: $*" >&2; exit 1; }
inside() { chroot "$root" env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin LC_ALL=C.UTF-8 "$@"; }

(cd "$work" && cpack --config "$build/CPackConfig.cmake" -G DEB >/dev/null)
deb=$(echo "$work"/plyscribe_*.deb)
[[ $(dpkg-deb --field "$deb" Depends) == *libc6*libre2* ]] || fail "no libraries in Depends: $deb"

debootstrap --variant=minbase bookworm "$root" >"$work/log" 2>&1 || { cat "$work/log"; fail "debootstrap"; }
cp "$work"/*.deb "$root/tmp/"
inside apt-get update -qq
inside apt-get install -y -qq --no-install-recommends /tmp/"${deb##*/}" >"$work/log" 2>&1 ||
  { cat "$work/log"; fail "the package does not install"; }

cp "$lesson" "$root/tmp/lesson.txt"
cp "$lesson" "$work/lesson.txt"
inside plyscribe --version
there=$(inside plyscribe extract --quiet /tmp/lesson.txt)
here=$("$build/pipeline/app/plyscribe" extract --quiet "$work/lesson.txt")
[[ -n $there && $there == "$here" ]] || fail "the program prints something else there"
inside plyscribe extract --quiet /tmp/lesson.txt --out /tmp/out
[[ -s $root/tmp/out/sheet.html ]] || fail "nothing was published there"
# A minimal Debian leaves man pages out when it installs; so it is looked at in the package.
dpkg-deb --fsys-tarfile "$deb" | tar -xO ./usr/share/man/man1/plyscribe.1 | mandoc -Tutf8 >/dev/null ||
  fail "the package has no man page"

if [[ $development == --development ]]; then
  inside apt-get install -y -qq --no-install-recommends /tmp/libplyscribe-dev_*.deb g++ cmake make \
         >"$work/log" 2>&1 || { cat "$work/log"; fail "libplyscribe-dev does not install"; }
  cp -r "$source/examples/tree" "$root/tmp/tree"
  inside cmake -S /tmp/tree -B /tmp/tree/build >/dev/null
  inside cmake --build /tmp/tree/build >/dev/null
  [[ $(inside /tmp/tree/build/tree /tmp/lesson.txt | wc -l) -gt 50 ]] || fail "examples/tree has no moves"
fi

inside apt-get purge -y -qq plyscribe >/dev/null 2>&1
[[ ! -e $root/usr/bin/plyscribe ]] || fail "purging the package leaves the program"
echo "installed, used and removed in a fresh Debian 12"
