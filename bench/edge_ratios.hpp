// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace gatherwright::bench {

/// Time for a piece of a path, read, measured and moved by an allowance, at 1e6 pieces over 1e3.
void path_growth();

/// A sleeve head of eight cubics measured, moved by its allowance and marked at nine places, over its length alone by
/// GSL's adaptive quadrature of the speed (`gsl_integration_qag` with the rule that is fastest here), both to 1e-9.
void head_vs_quadrature();

} // namespace gatherwright::bench
