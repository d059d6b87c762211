// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/text/change.hpp"

#include "cli/page/text/change_advice.hpp"
#include "cli/page/text/change_length.hpp"
#include "cli/page/text/change_name.hpp"
#include "cli/page/text/change_value.hpp"

namespace gatherwright::page {

namespace {

struct Doing {
  std::string_view text;
  std::string_view pointer;
  const cli::Beside &beside;

  Changed operator()(const SetValue &change) const { return with_value(text, pointer, change.json); }
  Changed operator()(const Insert &change) const { return with_inserted(text, pointer, change.json); }
  Changed operator()(const Remove &) const { return with_removed(text, pointer); }
  Changed operator()(const Move &change) const { return with_moved(text, pointer, change.place); }
  Changed operator()(const Rename &change) const { return with_name(text, pointer, change.name); }
  Changed operator()(const Slide &change) const { return with_slid(text, pointer, change.steps, beside); }
  Changed operator()(const TakeRemedy &change) const { return with_remedy(text, change.number, beside); }
  Changed operator()(const TakeSaving &change) const { return with_saving(text, change.number, beside); }
};

} // namespace

Outcome<std::string, std::vector<cli::InputFault>> changed(std::string_view text, const Change &change,
                                                           const cli::Beside &beside) {
  Changed result = std::visit(Doing{text, change.pointer, beside}, change.what);
  if (!result || *result == text) return result;
  // Only a change can have made it too long or too deep.
  const auto again = source_of(*result);
  if (!again) return again.fault();
  return result;
}

} // namespace gatherwright::page
