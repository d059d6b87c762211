# SPDX-License-Identifier: GPL-3.0-or-later
# compare.sh PROJECT DIGEST COMPILER...: compiles the optimiser anew with each compiler, with as little optimisation as
# there is and with as much and wider vectors, and holds the bits of its answers against those of the build, which
# DIGEST prints. The problems are always made by the first compiler's code: what is drawn for them depends on the order
# in which a compiler evaluates arguments.
set -eu
project=$1
expected=$("$2")
first=$3
shift 2
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
wide='-O3 -mavx2 -mfma'
grep -qw avx2 /proc/cpuinfo && grep -qw fma /proc/cpuinfo || wide='-O3' # a machine that has none cannot run it
common="-std=c++20 -ffp-contract=off -I $project"
# shellcheck disable=SC2086
for source in exact/families bits/digest; do
  "$first" $common -O1 -c "$project/tests/solver/optimum/$source.cpp" -o "$folder/$(basename "$source").o"
done
# Most of what they take to compile is what they include: two halves of the sources are compiled, each all together. Names that two of them have
# in common stand in different halves.
printf '#include "%s"\n' "$project"/solver/optimum/[a-m]*.cpp > "$folder/first.cpp"
printf '#include "%s"\n' "$project"/solver/optimum/[!a-m]*.cpp > "$folder/second.cpp"
for compiler; do
  for options in -O0 "$wide"; do
    # shellcheck disable=SC2086
    "$compiler" $common $options "$folder/first.cpp" "$folder/second.cpp" "$folder/families.o" "$folder/digest.o" -o "$folder/digest"
    found=$("$folder/digest")
    echo "$compiler $options: $found"
    [ "$found" = "$expected" ] || { echo "not the bits of the build: $expected"; exit 1; }
  done
done
