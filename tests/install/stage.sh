# SPDX-License-Identifier: GPL-3.0-or-later
# usage: stage.sh PROJECT BUILD STAGE COMPILER: installs into STAGE and looks at what is there.
project=$1 build=$2 stage=$3
rm -rf "$stage"
cmake --install "$build" --prefix "$stage" >"$build/install.log"
cd "$stage"
for file in bin/gatherwright include/gatherwright/gatherwright.hpp share/doc/gatherwright/README.md \
  share/man/man1/gatherwright.1 share/bash-completion/completions/gatherwright \
  share/zsh/site-functions/_gatherwright share/fish/vendor_completions.d/gatherwright.fish \
  lib/gatherwright/gatherwright-page.so lib/gatherwright/gatherwright-tracing.so share/applications/gatherwright.desktop share/icons/hicolor/scalable/apps/gatherwright.svg \
  share/doc/gatherwright/copyright share/doc/gatherwright/docs/format.md share/doc/gatherwright/docs/job.schema.json; do
  test -s "$file" || { echo "not installed: $file"; exit 1; }
done
# Every public header, and no other.
ls "$project/solver/include/gatherwright" >"$build/headers.wanted"
ls include/gatherwright | diff "$build/headers.wanted" -
bin/gatherwright plan share/doc/gatherwright/docs/examples/porters-smock.json --strips "$build/installed-strips.pdf" >/dev/null
head -c 5 "$build/installed-strips.pdf" | grep -q '^%PDF-'
# The tree may be moved: nothing in it names the place it was built or staged in.
if grep -rlIF -e "$stage" -e "$project" lib include share; then
  echo "these name a folder of this machine"
  exit 1
fi
