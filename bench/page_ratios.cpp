// SPDX-License-Identifier: GPL-3.0-or-later
#include "bench/page_ratios.hpp"

#include "bench/measured.hpp"
#include "cli/job/read_job.hpp"
#include "cli/page/requests.hpp"
#include "cli/report/plan_json.hpp"
#include "gatherwright/plan.hpp"

#include <nlohmann/json.hpp>

#include <optional>
#include <utility>

namespace gatherwright::bench {

namespace {

page::Request asked(const std::string &text, bool with_sheet) {
  nlohmann::json body{{"text", text}, {"held", true}};
  if (with_sheet) body["width"] = "wide";
  return {"POST", "plan", body.dump()};
}

} // namespace

void page_ratios(const std::string &text) {
  const auto read = cli::read_job(text);
  hold(static_cast<bool>(read), "the page's job does not read");
  const Job &job = read->job;
  const PlanSettings settings{.profile = true, .savings = false};
  const auto planned = [&] {
    return report::plan_json(job, *plan(job, settings), false);
  }; // no profiles are told either
  page::JobFile file(std::nullopt, nullptr);
  const page::Desk desk{file, {}};
  std::size_t bytes = 0;
  for (const auto &[name, with_sheet] :
       {std::pair("page_plan_vs_plan", false), std::pair("page_sheet_vs_plan", true)}) {
    const page::Request request = asked(text, with_sheet);
    const auto told = nlohmann::json::parse(page::answer(request, desk).body);
    hold(told.at("plan") == nlohmann::json::parse(planned()), "the page is told of another plan");
    hold(told.contains("sheet") == with_sheet, "the page is told of a sheet that it did not ask for");
    const auto [ours, base] = in_turn(
        200, [&] { bytes += page::answer(request, desk).body.size(); }, [&] { bytes += planned().size(); });
    say(name, ours / base);
  }
  hold(bytes > 0, "nothing was done");
}

} // namespace gatherwright::bench
