// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/drawing/svg.hpp"
#include "cli/report/join_words.hpp"
#include "cli/report/shown_marks.hpp"
#include "cli/sheet/sheet.hpp"
#include "tests/cli/sheet/sheet_files.hpp"
#include "tests/cli/sheet/sheet_jobs.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>
#include <string>

using namespace gatherwright;

namespace {

/// Sheets in frames as wide as a phone and as a desk, and a script that tells of each what a browser made of it: its
/// width beyond the frame's, the farthest any table goes beyond its own, lines of the highest row of lengths, rows of
/// marks, captions, pictures shown, and what was asked of the network.
std::string wrapper(const std::vector<std::string> &sheets) {
  std::string html = "<!DOCTYPE html><html><head><meta charset='utf-8'><title>frames</title></head><body>\n";
  for (const int width : {390, 1200})
    for (const std::string &sheet : sheets) {
      // The attribute's value is read as the text it stands for.
      html += "<iframe width='" + std::to_string(width) + "' height='800' srcdoc=\"";
      for (const char each : sheet)
        html += each == '&' ? "&amp;" : each == '"' ? "&quot;" : std::string(1, each);
      html += "\"></iframe>\n";
    }
  return html + R"js(<pre id="told"></pre><script>
    window.onload = () => {
      const told = [];
      for (const frame of document.querySelectorAll('iframe')) {
        const page = frame.contentDocument;
        const shown = [...page.querySelectorAll('svg')].filter(each => each.getClientRects().length > 0).length;
        const lines = row => row.getBoundingClientRect().height /
          parseFloat(frame.contentWindow.getComputedStyle(row.querySelector('td')).lineHeight);
        told.push(['sheet', page.documentElement.scrollWidth - page.documentElement.clientWidth,
          Math.max(0, ...[...page.querySelectorAll('.scroll')].map(each => each.scrollWidth - each.clientWidth)),
          Math.max(0, ...[...page.querySelectorAll('.lengths tbody tr')].map(lines)).toFixed(2),
          page.querySelectorAll('.join tbody tr').length, page.querySelectorAll('.join caption').length, shown,
          frame.contentWindow.performance.getEntriesByType('resource').length,
          page.querySelectorAll('script').length, page.compatMode === 'CSS1Compat' ? 0 : 1].join(' '));
      }
      document.getElementById('told').textContent = told.join('\n');
    };
  </script></body></html>
)js";
}

/// One of every piece that has marks, and one of every cloth: those of these jobs are short.
std::size_t pictures_of_pieces(const Plan &plan) {
  const auto marked = std::count_if(plan.pieces.begin(), plan.pieces.end(),
                                    [](const PiecePlan &piece) { return !piece.marks.empty(); });
  return static_cast<std::size_t>(marked) + plan.cloth.size();
}

} // namespace

TEST_CASE("a browser shows the sheets without an error, a request, or a scroll sideways on a phone") {
  const std::vector<sheet_jobs::Planned> jobs{sheet_jobs::smock(),
                                              sheet_jobs::planned(sheet_jobs::too_full_text),
                                              sheet_jobs::worked("36-rules-against-each-other"),
                                              sheet_jobs::worked("44-mirrored-inches"),
                                              sheet_jobs::worked("pieces/05-inches"),
                                              sheet_jobs::worked("pieces/18-wider-than-the-cloth"),
                                              sheet_jobs::worked("pieces/38-savings-in-two-cloths")};
  std::vector<std::string> sheets;
  for (const auto &[job, plan] : jobs)
    sheets.push_back(paper::sheet_html(job, plan));
  const sheet_files::Folder folder;
  const std::string page = folder.write("frames.html", wrapper(sheets));
  const std::string said = sheet_files::said_by(
      "timeout 60 chromium --headless --no-sandbox --disable-gpu --disable-quic --no-first-run "
      "--disable-background-networking --disable-component-update --disable-sync --enable-logging=stderr --v=0 "
      "--window-size=1300,900 --user-data-dir='" +
      folder.file("profile") + "' --dump-dom 'file://" + page + "' 2>'" + folder.file("log") + "'");
  std::ifstream log(folder.file("log"));
  for (std::string line; std::getline(log, line);)
    CHECK(line.find("CONSOLE") == std::string::npos);
  const std::size_t begin = said.find("<pre id=\"told\">");
  REQUIRE(begin != std::string::npos);
  std::istringstream told(said.substr(begin + 15));
  for (const int width : {390, 1200})
    for (const auto &[job, plan] : jobs) {
      std::string word;
      double lines = 10;
      std::size_t beyond = 1, tables_beyond = 1, rows = 0, captions = 0, pictures = 0, requests = 1, scripts = 1,
                  quirks = 1;
      told >> word >> beyond >> tables_beyond >> lines >> rows >> captions >> pictures >> requests >> scripts >> quirks;
      INFO(width << " px wide");
      REQUIRE(word == "sheet");
      std::size_t marks = 0;
      std::size_t tables = 0;
      for (std::size_t j = 0; j < plan.joins.size(); ++j) {
        const JoinPlan &join = plan.joins[j];
        const auto rows_of = [&](const std::vector<Mark> &of) {
          return report::shown_marks(job, job.joins[j], join, of, report::Pins::needed).rows.size();
        };
        const bool elsewhere = report::mirrored(job.joins[j], join).elsewhere;
        marks += rows_of(join.marks) + (elsewhere ? rows_of(join.marks_mirrored.value()) : 0);
        tables += elsewhere ? 2 : 1;
      }
      CHECK(beyond == 0);
      CHECK(tables_beyond == 0);
      CHECK(lines < 2); // with the air of one
      CHECK(rows == marks);
      CHECK(captions == tables);
      CHECK(pictures == 2 * plan.joins.size() + pictures_of_pieces(plan));
      CHECK(requests == 0);
      CHECK(scripts == 0);
      CHECK(quirks == 0);
    }
}
