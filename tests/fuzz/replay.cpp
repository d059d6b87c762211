// SPDX-License-Identifier: GPL-3.0-or-later
// Runs a fuzz target over every file of the folders named, and over each cut short at every byte; then, for the seconds
// asked for, over changed ones. What fails is named by its number, by which it comes again from the same files:
//   fuzz_TARGET [--seconds N] [--dict FILE] [--number N] FOLDER...

#include "tests/fuzz/changed_inputs.hpp"

#include <algorithm>
#include <csignal>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <iterator>
#include <optional>
#include <string_view>
#include <unistd.h>

using gatherwright::fuzz::Bytes;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size);

namespace {

/// What one input may take of the processor. Sanitizers slow it down up to tenfold.
#if defined(__SANITIZE_ADDRESS__)
constexpr double seconds_allowed = 10;
#else
constexpr double seconds_allowed = 1;
#endif

/// The number of the input at hand, as text for the signal handler, which may not make any.
char number_at_hand[64];
int length_of_number = 0;

void name_number(int signal) {
  [[maybe_unused]] const auto written =
      write(STDERR_FILENO, number_at_hand, static_cast<std::size_t>(length_of_number));
  std::signal(signal, SIG_DFL);
  std::raise(signal);
}

struct Asked {
  int seconds = 0;
  std::vector<Bytes> words;
  std::optional<std::uint64_t> number;
  std::vector<std::filesystem::path> folders;
};

std::optional<Asked> read_arguments(int argc, char **argv) {
  Asked asked;
  for (int i = 1; i < argc; ++i) {
    const std::string_view word = argv[i];
    if (!word.starts_with("--")) {
      asked.folders.emplace_back(word);
      continue;
    }
    if (++i == argc) return std::nullopt;
    if (word == "--seconds")
      asked.seconds = std::atoi(argv[i]);
    else if (word == "--dict")
      asked.words = gatherwright::fuzz::read_dictionary(argv[i]);
    else if (word == "--number")
      asked.number = std::strtoull(argv[i], nullptr, 10);
    else
      return std::nullopt;
  }
  return asked;
}

std::vector<Bytes> read_seeds(const std::vector<std::filesystem::path> &folders) {
  std::vector<std::filesystem::path> paths;
  for (const auto &folder : folders)
    if (std::filesystem::exists(folder))
      for (const auto &entry : std::filesystem::recursive_directory_iterator(folder))
        if (entry.is_regular_file()) paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end()); // so that a number means the same input everywhere
  std::vector<Bytes> seeds;
  for (const auto &path : paths) {
    std::ifstream file(path, std::ios::binary);
    seeds.emplace_back(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
  }
  return seeds;
}

int replay(const std::vector<Bytes> &seeds) {
  int inputs = 0;
  for (const Bytes &seed : seeds)
    for (std::size_t size = 0; size <= seed.size(); ++size, ++inputs) {
      // A copy of its own for each, so that a sanitizer sees a read past the end.
      const Bytes cut(seed.begin(), seed.begin() + static_cast<std::ptrdiff_t>(size));
      LLVMFuzzerTestOneInput(cut.data(), cut.size());
    }
  return inputs;
}

/// False: it took too long.
bool run_changed(gatherwright::fuzz::ChangedInputs &changed, std::uint64_t number) {
  length_of_number = std::snprintf(number_at_hand, sizeof number_at_hand, "fails: --number %llu\n",
                                   static_cast<unsigned long long>(number));
  const Bytes input = changed.make(number);
  const std::clock_t start = std::clock();
  LLVMFuzzerTestOneInput(input.data(), input.size());
  const double taken = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
  length_of_number = 0;
  if (taken <= seconds_allowed) return true;
  std::printf("takes %.1f s: --number %llu\n", taken, static_cast<unsigned long long>(number));
  return false;
}

} // namespace

int main(int argc, char **argv) {
  const auto asked = read_arguments(argc, argv);
  const std::vector<Bytes> seeds = read_seeds(asked ? asked->folders : std::vector<std::filesystem::path>{});
  if (!asked || seeds.empty()) {
    std::fputs("there is nothing to run\n", stderr);
    return 2;
  }
  for (const int signal : {SIGABRT, SIGSEGV, SIGBUS, SIGFPE, SIGILL})
    std::signal(signal, name_number);
  gatherwright::fuzz::ChangedInputs changed(seeds, asked->words);
  if (asked->number) return run_changed(changed, *asked->number) ? 0 : 1;
  std::printf("%d inputs\n", replay(seeds));
  const std::time_t end = std::time(nullptr) + asked->seconds;
  std::uint64_t number = 0;
  bool quick = true;
  while (quick && std::time(nullptr) < end)
    quick = run_changed(changed, number++);
  std::printf("%llu changed inputs\n", static_cast<unsigned long long>(number));
  return quick ? 0 : 1;
}
