# SPDX-License-Identifier: GPL-3.0-or-later
# usage: by_pkg_config.sh PROJECT BUILD STAGE COMPILER: builds the consumer with pkg-config and compares what it says.
project=$1 build=$2 stage=$3 compiler=$4
consumer=$project/tests/install/consumer
made=$build/tests/install/by_pkg_config
rm -rf "$made"
mkdir -p "$made"
PKG_CONFIG_PATH=$(dirname "$(find "$stage" -name gatherwright.pc)")
export PKG_CONFIG_PATH
# The flags are split on purpose.
"$compiler" -std=c++20 -O2 "$consumer/main.cpp" $(pkg-config --cflags --libs gatherwright) -MD -MF "$made/headers" -o "$made/consumer"
"$made/consumer" | diff "$consumer/output.txt" -
# What the library is written with stays out of what includes it.
if grep -iE 'eigen|nlohmann|/gsl/|/CLI/|/fmt/' "$made/headers"; then exit 1; fi
