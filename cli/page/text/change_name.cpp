// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/change_name.hpp"

#include "cli/job/values.hpp"
#include "cli/page/text/change_value.hpp"
#include "cli/page/text/edit.hpp"
#include "cli/page/text/new_name.hpp"
#include "cli/page/text/scan.hpp"
#include "cli/page/text/way.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/formula.hpp"
#include "gatherwright/text.hpp"

#include <algorithm>
#include <utility>

namespace gatherwright::page {

using cli::quoted;
using cli::Value;

namespace {

/// Whether a character can go on a name.
bool goes_on(std::string_view character) {
  if (character.empty()) return false;
  const char c = character.front();
  if (static_cast<unsigned char>(c) < 0x80)
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
  return !check_name("a_" + std::string(character));
}

std::string_view character_before(std::string_view text, std::size_t at) {
  std::size_t begin = at;
  while (begin > 0 && at - begin < 4) {
    --begin;
    if ((static_cast<unsigned char>(text[begin]) & 0xC0U) != 0x80U) break;
  }
  return text.substr(begin, at - begin);
}

/// A formula in which one name is another.
std::string in_formula(std::string_view formula, std::string_view name, std::string_view becomes) {
  std::string result;
  std::size_t kept = 0;
  for (std::size_t at = formula.find(name); at != std::string_view::npos; at = formula.find(name, at)) {
    const std::size_t end = at + name.size();
    const std::string_view behind = formula.substr(end, character_at(formula, end).bytes);
    if (goes_on(character_before(formula, at)) || goes_on(behind)) {
      at = end;
      continue;
    }
    result += formula.substr(kept, at - kept);
    result += becomes;
    at = kept = end;
  }
  result += formula.substr(kept);
  return result;
}

/// A text of the job that names something, and what it is for.
struct Naming {
  const Value *value;
  Form form;
  const Value *part = nullptr; ///< of a side, in which it stands as an object
};

/// Looks for all that name something.
class Look {
public:
  explicit Look(const Source &source) : source_(source) {}

  std::vector<Naming> run() && {
    look(source_.document.root(), Form::job, nullptr);
    return std::move(found_);
  }

private:
  void look(const Value &value, Form form, const Value *part) {
    if (form == Form::plain) return;
    if (value.kind == Value::Kind::object) {
      for (const Value &child : source_.document.children(value))
        if (!child.repeated)
          look(child, step_from(form, child.key), form == Form::part || form == Form::side ? &value : nullptr);
    } else if (value.kind == Value::Kind::list) {
      for (const Value &child : source_.document.children(value))
        if (row_of(form).list) look(child, row_of(form).each.value_or(Form::plain), nullptr);
    } else if (value.kind == Value::Kind::text) {
      found_.push_back({&value, named_by(form), part});
    }
  }

  /// What a text in a place is for.
  static Form named_by(Form form) {
    if (form == Form::by_side) return Form::formula;
    const std::string_view key = row_of(form).short_for;
    return key.empty() ? form : named_by(step_from(form, key));
  }

  const Source &source_;
  std::vector<Naming> found_;
};

std::vector<Naming> namings_in(const Source &source) {
  return Look(source).run();
}

/// A new name, and the edits that bring it.
class Renaming {
public:
  Renaming(const Source &source, std::string_view name) : source_(source), name_(name) {}

  void key(const Value &value) {
    const std::size_t begin = source_.at(value).key;
    edits_.push_back({begin, past_quotes(source_.text, begin), quoted_json(name_)});
  }

  void whole(const Value &value) {
    edits_.push_back({source_.at(value).begin, source_.at(value).end, quoted_json(name_)});
  }

  void in_formulas(std::string_view old) {
    for (const Naming &naming : namings_in(source_)) {
      const std::string_view text = naming.value->text;
      const bool is_formula = naming.form == Form::formula || naming.form == Form::holds ||
                              (naming.form == Form::aim && text != "least" && text != "most");
      if (!is_formula) continue;
      std::string changed = in_formula(text, old, name_);
      if (changed == text) continue;
      const Extent &extent = source_.at(*naming.value);
      const bool as_written = source_.written(*naming.value).size() == text.size() + 2; // no escapes
      edits_.push_back({extent.begin, extent.end, as_written ? '"' + changed + '"' : quoted_json(changed)});
    }
  }

  void in_sides(std::string_view join) {
    for (const Naming &naming : namings_in(source_))
      if (naming.form == Form::sewn_join && naming.value->text == join) whole(*naming.value);
  }

  void marks_in_sides(std::string_view join, std::string_view mark) {
    for (const Value *value : marks_sewn(source_, join, mark))
      whole(*value);
  }

  /// Where parts of sides name a mark of a join.
  static std::vector<const Value *> marks_sewn(const Source &source, std::string_view join, std::string_view mark) {
    std::vector<const Value *> sewn;
    for (const Naming &naming : namings_in(source)) {
      if (naming.form != Form::sewn_mark || naming.value->text != mark || !naming.part) continue;
      const Value *of = source.document.child(*naming.part, "join");
      if (of && of->text == join) sewn.push_back(naming.value);
    }
    return sewn;
  }

  std::string done() && {
    std::sort(edits_.begin(), edits_.end(), [](const Edit &a, const Edit &b) { return a.begin < b.begin; });
    return edited(source_.text, edits_);
  }

private:
  const Source &source_;
  std::string_view name_;
  std::vector<Edit> edits_;
};

std::optional<Fault> fault_of_text(std::string_view name) {
  if (name.empty()) return Fault{"the name is empty", "write one"};
  if (cli::has_control_character(name))
    return Fault{"there is a line break or control character in " + quoted(name), "write it on one line"};
  if (!is_utf8(name)) return Fault{"this is not UTF-8", "write it as plain text"};
  return std::nullopt;
}

/// The name of a join or a piece; null where it has none.
const Value *name_of(const Source &source, const Value &value) {
  const Value *name = source.document.child(value, "name");
  return name && name->kind == Value::Kind::text ? name : nullptr;
}

/// The first of a list that is called so.
const Value *called(const Source &source, const Value &list, std::string_view name) {
  for (const Value &each : source.document.children(list))
    if (const Value *its = name_of(source, each); its && its->text == name) return &each;
  return nullptr;
}

struct Asked {
  const Source &source;
  std::string_view pointer;
  std::string_view name;

  Faults fault(const Value &value, Fault fault) const { return fault_at(value, pointer, std::move(fault)); }
};

/// A measure or a length.
Changed rename_length(const Asked &asked, const Value &value) {
  if (value.key == asked.name) return std::string(asked.source.text);
  if (auto fault = fault_of_new_name(asked.source, asked.name)) return asked.fault(value, *fault);
  Renaming renaming(asked.source, asked.name);
  renaming.key(value);
  renaming.in_formulas(value.key);
  return std::move(renaming).done();
}

/// A join or a piece; the sides of pieces name joins.
Changed rename_listed(const Asked &asked, const Value &value, std::string_view another) {
  const Value *own = name_of(asked.source, value);
  if (auto fault = fault_of_text(asked.name)) return asked.fault(value, *fault);
  if (own && own->text == asked.name) return std::string(asked.source.text);
  const Value &list = parent_of(asked.source, value);
  if (called(asked.source, list, asked.name))
    return asked.fault(value, {std::string(another) + " is called " + quoted(asked.name), "give each its own name"});
  if (!own)
    return with_value(asked.source.text, asked.source.document.pointer(value) + "/name", quoted_json(asked.name));
  Renaming renaming(asked.source, asked.name);
  renaming.whole(*own);
  const bool is_join = list.key == "joins";
  if (is_join && called(asked.source, list, own->text) == &value) renaming.in_sides(own->text);
  return std::move(renaming).done();
}

/// How many segments end at a mark of this name.
int ending_at(const Source &source, const Value &segments, std::string_view mark) {
  int count = 0;
  for (const Value &segment : source.document.children(segments))
    if (const Value *to = source.document.child(segment, "to"); to && to->text == mark) ++count;
  return count;
}

/// A mark by the `to` of its segment. Sides that name it go along, unless the name is that of another mark too.
Changed rename_mark(const Asked &asked, const Value &to) {
  const Source &source = asked.source;
  if (auto fault = fault_of_text(asked.name)) return asked.fault(to, *fault);
  if (to.text == asked.name && to.kind == Value::Kind::text) return std::string(source.text);
  const Value &segments = parent_of(source, parent_of(source, to));
  const Value &join = parent_of(source, segments);
  const Value *join_name = name_of(source, join);
  const std::string_view joined = join_name ? join_name->text : std::string_view();
  const bool of_this = join_name && called(source, parent_of(source, join), joined) == &join;
  const bool an_end = asked.name == "start" || asked.name == "end";
  const bool own_end = to.text == "start" || to.text == "end";
  const bool sewn = of_this && !own_end && !Renaming::marks_sewn(source, joined, to.text).empty();
  const bool new_sewn = of_this && !Renaming::marks_sewn(source, joined, asked.name).empty();
  const bool taken = an_end || ending_at(source, segments, asked.name) > 0;
  if (taken && (sewn || new_sewn || an_end))
    return asked.fault(to, {"another mark of this join is called " + quoted(asked.name), "give it a name of its own"});
  Renaming renaming(source, asked.name);
  renaming.whole(to);
  if (sewn && ending_at(source, segments, to.text) == 1) renaming.marks_in_sides(joined, to.text);
  return std::move(renaming).done();
}

} // namespace

Changed with_name(std::string_view text, std::string_view pointer, std::string_view name) {
  const auto source = source_of(text);
  if (!source) return source.fault();
  const auto steps = steps_of(pointer);
  if (!steps) return fault_at(source->document.root(), pointer, steps.fault());
  const Way way = way_to(*source, *steps);
  const Asked asked{*source, pointer, name};
  const Value &value = *way.value;
  if (way.taken == steps->size() && value.parent >= 0) {
    const Value &parent = parent_of(*source, value);
    const bool named = parent.kind == Value::Kind::object && steps->size() == 2;
    if (named && (steps->front() == "measures" || steps->front() == "lengths")) return rename_length(asked, value);
    if (way.form == Form::join) return rename_listed(asked, value, "another join");
    if (way.form == Form::piece) return rename_listed(asked, value, "another piece");
    if (way.form == Form::join_name) return rename_listed(asked, parent, "another join");
    if (way.form == Form::piece_name) return rename_listed(asked, parent, "another piece");
    if (way.form == Form::mark_name) return rename_mark(asked, value);
  }
  return asked.fault(value, {"there is nothing at " + quoted(pointer) + " that goes by a name",
                             "choose a measure, a length, a join, a mark or a piece"});
}

} // namespace gatherwright::page
