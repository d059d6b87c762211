# SPDX-License-Identifier: GPL-3.0-or-later
# usage: refused.sh FOLDER INCLUDE COMPILER: what is right compiles, and every other file of the folder is refused at the line
# that says so.
folder=$1 include=$2 compiler=$3
compile() { "$compiler" -std=c++20 -fsyntax-only -I"$include" "$1"; }
compile "$folder/right.cpp"
tried=0
for file in "$folder"/*.cpp; do
  test "$file" != "$folder/right.cpp" || continue
  line=$(grep -n '// refused: ' "$file" | cut -d: -f1)
  if said=$(compile "$file" 2>&1); then
    echo "$file compiles"
    exit 1
  fi
  # What is wrong within <variant> is told with the line that asked for it.
  echo "$said" | grep -q "^.*${file##*/}:$line:" || { echo "$file is refused elsewhere than at line $line:"; echo "$said"; exit 1; }
  tried=$((tried + 1))
done
test $tried -eq 3
