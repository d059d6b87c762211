// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/manual/pages.hpp"

#include "cli/manual/offer.hpp"

#include <fmt/format.h>

namespace gatherwright::cli::pages {

namespace {

/// Text as roff reads it: hyphens that are typed, backslashes and quotes as they stand, and no line that begins a
/// request. Anything but ASCII goes by its number.
std::string roff(std::string_view text) {
  std::string out = text.starts_with(".") || text.starts_with("'") ? "\\&" : "";
  for (const char c : text) {
    switch (c) {
    case '\\':
      out += "\\e";
      break;
    case '-':
      out += "\\-";
      break;
    case '\'':
      out += "\\(aq";
      break;
    case '"':
      out += "\\(dq";
      break;
    default:
      out += c;
    }
  }
  return out;
}

std::string synopsis(const CommandForm &command) {
  std::string line = fmt::format("\\fBgatherwright {}\\fR", roff(command.name));
  for (const OptionForm &argument : command.arguments)
    line += argument.needed ? fmt::format(" \\fI{}\\fR", roff(argument.name))
                            : fmt::format(" [\\fI{}\\fR]", roff(argument.name));
  return line + (command.options.empty() ? "" : " [\\fIoptions\\fR]");
}

std::string entry(const OptionForm &form) {
  std::string left = fmt::format("\\f{}{}\\fR", is_option(form) ? 'B' : 'I', roff(form.name));
  if (form.name == "--help") left = "\\fB\\-h\\fR, " + left;
  if (is_valued(form)) left += fmt::format(" \\fI{}\\fR", roff(form.value));
  return fmt::format(".TP\n{}\n{}\n", left, roff(form.help));
}

std::string section(const CommandForm &command) {
  std::string text = fmt::format(".SS {}\n{}: {}.\n", roff(command.name), synopsis(command), roff(command.summary));
  for (const OptionForm &argument : command.arguments)
    text += entry(argument);
  for (const OptionForm &option : command.options)
    text += entry(option);
  return text + fmt::format(".PP\nExample:\n.PP\n.RS\n.nf\n{}\n.fi\n.RE\n", roff(command.example));
}

constexpr std::string_view description = R"(.SH DESCRIPTION
gatherwright plans gathers and ease for hand\-made garments: how full each
stretch comes out, whether the cloth takes it, where to mark both edges, how to
run the gathering threads, and what to change if it will not do.
Lengths that are left free it chooses.
.PP
Every length is between seam lines; allowances come on top.
A length is written with its unit, as in \(dq52 cm\(dq, \(dq24 3/4 in\(dq or
\(dq1 yd 4 1/2 in\(dq, or as a number alone, which is in the job\(aqs unit.
Values are shown below with what is taken where the option is left out, in
brackets.
)";

constexpr std::string_view ending = R"(.SH EXIT STATUS
.TP
0
The plan is within limits.
.TP
1
There is a plan, but something in it is not within limits.
.TP
2
The job or the command line cannot be used.
Standard output is empty, and standard error has a line for each fault, at most 20.
.TP
3
Something could not be read or written, or memory ran out.
.SH ENVIRONMENT
.TP
.B NO_COLOR
If it is set and not empty, there are no colours unless
.B \-\-color always
asks for them.
.TP
.B TERM
If it is
.BR dumb ,
the terminal counts as none.
.SH SEE ALSO
The job file, the plan and the method are described in
.I format.md
and
.I method.md
among the documents installed with the program.
)";

} // namespace

std::string manual(std::string_view version, std::string_view date) {
  std::string text = fmt::format(".TH GATHERWRIGHT 1 {} \"gatherwright {}\" \"User Commands\"\n", date, version);
  text += ".SH NAME\ngatherwright \\- plan gathers and ease for hand\\-made garments\n.SH SYNOPSIS\n";
  for (const CommandForm &command : commands())
    text += (&command == commands().data() ? "" : ".br\n") + synopsis(command) + "\n";
  text += description;
  text += ".SH COMMANDS\n";
  for (const CommandForm &command : commands())
    text += section(command);
  text += ".SH OPTIONS\nEvery command takes:\n";
  for (const OptionForm &option : common_options())
    text += entry(option);
  return text + std::string(ending);
}

} // namespace gatherwright::cli::pages
