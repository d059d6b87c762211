// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/machine/beside.hpp"

#include "cli/machine/file_place.hpp"

#include <filesystem>

namespace gatherwright::cli {

Beside files_beside(const std::string &path, std::size_t most) {
  if (path == "-") return {};
  return [folder = std::filesystem::path(followed(path)).parent_path(),
          most](const std::string &name) -> Outcome<std::string, CannotRead> {
    const std::filesystem::path file = folder / name;
    std::error_code ignored;
    if (std::filesystem::is_symlink(std::filesystem::symlink_status(file, ignored)))
      return CannotRead{"it is a link, which is not followed"};
    return read_file_itself(file.string(), most);
  };
}

} // namespace gatherwright::cli
