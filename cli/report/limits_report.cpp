// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/limits_report.hpp"

#include "cli/report/json_text.hpp"
#include "cli/report/plan_text.hpp"
#include "cli/report/table.hpp"
#include "cli/words/cloth_limits.hpp"
#include "cli/words/columns.hpp"
#include "cli/words/figures.hpp"

#include <fmt/format.h>

#include <array>

namespace gatherwright::report {

namespace {

using Lay = JsonText::Lay;

/// What is told of a cloth: the limits of gathering, and how much may be eased in.
struct Told {
  cloth::Explanation gather;
  cloth::Explanation ease;
};

Told explained(const Join &join) {
  return {cloth::explain(join.fabric, join.gathering, Kind::gather, {}, {.use = join.use}),
          cloth::explain(join.fabric, join.gathering, Kind::ease, {}, {.use = join.use})};
}

Told explained(Join join, Weight weight) {
  join.fabric.weight = weight;
  return explained(join);
}

/// One limit as it is listed, with what it means to a maker.
struct Entry {
  std::string_view key;
  std::string_view called;
  std::string_view means;
  const cloth::Reckoned &limit;
  const cloth::Explanation &behind;
};

std::array<Entry, 5> entries(const Told &told) {
  return {Entry{"least", "least", "less does not read as gathers", told.gather.least, told.gather},
          Entry{"ideal", "ideal", "what is aimed at", told.gather.ideal, told.gather},
          Entry{"most", "most", "more does not sit well", told.gather.most, told.gather},
          Entry{"packed", "drawn up tight", "the stitch draws up no more", told.gather.packed, told.gather},
          Entry{"ease", "ease", "worked in with no fold, at most", told.ease.most, told.ease}};
}

std::string figure(const Entry &entry) {
  return entry.key == "ease" ? words::trimmed(100 * (entry.limit.value - 1), 1) + " %"
                             : words::to_one(entry.limit.value);
}

std::string reasons(const Entry &entry, bool table_told) {
  std::string text;
  for (const cloth::Reason reason : cloth::reasons_of(entry.limit))
    text += (text.empty() ? "" : "; ") + words::reason(reason, entry.behind, table_told);
  return fmt::format("{}. {}.", text, words::grounds(cloth::grounds(entry.limit)));
}

std::string capital(std::string text) {
  const auto after_stop = text.rfind(". ");
  if (after_stop != std::string::npos && text[after_stop + 2] >= 'a' && text[after_stop + 2] <= 'z')
    text[after_stop + 2] = static_cast<char>(text[after_stop + 2] - 'a' + 'A');
  return text;
}

/// Limits that come from the same are told together.
std::string why(const std::array<Entry, 5> &all) {
  std::string text;
  std::array<bool, 5> told{};
  bool table_told = false;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (told[i]) continue;
    const std::string because = reasons(all[i], table_told);
    std::string names(all[i].called);
    for (std::size_t j = i + 1; j < all.size(); ++j)
      if (!told[j] && reasons(all[j], table_told) == because) {
        told[j] = true;
        names += fmt::format(", {}", all[j].called);
      }
    table_told = table_told || all[i].limit.because(cloth::Reason::by_weight);
    text += wrapped(capital(fmt::format("{}: {}", names, because)), "  ", "    ", text_width);
  }
  return text;
}

/// What measuring more would change.
std::string would_sharpen(const Fabric &fabric) {
  if (fabric.swatch && fabric.swatch->tight && fabric.swatch->good)
    return fabric.weight ? "" : "\nThe weight would sharpen the ease; the test strip settles all else.\n";
  std::string missing;
  const auto add = [&](bool given, std::string_view what) {
    if (!given) missing += fmt::format("{}{}", missing.empty() ? "" : ", ", what);
  };
  add(fabric.weight.has_value(), "the weight (all limits)");
  add(fabric.thickness.has_value(), "the thickness (ideal, most, drawn up tight)");
  add(fabric.bending_length.has_value(), "the length that bends under its own weight (ideal, most)");
  std::string text;
  if (!missing.empty()) text = fmt::format("Measured, these would sharpen the limits: {}. ", missing);
  return "\n" + wrapped(text + (fabric.swatch
                                    ? "A whole gathered test strip, drawn up tight and at its best, overrides them all."
                                    : "A gathered test strip overrides them all."),
                        "", "", text_width);
}

std::string for_use(const Join &join) {
  return join.use ? fmt::format(", for {}", words::use(*join.use)) : "";
}

std::string headline(const cloth::Explanation &limits, const Join &join) {
  return wrapped(fmt::format("Cloth of {}, {} thick, gathered with a stitch of {} hole to hole{}",
                             words::weight(limits.weight.grams), words::small_length(limits.thickness),
                             words::small_length(join.gathering.stitch.mm), for_use(join)),
                 "", "", text_width);
}

/// How well founded the columns of a table over weights are, each by the least founded of its figures.
std::string grounds_of(std::span<const Told> rows) {
  std::array<cloth::Grounds, 5> weakest{};
  for (const Told &told : rows)
    for (std::size_t i = 0; const Entry &entry : entries(told)) {
      weakest[i] = std::max(weakest[i], cloth::grounds(entry.limit));
      ++i;
    }
  const auto columns = entries(rows.front());
  std::string text;
  for (const cloth::Grounds grounds :
       {cloth::Grounds::makers_own, cloth::Grounds::published, cloth::Grounds::practice, cloth::Grounds::our_model}) {
    std::string names;
    for (std::size_t i = 0; i < columns.size(); ++i)
      if (weakest[i] == grounds) names += fmt::format("{}{}", names.empty() ? "" : ", ", columns[i].called);
    if (!names.empty())
      text += fmt::format("{}{}: {}", text.empty() ? "" : "; ", names, words::grounds_in_short(grounds));
  }
  return capital(text) + ". The ties to weights are our model. ";
}

void limit_json(JsonText &json, const Entry &entry) {
  json.key(entry.key);
  json.open_object();
  json.number_field("value", entry.limit.value);
  json.text_field("standing", words::grounds(cloth::grounds(entry.limit)));
  json.key("reasons");
  json.open_array();
  for (const cloth::Reason reason : cloth::reasons_of(entry.limit))
    json.text(words::reason(reason, entry.behind));
  json.close();
  json.close();
}

void json_head(JsonText &json, const Join &join, Unit unit) {
  json.text_field("format", "gatherwright limits 1");
  json.text_field("unit", name(unit));
  json.number_field("stitch", join.gathering.stitch.mm / millimetres(unit));
  if (join.use) json.text_field("use", *join.use == Use::skirt ? "skirt" : "curtain");
}

} // namespace

std::string limits_text(const Join &join) {
  const Told told = explained(join);
  const auto all = entries(told);
  Table table({{"", "", Table::Align::left}, {"", ""}, {"", "", Table::Align::left}, {"", "", Table::Align::left}});
  for (const Entry &entry : all)
    table.row({std::string(entry.called), figure(entry), std::string(entry.means),
               std::string(words::grounds_in_short(cloth::grounds(entry.limit)))});
  std::string text = headline(told.gather, join) + "\n" + table.lines("  ", text_width) + "\nWhy\n" + why(all);
  if (told.gather.flexural_rigidity)
    text += fmt::format("\nFlexural rigidity: {} uN m (told, and used for nothing else).\n",
                        words::decimals(*told.gather.flexural_rigidity, 2));
  return text + would_sharpen(join.fabric);
}

std::string limits_json(const Join &join, Unit unit) {
  const Told told = explained(join);
  JsonText json;
  json.open_object();
  json_head(json, join, unit);
  json.number_field("weight", told.gather.weight.grams);
  json.number_field("thickness", told.gather.thickness / millimetres(unit));
  if (told.gather.flexural_rigidity) json.number_field("flexural_rigidity", *told.gather.flexural_rigidity);
  json.key("limits");
  json.open_object();
  for (const Entry &entry : entries(told))
    limit_json(json, entry);
  json.close();
  json.close();
  return json.take();
}

std::string weights_text(const Join &join, std::span<const Weight> weights) {
  Table table(
      {{"cloth", "g/m2"}, {"", "least"}, {"", "ideal"}, {"", "most"}, {"drawn up", "tight"}, {"ease", "at most"}});
  std::vector<Told> all;
  for (const Weight weight : weights) {
    const Told &told = all.emplace_back(explained(join, weight));
    std::vector<std::string> row{words::trimmed(weight.grams, 1)};
    for (const Entry &entry : entries(told))
      row.push_back(entry.key == "ease" ? figure(entry) : words::decimals(entry.limit.value, 2));
    table.row(std::move(row));
  }
  return wrapped(fmt::format("Fullness by the weight of the cloth, to 1, with a stitch of {} hole to hole{}",
                             words::small_length(join.gathering.stitch.mm), for_use(join)),
                 "", "", text_width) +
         "\n" + table.lines("  ", text_width) + "\n" +
         wrapped(grounds_of(all) +
                     "Why: gatherwright limits --weight with one weight says where each figure comes from.",
                 "", "", text_width);
}

std::string weights_json(const Join &join, Unit unit, std::span<const Weight> weights) {
  JsonText json;
  json.open_object();
  json_head(json, join, unit);
  json.key("weights");
  json.open_array();
  for (const Weight weight : weights) {
    const Told told = explained(join, weight);
    json.open_object(Lay::one_line);
    json.number_field("weight", weight.grams);
    for (const Entry &entry : entries(told))
      json.number_field(entry.key, entry.limit.value);
    json.close();
  }
  json.close();
  json.close();
  return json.take();
}

} // namespace gatherwright::report
