// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/cutting.hpp"

#include "cli/words/figures.hpp"
#include "cli/words/listed.hpp"
#include "cli/words/names.hpp"
#include "cli/words/overloaded.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <optional>
#include <utility>

namespace gatherwright::words {

namespace {

using Run = Cut::Run;

/// Parts that are cut alike have the same number: by their sizes, and of what is a piece by its kind.
class Alike {
public:
  Alike(const ClothPlan &cloth, const CutParts &cut) : cloth_(cloth), cut_(cut), kinds_(cut.parts.size()) {
    // A step comes before those of its parts.
    for (std::size_t part = cut.parts.size(); part-- > 0;)
      kinds_[part] = kind(part);
  }

  std::size_t operator[](std::size_t part) const { return kinds_[part]; }

private:
  /// In hundred-thousandths of a millimetre: far below what is cut, far above what sums round by.
  static std::int64_t size(double mm) { return std::llround(std::min(mm, 1e12) * 1e5); }

  std::size_t kind(std::size_t part) {
    const LayPart &of = cut_.parts[part];
    std::vector<std::int64_t> key{size(of.width), size(of.length)};
    if (of.placement) {
      const Placement &placed = cloth_.lay[*of.placement];
      key.insert(key.end(), {-1, placed.piece.at, placed.wearer, placed.turned ? 1 : 0});
    }
    if (of.step)
      for (const std::size_t out : cut_.steps[*of.step].parts)
        key.push_back(static_cast<std::int64_t>(kinds_[out]));
    return known_.emplace(std::move(key), known_.size()).first->second;
  }

  const ClothPlan &cloth_;
  const CutParts &cut_;
  std::vector<std::size_t> kinds_;
  std::map<std::vector<std::int64_t>, std::size_t> known_;
};

/// So many steps are told in one sentence.
constexpr std::size_t most_in_a_row = 3;

class Telling {
public:
  Telling(const ClothPlan &cloth, const CutParts &cut) : cut_(cut), alike_(cloth, cut) {}

  std::vector<ToldItem> tell() && {
    if (cut_.steps.empty()) return {};
    const CutStep &first = cut_.steps.front();
    if (first.run == Run::across)
      tear_off(first);
    else
      begin({0});
    return std::move(items_);
  }

private:
  void tear_off(const CutStep &lay) {
    for (std::size_t i = 0; i < lay.parts.size();) {
      TearOff torn;
      const std::size_t first = lay.parts[i];
      for (; i < lay.parts.size() && alike_[lay.parts[i]] == alike_[first]; ++i) {
        torn.parts.push_back(lay.parts[i]);
        if (i < lay.cuts.size()) torn.cuts.push_back(lay.cuts[i]);
      }
      items_.push_back({torn});
      if (cut_.parts[first].step) go_on(torn.parts);
      divide_waiting();
    }
  }

  void begin(std::vector<std::size_t> parts) {
    items_.emplace_back();
    go_on(std::move(parts));
    divide_waiting();
  }

  /// Divides parts in the sentence at hand, and what comes out of them in the same as long as it is of one kind.
  void go_on(std::vector<std::size_t> parts) {
    while (true) {
      Divide divide;
      for (const std::size_t part : parts)
        divide.steps.push_back(*cut_.parts[part].step);
      std::vector<std::vector<std::size_t>> out = divided_out(divide);
      items_.back().emplace_back(std::move(divide));
      if (out.size() != 1 || items_.back().size() >= most_in_a_row) {
        waiting_.insert(waiting_.end(), std::make_move_iterator(out.rbegin()), std::make_move_iterator(out.rend()));
        return;
      }
      parts = std::move(out.front());
    }
  }

  void divide_waiting() {
    while (!waiting_.empty()) {
      std::vector<std::size_t> parts = std::move(waiting_.back());
      waiting_.pop_back();
      items_.emplace_back();
      go_on(std::move(parts));
    }
  }

  /// What comes out and is divided further, by kind, in the order in which it lies.
  std::vector<std::vector<std::size_t>> divided_out(const Divide &divide) const {
    std::vector<std::vector<std::size_t>> groups;
    std::map<std::size_t, std::size_t> group_of;
    for (const std::size_t step : divide.steps)
      for (const std::size_t part : cut_.steps[step].parts) {
        if (!cut_.parts[part].step) continue;
        const auto [found, fresh] = group_of.emplace(alike_[part], groups.size());
        if (fresh) groups.emplace_back();
        groups[found->second].push_back(part);
      }
    return groups;
  }

  const CutParts &cut_;
  Alike alike_;
  std::vector<ToldItem> items_;
  std::vector<std::vector<std::size_t>> waiting_; ///< to be divided, what is next last
};

/// A place on the tape without a word on how near it is.
std::string nearest_place(double mm, const Tape &tape) {
  std::string read = place(mm, tape);
  return read.front() == '~' ? read.substr(1) : read;
}

/// What is called alike, counted, in the order in which it first comes.
struct Named {
  std::string name;
  std::string more; ///< that stands behind it; may be empty

  friend auto operator<=>(const Named &, const Named &) = default;
};
struct Counted {
  std::vector<std::pair<Named, std::size_t>> each;
  std::map<Named, std::size_t> at;

  void add(Named thing) {
    const auto [found, fresh] = at.emplace(thing, each.size());
    if (fresh) each.emplace_back(std::move(thing), 0);
    ++each[found->second].second;
  }
};

class Words {
public:
  Words(const LaidCloth &laid, const CutParts &cut) : laid_(laid), tape_(laid.job.tape()), cut_(cut) {
    for (const LayPart &part : cut.parts)
      if (part.step) ++of_size_[size(part)];
  }

  std::string item(const ToldItem &steps) {
    std::string text;
    told_.clear();
    for (const ToldStep &step : steps) {
      if (!text.empty()) text += "; ";
      text += std::visit([this](const auto &is) { return said(is); }, step);
    }
    text += '.';
    if (text.front() >= 'a' && text.front() <= 'z') text.front() = static_cast<char>(text.front() - 'a' + 'A');
    return text;
  }

private:
  std::string size(const LayPart &part) const {
    return fmt::format("{} x {}", nearest_place(part.width, tape_), nearest_length(part.length, tape_));
  }

  std::string said(const TearOff &torn) {
    const LayPart &part = cut_.parts[torn.parts.front()];
    const std::size_t count = torn.parts.size();
    const std::string length = words::length(part.length, tape_);
    std::string text;
    if (torn.cuts.empty())
      text = fmt::format("what is left is {} long", length);
    else if (torn.cuts.size() < count)
      text = fmt::format("tear the rest into {} lengths of {}{}", count, length, numbers(torn.cuts));
    else if (count == 1)
      text = fmt::format("tear off {} across the whole width{}", length, numbers(torn.cuts));
    else
      text = fmt::format("tear off {} {} times across the whole width{}", length, count, numbers(torn.cuts));
    told_ = torn.parts;
    if (part.step) return text;
    return text + ": " + outcome(torn.parts);
  }

  std::string said(const Divide &divide) {
    const CutStep &step = cut_.steps[divide.steps.front()];
    std::vector<std::size_t> parts;
    std::vector<std::size_t> cuts;
    std::vector<std::size_t> out;
    for (const std::size_t each : divide.steps) {
      const CutStep &one = cut_.steps[each];
      parts.push_back(one.part);
      cuts.insert(cuts.end(), one.cuts.begin(), one.cuts.end());
      out.insert(out.end(), one.parts.begin(), one.parts.end());
    }
    const std::string text =
        fmt::format("cut {} {} {}{}: {}", subject(parts), step.run == Run::across ? "across" : "along", places(step),
                    numbers(cuts), outcome(out));
    told_ = out;
    return text;
  }

  /// "it", "that part", "each of the 3 parts of 24 x 44 cm": what the sentence has told of is not named again.
  std::string subject(const std::vector<std::size_t> &parts) const {
    if (parts.front() == 0) return "the whole length";
    if (!told_.empty()) {
      const bool only =
          std::all_of(told_.begin(), told_.end(), [this](std::size_t part) { return cut_.parts[part].step; });
      if (only) return parts.size() == 1 ? "it" : "each";
      return parts.size() == 1 ? "that part" : "each of those parts";
    }
    const std::string of = size(cut_.parts[parts.front()]);
    const bool all = of_size_.at(of) == parts.size();
    if (parts.size() == 1) return fmt::format("{} part of {}", all ? "the" : "one", of);
    return fmt::format("each of {}{} parts of {}", all ? "the " : "", parts.size(), of);
  }

  /// "at 54 and 108 cm"; of many, how wide they are from one end: "into 12 of 4 cm".
  std::string places(const CutStep &step) const {
    constexpr std::size_t most_places = 6;
    const LayPart &part = cut_.parts[step.part];
    const bool across = step.run == Run::across;
    if (step.cuts.size() <= most_places) {
      std::vector<std::string> at;
      for (std::size_t i = 0; i < step.cuts.size(); ++i) {
        const double mm = laid_.cloth.cuts[step.cuts[i]].at - (across ? part.along : part.across);
        at.push_back(i + 1 == step.cuts.size() ? words::length(mm, tape_) : words::place(mm, tape_));
      }
      return "at " + listed(at);
    }
    std::vector<std::string> runs;
    for (std::size_t i = 0; i < step.parts.size();) {
      const auto size = [&](std::size_t n) {
        const LayPart &out = cut_.parts[step.parts[n]];
        return words::length(across ? out.length : out.width, tape_);
      };
      const std::string first = size(i);
      std::size_t count = 0;
      for (; i < step.parts.size() && size(i) == first; ++i)
        ++count;
      runs.push_back(fmt::format("{} of {}", count, first));
    }
    return "into " + listed(runs);
  }

  /// " (cuts 2 and 3)", by their numbers in the picture.
  static std::string numbers(std::vector<std::size_t> cuts) {
    if (cuts.empty()) return "";
    constexpr std::size_t most_runs = 6;
    std::sort(cuts.begin(), cuts.end());
    std::vector<std::string> runs;
    for (std::size_t i = 0; i < cuts.size();) {
      const std::size_t first = i;
      while (i + 1 < cuts.size() && cuts[i + 1] == cuts[i] + 1)
        ++i;
      if (i == first + 1) i = first; // two in a row are named one by one
      runs.push_back(i == first ? std::to_string(cuts[i] + 1) : fmt::format("{} to {}", cuts[first] + 1, cuts[i] + 1));
      ++i;
      if (runs.size() == most_runs && i < cuts.size()) {
        runs.push_back(fmt::format("{} more", cuts.size() - i));
        break;
      }
    }
    return fmt::format(" ({} {})", cuts.size() == 1 ? "cut" : "cuts", listed(runs));
  }

  /// "2 sleeves and 3 parts of 24 x 44 cm (40 x 58.5 cm left over)"
  std::string outcome(const std::vector<std::size_t> &parts) const {
    Counted pieces;
    Counted to_divide;
    Counted scraps;
    for (const std::size_t part : parts) {
      const LayPart &of = cut_.parts[part];
      if (of.placement)
        pieces.add(piece_said(laid_.cloth.lay[*of.placement]));
      else
        (of.step ? to_divide : scraps).add({size(of), ""});
    }
    std::vector<std::string> all;
    for (const auto &[piece, count] : pieces.each)
      all.push_back(so_many(count, piece.name) + piece.more);
    for (const auto &[of, count] : to_divide.each)
      all.push_back(count == 1 ? "a part of " + of.name : fmt::format("{} parts of {}", count, of.name));
    std::vector<std::string> left;
    for (const auto &[of, count] : scraps.each)
      left.push_back(count == 1 ? of.name : fmt::format("{} times {}", count, of.name));
    if (left.empty()) return listed(all);
    const std::string left_over = listed(left) + " left over";
    return all.empty() ? left_over : fmt::format("{} ({})", listed(all), left_over);
  }

  Named piece_said(const Placement &placed) const {
    std::vector<std::string> more;
    if (placed.turned) more.emplace_back("turned");
    if (!laid_.wearers.empty()) more.push_back(printable(laid_.wearers[placed.wearer]));
    return {piece_called(laid_, placed), more.empty() ? "" : fmt::format(" ({})", fmt::join(more, ", "))};
  }

  const LaidCloth &laid_;
  Tape tape_;
  const CutParts &cut_;
  std::map<std::string, std::size_t> of_size_; ///< parts that are divided
  std::vector<std::size_t> told_;              ///< parts that the sentence has just told of
};

std::string percent(double share) {
  return trimmed(100 * share, 2) + " %";
}

/// "Wash it first: it is counted to shrink 5 % along, 2 % across."
std::optional<std::string> wash(const Shrinkage &shrinkage) {
  std::vector<std::string> ways;
  if (shrinkage.along > 0) ways.push_back(percent(shrinkage.along) + " along");
  if (shrinkage.across > 0) ways.push_back(percent(shrinkage.across) + " across");
  if (ways.empty()) return std::nullopt;
  return fmt::format("Wash it first: it is counted to shrink {}.", fmt::join(ways, ", "));
}

/// What is done before the first cut that a layout lists.
std::string straighten(const LaidCloth &laid) {
  const double selvedge = laid.cloth.cloth.selvedge.mm;
  if (!(selvedge > 0)) return "Straighten one end on a thread.";
  return fmt::format("Straighten one end on a thread and take off the selvedges, {} at each side.",
                     words::fine_length(selvedge, laid.job.tape()));
}

} // namespace

std::string piece_called(const LaidCloth &laid, const Placement &placed) {
  return where(laid.job, placed.piece);
}

std::string cut_size(const LaidCloth &laid, const Placement &placed) {
  const WearersPieces::Size &size = laid.pieces[placed.wearer].sizes.at(placed.piece.at);
  const Tape tape = laid.job.tape();
  return fmt::format("{} x {}", nearest_place(size.across, tape), nearest_place(size.along, tape));
}

std::vector<ToldItem> told_cutting(const ClothPlan &cloth, const CutParts &parts) {
  return Telling(cloth, parts).tell();
}

std::vector<std::string> cutting_said(const LaidCloth &laid, std::size_t most) {
  std::vector<std::string> said;
  if (auto first = wash(laid.cloth.cloth.shrinkage)) said.push_back(std::move(*first));
  said.push_back(straighten(laid));
  const CutParts parts = cut_parts(laid.cloth);
  if (parts.steps.empty()) {
    said.push_back(fmt::format("That is the {}, whole.", piece_called(laid, laid.cloth.lay.front())));
    return said;
  }
  Words words(laid, parts);
  for (const ToldItem &item : told_cutting(laid.cloth, parts)) {
    if (said.size() == most) {
      said.push_back(
          fmt::format("And so on: all {} cuts are numbered in the picture, in their order.", laid.cloth.cuts.size()));
      break;
    }
    said.push_back(words.item(item));
  }
  return said;
}

} // namespace gatherwright::words
