# SPDX-License-Identifier: GPL-3.0-or-later
# usage: deb.sh PROJECT BUILD STAGE COMPILER: makes the Debian package, unpacks it and runs the program from there.
project=$1 build=$2
made=$build/tests/install/deb
rm -rf "$made"
mkdir -p "$made"
cpack -G DEB --config "$build/CPackConfig.cmake" -B "$made/packing" >"$made/log"
deb=$(echo "$made"/packing/gatherwright_*.deb)
for field in Version Section Maintainer Depends Description; do
  test -n "$(dpkg-deb --field "$deb" $field)" || { echo "no field $field"; exit 1; }
done
for library in libc6 libmicrohttpd12 libnettle8 libcairo2 libexpat1 libqpdf29; do
  dpkg-deb --field "$deb" Depends | grep -q "$library" || { echo "$library, which it needs, is not named"; exit 1; }
done
dpkg-deb --extract "$deb" "$made/root"
"$made/root/usr/bin/gatherwright" plan "$project/docs/examples/porters-smock.json" --strips "$made/strips.pdf" >/dev/null
head -c 5 "$made/strips.pdf" | grep -q '^%PDF-'
timeout --foreground --preserve-status -s INT 3 "$made/root/usr/bin/gatherwright" page --open never | grep -q '^http://127'
# All that is installed is in it.
cmake --install "$build" --prefix "$made/installed" >/dev/null
(cd "$made/installed" && find . -type f | sort) >"$made/wanted"
(cd "$made/root/usr" && find . -type f | sort) | diff "$made/wanted" -
# Without its module for PDF the program says so, and plans as before.
find "$made/root" -name gatherwright-press.so -delete
status=0
"$made/root/usr/bin/gatherwright" plan "$project/docs/examples/porters-smock.json" --strips "$made/none.pdf" >/dev/null 2>"$made/said" || status=$?
test $status -eq 3 && test ! -e "$made/none.pdf"
test "$(wc -l <"$made/said")" -eq 1
grep -q 'none.pdf cannot be made: the module that makes PDF cannot be loaded: gatherwright-press.so: .*; install the program whole, or ask for SVG or HTML$' "$made/said"
"$made/root/usr/bin/gatherwright" plan "$project/docs/examples/porters-smock.json" >/dev/null
# Nor does it read drawings without its module, and any other job is planned.
"$made/root/usr/bin/gatherwright" plan "$project/tests/install/drawn/cap.json" >/dev/null
find "$made/root" -name gatherwright-tracing.so -delete
status=0
"$made/root/usr/bin/gatherwright" plan "$project/tests/install/drawn/cap.json" 2>"$made/said" || status=$?
test $status -eq 2
grep -q 'the module that reads drawings cannot be loaded: gatherwright-tracing.so: .*; install the program whole$' "$made/said"
# Nor is there a page without its module.
find "$made/root" -name gatherwright-page.so -delete
status=0
"$made/root/usr/bin/gatherwright" page --open never 2>"$made/said" || status=$?
test $status -eq 3
test "$(wc -l <"$made/said")" -eq 1
grep -q '^gatherwright: the module that serves the page cannot be loaded: gatherwright-page.so: .*; install the program whole$' "$made/said"
