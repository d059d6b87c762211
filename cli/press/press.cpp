// SPDX-License-Identifier: GPL-3.0-or-later
#include "press/press.hpp"

#include "press/finish.hpp"
#include "press/pages.hpp"

namespace {

using namespace gatherwright;

paper::PdfOutcome printed(const paper::Document &document) {
  paper::PdfOutcome pages = press::pages(document);
  return pages ? paper::PdfOutcome(press::finished(*pages)) : pages;
}

} // namespace

extern "C" __attribute__((visibility("default"))) void gatherwright_print(const paper::Document &document,
                                                                          paper::PdfOutcome &outcome) {
  outcome = printed(document);
}
