// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/sheet_style.hpp"

namespace gatherwright::paper {

const std::string_view sheet_style = R"css(
:root {
  color-scheme: light dark;
  --paper: #faf6ee; --ink: #2b2520; --soft: #63584d; --rule: #cfc3b2; --pale: #ebe1cf; --accent: #8a3a1d; --alarm: #9b1c14;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #221d19; --ink: #efe6d8; --soft: #bcae9c; --rule: #574c41; --pale: #3b332b; --accent: #e9a67c; --alarm: #ff9a88;
  }
}
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body {
  margin: 0 auto; padding: 1.2rem 1rem 3rem; max-width: 50rem;
  background: var(--paper); color: var(--ink);
  font: 1rem/1.5 Georgia, "DejaVu Serif", "Times New Roman", serif;
  overflow-wrap: break-word;
}
h1, h2, h3 { line-height: 1.2; font-weight: 600; margin: 0; }
h1 { font-size: 2rem; }
h2 { font-size: 1.45rem; margin-top: 2.4rem; padding-top: .7rem; border-top: 3px double var(--rule); }
h3 { font-size: 1.1rem; margin-top: 1.4rem; }
p { margin: .5rem 0; }
ul { margin: .5rem 0; padding-left: 1.2rem; }
li { margin: .25rem 0; }
a { color: var(--accent); }
.made { color: var(--soft); font-weight: 400; font-size: .8em; }
.verdict {
  margin: .9rem 0; padding: .6rem .9rem; border: 2px solid var(--ink); border-radius: 3px; font-size: 1.1rem;
}
.verdict strong { font-size: 1.2em; }
.verdict.bad { border-width: 4px; border-color: var(--alarm); }
.verdict.bad strong, .bad-word { color: var(--alarm); font-weight: 700; }
.sign { font-family: "DejaVu Sans", sans-serif; }
.rules { list-style: none; padding-left: 0; }
.scroll { overflow-x: auto; margin: .8rem 0; }
.scroll:focus-visible, a:focus-visible { outline: 3px solid var(--accent); outline-offset: 2px; }
table { border-collapse: collapse; font-size: .95rem; font-variant-numeric: tabular-nums lining-nums; }
caption { text-align: left; font-weight: 600; padding: .2rem 0 .3rem; }
th, td { padding: .22rem .7rem .22rem 0; text-align: left; vertical-align: baseline; }
thead th { border-bottom: 2px solid var(--ink); font-weight: 600; vertical-align: bottom; }
thead th.over { border-bottom: 1px solid var(--rule); font-weight: 400; color: var(--soft); }
tbody th { font-weight: 400; }
tbody th.named { font-weight: 700; }
tbody tr { border-bottom: 1px solid var(--rule); }
.figure { text-align: right; white-space: nowrap; }
th.figure { white-space: normal; }
td[data-rest]::after { content: attr(data-rest); visibility: hidden; }
figure { margin: 1.2rem 0; }
figcaption { color: var(--soft); font-size: .95rem; }
figure svg { display: block; width: 100%; height: auto; }
.narrow { display: none; }
@media screen and (max-width: 640px) {
  .wide { display: none; }
  .narrow { display: block; }
  body { padding-left: .75rem; padding-right: .75rem; }
  h1 { font-size: 1.6rem; }
  th, td { padding-right: .55rem; }
  .lengths { font-size: .9rem; }
  .lengths th, .lengths td { padding-right: .8rem; }
  .lengths td:nth-child(3) { width: 100%; }
  .lengths :last-child, .marks :last-child { padding-right: 0; }
  .marks { font-size: .75rem; }
  .marks th, .marks td { padding-right: .25rem; }
  .marks td:last-child { padding-left: .3rem; }
  .few { font-size: .85rem; }
  .few th, .few td { padding-right: .6rem; }
  .folded, .folded caption, .folded tbody { display: block; }
  .folded caption { font-size: .95rem; }
  .folded thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  .folded tr { display: grid; grid-template-columns: 1.6rem 1fr 1fr; column-gap: .4rem; padding: .2rem 0; font-size: .95rem; }
  .folded tbody th { font-weight: 700; grid-row: 1 / span 5; }
  .folded td { padding: 0; text-align: left; }
  .folded td:last-child { padding-left: 0; }
  .folded td.name { grid-column: 2 / span 2; }
  .folded td:empty { display: none; }
  .folded td.figure::before { content: attr(data-head) " "; color: var(--soft); }
  .folded td[data-rest]::after { content: none; }
  .stacked, .stacked caption, .stacked tbody, .stacked tr, .stacked tbody th, .stacked td { display: block; }
  .stacked thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  .stacked tr { padding: .3rem 0; }
  .stacked tbody th { font-weight: 700; }
  .stacked td { display: flex; gap: .6rem; padding: .08rem 0; text-align: left; white-space: normal; }
  .stacked td::before { content: attr(data-head); flex: 0 0 5.5rem; color: var(--soft); }
}
svg path.ink { stroke: var(--ink); } svg text.ink { fill: var(--ink); }
svg path.soft { stroke: var(--soft); } svg text.soft { fill: var(--soft); }
svg path.pale { stroke: var(--pale); } svg text.pale { fill: var(--pale); }
svg path.accent { stroke: var(--accent); } svg text.accent { fill: var(--accent); }
svg path.alarm { stroke: var(--alarm); } svg text.alarm { fill: var(--alarm); }
svg path.on-ink { fill: var(--ink); } svg path.on-soft { fill: var(--soft); } svg path.on-pale { fill: var(--pale); }
svg path.on-paper { fill: var(--paper); } svg path.on-accent { fill: var(--accent); } svg path.on-alarm { fill: var(--alarm); }
@page { margin: 13mm; }
@media print {
  :root {
    color-scheme: light;
    --paper: #fff; --ink: #000; --soft: #444; --rule: #999; --pale: #e4e2dc; --accent: #6e2a12; --alarm: #8c1810;
  }
  html { font-size: 9.5pt; }
  body { padding: 0; max-width: none; line-height: 1.38; }
  th, td { padding-top: .08rem; padding-bottom: .08rem; }
  h1, h2, h3, caption { break-after: avoid; }
  h2 { margin-top: 1.2rem; }
  figure { margin: .7rem 0; }
  figure, tr, .verdict, li, .lead { break-inside: avoid; }
  thead { display: table-header-group; }
  .scroll { overflow: visible; }
  a { color: inherit; text-decoration: none; }
}
)css";

const std::string_view pieces_style = R"css(
.beside { display: grid; grid-template-columns: repeat(2, minmax(0, 1fr)); column-gap: 4.35%; align-items: start; }
.pieces td:nth-child(2) { white-space: nowrap; }
@media screen and (max-width: 640px) {
  .beside { grid-template-columns: minmax(0, 1fr); }
  .pieces { font-size: .85rem; }
  .pieces :last-child { padding-right: 0; }
}
)css";

} // namespace gatherwright::paper
