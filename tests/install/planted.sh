# SPDX-License-Identifier: GPL-3.0-or-later
# usage: planted.sh PROJECT BUILD STAGE COMPILER: stands in a folder with a library under every name that the program and its modules
# load, and runs the program built and installed: none of them is loaded.
project=$1 build=$2 stage=$3 compiler=$4
made=$build/tests/install/planted
rm -rf "$made"
mkdir -p "$made/folder" "$made/alone/bin"
cd "$made/folder"
cat >../planted.cpp <<'END'
#include <fcntl.h>
namespace {
[[gnu::constructor]] void run() { creat("ran", 0666); }
} // namespace
END
"$compiler" -shared -fPIC ../planted.cpp -o ../planted.so
env LD_PRELOAD=../planted.so true
test -e ran || { echo "what is planted does nothing, so that this would show nothing"; exit 1; }
rm ran

ldd "$build/cli/gatherwright" "$build/lib/gatherwright/gatherwright-press.so" "$build/lib/gatherwright/gatherwright-page.so" \
  "$build/lib/gatherwright/gatherwright-tracing.so" | awk '/=>/ { print $1 }' | sort -u >../names
echo gatherwright-press.so >>../names
echo gatherwright-page.so >>../names
echo gatherwright-tracing.so >>../names
for name in libm libstdc++ libc libcairo libqpdf libmicrohttpd libnettle libexpat; do
  grep -q "^$name\.so\." ../names || { echo "$name is not among what is loaded"; exit 1; }
done
while read -r name; do cp ../planted.so "$name"; done <../names

# What is planted runs, or the program cannot go on for want of what it should have been.
check() {
  if ! "$@" >../said 2>&1 || test -e ran; then
    echo "with a library planted where one stands this does not do what it should: $*"
    exit 1
  fi
}
for program in "$build/cli/gatherwright" "$stage/bin/gatherwright"; do
  check "$program" --version
  check "$program" plan "$project/docs/examples/porters-smock.json" --strips ../strips.pdf
  check "$program" plan "$project/tests/install/drawn/cap.json"
  # Told once, not through its group too: a second Ctrl-C ends the page at once.
  check timeout --foreground --preserve-status -s INT 3 "$program" page --open never
done
# Nor where a module is missing in its own place.
cp "$stage/bin/gatherwright" ../alone/bin
status=0
../alone/bin/gatherwright plan "$project/docs/examples/porters-smock.json" --strips ../none.pdf >../said 2>&1 || status=$?
test $status -eq 3
test ! -e ran
status=0
../alone/bin/gatherwright page --open never >../said 2>&1 || status=$?
test $status -eq 3
test ! -e ran || { echo "a module is taken from the folder one stands in"; exit 1; }
