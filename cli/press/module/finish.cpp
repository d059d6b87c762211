// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/press/module/finish.hpp"

#define POINTERHOLDER_TRANSITION 4
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFWriter.hh>

namespace gatherwright::press {

namespace {

/// Puts all that is tagged into one element, as a tagged PDF wants it; the drawing library closes its elements page by
/// page.
void gather_into_one(QPDF &document, QPDFObjectHandle tree) {
  if (!tree.isDictionary()) return;
  QPDFObjectHandle whole = document.makeIndirectObject(QPDFObjectHandle::parse("<< /Type /StructElem /S /Document >>"));
  QPDFObjectHandle parts = tree.getKey("/K");
  if (!parts.isArray()) parts = QPDFObjectHandle::newArray({parts});
  for (QPDFObjectHandle part : parts.aitems())
    part.replaceKey("/P", whole);
  whole.replaceKey("/P", tree);
  whole.replaceKey("/K", parts);
  tree.replaceKey("/K", QPDFObjectHandle::newArray({whole}));
}

void mark_as_tagged(QPDFObjectHandle root) {
  if (root.hasKey("/StructTreeRoot")) root.replaceKey("/MarkInfo", QPDFObjectHandle::parse("<< /Marked true >>"));
}

} // namespace

std::string finished(const std::string &pdf) {
  QPDF document;
  document.processMemoryFile("pages", pdf.data(), pdf.size());
  QPDFObjectHandle root = document.getRoot();
  root.replaceKey("/Lang", QPDFObjectHandle::newString("en"));
  root.replaceKey("/ViewerPreferences", QPDFObjectHandle::parse("<< /PrintScaling /None /DisplayDocTitle true >>"));
  gather_into_one(document, root.getKey("/StructTreeRoot"));
  mark_as_tagged(root);
  if (QPDFObjectHandle info = document.getTrailer().getKey("/Info"); info.isDictionary())
    info.removeKey("/CreationDate");
  QPDFWriter writer(document);
  writer.setOutputMemory();
  writer.setDeterministicID(true);
  writer.write();
  const auto bytes = writer.getBufferSharedPointer();
  return {reinterpret_cast<const char *>(bytes->getBuffer()), bytes->getSize()};
}

} // namespace gatherwright::press
