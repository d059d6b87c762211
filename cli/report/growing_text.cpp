// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/growing_text.hpp"

#include <algorithm>

namespace gatherwright::report {

void GrowingText::append(std::string_view text) {
  end_at(std::copy(text.begin(), text.end(), room(text.size())));
}

void GrowingText::grow(std::size_t bytes) {
  // What is not written yet is not touched, so room that is not used costs no memory.
  constexpr std::size_t first = 65536;
  const std::size_t wanted = std::max({first, 2 * capacity_, size_ + bytes});
  auto larger = std::make_unique_for_overwrite<char[]>(wanted);
  std::copy_n(bytes_.get(), size_, larger.get());
  bytes_ = std::move(larger);
  capacity_ = wanted;
}

} // namespace gatherwright::report
