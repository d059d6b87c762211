// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/press/press.hpp"

#include "cli/press/module/finish.hpp"
#include "cli/press/module/pages.hpp"

namespace {

using namespace gatherwright;

paper::PdfOutcome printed(const paper::Document &document) {
  paper::PdfOutcome pages = press::pages(document);
  return pages ? paper::PdfOutcome(press::finished(*pages)) : pages;
}

} // namespace

extern "C" __attribute__((visibility("default"))) cli::Ended gatherwright_print(const paper::Document &document,
                                                                                paper::PdfOutcome &outcome) {
  return cli::contained([&] { outcome = printed(document); });
}
