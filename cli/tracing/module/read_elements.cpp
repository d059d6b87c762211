// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/tracing/xml.hpp"

#include <expat.h>

#include <exception>
#include <memory>
#include <type_traits>

namespace gatherwright::tracing {

namespace {

constexpr char parts_names = ' '; // between a namespace and a name; neither has a blank
constexpr std::string_view svg_namespace = "http://www.w3.org/2000/svg";

/// The name that something of SVG, or of no namespace, has; empty for all else.
std::string_view own_name(std::string_view whole) {
  const std::size_t at = whole.find(parts_names);
  if (at == std::string_view::npos) return whole;
  return whole.substr(0, at) == svg_namespace ? whole.substr(at + 1) : std::string_view{};
}

/// What is read so far. No exception may pass through the parser, which is C: it is kept until that has ended.
class Reader {
public:
  Reader() : parser_(XML_ParserCreateNS(nullptr, parts_names)) {
    if (!parser_) throw std::bad_alloc();
    XML_SetUserData(parser_.get(), this);
    XML_SetElementHandler(parser_.get(), begun, ended);
    XML_SetEntityDeclHandler(parser_.get(), declared);
    XML_SetSkippedEntityHandler(parser_.get(), skipped);
  }

  ElementsOutcome read(std::string_view text) {
    const auto status = XML_Parse(parser_.get(), text.data(), static_cast<int>(text.size()), XML_TRUE);
    if (thrown_) std::rethrow_exception(thrown_);
    if (fault_) return *std::move(fault_);
    if (status != XML_STATUS_OK)
      return DrawingFault{
          line(),
          {std::string("the file is no well-formed XML: ") + XML_ErrorString(XML_GetErrorCode(parser_.get())),
           "save the drawing as SVG once more"}};
    return std::move(elements_);
  }

private:
  struct Free {
    void operator()(XML_Parser parser) const { XML_ParserFree(parser); }
  };

  int line() const { return static_cast<int>(XML_GetCurrentLineNumber(parser_.get())); }

  void refuse(std::string what, std::string instead) {
    if (!fault_) fault_ = DrawingFault{line(), {std::move(what), std::move(instead)}};
    XML_StopParser(parser_.get(), XML_FALSE);
  }

  void refuse_entities() { refuse("the drawing has entities of its own, which are not read", "save it as plain SVG"); }

  template <class Work> static void keeping(void *self, Work work) {
    auto &reader = *static_cast<Reader *>(self);
    try {
      work(reader);
    } catch (...) {
      reader.thrown_ = std::current_exception();
      XML_StopParser(reader.parser_.get(), XML_FALSE);
    }
  }

  void begin(const char *name, const char **attributes) {
    if (within_.size() >= deepest_element || elements_.size() >= most_elements)
      return refuse("the drawing has more in it than is read", "save the one line in a drawing of its own");
    Element element{std::string(own_name(name)), {}, line(), std::nullopt};
    if (!within_.empty()) element.parent = within_.back();
    for (; *attributes != nullptr; attributes += 2)
      if (std::string_view(attributes[0]).find(parts_names) == std::string_view::npos)
        element.attributes.emplace_back(attributes[0], attributes[1]);
    within_.push_back(elements_.size());
    elements_.push_back(std::move(element));
  }

  static void XMLCALL begun(void *self, const XML_Char *name, const XML_Char **attributes) {
    keeping(self, [&](Reader &reader) { reader.begin(name, attributes); });
  }
  static void XMLCALL ended(void *self, const XML_Char *) {
    auto &within = static_cast<Reader *>(self)->within_;
    if (!within.empty()) within.pop_back(); // one that was refused is not in it
  }
  static void XMLCALL declared(void *self, const XML_Char *, int, const XML_Char *, int, const XML_Char *,
                               const XML_Char *, const XML_Char *, const XML_Char *) {
    keeping(self, [](Reader &reader) { reader.refuse_entities(); });
  }
  static void XMLCALL skipped(void *self, const XML_Char *, int) {
    keeping(self, [](Reader &reader) { reader.refuse_entities(); });
  }

  std::unique_ptr<std::remove_pointer_t<XML_Parser>, Free> parser_;
  Elements elements_;
  std::vector<std::size_t> within_;
  std::optional<DrawingFault> fault_;
  std::exception_ptr thrown_;
};

} // namespace

} // namespace gatherwright::tracing

extern "C" __attribute__((visibility("default"))) gatherwright::cli::Ended
gatherwright_read_elements(std::string_view text, gatherwright::tracing::ElementsOutcome &outcome) {
  return gatherwright::cli::contained([&] { outcome = gatherwright::tracing::Reader().read(text); });
}
