// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <string_view>

/// What each place of a job is for: which keys its objects have, in the order in which docs/format.md lists them.
namespace gatherwright::page {

enum class Form {
  plain,   ///< anything that has no parts and names nothing
  formula, ///< a length or a formula
  aim,     ///< likewise, or one of two words
  pair,    ///< two lengths that name nothing
  formulas,
  job,
  fabric,
  swatch,
  shrinkage,
  gathering,
  marks,
  tolerance,
  wearer,
  measures,
  lengths,
  length,
  rules,
  rule,
  holds, ///< what a rule says
  joins,
  join,
  join_name,
  edge,
  segments,
  segment,
  mark_name,
  limits,
  spread,
  pieces,
  piece,
  piece_name,
  by_side,
  sides,
  side, ///< what is sewn to a side: a part, or a list of them
  part,
  sewn_join, ///< a join by its name
  sewn_mark, ///< a mark by its name
};

struct FormKey {
  std::string_view key;
  Form form = Form::plain;
};

struct FormRow {
  Form form;
  std::span<const FormKey> keys = {}; ///< of an object, in order
  std::optional<Form> each = {};      ///< of what stands in it under names, or in a list
  std::string_view short_for = {};    ///< the key that what is no object stands for
  bool list = false;                  ///< it is a list, or may be one
  bool many = false;                  ///< what stands in it has lines of its own
  bool optional = false;              ///< nothing in it is as good as none
};

const FormRow &row_of(Form form);

/// What a step from a form leads to.
Form step_from(Form form, std::string_view step);

/// Where a key has its place in an object of a form; nothing of one that the form does not know.
std::optional<int> order_of(Form form, std::string_view key);

} // namespace gatherwright::page
