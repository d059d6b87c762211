// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/strip/furniture.hpp"

#include "cli/drawing/type.hpp"
#include "cli/report/join_words.hpp"
#include "cli/report/plan_words.hpp"
#include "cli/strip/strip.hpp"
#include "cli/strip/strip_drawing.hpp"
#include "cli/words/findings.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

#include <utility>

namespace gatherwright::paper {

namespace {

constexpr double inch = 25.4;
constexpr double number_room = 40;

/// So long, with a longer stroke at each of its ends and shorter ones between.
std::vector<Item> scale_bar(Point from, double length, int parts, std::string_view says) {
  std::vector<Item> items;
  items.push_back({segment(from, {from.x + length, from.y}, 0.3)});
  for (int i = 0; i <= parts; ++i) {
    const double x = from.x + length * i / parts;
    const double reach = i == 0 || i == parts ? 2.4 : 1.2;
    items.push_back({segment({x, from.y - reach}, {x, from.y + (i == 0 || i == parts ? reach : 0)}, 0.3)});
  }
  items.push_back({Text{{from.x + length + 3, from.y + 1.1}, std::string(says), 3}});
  return items;
}

Group scale(const Job &job, const Page &page) {
  const bool inches = is_imperial(job.unit);
  Group group{Role::paragraph, "scale", {}};
  const double base = page.height - margin - 3;
  group.items = scale_bar({margin, inches ? base - 6.5 : base}, 100, 10, "100 mm: print at 100 %, measure this bar");
  if (inches)
    for (Item &item : scale_bar({margin, base}, 4 * inch, 8, "4 in"))
      group.items.push_back(std::move(item));
  return group;
}

void add(std::vector<Item> &to, std::vector<Item> items) {
  for (Item &item : items)
    to.push_back(std::move(item));
}

/// Both kinds of mark and what the bar means, at the foot of the page.
Group legend(const Page &page) {
  Group group{Role::section, "signs", {}};
  const double x = page.width - margin - 88;
  const double y = page.height - margin - 11;
  add(group.items, reference_sign({x + 2, y}, {0, 1}, 8));
  group.items.push_back({Group{Role::paragraph, "", {{Text{{x + 5, y + 5}, "reference mark", 3}}}}});
  add(group.items, pin_sign({x + 33, y}, {0, 1}, 8));
  group.items.push_back({Group{Role::paragraph, "", {{Text{{x + 36, y + 5}, "pin mark", 3}}}}});
  add(group.items, fullness_bar({x + 53, y + 2.2}, 10, 3.4));
  group.items.push_back({Group{Role::paragraph, "", {{Text{{x + 65, y + 5}, "takes fullness", 3}}}}});
  return group;
}

} // namespace

std::string join_called(const Job &job, const Plan &plan, int join) {
  const Join &sewn = job.joins.at(join);
  const JoinPlan &planned = plan.joins.at(join);
  std::string text = words::printable(sewn.name);
  if (const std::string made = made_in_words(sewn); !made.empty()) text += " (" + made + ")";
  if (planned.verdict != Verdict::within_limits) text += fmt::format(": {}", words::verdict(planned.verdict));
  return text;
}

std::string rows_said(const Job &job, const Plan &plan, int join) {
  const std::optional<GatheringPlan> &rows = plan.joins.at(join).gathering;
  return rows && !rows->from_seam.empty() ? fmt::format("Rows of gathering: {}.", report::row_places(job, *rows)) : "";
}

std::string strips_title(const Job &job) {
  return job.title && !job.title->empty() ? words::printable(*job.title) + ": marking strips" : "Marking strips";
}

HeadedPage sheet_for(const Job &job, const Plan &plan, int join, std::string_view how, PaperSize size) {
  HeadedPage sheet{page_of(size), {}};
  Page &page = sheet.page;
  std::swap(page.width, page.height);
  const double wide = page.width - 2 * margin;
  double y = margin + 4.4;
  page.items.push_back(
      {Group{Role::title, "", {{Text{{margin, y}, fitted(strips_title(job), wide - number_room, 5, true), 5, true}}}}});
  y += 6.4;
  const std::string name = join_called(job, plan, join);
  page.items.push_back({Group{Role::heading, "", {{Text{{margin, y}, fitted(name, wide, 4.4, true), 4.4, true}}}}});
  if (plan.verdict != Verdict::within_limits) {
    y += 5.6;
    const std::string warning = fmt::format(
        "This plan is not within limits ({}). Read its findings before you cut or mark.", words::verdict(plan.verdict));
    page.items.push_back(
        {Group{Role::paragraph, "", {{Text{{margin, y}, warning, 3.8, true, Anchor::start, 0, Tone::alarm}}}}});
  }
  for (const std::string &caution : report::first_cautions_said(job, plan)) {
    Group said{Role::paragraph, "", {}};
    for (const std::string &line : broken("Caution: " + caution, wide, 3.4, true)) {
      y += 5;
      said.items.push_back({Text{{margin, y}, line, 3.4, true, Anchor::start, 0, Tone::alarm}});
    }
    page.items.push_back({std::move(said)});
  }
  y += 5.2;
  page.items.push_back({Group{Role::paragraph, "", {{Text{{margin, y}, fitted(how, wide, 3.2), 3.2}}}}});
  if (const std::string rows = rows_said(job, plan, join); !rows.empty()) {
    y += 4.6;
    page.items.push_back({Group{Role::paragraph, "", {{Text{{margin, y}, fitted(rows, wide, 3.2), 3.2}}}}});
  }
  y += 3;
  page.items.push_back({scale(job, page)});
  page.items.push_back({legend(page)});
  sheet.room = {margin, y, wide, page.height - margin - 14 - y};
  return sheet;
}

void number_pages(std::vector<Page> &pages) {
  for (std::size_t i = 0; i < pages.size(); ++i) {
    Page &page = pages[i];
    page.label = fmt::format("page {} of {}", i + 1, pages.size());
    page.items.push_back({Group{
        Role::paragraph, "", {{Text{{page.width - margin, margin + 4.4}, page.label, 3.6, false, Anchor::end}}}}});
  }
}

} // namespace gatherwright::paper
