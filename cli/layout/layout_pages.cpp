// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/layout/layout_pages.hpp"

#include "cli/drawing/type.hpp"
#include "cli/picture/layout_picture.hpp"
#include "cli/strip/furniture.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

#include <utility>

namespace gatherwright::paper {

namespace {

constexpr double title_size = 5;
constexpr double heading_size = 4.4;
constexpr double text_size = 3.2;
constexpr double line_high = 4.4;
constexpr double number_room = 40; ///< of "page 2 of 3"
constexpr double most_of_words = 1.0 / 3;

std::string layouts_title(const Job &job) {
  return job.title && !job.title->empty() ? words::printable(*job.title) + ": how it is cut" : "How it is cut";
}

/// A page with all but its picture; where that may begin.
struct Begun {
  Page page;
  double top = 0;
};

class Writer {
public:
  Writer(const Job &job, const std::vector<std::string> &warnings, PaperSize size)
      : job_(job), warnings_(warnings), size_(size), blank_(page_of(size)), width_(blank_.width - 2 * margin) {}

  void add(const LayoutAsked &asked) {
    const double top = begun(asked, true).top;
    const double room = blank_.height - margin - top;
    const std::vector<std::vector<std::string>> steps = broken_steps(asked);
    const double steps_high = high(steps) + 4;
    std::vector<Page> pictures = layout_pictures(asked.laid, width_, room);
    bool has_room = pictures.size() == 1 && pictures.front().height + steps_high <= room;
    if (!has_room && pictures.size() == 1 && steps_high <= room * most_of_words) {
      std::vector<Page> smaller = layout_pictures(asked.laid, width_, room - steps_high);
      has_room = smaller.size() == 1 && smaller.front().height + steps_high <= room;
      if (has_room) pictures = std::move(smaller);
    }
    for (std::size_t i = 0; i < pictures.size(); ++i)
      put(asked, i == 0, std::move(pictures[i]), has_room ? steps : std::vector<std::vector<std::string>>{});
  }

  std::vector<Page> pages() && { return std::move(pages_); }

private:
  /// Sentences about the cloth only on its first page.
  Begun begun(const LayoutAsked &asked, bool first) const {
    Begun begun{page_of(size_), margin + 4.4};
    std::vector<Item> &items = begun.page.items;
    double &y = begun.top;
    const std::string title = fitted(layouts_title(job_), width_ - number_room, title_size, true);
    items.push_back({Group{Role::title, "", {{Text{{margin, y}, title, title_size, true}}}}});
    y += 6.4;
    const std::string cloth = fitted(words::cloth_called(asked.laid.cloth.cloth), width_, heading_size, true);
    items.push_back({Group{Role::heading, "", {{Text{{margin, y}, cloth, heading_size, true}}}}});
    for (const std::string &warning : warnings_)
      y = paragraph(items, broken(warning, width_, 3.6, true), {{}, "", 3.6, true, Anchor::start, 0, Tone::alarm}, y);
    if (first)
      for (const std::string &sentence : asked.said)
        y = paragraph(items, broken(sentence, width_, text_size), {{}, "", text_size}, y);
    y += 4;
    return begun;
  }

  /// Lines in a type; where the last stands.
  static double paragraph(std::vector<Item> &items, const std::vector<std::string> &lines, Text type, double y) {
    Group said{Role::paragraph, "", {}};
    for (const std::string &line : lines) {
      y += line_high * type.size / text_size;
      type.at = {margin, y};
      type.says = line;
      said.items.push_back({type});
    }
    items.push_back({std::move(said)});
    return y;
  }

  std::vector<std::vector<std::string>> broken_steps(const LayoutAsked &asked) const {
    std::vector<std::vector<std::string>> steps;
    for (const std::string &sentence : words::cutting_said(asked.laid))
      steps.push_back(broken(sentence, width_ - 4, text_size));
    return steps;
  }

  static double high(const std::vector<std::vector<std::string>> &steps) {
    std::size_t lines = 0;
    for (const std::vector<std::string> &step : steps)
      lines += step.size();
    return line_high * static_cast<double>(lines);
  }

  void put(const LayoutAsked &asked, bool first, Page picture, const std::vector<std::vector<std::string>> &steps) {
    auto [page, top] = begun(asked, first);
    move_by(picture.items, {margin, top});
    page.items.push_back({Group{Role::figure, picture.label, std::move(picture.items)}});
    double y = top + picture.height + 1;
    Group list{Role::list, "", {}};
    for (const std::vector<std::string> &step : steps) {
      Group item{Role::list_item, "", {}};
      item.items.push_back({Text{{margin, y + line_high}, "•", text_size}});
      for (const std::string &line : step) {
        y += line_high;
        item.items.push_back({Text{{margin + 4, y}, line, text_size}});
      }
      list.items.push_back({std::move(item)});
    }
    if (!steps.empty()) page.items.push_back({std::move(list)});
    pages_.push_back(std::move(page));
  }

  const Job &job_;
  const std::vector<std::string> &warnings_;
  PaperSize size_;
  Page blank_;
  double width_;
  std::vector<Page> pages_;
};

} // namespace

Document layout_pages(const Job &job, std::span<const LayoutAsked> cloths, const std::vector<std::string> &warnings,
                      PaperSize size) {
  Writer writer(job, warnings, size);
  for (const LayoutAsked &asked : cloths)
    writer.add(asked);
  Document document{layouts_title(job), std::move(writer).pages()};
  number_pages(document.pages);
  return document;
}

} // namespace gatherwright::paper
