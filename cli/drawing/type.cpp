// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/drawing/type.hpp"

#include "cli/words/columns.hpp"
#include "cli/words/printable.hpp"
#include "gatherwright/text.hpp"

#include <array>

namespace gatherwright::paper {

namespace {

/// Advance widths of U+0020 to U+007E in thousandths of the em: DejaVu
/// Sans 2.37, regular and bold.
constexpr std::array<std::array<short, 95>, 2> widths{
    {{318, 401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361,  318, 337, 636, 636, 636,
      636, 636, 636, 636, 636, 636, 636, 337, 337, 838, 838, 838, 531, 1000, 684, 686, 698, 770, 632,
      575, 775, 752, 295, 295, 656, 557, 863, 748, 787, 603, 787, 695, 635,  611, 732, 684, 989, 685,
      611, 685, 390, 337, 390, 838, 500, 500, 613, 635, 550, 635, 615, 352,  635, 634, 278, 278, 579,
      278, 974, 634, 612, 635, 635, 411, 521, 392, 634, 592, 818, 592, 592,  525, 636, 337, 636, 838},
     {348, 456,  521, 838, 696, 1002, 872, 306, 457, 457, 523, 838, 380, 415,  380, 365, 696, 696,  696,
      696, 696,  696, 696, 696, 696,  696, 400, 400, 838, 838, 838, 580, 1000, 774, 762, 734, 830,  683,
      683, 821,  837, 372, 372, 775,  637, 995, 837, 850, 733, 850, 770, 720,  682, 812, 774, 1103, 771,
      724, 725,  457, 365, 457, 838,  500, 500, 675, 716, 593, 716, 678, 435,  716, 712, 343, 343,  665,
      343, 1042, 712, 687, 716, 716,  493, 595, 478, 712, 652, 924, 645, 652,  582, 712, 365, 712,  838}}};

/// Em of a character beyond ASCII: what whole words of Greek, Cyrillic and accented Latin stay below in DejaVu Sans,
/// though not each letter by itself; a wide East Asian character is a square.
double width_beyond(std::string_view character, bool bold) {
  const int columns = report::columns(character);
  if (columns == 0) return 0;
  return columns > 1 ? 1.05 : bold ? 0.85 : 0.78;
}

double advance(std::string_view text, std::size_t at, const Character &character, bool bold) {
  if (character.code >= 0x20 && character.code <= 0x7e) return widths[bold ? 1 : 0][character.code - 0x20] / 1000.0;
  return width_beyond(text.substr(at, character.bytes), bold);
}

double em_width(std::string_view text, bool bold) {
  double width = 0;
  for (std::size_t at = 0; at < text.size();) {
    const Character character = character_at(text, at);
    width += advance(text, at, character, bold);
    at += character.bytes;
  }
  return width;
}

/// Bytes of the longest beginning that is no wider than so many ems.
std::size_t bytes_within(std::string_view text, double ems, bool bold) {
  double width = 0;
  for (std::size_t at = 0; at < text.size();) {
    const Character character = character_at(text, at);
    width += advance(text, at, character, bold);
    if (width > ems) return at;
    at += character.bytes;
  }
  return text.size();
}

std::string_view trimmed_end(std::string_view text) {
  return text.substr(0, text.find_last_not_of(' ') + 1);
}

} // namespace

double text_width(std::string_view text, double size, bool bold) {
  return size * em_width(words::printable(text), bold);
}

std::string fitted(std::string_view text, double width, double size, bool bold) {
  std::string shown = words::printable(text);
  if (size * em_width(shown, bold) <= width) return shown;
  constexpr std::string_view ellipsis = "…";
  const double left = width / size - em_width(ellipsis, bold);
  return std::string(trimmed_end(std::string_view(shown).substr(0, bytes_within(shown, left, bold)))).append(ellipsis);
}

std::vector<std::string> broken(std::string_view text, double width, double size, bool bold) {
  const std::string shown = words::printable(text);
  std::string_view rest = trimmed_end(shown);
  std::vector<std::string> lines;
  // Much wider than a line is told without measuring it to its end, so that a long text is measured once.
  const auto too_wide = [&] {
    return bytes_within(rest, 1.01 * width / size + 1, bold) < rest.size() || em_width(rest, bold) * size > width;
  };
  while (too_wide()) {
    std::size_t fits = bytes_within(rest, width / size, bold);
    // At least one character, so that this ends.
    if (fits == 0) fits = character_at(rest, 0).bytes;
    const std::size_t space = rest.rfind(' ', fits);
    const bool at_space = space != std::string_view::npos && space > 0;
    const std::size_t end = at_space ? space : fits;
    lines.emplace_back(trimmed_end(rest.substr(0, end)));
    rest.remove_prefix(end);
    rest.remove_prefix(std::min(rest.find_first_not_of(' '), rest.size()));
  }
  if (!rest.empty() || lines.empty()) lines.emplace_back(rest);
  return lines;
}

} // namespace gatherwright::paper
