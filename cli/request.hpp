// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/row.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

/// What a command line can ask for: a struct a command, and right below it the table of what fills it. Texts are as
/// they were written, and judged by the command, which knows the unit.
namespace gatherwright::cli {

/// A command in help, beside its table.
struct CommandWords {
  std::string_view name;
  std::string_view summary;
  std::string_view example;
};

template <class Request> inline constexpr CommandWords words_of{};

/// What every command takes.
struct CommonAsked {
  bool help = false;
  bool version = false;
  std::optional<std::string> color;

  friend bool operator==(const CommonAsked &, const CommonAsked &) = default;
};

template <> inline constexpr auto rows_of<CommonAsked> =
    rows(row<&CommonAsked::help>({"--help", "", "show this"}),
         row<&CommonAsked::version>({"--version", "", "show the version"}),
         row<&CommonAsked::color>({"--color", "WHEN", "auto, always or never (auto: on a terminal, unless NO_COLOR)"}));

/// What is told of a cloth and its stitch, but for the weight.
struct ClothAsked {
  std::optional<std::string> thickness;
  std::optional<std::string> bending_length;
  bool shrinks = false;
  std::optional<std::string> swatch;
  std::optional<std::string> swatch_stitch;
  std::optional<std::string> stitch;
  std::optional<std::string> threads;
  std::optional<std::string> count;

  friend bool operator==(const ClothAsked &, const ClothAsked &) = default;
};

template <> inline constexpr auto rows_of<ClothAsked> = rows(
    row<&ClothAsked::thickness>({"--thickness", "T", R"(of the cloth, measured: "0.34 mm")"}),
    row<&ClothAsked::bending_length>({"--bending-length", "C", R"(of the cloth, measured: "2.3 cm")"}),
    row<&ClothAsked::shrinks>({"--shrinks", "", "steam shrinks the cloth, as it does wool: it takes more ease"}),
    row<&ClothAsked::swatch>(
        {"--swatch", "C,T,A,B",
         R"(a gathered test strip cut C long, T long drawn up tight, good from A to B: "30 cm,3.4 cm,10 cm,16 cm"; T, or A and B, may be left out)"}),
    row<&ClothAsked::swatch_stitch>({"--swatch-stitch", "S", "of the test strip (as --stitch)"}),
    row<&ClothAsked::stitch>({"--stitch", "S", R"(hole to hole: "4 mm"; or counted on the face: "8 / in" (4 mm))"}),
    row<&ClothAsked::threads>({"--threads", "N,M", "stitch by the cloth's threads: N taken up, M passed"}),
    row<&ClothAsked::count>({"--count", "C", R"(threads of the cloth, for --threads: "18 / cm", "40 / in")"}));

/// What a plan is answered with, and the files beside the answer.
struct OutputsAsked {
  std::optional<std::string> strips;
  std::optional<std::string> sheet;
  std::optional<std::string> paper;
  bool every_mark = false;
  bool json = false;
  bool profile = false;

  friend bool operator==(const OutputsAsked &, const OutputsAsked &) = default;
};

inline constexpr OptionForm paper_form{"--paper", "a4|letter", "what they are printed on (a4)"};
inline constexpr OptionForm json_form{"--json", "", "write JSON instead of text"};
inline constexpr OptionForm use_form{"--use", "skirt|curtain", "what the join is for (as a sleeve, a neck or a frill)"};

template <> inline constexpr auto rows_of<OutputsAsked> =
    rows(row<&OutputsAsked::strips>({"--strips", "FILE", "write marking strips at true scale: .pdf or .svg"}),
         row<&OutputsAsked::sheet>({"--sheet", "FILE", "write a worksheet to pin to the wall: .html or .pdf"}),
         row<&OutputsAsked::paper>(paper_form),
         row<&OutputsAsked::every_mark>({"--every-mark", "", "tables with every pin, of both halves too"}),
         row<&OutputsAsked::json>(json_form),
         row<&OutputsAsked::profile>({"--profile", "", "with --json: fullness at stations along every join"}));

inline constexpr std::string_view layout_says = "write the pieces on their cloth: .pdf or .svg";

struct PlanRequest {
  std::string job;
  std::optional<std::string> layout;
  OutputsAsked outputs;

  friend bool operator==(const PlanRequest &, const PlanRequest &) = default;
};

template <>
inline constexpr CommandWords words_of<PlanRequest>{"plan", "plan a job file", "gatherwright plan smock.json"};
template <> inline constexpr auto
    rows_of<PlanRequest> = rows(row<&PlanRequest::job>({"JOB", "", "the job file; - reads standard input"}),
                                row<&PlanRequest::layout>({"--layout", "FILE", layout_says}),
                                part<&PlanRequest::outputs>());

struct JoinRequest {
  std::string long_edge;
  std::string band;
  std::optional<std::string> weight;
  ClothAsked cloth;
  std::optional<std::string> rows;
  std::optional<std::string> parts;
  std::optional<std::string> apart;
  std::optional<std::string> every;
  std::optional<std::string> fade;
  std::optional<std::string> flat;
  bool closed = false;
  std::optional<std::string> unit;
  std::optional<std::string> tape_step;
  std::optional<std::string> kind;
  std::optional<std::string> use;
  std::optional<std::string> allowance;
  OutputsAsked outputs;

  friend bool operator==(const JoinRequest &, const JoinRequest &) = default;
};

template <> inline constexpr CommandWords words_of<JoinRequest>{
    "join", "plan one join without a file", R"(gatherwright join "52 cm" "22 cm" --weight "165 g/m2" --parts 4)"};
template <> inline constexpr auto rows_of<JoinRequest> = rows(
    row<&JoinRequest::long_edge>({"LONG", "", R"(the long edge: "52 cm", "24 3/4 in")"}),
    row<&JoinRequest::band>({"BAND", "", "the edge it is sewn to"}),
    row<&JoinRequest::weight>({"--weight", "W", R"(of the cloth: "165 g/m2", "4.4 oz/yd2" (150 g/m2))"}),
    part<&JoinRequest::cloth>(),
    row<&JoinRequest::rows>({"--rows", "N", "rows of gathering (2; 3 where it is gauged)"}),
    row<&JoinRequest::parts>({"--parts", "N", "marks: so many equal parts"}),
    row<&JoinRequest::apart>({"--apart", "D", "marks: no further apart than this on the band (6 cm, in halves)"}),
    row<&JoinRequest::every>({"--every", "D", "marks: at every D along the band"}),
    row<&JoinRequest::fade>({"--fade", "A,B", "let the fullness fall away over A at the start and B at the end"}),
    row<&JoinRequest::flat>({"--flat", "A,B", "leave A plain at the start of the band and B at its end"}),
    row<&JoinRequest::closed>({"--closed", "", "a ring: its end meets its start"}),
    row<&JoinRequest::unit>(
        {"--unit", "U",
         "of bare numbers and of what is printed: mm cm m in ft yd (that of LONG, or cm where it has none of these)"}),
    row<&JoinRequest::tape_step>({"--tape-step", "D", "smallest division marked on the tape (1 mm, or 1/8 in)"}),
    row<&JoinRequest::kind>({"--kind", "K", "gather, gauge, draw, ease or flat (gather)"}),
    row<&JoinRequest::use>(use_form),
    row<&JoinRequest::allowance>({"--allowance", "A",
                                  "from the cut edge to the stitching line: rows are told from both (0)"}),
    part<&JoinRequest::outputs>());

struct CastRequest {
  std::string job;
  std::string measures;
  std::optional<std::string> into;
  std::optional<std::string> threads;
  bool resume = false;
  bool strips = false;
  bool sheet = false;
  std::optional<std::string> layout;
  std::optional<std::string> paper;

  friend bool operator==(const CastRequest &, const CastRequest &) = default;
};

template <> inline constexpr CommandWords words_of<CastRequest>{
    "cast", "plan a job for every wearer of a list", "gatherwright cast smock.json chorus.csv --into chorus"};
template <> inline constexpr auto rows_of<CastRequest> = rows(
    row<&CastRequest::job>({"JOB", "", "the job file; - reads standard input"}),
    row<&CastRequest::measures>(
        {"MEASURES", "",
         "the list (CSV): a column wearer, then a column a measure of the job, as wrist or wrist [cm], and age"}),
    row<&CastRequest::into>({"--into", "DIR", "the folder for the plans and tables, new or empty"}),
    row<&CastRequest::threads>({"--threads", "N", "plan with so many threads at once (as many as the machine has)"}),
    row<&CastRequest::resume>({"--resume", "", "go on with a cast that was broken off"}),
    row<&CastRequest::strips>({"--strips", "", "write marking strips for each wearer too, as PDF"}),
    row<&CastRequest::sheet>({"--sheet", "", "write a worksheet for each wearer too, as HTML"}),
    row<&CastRequest::layout>({"--layout", "FILE", "write all their pieces laid together: .pdf or .svg"}),
    row<&CastRequest::paper>(paper_form));

struct PageRequest {
  std::optional<std::string> job;
  std::optional<std::string> port;
  std::optional<std::string> open;

  friend bool operator==(const PageRequest &, const PageRequest &) = default;
};

template <> inline constexpr CommandWords words_of<PageRequest>{"page", "a job as a page in the browser",
                                                                "gatherwright page smock.json"};
template <> inline constexpr auto rows_of<PageRequest> =
    rows(row<&PageRequest::job>({"JOB", "", "the job file, new or old; left out, there are jobs to start from"}),
         row<&PageRequest::port>({"--port", "N", "of this machine, where the page is served (one that is free)"}),
         row<&PageRequest::open>({"--open", "auto|always|never",
                                  "open it in the browser (auto: where there is a display)"}));

struct LimitsRequest {
  std::optional<std::string> weight; ///< one, or two with ".." between them
  ClothAsked cloth;
  std::optional<std::string> use;
  std::optional<std::string> study;
  std::optional<std::string> unit;
  bool json = false;

  friend bool operator==(const LimitsRequest &, const LimitsRequest &) = default;
};

template <> inline constexpr CommandWords words_of<LimitsRequest>{
    "limits", "how full a cloth can be gathered, and why",
    R"(gatherwright limits --weight "165 g/m2" --thickness "0.34 mm")"};
template <> inline constexpr auto rows_of<LimitsRequest> = rows(
    row<&LimitsRequest::weight>(
        {"--weight", "W", R"(of the cloth: "165 g/m2", "4.4 oz/yd2" (150 g/m2); 60..400 for a table over weights)"}),
    part<&LimitsRequest::cloth>(), row<&LimitsRequest::use>(use_form),
    row<&LimitsRequest::study>({"--study", "FILE",
                                "what a list of gathered test strips (CSV) would change in the table over weights"}),
    row<&LimitsRequest::unit>({"--unit", "U", "of bare numbers and of what is printed: mm cm m in ft yd (cm)"}),
    row<&LimitsRequest::json>(json_form));

struct StartRequest {
  std::optional<std::string> name;

  friend bool operator==(const StartRequest &, const StartRequest &) = default;
};

template <> inline constexpr CommandWords words_of<StartRequest>{"start", "write a commented job to start from",
                                                                 "gatherwright start cuff > cuff.json"};
template <> inline constexpr auto
    rows_of<StartRequest> = rows(row<&StartRequest::name>({"NAME", "", "which job; left out, they are listed"}));

/// Help on a command, or on the program where there is none.
struct HelpRequest {
  const CommandForm *command = nullptr;

  friend bool operator==(const HelpRequest &, const HelpRequest &) = default;
};

struct VersionRequest {
  friend bool operator==(const VersionRequest &, const VersionRequest &) = default;
};

/// Behind help and version the commands, in the order of help.
using Request = std::variant<HelpRequest, VersionRequest, PlanRequest, JoinRequest, CastRequest, PageRequest,
                             LimitsRequest, StartRequest>;

/// An option or an argument as it stands on a command line; the value of a switch is empty.
struct Given {
  const OptionForm *form; ///< of a command, or one that every command takes
  std::string value;
};

/// What is given for a command of `commands()`, as its request. `given`: every needed argument, and nothing twice.
Request request_of(const CommandForm &command, std::span<const Given> given);

/// What is given of those options that every command takes.
CommonAsked common_of(std::span<const Given> given);

/// What would have to be given for a request, in the order of its table: `request_of` makes the same of it.
std::vector<Given> given_in(const Request &request);

} // namespace gatherwright::cli
