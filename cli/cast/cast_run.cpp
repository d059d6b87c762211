// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cast/cast_run.hpp"

#include "cli/cast/folder.hpp"
#include "cli/cast/list_file.hpp"
#include "cli/cast/summary.hpp"
#include "cli/cast/tables.hpp"
#include "cli/cast/together.hpp"
#include "cli/drawing/svg.hpp"
#include "cli/layout/layouts.hpp"
#include "cli/machine/input_file.hpp"
#include "cli/machine/whole_file.hpp"
#include "cli/press/pdf.hpp"
#include "cli/words/names.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/plan.hpp"

#include <array>
#include <atomic>
#include <condition_variable>
#include <exception>
#include <filesystem>
#include <mutex>
#include <system_error>
#include <thread>
#include <unordered_set>
#include <vector>

// How it goes, and why so. The list is read twice. The first time everything in it is checked that can be without
// planning, so that the faults people make are told before anything is written. The second time each wearer is planned
// and its files written at once, whole, straight into the folder: that is what can be resumed, and memory holds no more
// than a few wearers. A few faults show only in planning (a fade longer than a band that had to be found). Planning
// everyone twice to see them first would double the time of every sound list, and a folder beside the asked one, moved
// into place at the end, would show nothing of a long run and leave nothing where it was asked for if that is broken
// off. So on such a fault writing stops, the rest is still planned so as to find the other faults, and in the end what
// was written is taken away again.
namespace gatherwright::cli::cast {

namespace {

constexpr int block_size = 16; ///< wearers that a thread claims at a time

/// A row with the wearer on it, as claimed for planning.
struct Claimed {
  CsvRow row;
  Wearer wearer;
};

/// What came of a block of rows.
struct Block {
  std::string cast_rows;
  std::string cut_rows;
  std::string cloth_rows;
  std::vector<WearersCloth> cloth; ///< of each wearer, where the job has pieces
  std::vector<std::string> names;  ///< likewise
  std::vector<OfWearer> told;
  std::vector<ListFault> faults;
  std::vector<std::string> written; ///< paths
  std::optional<std::string> cannot;
};

/// Plans every wearer, in blocks that threads claim in turn and hand in in order.
class Casting {
public:
  Casting(const NamedJob &job, const CastAsked &asked, const Prepared &prepared, const CheckedList &list,
          const ReadBytes &bytes, const Tell &tell)
      : named_(job), asked_(asked), prepared_(prepared), list_(list), reader_(bytes), writing_(list.faults.empty()),
        faults_(list.faults), together_(job.read.job), progress_(tell, list.wearers) {
    for (const ListFault &fault : list.faults)
      told_rows_.insert(fault.row);
  }

  /// Everything but the tables' own commit.
  void run();
  Answer end(const ListFile &list);

private:
  struct Claim {
    long long number = -1; ///< of the block; -1: there is none
    std::vector<Claimed> rows;
  };

  void work();
  std::vector<std::jthread> more_threads();
  Claim claim();
  Block plan_block(Job &job, const std::vector<Claimed> &rows);
  void plan_wearer(Job &job, const Claimed &claimed, Block &block);
  void write_files(const Job &job, const Plan &plan, const Claimed &claimed, Block &block);
  void hand_in(long long number, const Block &block);
  void open_tables();
  bool has_pieces() const { return !named_.read.job.pieces.empty(); }
  std::vector<WholeFile *> tables();
  void write_tables(const Block &block);
  void take_back();
  Outcome<std::string> layout(const std::vector<ClothPlan> &laid) const;
  std::string path_of(std::string_view name, std::string_view suffix) const;

  const NamedJob &named_;
  const CastAsked &asked_;
  const Prepared &prepared_;
  const CheckedList &list_;

  std::mutex claiming_;
  CsvReader reader_;
  long long claimed_ = 0;

  std::atomic<bool> stopped_{false};
  std::atomic<bool> writing_;

  std::mutex handing_in_;
  std::condition_variable handed_in_;
  long long next_ = 0; ///< block to be handed in
  std::vector<ListFault> faults_;
  std::unordered_set<long long> told_rows_; ///< with faults of the first reading
  std::vector<std::string> written_;
  std::optional<std::string> cannot_;
  std::exception_ptr thrown_;
  Summary summary_;
  Together together_;
  std::vector<std::string> names_; ///< of the wearers, where their layout is drawn
  long long done_ = 0;
  bool folder_is_new_ = false;
  std::optional<WholeFile> cast_table_, cut_table_;
  std::optional<WholeFile> cloth_table_; ///< where the job has pieces
  Progress progress_;
};

std::string Casting::path_of(std::string_view name, std::string_view suffix) const {
  std::string path = asked_.folder;
  if (path.back() != '/') path += '/';
  return path.append(name).append(suffix);
}

Casting::Claim Casting::claim() {
  const std::lock_guard lock(claiming_);
  Claim claim;
  if (stopped_) return claim;
  if (claimed_ == 0) {
    CsvRow header;
    reader_.next(header);
  }
  while (static_cast<int>(claim.rows.size()) < block_size) {
    Claimed next;
    if (!reader_.next(next.row)) break;
    if (told_rows_.contains(next.row.row)) continue;
    std::vector<CsvFault> faults = next.row.faults;
    next.wearer = read_wearer(next.row, list_.header, named_.read.job, faults);
    if (!faults.empty()) continue; // not told for want of room
    claim.rows.push_back(std::move(next));
  }
  if (!claim.rows.empty()) claim.number = claimed_++;
  return claim;
}

void Casting::write_files(const Job &job, const Plan &plan, const Claimed &claimed, Block &block) {
  const auto files = files_of(job, plan, claimed.wearer.name, asked_.paper);
  if (!files) {
    const Fault &fault = files.fault();
    block.cannot = "the paper of " + words::printable(claimed.wearer.name) + " cannot be made: " + fault.what +
                   (fault.instead.empty() ? "" : "; " + fault.instead);
    return;
  }
  for (const WearerFile &file : *files) {
    const std::string path = path_of(claimed.wearer.name, file.suffix);
    std::error_code unseen; // then it is written, and what keeps it from that is told
    if (asked_.resume && std::filesystem::exists(std::filesystem::symlink_status(path, unseen))) {
      const auto there = read_file_itself(path, file.bytes.size());
      if (!there) {
        block.cannot = words::printable(path) + " cannot be read: " + there.fault().why;
        return;
      }
      if (*there == file.bytes) continue;
      block.faults.push_back(
          {claimed.row.row, words::printable(asked_.list + ":" + std::to_string(claimed.row.line) + ": row " +
                                             std::to_string(claimed.row.row) + ": " + path +
                                             " is there and is not what this job and these measures give; resume with "
                                             "the job and the list of before, or cast into a new folder")});
      return;
    }
    if (const auto why = write_new_file(path, file.bytes)) {
      block.cannot = words::printable(path) + " cannot be written: " + *why;
      return;
    }
    block.written.push_back(path);
  }
}

void Casting::plan_wearer(Job &job, const Claimed &claimed, Block &block) {
  dress(job, named_.read.job, claimed.wearer);
  PlanOutcome outcome = prepared_.plan(job, settings_for(asked_.paper));
  if (!outcome) {
    for (const Refusal &refusal : outcome.fault())
      block.faults.push_back(fault_of_job(asked_.list, claimed.row, named_, refusal));
    return;
  }
  Plan &plan = *outcome;
  std::vector<Note> notes;
  for (const int measure : from_job(claimed.wearer))
    notes.emplace_back(note::TakenFromJob{MeasureId(measure)});
  plan.notes.insert(plan.notes.begin(), notes.begin(), notes.end());
  if (!writing_) return;
  write_files(job, plan, claimed, block);
  block.cast_rows += cast_rows(job, plan, claimed.wearer);
  block.cut_rows += cut_row(job, plan, claimed.wearer);
  block.told.push_back(told_of(job, plan, claimed.wearer, list_.header));
  if (!has_pieces()) return;
  block.cloth_rows += cloth_rows(job, plan, claimed.wearer);
  block.cloth.push_back(cloth_of_wearer(together_.cloths(), plan));
  block.names.push_back(claimed.wearer.name);
}

Block Casting::plan_block(Job &job, const std::vector<Claimed> &rows) {
  Block block;
  for (const Claimed &claimed : rows) {
    if (stopped_ || block.cannot) break;
    plan_wearer(job, claimed, block);
    if (!block.faults.empty()) writing_ = false;
  }
  return block;
}

/// Blocks wait here for those before them, so that the tables, the summary and the faults have the order of the list.
void Casting::hand_in(long long number, const Block &block) {
  std::unique_lock lock(handing_in_);
  handed_in_.wait(lock, [&] { return next_ == number || stopped_; });
  written_.insert(written_.end(), block.written.begin(), block.written.end());
  if (block.cannot && !cannot_) {
    cannot_ = block.cannot;
    stopped_ = true;
  }
  if (!stopped_) {
    done_ += static_cast<long long>(block.told.size());
    faults_.insert(faults_.end(), block.faults.begin(), block.faults.end());
    if (faults_.size() - list_.faults.size() >= most_faults_told) stopped_ = true;
    if (faults_.empty()) write_tables(block);
    for (const OfWearer &wearer : block.told)
      summary_.add(wearer);
    for (const WearersCloth &wearer : block.cloth)
      together_.add(wearer);
    if (asked_.layout && !together_.wearers().empty())
      names_.insert(names_.end(), block.names.begin(), block.names.end());
    progress_.done(done_);
    ++next_;
  }
  handed_in_.notify_all();
}

std::vector<WholeFile *> Casting::tables() {
  std::vector<WholeFile *> tables{&*cast_table_, &*cut_table_};
  if (cloth_table_) tables.push_back(&*cloth_table_);
  return tables;
}

void Casting::write_tables(const Block &block) {
  const std::array rows{&block.cast_rows, &block.cut_rows, &block.cloth_rows};
  const std::vector<WholeFile *> all = tables();
  for (std::size_t i = 0; i < all.size(); ++i)
    if (const auto why = all[i]->append(*rows.at(i))) {
      cannot_ = words::printable(asked_.folder) + " cannot be written to: " + *why;
      stopped_ = true;
    }
}

void Casting::work() {
  try {
    Job job = named_.read.job;
    for (Claim claimed = claim(); claimed.number >= 0; claimed = claim())
      hand_in(claimed.number, plan_block(job, claimed.rows));
  } catch (...) {
    const std::lock_guard lock(handing_in_);
    thrown_ = std::current_exception();
    stopped_ = true;
    handed_in_.notify_all();
  }
}

/// As many as are asked for beside this one, or as the system gives: those that there are do all.
std::vector<std::jthread> Casting::more_threads() {
  std::vector<std::jthread> threads;
  try {
    for (int i = 1; i < asked_.threads; ++i)
      threads.emplace_back([this] { work(); });
  } catch (const std::system_error &) { // there are no more
  }
  return threads;
}

void Casting::open_tables() {
  cast_table_.emplace(path_of(cast_table, {}));
  cut_table_.emplace(path_of(cut_table, {}));
  if (has_pieces()) cloth_table_.emplace(path_of(cloth_table, {}));
  Block headers;
  headers.cast_rows = cast_header();
  headers.cut_rows = cut_header(named_.read.job);
  headers.cloth_rows = cloth_header(named_.read.job);
  write_tables(headers);
}

void Casting::run() {
  if (writing_) {
    const Made made = make_folder(asked_.folder);
    folder_is_new_ = made.is_new;
    if (made.cannot) {
      cannot_ = words::printable(asked_.folder) + " cannot be made: " + *made.cannot;
      return;
    }
    clear_left_overs(asked_.folder);
    open_tables();
  }
  {
    const std::vector<std::jthread> others = more_threads(); // ends when they have ended
    work();
  }
  if (thrown_) std::rethrow_exception(thrown_);
}

void Casting::take_back() {
  cast_table_.reset();
  cut_table_.reset();
  cloth_table_.reset();
  std::error_code failed;
  for (const std::string &path : written_)
    std::filesystem::remove(path, failed);
  if (folder_is_new_) std::filesystem::remove(asked_.folder, failed);
}

Outcome<std::string> Casting::layout(const std::vector<ClothPlan> &laid) const {
  const paper::Document document =
      paper::layouts(named_.read.job, laid, together_.wearers(), names_, asked_.paper.size);
  if (asked_.layout->as_svg) return paper::svg_file(document);
  return paper::pdf(document);
}

Answer Casting::end(const ListFile &list) {
  if (list.cannot()) cannot_ = words::printable(asked_.list) + " cannot be read: " + *list.cannot();
  if (cannot_) return machine_fault(*cannot_);
  if (!faults_.empty()) {
    take_back();
    std::stable_sort(faults_.begin(), faults_.end(),
                     [](const ListFault &a, const ListFault &b) { return a.row < b.row; });
    std::vector<std::string> lines;
    for (const ListFault &fault : faults_)
      lines.push_back(fault.line);
    return unusable(lines);
  }
  if (done_ != list_.wearers) return machine_fault(words::printable(asked_.list) + " was altered while it was read");
  const auto laid = has_pieces() ? together_.laid() : std::nullopt;
  const std::string cloth = has_pieces() ? together_.said(laid) : "";
  Answer answer{summary_.all_within() ? Status::within_limits : Status::not_within_limits,
                summary_.text(named_.read.job, list_.header, asked_.folder, cloth),
                {}};
  std::optional<std::string> drawing;
  if (asked_.layout && laid && !laid->empty()) {
    auto made = layout(*laid);
    if (!made) return machine_fault(words::printable(asked_.layout->path) + " cannot be made: " + made.fault().what);
    drawing = *std::move(made);
  } else if (asked_.layout) {
    answer.err += "gatherwright: " + words::printable(asked_.layout->path) +
                  " is not written: " + (laid ? "nothing is laid" : "there are too many pieces to lay together") + "\n";
  }
  for (WholeFile *table : tables())
    if (const auto why = table->commit())
      return machine_fault(words::printable(asked_.folder) + " cannot be written to: " + *why);
  if (drawing)
    if (const auto why = write_whole_file(asked_.layout->path, *drawing))
      return machine_fault(words::printable(asked_.layout->path) + " cannot be written: " + *why);
  return answer;
}

std::optional<Answer> not_taken(const NamedJob &job, const CastAsked &asked, const CheckedList &list) {
  std::vector<Taken> taken = taken_by_job_and_answer(job.file);
  taken.push_back({place_of(asked.list), "this is the list itself"});
  if (asked.layout) {
    const FilePlace layout = place_of(asked.layout->path);
    if (const Taken *other = taken_at(taken, layout))
      return unusable({option_fault("--layout", other->by, "write another name")});
    taken.push_back({layout, "the layout of all goes there"});
  }
  const auto fault = look_at(asked.folder, asked.resume, list.names, taken);
  if (!fault) return std::nullopt;
  if (const auto *cannot = std::get_if<CannotTouch>(&*fault))
    return machine_fault(words::printable(asked.folder) + " cannot be read: " + cannot->why);
  const NotTaken &why = std::get<NotTaken>(*fault);
  return unusable({option_fault("--into", why.what, why.instead)});
}

Answer faults_alone(const CheckedList &list) {
  std::vector<std::string> lines;
  for (const ListFault &fault : list.faults)
    lines.push_back(fault.line);
  return unusable(lines);
}

} // namespace

Answer run_cast(const NamedJob &job, const CastAsked &asked, const Tell &tell) {
  if (const auto fault = too_long_tables(job.read.job))
    return unusable({fault_line(job.file, placed(job.read, std::array<Refusal, 1>{*fault}).front())});
  const auto prepared = Prepared::prepare(job.read.job);
  ListFile list(asked.list);
  if (list.cannot()) return machine_fault(words::printable(asked.list) + " cannot be read: " + *list.cannot());
  if (!list.regular())
    return unusable({option_fault("MEASURES", "the list is read twice, and this can be read only once",
                                  "write it to a file first")});
  const CheckedList checked = check_list(asked.list, list.from_start(), job);
  if (list.cannot()) return machine_fault(words::printable(asked.list) + " cannot be read: " + *list.cannot());
  if (checked.faults.empty())
    if (auto answer = not_taken(job, asked, checked)) return *std::move(answer);
  if (!checked.header_sound || checked.too_many || checked.faults.size() >= most_faults_told)
    return faults_alone(checked);
  const ReadBytes bytes = list.from_start();
  Casting casting(job, asked, *prepared, checked, bytes, tell);
  casting.run();
  return casting.end(list);
}

} // namespace gatherwright::cli::cast
