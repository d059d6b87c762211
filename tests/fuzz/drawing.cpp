// SPDX-License-Identifier: GPL-3.0-or-later
// Any bytes as a drawing: each of its lines is path data that can be read, or a fault that can be told; so is the line
// of an id that it has not.
#include "cli/tracing/trace.hpp"
#include "solver/edge/path.hpp"

#include <cstdint>
#include <cstdlib>

using namespace gatherwright;

namespace {

void demand(bool holds) {
  if (!holds) std::abort();
}

void check(const tracing::DrawingFault &fault) {
  demand(fault.line >= 0 && !fault.fault.what.empty());
}

void check_line(const tracing::Elements &elements, std::string_view id) {
  const auto path = tracing::traced(elements, id);
  if (!path) return check(path.fault());
  demand(static_cast<bool>(edge::read_path(*path)));
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
  const auto read = tracing::read_elements({reinterpret_cast<const char *>(data), size});
  if (!read) {
    check(read.fault());
    return 0;
  }
  demand(!read->empty());
  for (std::size_t i = 0; i < read->size(); ++i)
    demand(i == 0 ? !(*read)[i].parent : (*read)[i].parent && *(*read)[i].parent < i);
  check_line(*read, "none");
  int lines = 0;
  for (const tracing::Element &element : *read)
    if (const std::string *id = element.attribute("id"); id && ++lines <= 20) check_line(*read, *id);
  return 0;
}
