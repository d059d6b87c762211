// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

/// What a reader that is not ours makes of a PDF.
namespace printed {

/// A folder of its own that is gone, with all in it, when the test is over.
class Folder {
public:
  Folder();
  ~Folder();
  Folder(const Folder &) = delete;
  Folder &operator=(const Folder &) = delete;

  std::string file(const std::string &name) const { return (path_ / name).string(); }
  std::vector<std::string> names() const; ///< of all that lies in it, sorted

private:
  std::filesystem::path path_;
};

std::string contents(const std::string &file);

/// Standard output of a command line of the shell.
std::string output_of(const std::string &command);

/// One page in shades of grey, 300 dots to the inch.
struct Raster {
  int width = 0;
  int height = 0;
  std::string grey; ///< row by row, 0 black

  struct Run {
    int from = 0; ///< first dark dot
    int to = 0;   ///< last dark dot
    int length() const { return to - from + 1; }
    double middle() const { return (from + to) / 2.0; }
  };
  /// Runs of dark dots of a row, from left to right.
  std::vector<Run> dark(int row) const;
};

inline constexpr double dots_to_mm = 300 / 25.4;

/// A page of a PDF, from 1.
Raster raster(const std::string &pdf, int page);

int pages(const std::string &pdf);

} // namespace printed
