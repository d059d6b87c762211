// SPDX-License-Identifier: GPL-3.0-or-later
// What the formatting library, fmt, has of its own to be compiled. Debian has it as a shared library alone, which takes
// longer to load than all that the program formats with it; so it is compiled here, of the headers that are installed.

#include <fmt/format-inl.h>

template fmt::detail::thousands_sep_result<char> fmt::detail::thousands_sep_impl(locale_ref);
template char fmt::detail::decimal_point_impl(locale_ref);
