// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/study/read_study.hpp"

#include "cli/cast/csv.hpp"
#include "cli/job/document.hpp"
#include "cli/job/fault_list.hpp"
#include "cli/machine/answer.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/names.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/bounds.hpp"
#include "gatherwright/limits.hpp"
#include "gatherwright/nearest.hpp"
#include "gatherwright/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <map>
#include <optional>

namespace gatherwright::cli::study {

namespace {

using cast::CsvRow;

constexpr int people = 3;

/// Beyond these it is no cloth but another unit: grams per square metre, millimetres of bending length, and kilograms
/// per cubic metre (wool flannel has some 200, the stuff of fibres 1540 at most).
constexpr double lightest_cloth = 10;
constexpr double heaviest_cloth = 2000;
constexpr double limpest = 2;
constexpr double stiffest = 200;
constexpr double loosest = 50;
constexpr double densest = 1540;

struct ColumnForm {
  std::string_view name;
  enum class Holds { name, length, grams } holds;
  std::string_view unit; ///< of bare numbers, where the header gives none
  bool needed;
};

using Holds = ColumnForm::Holds;
enum At : std::size_t { cloth_name, wide, long_, grams, ten_layers, overhang, cut, tight, first_judged };

constexpr std::array<ColumnForm, first_judged> plain_forms{{{"cloth", Holds::name, "", true},
                                                            {"wide", Holds::length, "cm", true},
                                                            {"long", Holds::length, "cm", true},
                                                            {"grams", Holds::grams, "", true},
                                                            {"ten layers", Holds::length, "mm", false},
                                                            {"overhang", Holds::length, "cm", false},
                                                            {"cut", Holds::length, "cm", true},
                                                            {"tight", Holds::length, "cm", false}}};

/// What each person judges, as the lengths rise.
constexpr std::array<std::string_view, 3> judged{"shortest", "best", "longest"};
constexpr std::size_t columns_known = first_judged + people * judged.size();

struct Known {
  std::string name;
  ColumnForm form;
};

/// Every column: those of the cloth and the strip, then of each person what is judged.
std::array<Known, columns_known> known_columns() {
  std::array<Known, columns_known> known;
  for (std::size_t i = 0; i < plain_forms.size(); ++i)
    known[i] = {std::string(plain_forms[i].name), plain_forms[i]};
  for (std::size_t i = first_judged; i < known.size(); ++i)
    known[i] = {
        fmt::format("{} {}", judged[(i - first_judged) % judged.size()], (i - first_judged) / judged.size() + 1),
        {"", Holds::length, "cm", false}};
  return known;
}

Outcome<double> to_grams(std::string_view text) {
  double number = 0;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), number, std::chars_format::fixed);
  if (failed != std::errc() || end != text.data() + text.size() || !(number > 0) || !std::isfinite(number))
    return Fault{quoted(text) + " is no number of grams", "write what the scale shows, such as 82.5"};
  return number;
}

Outcome<double> to_millimetres(std::string_view text, Unit unit) {
  const Outcome<Length> length = read_length(text, unit);
  if (!length) return length.fault();
  if (auto fault = fault_of_length(*length, true, unit)) return *std::move(fault);
  return length->mm;
}

/// Reads one list.
class StudyReading {
public:
  StudyReading(const std::string &file, std::string_view text)
      : file_(file), reader_([left = text](char *into, std::size_t most) mutable {
          const std::size_t got = left.copy(into, most);
          left.remove_prefix(got);
          return got;
        }) {}

  Outcome<ReadStudy, std::vector<std::string>> read();

private:
  using Figures = std::array<std::optional<double>, columns_known>; ///< grams, else millimetres

  bool full() const { return faults_.size() >= most_faults_told; }
  void tell(long long line, std::size_t column, const Fault &fault);
  void refuse(std::size_t known, std::string what, std::string instead);
  void read_header();
  void read_header_cell(std::size_t cell);
  void read_row();
  std::optional<Figures> figures();
  void read_cell(std::size_t cell, Figures &figures);
  void judge_name(std::string_view name);
  std::optional<double> weight_of(const Figures &figures);
  std::optional<Length> thickness_of(const Figures &figures, std::optional<double> weight);
  std::optional<Length> bending_length_of(const Figures &figures);
  void read_strip(const Figures &figures, cloth::StudiedCloth &cloth);
  bool rises(const Figures &figures);
  std::string called(std::size_t known) const;

  const std::string &file_;
  cast::CsvReader reader_;
  const std::array<Known, columns_known> known_ = known_columns();
  CsvRow row_;
  std::vector<std::optional<std::size_t>> means_; ///< of each column of the list, which one it is
  std::vector<std::string> headings_;
  std::vector<Unit> units_;
  std::map<std::string, long long, std::less<>> names_;
  std::vector<std::string> faults_;
  ReadStudy read_;
};

void StudyReading::tell(long long line, std::size_t column, const Fault &fault) {
  if (full()) return;
  std::string place = fmt::format("{}:{}: row {}", file_, line, row_.row);
  if (column > 0)
    place += fmt::format(", column {}", column <= headings_.size() && !headings_[column - 1].empty()
                                            ? std::string(clipped(headings_[column - 1], 80))
                                            : std::to_string(column));
  faults_.push_back(words::printable(fmt::format("{}: {}; {}", place, fault.what, fault.instead)));
}

/// A fault of what stands in a known column of the row at hand.
void StudyReading::refuse(std::size_t known, std::string what, std::string instead) {
  const auto column = std::find(means_.begin(), means_.end(), std::optional(known));
  const auto at = static_cast<std::size_t>(column - means_.begin());
  const bool there = column != means_.end() && at < row_.cells.size();
  tell(there ? row_.cells[at].line : row_.line, column == means_.end() ? 0 : at + 1,
       {std::move(what), std::move(instead)});
}

void StudyReading::read_header_cell(std::size_t cell) {
  const std::string_view text = cast::without_spaces(row_.cells[cell].text);
  const auto refuse_heading = [&](std::string what, std::string instead) {
    tell(row_.cells[cell].line, cell + 1, {std::move(what), std::move(instead)});
  };
  headings_.emplace_back(text);
  means_.emplace_back();
  units_.push_back(Unit::cm);
  std::string_view name = text;
  std::optional<std::string_view> unit;
  if (const std::size_t open = text.find('['); open != std::string_view::npos && text.back() == ']') {
    unit = cast::without_spaces(text.substr(open + 1, text.size() - open - 2));
    name = cast::without_spaces(text.substr(0, open));
  }
  const auto known = std::find_if(known_.begin(), known_.end(), [&](const Known &each) { return each.name == name; });
  if (known == known_.end()) {
    std::vector<std::string> names;
    for (const Known &each : known_)
      names.push_back(each.name);
    const auto near = nearest(name, names);
    return refuse_heading(name.empty() ? "the column has no name"
                                       : "there is no column " + quoted(name) + " in a study",
                          near ? "write " + std::string(*near) : "leave it out; docs/swatch-study.csv has them all");
  }
  const auto which = static_cast<std::size_t>(known - known_.begin());
  if (std::find(means_.begin(), means_.end(), std::optional(which)) != means_.end())
    return refuse_heading("the column " + quoted(name) + " is there twice", "leave one of them out");
  means_.back() = which;
  if (known->form.holds != Holds::length) {
    if (unit && !(known->form.holds == Holds::grams && *unit == "g"))
      refuse_heading(quoted(name) + " has no unit of length", "write " + std::string(name));
    return;
  }
  const auto read = unit_named(unit.value_or(known->form.unit));
  units_.back() = read.value_or(Unit::cm);
  if (!read) refuse_heading(quoted(*unit) + " is no unit", "write one of mm, cm, m, in, ft, yd");
}

void StudyReading::read_header() {
  if (row_.cells.size() == 1)
    return tell(row_.line, 1, {"there is one column alone", "part them by commas, semicolons or tabs"});
  for (std::size_t cell = 0; cell < row_.cells.size() && !full(); ++cell)
    if (!(cast::without_spaces(row_.cells[cell].text).empty() && cell + 1 == row_.cells.size())) read_header_cell(cell);
  for (std::size_t known = 0; known < known_.size(); ++known)
    if (known_[known].form.needed && std::find(means_.begin(), means_.end(), std::optional(known)) == means_.end())
      tell(row_.line, 0,
           {"there is no column " + quoted(known_[known].name), "add it: docs/swatch-study.csv has them all"});
}

void StudyReading::read_cell(std::size_t cell, Figures &figures) {
  const std::string text = cast::figure_in(row_, cell);
  if (text.empty() || !means_[cell] || known_[*means_[cell]].form.holds == Holds::name) return;
  const Outcome<double> read =
      known_[*means_[cell]].form.holds == Holds::grams ? to_grams(text) : to_millimetres(text, units_[cell]);
  if (read)
    figures[*means_[cell]] = *read;
  else
    tell(row_.cells[cell].line, cell + 1, read.fault());
}

/// The figures of the row at hand; nothing where some cell of it cannot be read.
std::optional<StudyReading::Figures> StudyReading::figures() {
  const std::size_t told = faults_.size();
  Figures figures;
  for (std::size_t cell = 0; cell < row_.cells.size(); ++cell) {
    if (cell < means_.size())
      read_cell(cell, figures);
    else if (!cast::without_spaces(row_.cells[cell].text).empty())
      tell(row_.cells[cell].line, cell + 1, {"the header has no such column", "give every row as many cells"});
  }
  return faults_.size() == told ? std::optional(figures) : std::nullopt;
}

void StudyReading::judge_name(std::string_view name) {
  if (name.empty()) return refuse(cloth_name, "the cloth has no name", "write one, to know it by");
  const auto [earlier, is_new] = names_.emplace(name, row_.line);
  if (!is_new)
    refuse(cloth_name, fmt::format("the cloth {} stands in line {} too", quoted(name), earlier->second),
           "give each a name of its own");
}

std::optional<double> StudyReading::weight_of(const Figures &figures) {
  bool whole = true;
  for (const std::size_t needed : {wide, long_, grams}) {
    if (figures[needed]) continue;
    refuse(needed, "it is empty", "every cloth is weighed: write its width, its length and what it weighs");
    whole = false;
  }
  if (!whole) return std::nullopt;
  // Square millimetres to square metres is 1e-6.
  const double weight = *figures[grams] / (*figures[wide] * *figures[long_] * 1e-6);
  if (weight >= lightest_cloth && weight <= heaviest_cloth) return weight;
  refuse(grams, fmt::format("with this the cloth weighs {} g/m2, which none does", words::trimmed(weight, 2)),
         "see that the three figures are of one piece, and their units");
  return std::nullopt;
}

std::optional<Length> StudyReading::thickness_of(const Figures &figures, std::optional<double> weight) {
  if (!figures[ten_layers] || !weight) return std::nullopt;
  const double thickness = *figures[ten_layers] / 10;
  const double density = *weight / thickness; // g/m2 to mm is kg/m3
  if (density >= loosest && density <= densest) return Length{thickness};
  refuse(ten_layers,
         fmt::format("with this the cloth has {} kg to the cubic metre, which none has", words::trimmed(density, 0)),
         "write the height of ten layers, and see its unit");
  return std::nullopt;
}

std::optional<Length> StudyReading::bending_length_of(const Figures &figures) {
  if (!figures[overhang]) return std::nullopt;
  const Length length{*figures[overhang] / 2};
  if (length.mm >= limpest && length.mm <= stiffest) return length;
  refuse(overhang, "no cloth overhangs so", "write how far the strip lies beyond the edge, and see its unit");
  return std::nullopt;
}

std::string StudyReading::called(std::size_t known) const {
  return quoted(known_[known].name);
}

/// Whether the lengths of the strip rise from tight to cut, for each person; tells every one that does not.
bool StudyReading::rises(const Figures &figures) {
  bool rise = true;
  const auto judge = [&](std::size_t shorter, std::size_t longer) {
    if (!figures[shorter] || !figures[longer] || *figures[shorter] <= *figures[longer]) return;
    refuse(shorter, fmt::format("it is longer than {}", called(longer)),
           "a strip's lengths rise from tight over shortest, best and longest to cut");
    rise = false;
  };
  const double longest = *figures[cut] / (1 + cloth::least_studied_extra);
  for (std::size_t first = first_judged; first < columns_known; first += judged.size()) {
    std::size_t last = tight;
    for (std::size_t known = first; known < first + judged.size(); ++known) {
      if (!figures[known]) continue;
      judge(last, known);
      last = known;
      if (*figures[known] <= longest) continue;
      refuse(known, "it is hardly shorter than the strip as it was cut",
             "write the length at which it still reads as gathers, or leave it empty");
      rise = false;
    }
  }
  judge(tight, cut);
  return rise;
}

void StudyReading::read_strip(const Figures &figures, cloth::StudiedCloth &cloth) {
  const bool gathered = std::any_of(figures.begin() + tight, figures.end(), [](const auto &each) { return each; });
  if (!gathered) return;
  if (!figures[cut]) return refuse(cut, "it is empty", "write how long the strip was before it was gathered");
  if (!rises(figures)) return;
  if (figures[tight]) cloth.tight = *figures[cut] / *figures[tight];
  const std::array<std::vector<double> *, judged.size()> into{&cloth.most, &cloth.ideal, &cloth.least};
  for (std::size_t known = first_judged; known < columns_known; ++known)
    if (figures[known]) into[(known - first_judged) % judged.size()]->push_back(*figures[cut] / *figures[known]);
}

void StudyReading::read_row() {
  std::string_view name;
  bool nothing = true;
  for (std::size_t cell = 0; cell < row_.cells.size(); ++cell) {
    const std::string_view text = cast::without_spaces(row_.cells[cell].text);
    if (cell < means_.size() && means_[cell] == cloth_name)
      name = text;
    else
      nothing = nothing && text.empty();
  }
  if (nothing && name.empty()) return; // as a spreadsheet leaves them below a list
  judge_name(name);
  if (nothing) {
    ++read_.still_empty;
    return;
  }
  const auto figures = this->figures();
  if (!figures) return;
  cloth::StudiedCloth &cloth = read_.cloths.emplace_back();
  const auto weight = weight_of(*figures);
  cloth.fabric.name = name;
  if (weight) cloth.fabric.weight = Weight{*weight};
  cloth.fabric.thickness = thickness_of(*figures, weight);
  cloth.fabric.bending_length = bending_length_of(*figures);
  read_strip(*figures, cloth);
}

Outcome<ReadStudy, std::vector<std::string>> StudyReading::read() {
  if (reader_.at_spreadsheet()) {
    row_.row = 1;
    tell(1, 0, cast::spreadsheet_fault());
    return faults_;
  }
  if (!reader_.next(row_)) {
    row_.row = 1;
    tell(1, 0, {"the list is empty", "begin with docs/swatch-study.csv"});
    return faults_;
  }
  const auto tell_all = [&] {
    for (const cast::CsvFault &fault : row_.faults)
      tell(fault.line, fault.column, fault.fault);
    return !row_.faults.empty();
  };
  if (!tell_all()) read_header();
  if (!faults_.empty()) return faults_;
  std::size_t rows = 0;
  while (!full() && reader_.next(row_)) {
    if (++rows > most_cloths) {
      tell(row_.line, 0, {fmt::format("there are more than {} cloths", most_cloths), "leave some out"});
      break;
    }
    if (!tell_all()) read_row();
  }
  if (faults_.empty() && read_.cloths.empty())
    tell(row_.line, 0, {"no cloth has any figures yet", "fill a row: docs/swatch-study.md says how"});
  if (!faults_.empty()) return faults_;
  return std::move(read_);
}

} // namespace

Outcome<ReadStudy, std::vector<std::string>> read_study(const std::string &file, std::string_view text) {
  if (text.size() > longest_text)
    return std::vector{words::printable(file) + ":1: the list is longer than 10 MB; leave some of it out"};
  return StudyReading(file, text).read();
}

} // namespace gatherwright::cli::study
