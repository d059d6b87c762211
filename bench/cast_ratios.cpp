// SPDX-License-Identifier: GPL-3.0-or-later
#include "bench/cast_ratios.hpp"

#include "bench/measured.hpp"
#include "bench/process.hpp"

#include "cli/job/read_job.hpp"
#include "cli/report/plan_json.hpp"
#include "gatherwright/plan.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <variant>
#include <vector>

#include <fcntl.h>
#include <unistd.h>

namespace gatherwright::bench {

namespace {

namespace fs = std::filesystem;

constexpr int wearers = 10000;
constexpr int rounds = 5;
constexpr int rounds_on_disk = 6;

/// Measures in millimetres, apart by a millimetre, as a tape gives them.
int neck(int wearer) {
  return 395 + wearer * 7 % 20;
}
int wrist(int wearer) {
  return 175 + wearer * 11 % 20;
}

struct Folder {
  fs::path path;
  explicit Folder(const fs::path &in) : path(in / ("gatherwright-ratios-" + std::to_string(getpid()))) {
    fs::create_directories(path);
  }
  ~Folder() {
    std::error_code failed;
    fs::remove_all(path, failed);
  }
  Folder(const Folder &) = delete;
  Folder &operator=(const Folder &) = delete;
};

struct Bytes {
  std::string name;
  std::string bytes;
};

std::vector<Bytes> all_of(const fs::path &folder) {
  std::vector<Bytes> files;
  for (const auto &entry : fs::directory_iterator(folder)) {
    std::ifstream file(entry.path(), std::ios::binary);
    files.push_back({entry.path().filename().string(), {std::istreambuf_iterator<char>(file), {}}});
  }
  return files;
}

/// The peer: each file written under another name and renamed.
void write_and_rename(const fs::path &folder, const std::vector<Bytes> &files) {
  fs::create_directory(folder);
  for (const Bytes &each : files) {
    const std::string name = (folder / each.name).string();
    const std::string part = name + ".part";
    const int file = open(part.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    hold(file >= 0, "no file can be made");
    hold(write(file, each.bytes.data(), each.bytes.size()) == static_cast<ssize_t>(each.bytes.size()),
         "a file cannot be written");
    close(file);
    hold(rename(part.c_str(), name.c_str()) == 0, "a file cannot be renamed");
  }
}

double dump_ratio(const std::string &text) {
  Job job = (*cli::read_job(text)).job;
  const auto prepared = *Prepared::prepare(job);
  const auto measure = [&](const char *name) -> Length & {
    return std::find_if(job.measures.begin(), job.measures.end(), [&](const Measure &m) { return m.name == name; })->is;
  };
  Length &neck_of = measure("neck");
  Length &wrist_of = measure("wrist");
  std::vector<nlohmann::ordered_json> trees;
  constexpr int people = 200;
  const auto dress = [&](int i) {
    neck_of.mm = neck(i);
    wrist_of.mm = wrist(i);
  };
  for (int i = 0; i < people; ++i) {
    dress(i);
    const PlanOutcome outcome = prepared.plan(job);
    hold(outcome->verdict == Verdict::within_limits, "someone is not within limits");
    trees.push_back(nlohmann::ordered_json::parse(report::plan_json(job, *outcome)));
  }
  double ours = HUGE_VAL;
  double dumped = HUGE_VAL;
  std::size_t done = 0;
  for (int i = 0; i < 10; ++i) {
    ours = std::min(ours, once([&] {
                      for (int p = 0; p < people; ++p) {
                        dress(p);
                        done += static_cast<bool>(prepared.plan(job));
                      }
                    }));
    dumped = std::min(dumped, once([&] {
                        for (const auto &tree : trees)
                          done += tree.dump().size();
                      }));
  }
  hold(done > 0, "nothing was done");
  return ours / dumped;
}

} // namespace

CastRatios cast_ratios(const std::string &job, const std::string &text, const std::string &program) {
  CastRatios ratios;
  ratios.dump = dump_ratio(text);
  const Folder folder(fs::temp_directory_path());
  const Folder memory(fs::is_directory("/dev/shm") ? "/dev/shm" : fs::temp_directory_path());
  const std::string list = (folder.path / "list.csv").string();
  {
    std::ofstream file(list, std::ios::binary);
    file << "wearer,neck [mm],wrist [mm]\n";
    for (int i = 0; i < wearers; ++i)
      file << "porter " + std::to_string(i) + "," + std::to_string(neck(i)) + "," + std::to_string(wrist(i)) + "\n";
  }
  const auto cast = [&](const fs::path &out, const std::vector<std::string> &options) {
    fs::remove_all(out);
    std::vector<std::string> words{program, "cast", job, list, "--into", out.string()};
    words.insert(words.end(), options.begin(), options.end());
    return process(words);
  };
  // The disk takes from half to three times its usual time as it likes, so the smallest of a few rounds would set one
  // side's luck against the other's: here the sums of rounds in turn are compared.
  const fs::path out = folder.path / "out";
  cast(out, {});
  const std::vector<Bytes> files = all_of(out);
  hold(files.size() == wearers + 2, "a plan is missing");
  double whole = 0.0;
  double written = 0.0;
  for (int i = 0; i < rounds_on_disk; ++i) {
    whole += cast(out, {});
    fs::remove_all(out);
    written += once([&] { write_and_rename(out, files); });
  }
  ratios.write = whole / written;
  const fs::path in_memory = memory.path / "out";
  double one = HUGE_VAL;
  double two = HUGE_VAL;
  for (int i = 0; i < rounds; ++i) {
    one = std::min(one, cast(in_memory, {"--threads", "1"}));
    two = std::min(two, cast(in_memory, {"--threads", "2"}));
  }
  ratios.threads = two / one;
  return ratios;
}

} // namespace gatherwright::bench
