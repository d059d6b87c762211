// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/sheet/page_flow.hpp"
#include "cli/sheet/sheet_content.hpp"

#include <string>
#include <string_view>
#include <vector>

/// What a worksheet says, as blocks on a page, however they stand.
namespace gatherwright::paper {

/// Room that must be left for a heading and the first of what it stands over.
inline constexpr double first_lines = 12;

/// Under its heading; nothing where it is empty.
void put_list(PageFlow &flow, const SheetList &said, std::string_view bullet = "•");

/// With what is left out of it.
void put_table(PageFlow &flow, const SheetTable &captioned);

void put_paragraphs(PageFlow &flow, const std::vector<std::string> &sentences);
double height_of(const PageFlow &flow, const std::vector<std::string> &sentences);

/// "neck into collar (make 2)"
std::string join_heading(const JoinSheet &sheet);

/// What is sewn to what and how each stretch is worked; the verdict in a box where it is a bad one.
void put_words(PageFlow &flow, const JoinSheet &sheet);

/// The title and the verdict, with the cautions that stand right under it.
void put_head(PageFlow &flow, const Sheet &sheet);

} // namespace gatherwright::paper
