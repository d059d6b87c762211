// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/form.hpp"

#include "cli/page/text/source.hpp"

#include <algorithm>
#include <array>

namespace gatherwright::page {

namespace {

constexpr FormKey job[] = {{"title"},
                           {"unit"},
                           {"tape_step"},
                           {"allowance", Form::formula},
                           {"fabric", Form::fabric},
                           {"gathering", Form::gathering},
                           {"marks", Form::marks},
                           {"tolerance", Form::tolerance},
                           {"wearer", Form::wearer},
                           {"measures", Form::measures},
                           {"lengths", Form::lengths},
                           {"rules", Form::rules},
                           {"joins", Form::joins},
                           {"pieces", Form::pieces}};
constexpr FormKey fabric[] = {{"name"},
                              {"weight"},
                              {"width"},
                              {"thickness"},
                              {"bending_length"},
                              {"shrinks"},
                              {"swatch", Form::swatch},
                              {"selvedge"},
                              {"shrinkage", Form::shrinkage},
                              {"stock"},
                              {"sold_by"}};
constexpr FormKey swatch[] = {{"cut"}, {"tight"}, {"good", Form::pair}, {"stitch"}, {"threads", Form::pair}, {"count"}};
constexpr FormKey shrinkage[] = {{"along"}, {"across"}};
constexpr FormKey gathering[] = {{"stitch"}, {"threads", Form::pair}, {"count"}, {"rows"}, {"tail"}, {"longest"}};
constexpr FormKey marks[] = {{"parts"}, {"apart", Form::formula}, {"halves"}, {"every", Form::formula}};
constexpr FormKey tolerance[] = {{"cut"}, {"mark"}};
constexpr FormKey wearer[] = {{"age"}};
constexpr FormKey length[] = {
    {"is", Form::formula}, {"from", Form::formula}, {"to", Form::formula}, {"aim", Form::aim}, {"keep"}};
constexpr FormKey rule[] = {{"name"}, {"holds", Form::holds}};
constexpr FormKey join[] = {{"name", Form::join_name},
                            {"long", Form::edge},
                            {"band", Form::edge},
                            {"closed"},
                            {"make"},
                            {"mirrored"},
                            {"marks", Form::marks},
                            {"allowance", Form::formula},
                            {"use"},
                            {"fabric", Form::fabric},
                            {"gathering", Form::gathering},
                            {"segments", Form::segments}};
constexpr FormKey edge[] = {{"length", Form::formula},
                            {"path"},
                            {"path_unit"},
                            {"drawing"},
                            {"id"},
                            {"points"},
                            {"part", Form::formulas},
                            {"allowance", Form::formula},
                            {"garment"},
                            {"grain"},
                            {"ends", Form::formulas}};
constexpr FormKey segment[] = {{"name"},
                               {"kind"},
                               {"long", Form::formula},
                               {"band", Form::formula},
                               {"to", Form::mark_name},
                               {"share"},
                               {"limits", Form::limits},
                               {"spread", Form::spread}};
constexpr FormKey limits[] = {{"least"}, {"ideal"}, {"most"}};
constexpr FormKey spread[] = {{"fade", Form::formulas}, {"shape"}};
constexpr FormKey piece[] = {{"name", Form::piece_name},
                             {"cut"},
                             {"across", Form::formula},
                             {"along", Form::formula},
                             {"allowance", Form::by_side},
                             {"mirrored"},
                             {"turn"},
                             {"fabric", Form::fabric},
                             {"sides", Form::sides}};
constexpr FormKey by_side[] = {
    {"top", Form::formula}, {"bottom", Form::formula}, {"left", Form::formula}, {"right", Form::formula}};
constexpr FormKey sides[] = {{"top", Form::side}, {"bottom", Form::side}, {"left", Form::side}, {"right", Form::side}};
constexpr FormKey part[] = {
    {"join", Form::sewn_join}, {"edge"}, {"from", Form::sewn_mark}, {"to", Form::sewn_mark}, {"at", Form::formula}};

constexpr FormRow rows[] = {
    {.form = Form::pair, .list = true},
    {.form = Form::formulas, .each = Form::formula, .list = true},
    {.form = Form::job, .keys = job},
    {.form = Form::fabric, .keys = fabric, .optional = true},
    {.form = Form::swatch, .keys = swatch, .optional = true},
    {.form = Form::shrinkage, .keys = shrinkage, .optional = true},
    {.form = Form::gathering, .keys = gathering, .optional = true},
    {.form = Form::marks, .keys = marks, .optional = true},
    {.form = Form::tolerance, .keys = tolerance, .optional = true},
    {.form = Form::wearer, .keys = wearer, .optional = true},
    {.form = Form::measures, .each = Form::plain, .many = true},
    {.form = Form::lengths, .each = Form::length, .many = true},
    {.form = Form::length, .keys = length, .short_for = "is"},
    {.form = Form::rules, .each = Form::rule, .list = true, .many = true},
    {.form = Form::rule, .keys = rule, .short_for = "holds"},
    {.form = Form::joins, .each = Form::join, .list = true, .many = true},
    {.form = Form::join, .keys = join},
    {.form = Form::edge, .keys = edge, .short_for = "length"},
    {.form = Form::segments, .each = Form::segment, .list = true, .many = true},
    {.form = Form::segment, .keys = segment},
    {.form = Form::limits, .keys = limits, .optional = true},
    {.form = Form::spread, .keys = spread, .optional = true},
    {.form = Form::pieces, .each = Form::piece, .list = true, .many = true},
    {.form = Form::piece, .keys = piece},
    {.form = Form::by_side, .keys = by_side, .optional = true},
    {.form = Form::sides, .keys = sides, .optional = true},
    {.form = Form::side, .keys = part, .each = Form::part, .short_for = "join", .list = true, .optional = true},
    {.form = Form::part, .keys = part, .short_for = "join"},
};

constexpr std::size_t forms = static_cast<std::size_t>(Form::sewn_mark) + 1;

constexpr auto table = [] {
  std::array<FormRow, forms> all{};
  for (std::size_t i = 0; i < forms; ++i)
    all[i].form = static_cast<Form>(i);
  for (const FormRow &row : rows)
    all[static_cast<std::size_t>(row.form)] = row;
  return all;
}();

} // namespace

const FormRow &row_of(Form form) {
  return table[static_cast<std::size_t>(form)];
}

Form step_from(Form form, std::string_view step) {
  const FormRow &row = row_of(form);
  for (const FormKey &key : row.keys)
    if (key.key == step) return key.form;
  const bool counts = place_of(step) || step == "-";
  return row.each && (counts || !row.list) ? *row.each : Form::plain;
}

std::optional<int> order_of(Form form, std::string_view key) {
  const auto keys = row_of(form).keys;
  const auto found = std::find_if(keys.begin(), keys.end(), [&](const FormKey &each) { return each.key == key; });
  return found == keys.end() ? std::nullopt : std::optional(static_cast<int>(found - keys.begin()));
}

} // namespace gatherwright::page
