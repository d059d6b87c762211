# SPDX-License-Identifier: GPL-3.0-or-later
# compare.sh PROJECT DIGEST COMPILER...: compiles the optimiser anew with each compiler, with as little optimisation as
# there is and with as much and wider vectors, and holds the bits of its answers against those of the build, which
# DIGEST prints.
set -eu
project=$1
expected=$("$2")
shift 2
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
wide='-O3 -mavx2 -mfma'
grep -qw avx2 /proc/cpuinfo && grep -qw fma /proc/cpuinfo || wide='-O3' # a machine that has none cannot run it
for compiler; do
  for options in -O0 "$wide"; do
    # shellcheck disable=SC2086
    "$compiler" -std=c++20 $options -ffp-contract=off -I "$project" "$project"/solver/optimum/*.cpp \
      "$project"/tests/solver/optimum/exact/families.cpp "$project"/tests/solver/optimum/bits/digest.cpp -o "$folder/digest"
    found=$("$folder/digest")
    echo "$compiler $options: $found"
    [ "$found" = "$expected" ] || { echo "not the bits of the build: $expected"; exit 1; }
  done
done
