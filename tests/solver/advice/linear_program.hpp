// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/problem.hpp"

#include <glpk.h>
#include <optional>
#include <vector>

namespace gatherwright::tests {

/// The least of sum of cost * x over level 0 of a problem by GLPK's exact simplex; unknowns are free.
struct Least {
  bool feasible = false;
  bool bounded = false;
  double value = 0;
};

inline Least least_by_glpk(const optimum::Problem &problem, const std::vector<double> &cost) {
  glp_term_out(GLP_OFF);
  glp_prob *lp = glp_create_prob();
  glp_set_obj_dir(lp, GLP_MIN);
  glp_add_cols(lp, problem.unknowns);
  for (int c = 0; c < problem.unknowns; ++c) {
    glp_set_col_bnds(lp, c + 1, GLP_FR, 0, 0);
    glp_set_obj_coef(lp, c + 1, cost[c]);
  }
  const auto add = [&](const optimum::Rows &rows, int kind) {
    for (int i = 0; i < rows.size(); ++i) {
      const int row = glp_add_rows(lp, 1);
      std::vector<int> columns{0};
      std::vector<double> values{0};
      for (const optimum::Term &term : rows.row(i)) {
        columns.push_back(term.column + 1);
        values.push_back(term.value);
      }
      glp_set_row_bnds(lp, row, kind, rows.bound[i], rows.bound[i]);
      glp_set_mat_row(lp, row, static_cast<int>(columns.size()) - 1, columns.data(), values.data());
    }
  };
  add(problem.equal, GLP_FX);
  add(problem.at_least, GLP_LO);
  glp_smcp settings;
  glp_init_smcp(&settings);
  settings.msg_lev = GLP_MSG_OFF;
  settings.presolve = GLP_OFF;
  glp_simplex(lp, &settings);
  Least found;
  const int status = glp_get_status(lp);
  found.feasible = status == GLP_OPT || status == GLP_UNBND;
  found.bounded = status == GLP_OPT;
  found.value = glp_get_obj_val(lp);
  glp_delete_prob(lp);
  glp_free_env();
  return found;
}

} // namespace gatherwright::tests
