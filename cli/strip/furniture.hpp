// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

/// What every page of strips has round its strips: whose they are, how to use them, and a bar to measure the print by.
namespace gatherwright::paper {

/// Printers leave so much of a sheet blank, or a little less.
inline constexpr double margin = 10;

/// The part of a page that strips may take, in millimetres from the page's corner.
struct Room {
  double left = 0;
  double top = 0;
  double width = 0;
  double height = 0;
};

/// A sheet lying on its side, with all but its number of pages.
struct HeadedPage {
  Page page;
  Room room;
};

/// `how`: a sentence on how to use what is drawn.
HeadedPage sheet_for(const Job &job, const Plan &plan, int join, std::string_view how, PaperSize size);

/// "sleeve into cuff (make 2, a mirrored pair)", with its verdict where it is not within limits.
std::string join_called(const Job &job, const Plan &plan, int join);

/// How far its rows of gathering are from the cut edge and from the stitching line; empty where there is no telling.
std::string rows_said(const Job &job, const Plan &plan, int join);

/// Writes "page n of m" on every page.
void number_pages(std::vector<Page> &pages);

/// What a document of strips is called: the job's title, or else what it is.
std::string strips_title(const Job &job);

} // namespace gatherwright::paper
