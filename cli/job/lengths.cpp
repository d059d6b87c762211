// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/lengths.hpp"

#include "cli/job/fields.hpp"
#include "cli/job/values.hpp"
#include "cli/words/overloaded.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/defaults.hpp"
#include "gatherwright/order.hpp"

#include <algorithm>
#include <unordered_set>
#include <utility>

namespace gatherwright::cli {

namespace {

/// Names are offered in place of misspelt ones; among more than this, looking for the nearest would take too long.
constexpr std::size_t most_offered = 500;

/// The children of "measures" or "lengths" that count; none where it is missing or no object.
std::vector<const Value *> entries(Reading &reading, const Value *value, std::string_view of,
                                   std::string_view such_as) {
  std::vector<const Value *> found;
  if (!value) return found;
  if (value->kind != Value::Kind::object) {
    refuse_kind(reading, *value, std::string(of) + " as an object in braces: " + std::string(such_as));
    return found;
  }
  for (const Value &child : reading.document.children(*value))
    if (!child.repeated) found.push_back(&child);
  return found;
}

/// A name with spaces as it may be called.
std::string with_underscores(std::string_view name) {
  std::string mended(name);
  std::replace(mended.begin(), mended.end(), ' ', '_');
  return mended;
}

/// Gives every name its symbol. A name used twice stands for the first in the file.
void name_symbols(Reading &reading, const std::vector<const Value *> &measures,
                  const std::vector<const Value *> &lengths) {
  Names &names = reading.names;
  std::vector<std::pair<std::string, int>> mended_names;
  const auto enter = [&](const std::vector<const Value *> &values, int symbol) {
    for (const Value *value : values) {
      const auto fault = check_name(value->key);
      if (fault)
        reading.fault_of_key(*value, *fault);
      else if (!names.symbols.emplace(value->key, symbol).second)
        reading.fault_of_key(*value, {"the name " + quoted(value->key) + " is used twice",
                                      "a measure and a length need names of their own"});
      if (fault) {
        names.symbols.emplace(value->key, symbol); // so that what names it is not at fault as well
        if (std::string mended = with_underscores(value->key); !check_name(mended))
          mended_names.emplace_back(std::move(mended), symbol);
      }
      if (!fault && names.offered.size() < most_offered) names.offered.emplace_back(value->key);
      ++symbol;
    }
  };
  const int first_length = static_cast<int>(measures.size());
  const bool measures_first =
      measures.empty() || lengths.empty() || measures.front() < lengths.front(); // as in the file
  if (measures_first) enter(measures, 0);
  enter(lengths, first_length);
  if (!measures_first) enter(measures, 0);
  for (auto &[name, symbol] : mended_names) // what is called so is what was meant
    names.symbols.emplace(names.mended.emplace_back(std::move(name)), symbol);

  names.cloth_width = first_length + static_cast<int>(lengths.size());
  names.values.resize(static_cast<std::size_t>(names.cloth_width) + 1);
  names.known.resize(names.values.size(), false);
}

void know(Names &names, int symbol, Affine value) {
  names.values[static_cast<std::size_t>(symbol)] = std::move(value);
  names.known[static_cast<std::size_t>(symbol)] = true;
}

void read_measures(Reading &reading, const std::vector<const Value *> &entered, Job &job) {
  for (std::size_t i = 0; i < entered.size(); ++i) {
    if (reading.faults.full()) return;
    const Value &value = *entered[i];
    const bool calculates =
        value.kind == Value::Kind::text && value.text.find_first_of("*+(") != std::string_view::npos;
    std::optional<Length> length;
    if (calculates)
      reading.fault(value, {"a measure is one quantity, not a formula", "put what is worked out into \"lengths\""});
    else
      length = to_length(reading, value, Least::at_least_0);
    if (length) know(reading.names, static_cast<int>(i), {length->mm, {}});
    job.measures.push_back({std::string(value.key), length.value_or(Length{})});
  }
}

/// Where the formulas of one named length stand; nullptr for what is left out.
struct Sources {
  const Value *is = nullptr;
  const Value *from = nullptr;
  const Value *to = nullptr;
  const Value *aim = nullptr;
  bool sound = true; ///< each formula could be read
};

std::optional<Formula> read_one(Reading &reading, const Value *value, Sources &sources) {
  if (!value) return std::nullopt;
  auto read = to_formula(reading, *value);
  sources.sound = sources.sound && read;
  return read;
}

void read_aim(Reading &reading, const Fields &fields, FreeLength &length, Sources &sources) {
  const Value *aim = fields["aim"];
  if (!aim) return;
  const std::string_view text = aim->kind == Value::Kind::text ? aim->text : std::string_view();
  if (text == "least") {
    length.aim = Extreme::least;
  } else if (text == "most") {
    length.aim = Extreme::most;
    if (!fields.meant("to")) reading.fault(*aim, {"to aim at \"most\" there must be a most", "give \"to\""});
  } else {
    sources.aim = aim;
    if (auto figure = read_one(reading, aim, sources)) length.aim = *std::move(figure);
  }
}

FreeLength read_range(Reading &reading, const Fields &fields, Sources &sources) {
  FreeLength length;
  sources.from = fields["from"];
  sources.to = fields["to"];
  length.from = read_one(reading, sources.from, sources);
  length.to = read_one(reading, sources.to, sources);
  read_aim(reading, fields, length, sources);
  return length;
}

/// `keeps`: what the entry itself says of that.
Sources read_length_entry(Reading &reading, const Value &value, NamedLength &length, std::optional<bool> &keeps) {
  Sources sources;
  length.name = value.key;
  if (value.kind != Value::Kind::object) {
    sources.is = &value;
    length.is = read_one(reading, sources.is, sources).value_or(Formula());
    return sources;
  }
  static constexpr std::string_view keys[] = {"is", "from", "to", "aim", "keep"};
  const Fields fields(reading, value, "a length", keys);
  if (const Value *keep = fields["keep"]) keeps = to_truth(reading, *keep);
  if (!fields.meant("is")) {
    length.is = read_range(reading, fields, sources);
    return sources;
  }
  sources.is = fields["is"];
  length.is = read_one(reading, sources.is, sources).value_or(Formula());
  for (const std::string_view key : {std::string_view("from"), std::string_view("to"), std::string_view("aim")})
    if (fields["is"] && fields[key]) {
      reading.fault_of_key(
          *fields[key], {"\"is\" and " + quoted(key) + " stand together", "a length is either fixed or to be found"});
      break;
    }
  sources.sound = sources.sound && sources.is;
  return sources;
}

/// A formula of a named length that could be read, and where it stands.
struct Sourced {
  const Value *source;
  const Formula *formula;
};

std::vector<Sourced> formulas_of(const NamedLength &length, const Sources &sources) {
  std::vector<Sourced> found;
  if (const Formula *fixed = length.fixed(); fixed && sources.sound) found.push_back({sources.is, fixed});
  if (const FreeLength *free = length.free()) {
    if (free->from) found.push_back({sources.from, &*free->from});
    if (free->to) found.push_back({sources.to, &*free->to});
    if (free->figure()) found.push_back({sources.aim, free->figure()});
  }
  return found;
}

/// The formula of a length that names another; the length's own value if none does.
const Value &naming(const Job &job, const std::vector<Sourced> &formulas, LengthId other, const Value &entry) {
  const int symbol = job.symbol_of(other);
  for (const auto &[source, formula] : formulas) {
    const auto symbols = symbols_of(*formula);
    if (std::find(symbols.begin(), symbols.end(), symbol) != symbols.end()) return *source;
  }
  return entry;
}

std::string chain(const Job &job, const std::vector<int> &cycle) {
  std::string text;
  for (const int length : cycle) {
    if (!text.empty()) text += " -> ";
    text += job[LengthId(length)].name;
  }
  return text;
}

void judge_range_end(Reading &reading, const Value *value, const Formula *formula, Least least) {
  if (value && formula) judge_fixed(reading, *value, *formula, least);
}

void settle_free(Reading &reading, int symbol, const FreeLength &length, const Sources &sources) {
  know(reading.names, symbol, {0, {{symbol, 1.0}}});
  judge_range_end(reading, sources.from, length.from ? &*length.from : nullptr, Least::at_least_0);
  judge_range_end(reading, sources.to, length.to ? &*length.to : nullptr, Least::at_least_0);
  judge_range_end(reading, sources.aim, length.figure(), Least::above_0);
}

void settle_fixed(Reading &reading, int symbol, const Formula &formula, const Sources &sources) {
  if (!sources.sound) return;
  auto value = come_to(reading, *sources.is, formula);
  if (!value) return;
  if (value->fixed() && !is_length(reading, *sources.is, Length{value->constant}, Least::at_least_0)) return;
  know(reading.names, symbol, *std::move(value));
}

/// Works out a length whose formulas name only what comes before it.
void settle(Reading &reading, const Job &job, LengthId length, const Sources &sources) {
  const int symbol = job.symbol_of(length);
  std::visit(words::Overloaded{
                 [&](const FreeLength &free) { settle_free(reading, symbol, free, sources); },
                 [&](const Formula &fixed) { settle_fixed(reading, symbol, fixed, sources); },
             },
             job[length].is);
}

} // namespace

void read_names(Reading &reading, const Value *measures, const Value *lengths, std::optional<Length> width, Job &job) {
  const auto measure_entries = entries(reading, measures, "measures", R"({ "wrist": "17 cm" })");
  const auto length_entries = entries(reading, lengths, "lengths", R"({ "cuff": "wrist + 5 cm" })");
  name_symbols(reading, measure_entries, length_entries);
  Names &names = reading.names;
  if (width) know(names, names.cloth_width, {width->mm, {}});
  names.find = [&names](std::string_view name) {
    if (name == "cloth_width") return names.cloth_width;
    const auto found = names.symbols.find(name);
    return found == names.symbols.end() ? -1 : found->second;
  };
  if (!names.cloth_width_left_out && names.offered.size() < most_offered) names.offered.emplace_back("cloth_width");

  read_measures(reading, measure_entries, job);
  std::vector<Sources> sources;
  job.lengths.resize(length_entries.size());
  for (std::size_t i = 0; i < length_entries.size(); ++i) {
    if (reading.faults.full()) return;
    NamedLength &length = job.lengths[i];
    std::optional<bool> keeps;
    sources.push_back(read_length_entry(reading, *length_entries[i], length, keeps));
    length.keep = keeps.value_or(length.fixed() && kept_by_default(job, *length.fixed()));
  }

  const DependencyOrder order = dependencies_of_lengths(job); // what could not be read names nothing
  for (const auto &cycle : order.cycles) {
    const auto first = static_cast<std::size_t>(cycle.front());
    reading.fault(
        naming(job, formulas_of(job.lengths[first], sources[first]), LengthId(cycle[1]), *length_entries[first]),
        {"the lengths go round in a ring: " + chain(job, cycle), "one of them must be given without the others"});
  }
  for (const int index : order.order)
    settle(reading, job, LengthId(index), sources[static_cast<std::size_t>(index)]);
}

namespace {

struct WrittenRule {
  const Value *holds = nullptr;
  const Value *name = nullptr;
};

WrittenRule open_rule(Reading &reading, const Value &value) {
  if (value.kind != Value::Kind::object) return {.holds = &value};
  static constexpr std::string_view keys[] = {"name", "holds"};
  const Fields fields(reading, value, "a rule", keys);
  return {.holds = fields.required("holds", R"(write what must hold: "holds": "2 * sleeve <= 150 cm")"),
          .name = fields["name"]};
}

void read_comparison(Reading &reading, const Value &value, Comparison &into) {
  if (value.kind != Value::Kind::text) {
    refuse_kind(reading, value, "a rule such as \"2 * sleeve <= 150 cm\"");
    return;
  }
  auto comparison = parse_comparison(value.text, reading.unit, reading.names.find, reading.names.offered);
  if (!comparison) {
    reading.fault(value, comparison.fault());
    return;
  }
  into = *std::move(comparison);
  if (come_to(reading, value, into.left)) come_to(reading, value, into.right); // only what is linear has a value
}

} // namespace

void read_rules(Reading &reading, const Value &value, Job &job) {
  if (value.kind != Value::Kind::list) {
    refuse_kind(reading, value, R"(a list of rules such as [ "2 * sleeve <= 150 cm" ])");
    return;
  }
  std::unordered_set<std::string_view> given;
  for (const Value &each : reading.document.children(value)) {
    if (reading.faults.full()) return;
    const WrittenRule written = open_rule(reading, each);
    Rule rule;
    if (written.holds) read_comparison(reading, *written.holds, rule.holds);
    if (written.holds && written.holds->kind == Value::Kind::text) rule.name = written.holds->text;
    if (written.name) {
      if (const auto name = to_name(reading, *written.name)) rule.name = *name;
      if (written.name->kind == Value::Kind::text && !given.insert(written.name->text).second)
        reading.fault(*written.name,
                      {"another rule is called " + quoted(written.name->text), "give each its own name"});
    }
    job.rules.push_back(std::move(rule));
  }
}

} // namespace gatherwright::cli
