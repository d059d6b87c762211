# SPDX-License-Identifier: GPL-3.0-or-later
# usage: by_cmake.sh PROJECT BUILD STAGE COMPILER: builds the consumer with find_package and compares what it says.
project=$1 build=$2 stage=$3 compiler=$4
consumer=$project/tests/install/consumer
made=$build/tests/install/by_cmake
rm -rf "$made"
cmake -S "$consumer" -B "$made" -G Ninja -DCMAKE_BUILD_TYPE=Release -DCMAKE_CXX_COMPILER="$compiler" \
  -DCMAKE_PREFIX_PATH="$stage" >/dev/null
cmake --build "$made" >/dev/null
"$made/consumer" | diff "$consumer/output.txt" -
