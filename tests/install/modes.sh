# SPDX-License-Identifier: GPL-3.0-or-later
# usage: modes.sh PROJECT BUILD STAGE COMPILER: who installs with a mask that shuts others out installs for everyone all the same.
project=$1 build=$2
made=$build/tests/install/modes
rm -rf "$made"
mkdir -p "$made"
umask 077
cmake --install "$build" --prefix "$made/installed" >"$made/log"
cpack -G DEB --config "$build/CPackConfig.cmake" -B "$made/packing" >>"$made/log"
wrong=$(find "$made/installed" "(" -type d ! -perm 755 ")" -o "(" -type f ! -perm 644 ! -perm 755 ")")
test -z "$wrong" || { echo "not for everyone: $wrong"; exit 1; }
deb=$(echo "$made"/packing/gatherwright_*.deb)
dpkg-deb --fsys-tarfile "$deb" | tar -tv >"$made/listed"
test "$(grep -c '^d' "$made/listed")" -ge 10
dpkg-deb --ctrl-tarfile "$deb" | tar -tv >>"$made/listed"
if grep -vE '^(drwxr-xr-x|-rw-r--r--|-rwxr-xr-x) root/root ' "$made/listed"; then
  echo "not for everyone in the Debian package"
  exit 1
fi
