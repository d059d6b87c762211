# SPDX-License-Identifier: GPL-3.0-or-later
# usage: hardened.sh PROJECT BUILD STAGE COMPILER FILE...: reads every program and module that is built, which the FILEs are, and installed.
build=$2 stage=$3
made=$build/tests/install/hardened
rm -rf "$made"
mkdir -p "$made"
shift 4
printf '%s\n' "$@" >"$made/files"
find "$stage" -type f >>"$made/files"
count=0
wrong=0
say() {
  echo "$file: $1"
  wrong=1
}
while read -r file; do
  test "$(head -c 4 "$file" | tr -d '\0')" = "$(printf '\177ELF')" || continue
  readelf -W -h -l -d --dyn-syms "$file" >"$made/read"
  grep -q 'Type: *REL' "$made/read" && continue
  count=$((count + 1))
  # A library is looked for beside the program or in a folder named in full, never in the folder one stands in.
  sed -n 's/.*R\(UN\)\?PATH.*\[\(.*\)\]$/\2/p' "$made/read" | tr : '\n' >"$made/paths"
  if grep -vE '^(/|\$ORIGIN(/|$))' "$made/paths"; then say "its path for libraries depends on where one stands"; fi
  grep -q 'Type: *DYN' "$made/read" || say "it is not laid out anew each time"
  grep -q 'GNU_RELRO' "$made/read" || say "what the loader fills in is not made read-only"
  grep -qE '\((FLAGS|FLAGS_1)\).*NOW' "$made/read" || say "not all is bound at the start"
  grep -qE 'GNU_STACK.* RW ' "$made/read" || say "its stack can be run"
  grep -q '__stack_chk_fail' "$made/read" || say "its stack is not guarded"
  case $file in
  */gatherwright) grep -qE '__[a-z]+_chk@' "$made/read" || say "its copies are not checked" ;;
  esac
done <"$made/files"
# The module copies nothing that shows it in its symbols, so the commands are read that compile it and all else.
file=$build/compile_commands.json
grep -q '"command"' "$file"
if grep '"command"' "$file" | grep -v -e '-D_FORTIFY_SOURCE=2'; then say "this is compiled without checks of copies"; fi
test $count -ge 5 || { echo "only $count programs and modules were found"; exit 1; }
exit $wrong
