// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/start_jobs.hpp"
#include "tests/cli/commands/command_test.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <set>

using namespace gatherwright::cli;
using command_test::lines_of;
using command_test::run;
using command_test::Written;
using gatherwright::tests::holds;

TEST_CASE("every job to start from is commented, listed, and within limits as it is") {
  const std::string list = run({"start"}).out;
  std::set<std::string> names;
  for (const StartJob &job : start_jobs()) {
    names.insert(std::string(job.name));
    CHECK(holds(list, job.name));
    CHECK(holds(list, job.summary));
    const Answer written = run({"start", std::string(job.name)});
    CHECK(written.status == Status::within_limits);
    CHECK(written.out == job.text);
    CHECK(written.out.starts_with("//"));
    const Answer planned = run({"plan", Written(written.out).path()});
    CAPTURE(planned.err);
    CHECK(planned.status == Status::within_limits);
  }
  CHECK(names ==
        std::set<std::string>{"cuff", "collar", "sleeve-head", "frill", "set-in-sleeve", "smock", "from-stock"});
}

TEST_CASE("a job to start from that is misspelt is offered") {
  const Answer answer = run({"start", "coller"});
  CHECK(answer.status == Status::unusable);
  CHECK(answer.out.empty());
  CHECK(answer.err == "NAME: there is no job called \"coller\"; write collar\n");
}

TEST_CASE("limits are told with what they come from") {
  const Answer answer = run({"limits", "--weight", "165 g/m2"});
  CHECK(answer.status == Status::within_limits);
  CHECK(holds(answer.out, "  least           1.18 to 1  "));
  CHECK(holds(answer.out, "  ideal           2.10 to 1  "));
  CHECK(holds(answer.out, "  most            2.70 to 1  "));
  CHECK(holds(answer.out, "  drawn up tight  8.08 to 1  "));
  CHECK(holds(answer.out, "Butterick, The New Dressmaker, 1921"));
  CHECK(holds(answer.out, "ur model"));
  for (const std::string &line : lines_of(answer.out))
    CHECK(line.size() <= 80);
}

TEST_CASE("limits in JSON are those of the text") {
  const auto limits = nlohmann::json::parse(run({"limits", "--weight", "165 g/m2", "--json"}).out);
  CHECK(limits["limits"]["least"]["value"] == 1.18);
  CHECK(limits["limits"]["most"]["value"] == 2.7);
  CHECK(limits["limits"]["ease"]["value"] == 1.08);
  CHECK(limits["stitch"] == 0.4);
  for (const auto &limit : limits["limits"]) {
    CHECK_FALSE(limit["reasons"].empty());
    CHECK_FALSE(limit["standing"].get<std::string>().empty());
  }
}

TEST_CASE("every limit says whether it is published, common practice or ours") {
  const auto limits_of = [](std::vector<std::string> options) {
    options.insert(options.begin(), {"limits", "--json", "--weight", "165 g/m2"});
    return nlohmann::json::parse(run(std::move(options)).out)["limits"];
  };
  CHECK(limits_of({})["least"]["standing"] == "common practice, no source");
  CHECK(limits_of({})["packed"]["standing"] == "our model");
  const auto curtain = limits_of({"--use", "curtain"});
  CHECK(curtain["least"]["value"] == 1.5);
  CHECK(curtain["least"]["standing"] == "common practice, no source");
  CHECK(curtain["ideal"]["value"] == 2.0);
  CHECK(curtain["most"]["value"] == 3.0);
  CHECK(curtain["most"]["standing"] == "published");
  CHECK(holds(curtain["most"]["reasons"][0].get<std::string>(), "UFGS-12 22 00"));
  CHECK(holds(curtain["ideal"]["reasons"][0].get<std::string>(), "Extension Bulletin 529"));
  const auto skirt = limits_of({"--use", "skirt"});
  CHECK(skirt["most"]["value"].get<double>() == Approx(1.75 * 2.7));
  CHECK(skirt["most"]["standing"] == "our model");
  CHECK(holds(skirt["most"]["reasons"][1].get<std::string>(), "4-H Club Series L-86 and L-87"));
  const std::string text = run({"limits", "--weight", "165 g/m2", "--use", "curtain"}).out;
  CHECK(holds(text, "hole to hole,\nfor a curtain\n"));
  CHECK(holds(text, "  least           1.50 to 1  less does not read as gathers    common practice\n"));
  CHECK(holds(text, "  most            3.00 to 1  more does not sit well           published\n"));
  CHECK(holds(text, "  drawn up tight  8.08 to 1  the stitch draws up no more      ours\n"));
  for (const std::string &line : lines_of(text))
    CHECK(line.size() <= 80);
  CHECK(holds(run({"limits", "--weight", "60..400", "--use", "skirt"}).out, "most, drawn up tight: ours. "));
  CHECK(run({"limits", "--use", "shirt"}).err == "--use: \"shirt\" is not known here; write \"skirt\"\n");
}

TEST_CASE("limits say that firm cloth takes less ease where it is not known how supple the cloth is") {
  const auto told = [](std::vector<std::string> options) {
    options.insert(options.begin(), "limits");
    std::string text = run(std::move(options)).out;
    std::replace(text.begin(), text.end(), '\n', ' ');
    return holds(text, "firm cloth     takes a quarter less") || holds(text, "firm cloth takes a quarter less");
  };
  CHECK(told({}));
  CHECK(told({"--weight", "165 g/m2"}));
  CHECK_FALSE(told({"--weight", "165 g/m2", "--bending-length", "2 cm"}));
}

TEST_CASE("what is measured moves the limits and is told as the reason") {
  const auto at = [](std::vector<std::string> options) {
    options.insert(options.begin(), {"limits", "--json", "--weight", "168 g/m2"});
    return nlohmann::json::parse(run(std::move(options)).out);
  };
  CHECK(at({"--thickness", "0.2 mm"})["limits"]["most"]["value"] > at({})["limits"]["most"]["value"]);
  CHECK(at({"--stitch", "8 mm"})["limits"]["packed"]["value"].get<double>() ==
        Approx(2 * at({})["limits"]["packed"]["value"].get<double>()));
  CHECK(holds(run({"limits", "--weight", "168 g/m2", "--bending-length", "15 mm"}).out,
              "\nFlexural rigidity: 5.56 uN m (told, and used for nothing else).\n"));
  // 9.80665e-6 x 168 x 15^3
  CHECK(at({"--bending-length", "15 mm"})["flexural_rigidity"].get<double>() == Approx(5.56037).epsilon(1e-5));
}

TEST_CASE("a range of weights is a table over them, its ends among them") {
  const auto table = nlohmann::json::parse(run({"limits", "--weight", "60..400", "--json"}).out)["weights"];
  REQUIRE(table.size() > 5);
  CHECK(table.size() <= 22);
  CHECK(table.front()["weight"] == 60.0);
  CHECK(table.back()["weight"] == 400.0);
  for (std::size_t i = 1; i < table.size(); ++i) {
    CHECK(table[i - 1]["weight"] < table[i]["weight"]);
    CHECK(table[i - 1]["most"] >= table[i]["most"]);
  }
  const auto ounces = nlohmann::json::parse(run({"limits", "--weight", "2..12 oz/yd2", "--json"}).out)["weights"];
  CHECK(ounces.front()["weight"].get<double>() == Approx(2 * 33.905747).epsilon(1e-6));
  CHECK(nlohmann::json::parse(run({"limits", "--weight", "60..60", "--json"}).out)["weights"].size() == 1);
  CHECK(holds(run({"limits", "--weight", "60 g/m2..400 g/m2"}).out, "    400   1.10   1.50  1.90"));
}

TEST_CASE("faults of limits name their option") {
  for (const char *weight : {"165", "heavy", "400..60", "60..", "..", "60..oz", "60..400..500", "nan..inf"}) {
    const Answer answer = run({"limits", "--weight", weight});
    CAPTURE(weight, answer.err);
    CHECK(answer.status == Status::unusable);
    CHECK(answer.out.empty());
    CHECK(lines_of(answer.err).size() == 1);
    CHECK(answer.err.starts_with("--weight: "));
  }
  CHECK(run({"limits", "--stitch", "0", "--thickness", "x"}).err.starts_with("--thickness: "));
}
