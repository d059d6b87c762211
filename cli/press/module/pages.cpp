// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/press/module/pages.hpp"

#include "cli/drawing/ink.hpp"
#include "cli/drawing/type.hpp"
#include "cli/words/printable.hpp"

#include <cairo-pdf.h>
#include <pango/pangocairo.h>

#include <memory>
#include <numbers>

namespace gatherwright::press {

namespace {

using namespace paper;

constexpr double points_of_mm = 72 / 25.4;

struct Freed {
  void operator()(cairo_t *pen) const { cairo_destroy(pen); }
  void operator()(cairo_surface_t *surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_font_options_t *options) const { cairo_font_options_destroy(options); }
  void operator()(PangoFontDescription *font) const { pango_font_description_free(font); }
  void operator()(PangoAttrList *attributes) const { pango_attr_list_unref(attributes); }
  void operator()(PangoLayout *layout) const { g_object_unref(layout); }
  void operator()(PangoContext *context) const { g_object_unref(context); }
  void operator()(PangoFontMap *fonts) const { g_object_unref(fonts); }
};
template <class Thing> using Owned = std::unique_ptr<Thing, Freed>;

cairo_status_t keep(void *bytes, const unsigned char *data, unsigned int length) {
  static_cast<std::string *>(bytes)->append(reinterpret_cast<const char *>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

const char *tag_of(Role role) {
  switch (role) {
  case Role::none:
    break;
  case Role::section:
    return "Sect";
  case Role::title:
    return "H1";
  case Role::heading:
    return "H2";
  case Role::paragraph:
    return "P";
  case Role::figure:
    return "Figure";
  case Role::table:
    return "Table";
  case Role::row:
    return "TR";
  case Role::head_cell:
    return "TH";
  case Role::cell:
    return "TD";
  case Role::list:
    return "L";
  case Role::list_item:
    return "LI";
  }
  return nullptr;
}

/// Draws items on a page in millimetres.
class Drawer {
public:
  Drawer(cairo_t *pen, PangoContext *context) : pen_(pen), layout_(pango_layout_new(context)) {
    // Glyphs stand where their widths put them, not on the dots of a screen.
    const Owned<cairo_font_options_t> options(cairo_font_options_create());
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    pango_cairo_context_set_font_options(context, options.get());
    pango_context_set_round_glyph_positions(context, FALSE);
    pango_context_set_language(context, pango_language_from_string("en"));
    pango_layout_set_auto_dir(layout_.get(), FALSE);
    pango_layout_set_single_paragraph_mode(layout_.get(), TRUE);
    // Ligatures would stand in the way of those who search the text or have it read to them.
    const Owned<PangoAttrList> features(pango_attr_list_new());
    pango_attr_list_insert(features.get(), pango_attr_font_features_new("liga=0, clig=0"));
    pango_layout_set_attributes(layout_.get(), features.get());
  }

  /// The first text that could not be written whole, or empty.
  const std::string &unwritten() const { return unwritten_; }

  void draw(const std::vector<Item> &items) {
    for (const Item &item : items)
      std::visit([this](const auto &is) { draw(is); }, item.is);
  }

private:
  void draw(const Line &line);
  void draw(const Text &text);
  void draw(const Group &group);
  void colour(Tone tone) {
    const Colour of = colour_of(tone);
    cairo_set_source_rgb(pen_, of.red / 255.0, of.green / 255.0, of.blue / 255.0);
  }

  cairo_t *pen_;
  Owned<PangoLayout> layout_;
  std::string unwritten_;
};

void Drawer::draw(const Line &line) {
  if (line.points.size() < 2) return;
  cairo_new_path(pen_);
  for (const Point &point : line.points)
    cairo_line_to(pen_, point.x, point.y);
  if (line.closed) cairo_close_path(pen_);
  if (line.fill != Tone::none) {
    colour(line.fill);
    cairo_fill_preserve(pen_);
  }
  if (line.pen > 0 && line.tone != Tone::none) {
    colour(line.tone);
    cairo_set_line_width(pen_, line.pen);
    const double dashes[] = {dash_on, dash_off};
    cairo_set_dash(pen_, dashes, line.dashed ? 2 : 0, 0);
    cairo_stroke_preserve(pen_);
  }
  cairo_new_path(pen_);
}

void Drawer::draw(const Text &text) {
  const std::string shown = words::printable(text.says);
  if (shown.empty()) return;
  const Owned<PangoFontDescription> font(pango_font_description_new());
  pango_font_description_set_family(font.get(), std::string(family).c_str());
  pango_font_description_set_weight(font.get(), text.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size(font.get(), text.size * points_of_mm * PANGO_SCALE);
  pango_layout_set_font_description(layout_.get(), font.get());
  int width = 0;
  if (text.anchor != Anchor::start) {
    pango_layout_set_text(layout_.get(), shown.data(), static_cast<int>(shown.size()));
    pango_layout_get_size(layout_.get(), &width, nullptr);
  }
  // A space after it, so that texts which are read one after another stay words.
  const std::string spaced = shown + " ";
  pango_layout_set_text(layout_.get(), spaced.data(), static_cast<int>(spaced.size()));
  if (unwritten_.empty() && pango_layout_get_unknown_glyphs_count(layout_.get()) > 0) unwritten_ = shown;
  const double shift = text.anchor == Anchor::start ? 0 : text.anchor == Anchor::middle ? 0.5 : 1;
  cairo_save(pen_);
  colour(text.tone);
  cairo_translate(pen_, text.at.x, text.at.y);
  cairo_rotate(pen_, text.turned * std::numbers::pi / 180);
  cairo_scale(pen_, 1 / points_of_mm, 1 / points_of_mm);
  cairo_move_to(pen_, -shift * width / PANGO_SCALE, 0);
  pango_cairo_update_layout(pen_, layout_.get());
  pango_cairo_show_layout_line(pen_, pango_layout_get_line_readonly(layout_.get(), 0));
  cairo_restore(pen_);
  cairo_new_path(pen_);
}

void Drawer::draw(const Group &group) {
  const char *const tag = tag_of(group.role);
  if (tag != nullptr) cairo_tag_begin(pen_, tag, nullptr);
  draw(group.items);
  if (tag != nullptr) cairo_tag_end(pen_, tag);
}

Fault cannot_write(const std::string &text) {
  return {"no font on this machine has all the characters of \"" + text + "\"",
          "install a font for its script, or ask for SVG or HTML, which leave "
          "the font to the reader"};
}

/// Whether the family that every page asks for is there: without it pages would
/// look different from machine to machine.
bool family_is_there(PangoFontMap *fonts) {
  PangoFontFamily **families = nullptr;
  int count = 0;
  pango_font_map_list_families(fonts, &families, &count);
  bool found = false;
  for (int i = 0; i < count; ++i)
    found = found || pango_font_family_get_name(families[i]) == family;
  g_free(families);
  return found;
}

} // namespace

PdfOutcome pages(const Document &document) {
  // Its own, freed with the document.
  const Owned<PangoFontMap> fonts(pango_cairo_font_map_new());
  const Owned<PangoContext> context(pango_font_map_create_context(fonts.get()));
  if (!family_is_there(fonts.get()))
    return Fault{"the font " + std::string(family) + " is not installed", "install it (Debian: fonts-dejavu-core)"};
  std::string bytes;
  const Owned<cairo_surface_t> surface(cairo_pdf_surface_create_for_stream(keep, &bytes, 1, 1));
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, words::printable(document.title).c_str());
  cairo_status_t drawn = CAIRO_STATUS_SUCCESS;
  {
    const Owned<cairo_t> pen(cairo_create(surface.get()));
    Drawer drawer(pen.get(), context.get());
    cairo_scale(pen.get(), points_of_mm, points_of_mm);
    for (const Page &page : document.pages) {
      cairo_pdf_surface_set_size(surface.get(), page.width * points_of_mm, page.height * points_of_mm);
      drawer.draw(page.items);
      cairo_show_page(pen.get());
    }
    if (!drawer.unwritten().empty()) return cannot_write(drawer.unwritten());
    drawn = cairo_status(pen.get());
  }
  cairo_surface_finish(surface.get());
  if (drawn == CAIRO_STATUS_SUCCESS) drawn = cairo_surface_status(surface.get());
  if (drawn != CAIRO_STATUS_SUCCESS)
    return Fault{std::string("the PDF cannot be drawn: ") + cairo_status_to_string(drawn), ""};
  return bytes;
}

} // namespace gatherwright::press
