// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/pieces_json.hpp"

#include "cli/report/in_unit.hpp"
#include "cli/words/amounts.hpp"
#include "cli/words/cloths.hpp"
#include "cli/words/findings.hpp"
#include "cli/words/names.hpp"

#include <string_view>
#include <vector>

namespace gatherwright::report {

namespace {

using Lay = JsonText::Lay;

class PiecesJson {
public:
  PiecesJson(JsonText &json, const Job &job, const Plan &plan, const Job &told)
      : json_(json), job_(job), plan_(plan), told_(told) {}

  void pieces();
  void cloths();
  void savings();

private:
  void length_field(const Key &name, double mm) { json_.number_field(name, in_unit(mm, job_.unit)); }
  void piece(const Piece &asked, const PiecePlan &planned);
  void on_tape(const Key &name, double exact, double tape);
  void marks(const Key &name, const std::vector<PieceMark> &marks);
  void cloth(const ClothPlan &cloth);
  void lay(const std::vector<Placement> &lay);
  void cuts(const std::vector<Cut> &cuts);

  JsonText &json_;
  const Job &job_;
  const Plan &plan_;
  const Job &told_; ///< for sentences
};

void PiecesJson::pieces() {
  json_.key("pieces");
  json_.open_array();
  for (std::size_t i = 0; i < plan_.pieces.size(); ++i)
    piece(job_.pieces.at(i), plan_.pieces[i]);
  json_.close();
}

void PiecesJson::piece(const Piece &asked, const PiecePlan &planned) {
  json_.open_object();
  json_.text_field("name", asked.name);
  json_.integer_field("cut", asked.cut);
  length_field("across", planned.across);
  length_field("along", planned.along);
  on_tape("cut_across", planned.cut_across.exact, planned.cut_across.tape);
  on_tape("cut_along", planned.cut_along.exact, planned.cut_along.tape);
  marks("marks", planned.marks);
  if (planned.marks_mirrored) marks("marks_mirrored", *planned.marks_mirrored);
  json_.close();
}

void PiecesJson::on_tape(const Key &name, double exact, double tape) {
  json_.key(name);
  json_.open_object(Lay::one_line);
  length_field("exact", exact);
  length_field("tape", tape);
  json_.text_field("text", reading(Length{tape}, job_.tape()));
  json_.close();
}

void PiecesJson::marks(const Key &name, const std::vector<PieceMark> &marks) {
  json_.key(name);
  json_.open_array();
  for (const PieceMark &mark : marks) {
    const Join &join = job_[mark.edge.join];
    const Mark &of_join = plan_.joins.at(static_cast<std::size_t>(mark.edge.join.at)).marks.at(mark.mark);
    json_.open_object(Lay::one_line);
    json_.text_field("side", words::side_called(mark.side));
    json_.text_field("join", join.name);
    json_.text_field("edge", words::edge_key(mark.edge.edge));
    json_.integer_field("n", mark.mark);
    if (of_join.reference) json_.text_field("name", words::mark_called(join, of_join));
    on_tape("at", mark.exact, mark.tape);
    json_.close();
  }
  json_.close();
}

void PiecesJson::cloths() {
  json_.key("cloth");
  json_.open_array();
  for (const ClothPlan &each : plan_.cloth)
    cloth(each);
  json_.close();
}

void PiecesJson::cloth(const ClothPlan &cloth) {
  json_.open_object();
  if (!cloth.cloth.name.empty()) json_.text_field("name", cloth.cloth.name);
  if (cloth.cloth.width) length_field("width", cloth.cloth.width->mm);
  length_field("usable", cloth.usable);
  length_field("length", cloth.length);
  length_field("bound", cloth.bound);
  json_.truth_field("shortest", cloth.shortest);
  json_.number_field("used", cloth.used);
  json_.key("buy");
  json_.open_object(Lay::one_line);
  length_field("exact", cloth.buy);
  json_.text_field("text", words::to_buy(cloth, job_.unit));
  json_.close();
  if (cloth.stock) {
    json_.key("stock");
    json_.open_object(Lay::one_line);
    length_field("is", cloth.stock->is);
    length_field("left", cloth.stock->left);
    json_.truth_field("proved", cloth.stock->proved);
    json_.close();
  }
  lay(cloth.lay);
  cuts(cloth.cuts);
  json_.close();
}

void PiecesJson::savings() {
  json_.key("savings");
  json_.open_array();
  for (const Saving &saving : plan_.savings) {
    json_.open_object(Lay::one_line);
    json_.text_field("length", job_[saving.at].name);
    length_field("by", saving.by);
    length_field("to", saving.to);
    json_.text_field("text", named_reading(Length{saving.to}, job_.tape()));
    json_.text_field("cloth", words::cloth_named(job_, saving.cloth));
    length_field("saves", saving.saves);
    json_.text_field("says", words::saving(told_, saving));
    json_.close();
  }
  json_.close();
}

void PiecesJson::lay(const std::vector<Placement> &lay) {
  json_.key("lay");
  json_.open_array();
  for (const Placement &placed : lay) {
    json_.open_object(Lay::one_line);
    json_.text_field("piece", job_[placed.piece].name);
    json_.integer_field("copy", placed.copy);
    length_field("across", placed.across);
    length_field("along", placed.along);
    json_.truth_field("turned", placed.turned);
    json_.close();
  }
  json_.close();
}

void PiecesJson::cuts(const std::vector<Cut> &cuts) {
  json_.key("cuts");
  json_.open_array();
  for (const Cut &cut : cuts) {
    json_.open_object(Lay::one_line);
    json_.text_field("run", cut.run == Cut::Run::across ? "across" : "along");
    length_field("at", cut.at);
    length_field("from", cut.from);
    length_field("to", cut.to);
    json_.close();
  }
  json_.close();
}

} // namespace

void pieces_json(JsonText &json, const Job &job, const Plan &plan) {
  if (job.pieces.empty()) return;
  PiecesJson writing(json, job, plan, job);
  writing.pieces();
  writing.cloths();
}

void savings_json(JsonText &json, const Job &job, const Plan &plan, const Job &told) {
  if (!job.pieces.empty()) PiecesJson(json, job, plan, told).savings();
}

} // namespace gatherwright::report
