// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/command_line.hpp"
#include "cli/job/read_job.hpp"
#include "cli/report/json_text.hpp"

#include <array>
#include <optional>
#include <string>
#include <variant>
#include <vector>

/// Jobs put together from options: they are written as a job file would be and read by the same reader, so that one set
/// of rules holds for both.
namespace gatherwright::cli {

/// The key of a job that an option stands for: "/fabric/weight" and "--weight".
struct OptionOfKey {
  std::string_view pointer;
  std::string_view option;
};

/// What one option gives as a key of the object that is open; nothing where the option is left out.
void text_from(report::JsonText &json, const Asked &asked, std::string_view option, std::string_view key);

/// Likewise of a number; what is none is a fault.
void number_from(report::JsonText &json, const Asked &asked, std::string_view option, std::string_view key,
                 std::vector<std::string> &faults);

/// The texts between commas, without the spaces round them; at least one.
std::vector<std::string> list_from(std::string_view text);

/// "3 cm,2 cm", or one text that stands for both; anything else is a fault.
std::optional<std::array<std::string, 2>> two_from(const Asked &asked, std::string_view option,
                                                   std::vector<std::string> &faults);

/// What is known of the cloth, as the key "fabric".
void fabric_from(report::JsonText &json, const Asked &asked, std::vector<std::string> &faults);

/// The stitch, by its length or by threads counted, into the object that is open.
void stitch_from(report::JsonText &json, const Asked &asked, std::vector<std::string> &faults);

/// The name of the option or argument that wrote what a pointer leads to: the longest key that begins it.
std::string_view option_of(std::string_view pointer, std::span<const OptionOfKey> keys);

/// A fault of the job as one of the option that wrote it.
std::string fault_of_option(const InputFault &fault, std::span<const OptionOfKey> keys);

/// Reads the job put together, or says what is wrong with the options.
std::variant<ReadJob, std::vector<std::string>> read_from_options(std::string_view text,
                                                                  std::span<const OptionOfKey> keys);

/// The keys that `fabric_from`, `stitch_from` and the options of the tape, the rows and the use write.
inline constexpr std::array cloth_keys{
    OptionOfKey{"/unit", "--unit"},
    OptionOfKey{"/tape_step", "--tape-step"},
    OptionOfKey{"/fabric/weight", "--weight"},
    OptionOfKey{"/fabric/thickness", "--thickness"},
    OptionOfKey{"/fabric/bending_length", "--bending-length"},
    OptionOfKey{"/fabric/shrinks", "--shrinks"},
    OptionOfKey{"/fabric/swatch", "--swatch"},
    OptionOfKey{"/fabric/swatch/stitch", "--swatch-stitch"},
    OptionOfKey{"/gathering/stitch", "--stitch"},
    OptionOfKey{"/gathering", "--threads, --count"},
    OptionOfKey{"/gathering/threads", "--threads"},
    OptionOfKey{"/gathering/count", "--count"},
    OptionOfKey{"/gathering/rows", "--rows"},
    OptionOfKey{"/joins/0/use", "--use"},
};

} // namespace gatherwright::cli
