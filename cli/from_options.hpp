// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/read_job.hpp"
#include "cli/report/json_text.hpp"
#include "cli/request.hpp"
#include "gatherwright/outcome.hpp"

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// Jobs put together from options: they are written as a job file would be and read by the same reader, so that one set
/// of rules holds for both.
namespace gatherwright::cli {

/// The key of a job that an option stands for: "/fabric/weight" and "--weight".
struct OptionOfKey {
  std::string_view pointer;
  std::string_view option;
};

/// What an option gives as a key of the object that is open; nothing where the option is left out.
void text_from(report::JsonText &json, std::string_view key, const std::optional<std::string> &value);

/// Likewise of a number; what is none is a fault of the option.
void number_from(report::JsonText &json, std::string_view key, const std::optional<std::string> &value,
                 std::string_view option, std::vector<std::string> &faults);

/// The texts between commas, without the spaces round them; at least one.
std::vector<std::string> list_from(std::string_view text);

/// "3 cm,2 cm", or one text that stands for both; anything else is a fault of the option.
std::optional<std::array<std::string, 2>> two_from(const std::optional<std::string> &value, std::string_view option,
                                                   std::vector<std::string> &faults);

/// What is known of the cloth, as the key "fabric".
void fabric_from(report::JsonText &json, const std::optional<std::string> &weight, const ClothAsked &cloth,
                 std::vector<std::string> &faults);

/// The stitch, by its length or by threads counted, into the object that is open.
void stitch_from(report::JsonText &json, const ClothAsked &cloth, std::vector<std::string> &faults);

/// The name of the option or argument that wrote what a pointer leads to: the longest key that begins it.
std::string_view option_of(std::string_view pointer, std::span<const OptionOfKey> keys);

/// A fault of the job as one of the option that wrote it.
std::string fault_of_option(const InputFault &fault, std::span<const OptionOfKey> keys);

/// Reads the job put together, or says what is wrong with the options.
Outcome<ReadJob, std::vector<std::string>> read_from_options(std::string_view text, std::span<const OptionOfKey> keys);

/// The keys that `fabric_from` and `stitch_from` write, but for the weight.
inline constexpr std::array cloth_keys{
    OptionOfKey{"/fabric/thickness", name_of<&ClothAsked::thickness>},
    OptionOfKey{"/fabric/bending_length", name_of<&ClothAsked::bending_length>},
    OptionOfKey{"/fabric/shrinks", name_of<&ClothAsked::shrinks>},
    OptionOfKey{"/fabric/swatch", name_of<&ClothAsked::swatch>},
    OptionOfKey{"/fabric/swatch/stitch", name_of<&ClothAsked::swatch_stitch>},
    OptionOfKey{"/gathering/stitch", name_of<&ClothAsked::stitch>},
    OptionOfKey{"/gathering", "--threads, --count"},
    OptionOfKey{"/gathering/threads", name_of<&ClothAsked::threads>},
    OptionOfKey{"/gathering/count", name_of<&ClothAsked::count>},
};

/// These and the keys of a command's own.
std::vector<OptionOfKey> with_cloth_keys(std::span<const OptionOfKey> own);

} // namespace gatherwright::cli
