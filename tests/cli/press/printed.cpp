// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/press/printed.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdio>
#include <fstream>
#include <iterator>

#include <unistd.h>

namespace printed {

Folder::Folder() {
  static int count = 0;
  path_ = std::filesystem::temp_directory_path() /
          ("gatherwright-paper-" + std::to_string(getpid()) + "-" + std::to_string(++count));
  std::filesystem::create_directory(path_);
}

Folder::~Folder() {
  std::filesystem::remove_all(path_);
}

std::vector<std::string> Folder::names() const {
  std::vector<std::string> found;
  for (const auto &entry : std::filesystem::directory_iterator(path_))
    found.push_back(entry.path().filename().string());
  std::sort(found.begin(), found.end());
  return found;
}

std::string contents(const std::string &file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

std::string output_of(const std::string &command) {
  std::string text;
  FILE *const pipe = popen((command + " 2>/dev/null").c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::array<char, 65536> block{};
  for (std::size_t got = 0; (got = fread(block.data(), 1, block.size(), pipe)) > 0;)
    text.append(block.data(), got);
  REQUIRE(pclose(pipe) == 0);
  return text;
}

std::vector<Raster::Run> Raster::dark(int row) const {
  std::vector<Run> runs;
  bool before = false;
  for (int x = 0; x < width; ++x) {
    const bool now = static_cast<unsigned char>(grey[static_cast<std::size_t>(row) * width + x]) < 128;
    if (now && !before) runs.push_back({x, x});
    if (now) runs.back().to = x;
    before = now;
  }
  return runs;
}

Raster raster(const std::string &pdf, int page) {
  const std::string number = std::to_string(page);
  const std::string pgm = output_of("pdftoppm -r 300 -gray -f " + number + " -l " + number + " " + pdf);
  Raster made;
  std::size_t at = 0;
  const auto word = [&] {
    const std::size_t start = pgm.find_first_not_of(" \n", at);
    at = pgm.find_first_of(" \n", start);
    return pgm.substr(start, at - start);
  };
  const auto figure = [&] {
    const std::string text = word();
    int value = 0;
    std::from_chars(text.data(), text.data() + text.size(), value);
    return value;
  };
  REQUIRE(word() == "P5");
  made.width = figure();
  made.height = figure();
  REQUIRE(figure() == 255);
  made.grey = pgm.substr(at + 1);
  REQUIRE(made.grey.size() == static_cast<std::size_t>(made.width) * made.height);
  return made;
}

int pages(const std::string &pdf) {
  const std::string info = output_of("pdfinfo " + pdf);
  const std::size_t at = info.find_first_of("0123456789", info.find("Pages:"));
  int count = 0;
  std::from_chars(info.data() + at, info.data() + info.size(), count);
  return count;
}

} // namespace printed
