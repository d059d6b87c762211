// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/commands.hpp"
#include "cli/from_options.hpp"
#include "cli/job/document.hpp"
#include "cli/machine/input_file.hpp"
#include "cli/report/limits_report.hpp"
#include "cli/report/study_report.hpp"
#include "cli/study/read_study.hpp"
#include "cli/words/names.hpp"
#include "cli/words/quoted.hpp"

#include <cmath>

namespace gatherwright::cli {

namespace {

/// Rows of the table over weights are no more than about so many.
constexpr int rows_wanted = 20;

constexpr std::array limits_keys{
    OptionOfKey{"/unit", name_of<&LimitsRequest::unit>},
    OptionOfKey{"/fabric/weight", name_of<&LimitsRequest::weight>},
    OptionOfKey{"/joins/0/use", name_of<&LimitsRequest::use>},
};

/// A job of which the cloth, the stitch and the use alone matter; its join is only there since a job has one.
std::string job_text(const LimitsRequest &asked, std::vector<std::string> &faults) {
  report::JsonText json;
  json.open_object();
  text_from(json, "unit", asked.unit);
  fabric_from(json, asked.weight, asked.cloth, faults);
  json.key("gathering");
  json.open_object();
  stitch_from(json, asked.cloth, faults);
  json.close();
  json.key("joins");
  json.open_array();
  json.open_object();
  json.text_field("name", "none");
  json.text_field("long", "1 cm");
  json.text_field("band", "1 cm");
  text_from(json, "use", asked.use);
  json.close();
  json.close();
  json.close();
  return json.take();
}

/// The two ends of "60..400", as weights with their unit: grams per square metre where neither has one, and that of the
/// second where the first has none.
struct RangeText {
  std::string low;
  std::string high;
};

RangeText ends_of(const std::string &range) {
  constexpr std::string_view bare = "0123456789. ";
  const std::size_t dots = range.find("..");
  RangeText ends{range.substr(0, dots), range.substr(dots + 2)};
  const std::size_t unit = ends.high.find_first_not_of(bare);
  const std::string unit_text = unit == std::string::npos ? " g/m2" : " " + ends.high.substr(unit);
  if (unit == std::string::npos) ends.high += unit_text;
  if (ends.low.find_first_not_of(bare) == std::string::npos) ends.low += unit_text;
  return ends;
}

using Cloth = Outcome<ReadJob, std::vector<std::string>>;

Cloth read_cloth(const LimitsRequest &asked) {
  std::vector<std::string> faults;
  const std::string text = job_text(asked, faults);
  Cloth read = read_from_options(text, with_cloth_keys(limits_keys));
  if (!read) faults.insert(faults.end(), read.fault().begin(), read.fault().end());
  if (faults.empty()) return read;
  return faults;
}

Cloth read_cloth(LimitsRequest asked, const std::string &weight) {
  asked.weight = weight;
  return read_cloth(asked);
}

/// Weights at round figures from the lightest to the heaviest, these two among them.
std::vector<Weight> round_weights(Weight low, Weight high) {
  std::vector<Weight> weights{low};
  const double span = high.grams - low.grams;
  if (!(span > 0)) return weights;
  const double power = std::pow(10, std::floor(std::log10(span / rows_wanted)));
  double step = power;
  for (const double multiple : {2.0, 2.5, 5.0, 10.0})
    if (span / step > rows_wanted) step = multiple * power;
  // One more than the rows wanted is all there can be; the bound also holds where a step is lost in rounding.
  const double first = std::floor(low.grams / step) + 1;
  for (int i = 0; i <= rows_wanted; ++i) {
    const double grams = (first + i) * step;
    if (grams > low.grams && grams < high.grams) weights.push_back({grams});
  }
  weights.push_back(high);
  return weights;
}

Answer one_cloth(const LimitsRequest &asked) {
  const Cloth read = read_cloth(asked);
  if (!read) return unusable(read.fault());
  const Job &job = read->job;
  return {Status::within_limits,
          asked.json ? report::limits_json(job.joins.front(), job.unit) : report::limits_text(job.joins.front()),
          {}};
}

Answer many_weights(const LimitsRequest &asked, const RangeText &range) {
  const Cloth lightest = read_cloth(asked, range.low);
  if (!lightest) return unusable(lightest.fault());
  const Cloth heaviest = read_cloth(asked, range.high);
  if (!heaviest) return unusable(heaviest.fault());
  const Job &job = lightest->job;
  const Weight low = *job.fabric.weight;
  const Weight high = *heaviest->job.fabric.weight;
  if (low > high)
    return unusable({option_fault(name_of<&LimitsRequest::weight>, "the range ends before it begins",
                                  "write the lighter weight first")});
  const std::vector<Weight> weights = round_weights(low, high);
  return {Status::within_limits,
          asked.json ? report::weights_json(job.joins.front(), job.unit, weights)
                     : report::weights_text(job.joins.front(), weights),
          {}};
}

/// What a study does not take: its cloths are those of its file.
std::vector<std::string> beside_study(LimitsRequest asked) {
  asked.study.reset();
  asked.json = false;
  std::vector<std::string> faults;
  for (const Given &given : given_in(asked))
    faults.push_back(option_fault(given.form->name, "a study has cloths of its own", "leave it out beside --study"));
  return faults;
}

Answer study_of(const LimitsRequest &asked, const std::string &file) {
  if (const auto faults = beside_study(asked); !faults.empty()) return unusable(faults);
  const auto text = read_input(file, longest_text);
  if (!text) return machine_fault(words::printable(file) + " cannot be read: " + text.fault().why);
  const auto read = study::read_study(file, *text);
  if (!read) return unusable(read.fault());
  const auto &[cloths, still_empty] = *read;
  const cloth::StudyFit fit = cloth::fit(cloths);
  const auto report = asked.json ? report::study_json : report::study_text;
  return {Status::within_limits, report(fit, static_cast<int>(cloths.size()), still_empty), {}};
}

} // namespace

Answer answer(const LimitsRequest &asked, const Voice &) {
  if (asked.study) return study_of(asked, *asked.study);
  const bool range = asked.weight && asked.weight->find("..") != std::string::npos;
  return range ? many_weights(asked, ends_of(*asked.weight)) : one_cloth(asked);
}

} // namespace gatherwright::cli
