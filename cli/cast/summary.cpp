// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cast/summary.hpp"

#include "cli/report/plan_text.hpp"
#include "cli/words/columns.hpp"
#include "cli/words/figures.hpp"
#include "cli/words/findings.hpp"
#include "cli/words/names.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gatherwright::cli::cast {

namespace {

using report::text_width;
using report::wrapped;
using words::printable;

std::string measures_named(const Job &job, const std::vector<int> &measures) {
  std::string names;
  for (const int measure : measures)
    names += (names.empty() ? "" : ", ") + printable(job.measures[measure].name);
  return names;
}

std::string and_more(long long all) {
  const long long named = static_cast<long long>(most_named);
  return all > named ? fmt::format("  and {} more\n", all - named) : "";
}

std::string wearers_counted(long long count) {
  return fmt::format("{} wearer{}", count, count == 1 ? "" : "s");
}

} // namespace

std::string first_reason(const Job &job, const Plan &plan) {
  if (plan.conflict) return words::conflict(job, *plan.conflict);
  return plan.findings.empty() ? "" : words::finding(job, plan.findings.front());
}

OfWearer told_of(const Job &job, const Plan &plan, const Wearer &wearer, const Header &header) {
  OfWearer told;
  const std::string name = printable(wearer.name);
  if (plan.verdict != Verdict::within_limits) {
    told.not_within = wrapped(fmt::format("{}: {}", name, words::verdict(plan.verdict)), "  ", "    ", text_width);
    if (const std::string reason = first_reason(job, plan); !reason.empty())
      told.not_within += wrapped(reason, "    ", "    ", text_width);
    if (!plan.remedies.empty())
      told.not_within += wrapped(words::remedy(job, plan.remedies.front()), "    What would do: ", "    ", text_width);
  }
  std::vector<int> filled = from_job(wearer);
  std::erase_if(
      filled, [&](int measure) { return std::binary_search(header.left_out.begin(), header.left_out.end(), measure); });
  if (!filled.empty())
    told.filled = wrapped(fmt::format("{}: {}", name, measures_named(job, filled)), "  ", "    ", text_width);
  return told;
}

void Summary::add(const OfWearer &wearer) {
  ++wearers_;
  if (!wearer.not_within.empty() && ++not_within_ <= static_cast<long long>(most_named))
    not_within_lines_ += wearer.not_within;
  if (!wearer.filled.empty() && ++filled_ <= static_cast<long long>(most_named)) filled_lines_ += wearer.filled;
}

std::string Summary::text(const Job &own, const Header &header, const std::string &folder,
                          const std::string &cloth) const {
  std::string text;
  if (not_within_ == 0)
    text += wrapped(fmt::format("{}, {} within limits.", wearers_counted(wearers_), wearers_ == 1 ? "and" : "all"), "",
                    "", text_width);
  else
    text += fmt::format("{}: {} within limits, {} not.\n\nLook at these first\n{}{}", wearers_counted(wearers_),
                        wearers_ - not_within_, not_within_, not_within_lines_, and_more(not_within_));
  if (filled_ > 0)
    text += "\nMeasures taken from the job, since their cells are empty\n" + filled_lines_ + and_more(filled_);
  if (!header.left_out.empty()) {
    std::string values;
    for (const int measure : header.left_out)
      values += fmt::format("{}{} {}", values.empty() ? "" : ", ", printable(own.measures[measure].name),
                            words::length(own.measures[measure].is.mm, own.tape()));
    text += "\nMeasures taken from the job for everyone, since they have no column\n" +
            wrapped(values, "  ", "  ", text_width);
  }
  if (!cloth.empty()) text += "\nCloth for all of them\n" + cloth;
  const std::string each_cloth =
      own.pieces.empty() ? "" : fmt::format(", each one's cloth is in {}/cloth.csv", printable(folder));
  return text + fmt::format("\nThe cutting list is {0}/cut.csv{1}; all joins are in {0}/cast.csv.\n", printable(folder),
                            each_cloth);
}

} // namespace gatherwright::cli::cast
