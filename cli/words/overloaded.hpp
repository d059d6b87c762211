// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace gatherwright::words {

/// Several functions as one, for std::visit: where an alternative has none it does not compile.
template <class... Functions> struct Overloaded : Functions... { using Functions::operator()...; };
template <class... Functions> Overloaded(Functions...) -> Overloaded<Functions...>;

} // namespace gatherwright::words
