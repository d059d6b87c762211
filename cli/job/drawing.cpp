// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/drawing.hpp"

#include "cli/job/values.hpp"
#include "cli/tracing/trace.hpp"
#include "cli/words/quoted.hpp"

#include <fmt/format.h>

namespace gatherwright::cli {

namespace {

using tracing::DrawingFault;
using tracing::ElementsOutcome;

bool is_plain_name(std::string_view name) {
  return name != "." && name != ".." && name.find('/') == std::string_view::npos && !has_control_character(name);
}

/// Bytes of all drawings of a job.
constexpr std::size_t most_drawn = 5 * longest_text;

ElementsOutcome read(Reading &reading, const std::string &name) {
  const auto text = reading.beside(name);
  if (!text) return DrawingFault{0, {"it cannot be read: " + text.fault().why, "put the drawing beside the job"}};
  if (text->size() > longest_text)
    return DrawingFault{0,
                        {fmt::format("it is longer than {} MB", longest_text / 1'000'000),
                         "save the one line in a drawing of its own"}};
  reading.drawings_read += text->size();
  if (reading.drawings_read > most_drawn)
    return DrawingFault{0,
                        {fmt::format("with it the job's drawings are longer than {} MB", most_drawn / 1'000'000),
                         "save its lines in smaller drawings"}};
  return tracing::read_elements(*text);
}

/// What of a drawing is wrong, where the job names it.
Fault told(std::string_view name, DrawingFault fault) {
  const std::string where = fault.line > 0 ? fmt::format(", line {}", fault.line) : "";
  return {fmt::format("{}{}: {}", quoted(name), where, fault.fault.what), std::move(fault.fault.instead)};
}

/// The elements of the file; nothing where it told a fault, which it does once.
const tracing::Elements *elements_of(Reading &reading, const Value &drawing, const std::string &name) {
  const auto found = reading.drawings.find(name);
  if (found != reading.drawings.end()) return *found->second ? &**found->second : nullptr;
  const auto read_now = std::make_shared<const ElementsOutcome>(read(reading, name));
  reading.drawings.emplace(name, read_now);
  if (*read_now) return &**read_now;
  reading.fault(drawing, told(name, read_now->fault()));
  return nullptr;
}

} // namespace

std::optional<std::string> to_path_of_drawing(Reading &reading, const Fields &fields, const Value &drawing) {
  const auto name = to_name(reading, drawing);
  const Value *id_given = fields["id"];
  const auto id = id_given ? to_name(reading, *id_given) : std::nullopt;
  if (!name || (id_given && !id)) return std::nullopt;
  if (!is_plain_name(*name)) {
    reading.fault(drawing, {quoted(*name) + " is no plain name of a file",
                            "put the drawing beside the job, and write its name alone: \"cap.svg\""});
    return std::nullopt;
  }
  if (!reading.beside) {
    reading.fault(drawing, {"a drawing is read beside a job's file, and this job is in none",
                            "save the job beside the drawing first, or write \"path\" or \"points\""});
    return std::nullopt;
  }
  const tracing::Elements *elements = elements_of(reading, drawing, *name);
  if (!elements) return std::nullopt;
  if (!id) {
    if (!fields.meant("id"))
      reading.fault(fields.object(), {"\"id\" is missing, which says what line of " + quoted(*name) + " it is",
                                      tracing::ids_told(*elements, "")});
    return std::nullopt;
  }
  auto path = tracing::traced(*elements, *id);
  if (!path) {
    reading.fault(*id_given, told(*name, std::move(path).fault()));
    return std::nullopt;
  }
  reading.traced += path->size();
  if (reading.traced <= bounds::most_text) return *std::move(path);
  reading.fault(*id_given,
                {fmt::format("the lines of the job's drawings come to more than {} MB", bounds::most_text / 1'000'000),
                 "draw them with fewer points"});
  return std::nullopt;
}

} // namespace gatherwright::cli
