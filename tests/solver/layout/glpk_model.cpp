// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/solver/layout/glpk_model.hpp"

#include <algorithm>
#include <glpk.h>
#include <utility>
#include <vector>

namespace layout_sets {

namespace {

using gatherwright::layout::Problem;
using gatherwright::layout::Rectangle;

class Model {
public:
  explicit Model(const Problem &problem) : model_(glp_create_prob()), width_(problem.width) {
    for (const Rectangle &rectangle : problem.rectangles)
      pieces_.insert(pieces_.end(), static_cast<std::size_t>(rectangle.count), rectangle);
    for (const Rectangle &piece : pieces_) {
      const double side = std::max(piece.along, piece.may_turn ? piece.across : 0.0);
      total_ += side;
    }
    glp_set_obj_dir(model_, GLP_MIN);
    all_ = (1u << pieces_.size()) - 1;
    add_parts();
    add_pieces();
    add_divisions();
  }
  Model(const Model &) = delete;
  Model &operator=(const Model &) = delete;
  ~Model() { glp_delete_prob(model_); }

  std::optional<double> solve() {
    glp_iocp settings;
    glp_init_iocp(&settings);
    settings.msg_lev = GLP_MSG_OFF;
    settings.presolve = GLP_ON;
    const int out = glp_term_out(GLP_OFF);
    const int failed = glp_intopt(model_, &settings);
    glp_term_out(out);
    if (failed != 0 || glp_mip_status(model_) != GLP_OPT) return std::nullopt;
    return glp_mip_obj_val(model_);
  }

private:
  using Terms = std::vector<std::pair<int, double>>;

  int column(double most, double cost, int kind) {
    const int number = glp_add_cols(model_, 1);
    glp_set_col_kind(model_, number, kind);
    if (kind != GLP_BV) glp_set_col_bnds(model_, number, GLP_DB, 0, most);
    glp_set_obj_coef(model_, number, cost);
    return number;
  }

  void row(const Terms &terms, int kind, double bound) {
    const int number = glp_add_rows(model_, 1);
    glp_set_row_bnds(model_, number, kind, bound, bound);
    std::vector<int> columns{0};
    std::vector<double> values{0};
    for (const auto &[at, value] : terms) {
      columns.push_back(at);
      values.push_back(value);
    }
    glp_set_mat_row(model_, number, static_cast<int>(terms.size()), columns.data(), values.data());
  }

  void add_parts() {
    across_.resize(all_ + 1);
    along_.resize(all_ + 1);
    for (unsigned choice = 1; choice <= all_; ++choice) {
      across_[choice] = column(width_, 0, GLP_CV);
      along_[choice] = column(total_, choice == all_ ? 1 : 0, GLP_CV);
    }
    used_.resize(all_ + 1);
  }

  void add_pieces() {
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      const Rectangle &piece = pieces_[i];
      const unsigned choice = 1u << i;
      Terms across{{across_[choice], 1}};
      Terms along{{along_[choice], 1}};
      if (piece.may_turn) {
        const int turned = column(1, 0, GLP_BV);
        across.emplace_back(turned, piece.across - piece.along);
        along.emplace_back(turned, piece.along - piece.across);
      }
      row(across, GLP_LO, piece.across);
      row(along, GLP_LO, piece.along);
    }
  }

  /// A part that is cut out is divided one way; one that is not is not.
  void add_divisions() {
    std::vector<Terms> divisions(all_ + 1);
    for (unsigned choice = 1; choice <= all_; ++choice)
      for (unsigned part = (choice - 1) & choice; part > 0; part = (part - 1) & choice) {
        const unsigned other = choice ^ part;
        if (part < other) continue;
        for (const bool behind : {false, true}) {
          const int divided = column(1, 0, GLP_BV);
          divisions[choice].emplace_back(divided, 1);
          used_[part].emplace_back(divided, -1);
          used_[other].emplace_back(divided, -1);
          add_sizes(choice, part, other, divided, behind);
        }
      }
    for (unsigned choice = 1; choice <= all_; ++choice) {
      if ((choice & (choice - 1)) == 0) continue;
      Terms terms = divisions[choice];
      terms.insert(terms.end(), used_[choice].begin(), used_[choice].end());
      row(terms, GLP_FX, choice == all_ ? 1 : 0);
    }
  }

  void add_sizes(unsigned choice, unsigned part, unsigned other, int divided, bool behind) {
    const auto &sum = behind ? along_ : across_;
    const auto &most = behind ? across_ : along_;
    const double great = 2 * std::max(total_, width_);
    row({{sum[choice], 1}, {sum[part], -1}, {sum[other], -1}, {divided, -great}}, GLP_LO, -great);
    row({{most[choice], 1}, {most[part], -1}, {divided, -great}}, GLP_LO, -great);
    row({{most[choice], 1}, {most[other], -1}, {divided, -great}}, GLP_LO, -great);
  }

  glp_prob *model_;
  double width_;
  double total_ = 0;
  unsigned all_ = 0;
  std::vector<Rectangle> pieces_;
  std::vector<int> across_;
  std::vector<int> along_;
  std::vector<Terms> used_; ///< of each choice, the divisions that it is a part of
};

} // namespace

std::optional<double> shortest_by_glpk(const Problem &problem) {
  if (problem.rectangles.empty()) return 0.0;
  return Model(problem).solve();
}

} // namespace layout_sets
