# SPDX-License-Identifier: GPL-3.0-or-later
"""Every card: what is written in a field stands in the file, and what is added, renamed, moved or removed too."""
import re

from program import without_remarks
from selenium.webdriver.support.ui import Select

SEAM = "sleeve hem into cuff"

# name of the field, what is typed, where it stands in the job, what stands there then
WRITTEN = [
    ("wrist", "7 1/4 in", ["measures", "wrist"], "7 1/4 in"),
    ("name", "boiled linen", ["fabric", "name"], "boiled linen"),
    ("weight", "170 g/m2", ["fabric", "weight"], "170 g/m2"),
    ("width", "1.55 m", ["fabric", "width"], "1.55 m"),
    ("selvedge", "1.2 cm", ["fabric", "selvedge"], "1.2 cm"),
    ("shrinks along", "5 %", ["fabric", "shrinkage", "along"], "5 %"),
    ("in stock", "3 m", ["fabric", "stock"], "3 m"),
    ("sold by", "5 cm", ["fabric", "sold_by"], "5 cm"),
    ("body", "70 cm", ["lengths", "body"], "70 cm"),
    ("collar", "neck + 2.5 cm", ["lengths", "collar", "is"], "neck + 2.5 cm"),
    ("sleeve near", "51 cm", ["lengths", "sleeve", "aim"], "51 cm"),
    ("sleeve to", "", ["lengths", "sleeve", "to"], None),
    ("rule: the hand goes through", "cuff + 2 * cuff_slit >= hand + 4 cm", ["rules", 1, "holds"], "cuff + 2 * cuff_slit >= hand + 4 cm"),
    ("stitch", "3 mm", ["gathering", "stitch"], "3 mm"),
    ("rows", "3", ["gathering", "rows"], 3),
    ("title", "Porter's second smock", ["title"], "Porter's second smock"),
    ("tape step", "2 mm", ["tape_step"], "2 mm"),
    ("seam allowance", "1.4 cm", ["allowance"], "1.4 cm"),
]


def _at(value, place):
    for key in place:
        if isinstance(value, dict) and key not in value:
            return None
        value = value[key]
    return value


def every_field(page):
    """what is written in a field of each card stands in the file, and nothing else is changed"""
    browser = page.open(page.example)
    for name, typed, _, _ in WRITTEN:
        browser.write(name, typed)
    browser.press("button", "Save")
    page.settled()
    job = without_remarks(page.save())
    before = without_remarks(page.example)
    for name, _, place, wanted in WRITTEN:
        assert _at(job, place) == wanted, (name, _at(job, place), wanted)
        for tree in (job, before):
            inner = _at(tree, place[:-1])
            if isinstance(inner, dict):
                inner.pop(place[-1], None)
    assert job == before


def folded_fields(page):
    """what is folded away can be written too: the test strip, tolerances, a seam's and a piece's own"""
    browser = page.open(page.example)
    for summary in ("A gathered test strip", "Tolerances and wearer", SEAM, "front"):
        _unfold(browser, summary)
    browser.write("strip cut", "30 cm")
    browser.write("drawn up tight", "3.4 cm")
    browser.write("cut true to", "1 mm")
    browser.write("wearer’s age in years", "34")
    browser.write(f"{SEAM} long edge", "sleeve + 1 cm")
    browser.write("front half: of the band", "10 cm")
    browser.write("front along", "95 cm")
    Select(browser.find("combobox", "front bottom sewn to")).select_by_visible_text(SEAM)
    job = without_remarks(page.save())
    assert job["fabric"]["swatch"] == {"cut": "30 cm", "tight": "3.4 cm"}
    assert job["tolerance"]["cut"] == "1 mm" and job["wearer"] == {"age": 34}
    seam = job["joins"][2]
    assert seam["long"] == {"length": "sleeve + 1 cm", "ends": ["1.3 cm", "1.3 cm"]} and seam["segments"][1]["band"] == "10 cm"
    assert job["pieces"][0]["along"] == "95 cm" and job["pieces"][0]["sides"]["bottom"] == SEAM


def _unfold(browser, words):
    found = browser.script("for (const s of document.querySelectorAll('summary')) if (s.textContent.trim().startsWith(arguments[0]) && !s.parentNode.open) return s", words)
    assert found, words
    browser.script("arguments[0].scrollIntoView({ block: 'center' })", found)
    found.click()


def added_renamed_moved_removed(page):
    """members are added, renamed wherever they stand, moved and removed, their remarks with them"""
    browser = page.open(page.example)
    browser.press("button", "Add a measure")
    browser.write("name of the measure", "waist", leave=None)
    browser.write("its size", "96 cm", leave="\n")
    browser.find("textbox", "waist")
    browser.press("button", "More for hand")
    browser.press("button", "Move hand up")
    page.settled()
    browser.press("button", "Rename hand")
    browser.write("New name for hand", "knuckles", leave="\n")
    browser.find("textbox", "knuckles")
    browser.press("button", "More for chest")
    browser.press("button", "Remove chest")
    browser.until(lambda: not browser.is_there("textbox", "chest"), "chest is gone")
    page.settled()
    browser.press("button", "Undo")
    browser.find("textbox", "chest")
    page.settled()
    written = page.save()
    job = without_remarks(written)
    assert list(job["measures"]) == ["knuckles", "wrist", "neck", "head", "neck_to_tip", "chest", "waist"]
    assert job["rules"][1]["holds"] == "cuff + 2 * cuff_slit >= knuckles + 3 cm"
    assert re.search(r'"knuckles": "25 cm", // round the knuckles', written)


def more_is_added(page):
    """a length, a rule, a seam and a piece are added, and the plan knows them"""
    browser = page.open(page.example)
    for button, typed in (("Add a length", [("name of the length", "frill"), ("how long", "1.2 m")]),
                          ("Add a rule", [("name of the rule", "frill is long"), ("what holds", "frill >= 1 m")]),
                          ("Add a seam", [("name of the seam", "frill onto hem"), ("long edge", "frill"), ("band", "60 cm")]),
                          ("Add a piece", [("name of the piece", "frill strip"), ("across", "frill"), ("along", "10 cm")])):
        browser.press("button", button)
        for n, (name, text) in enumerate(typed):
            browser.write(name, text, leave="\n" if n == len(typed) - 1 else None)
        page.settled()
    planned = page.program.planned(page.save())
    assert planned["lengths"]["frill"]["is"] == 120 and planned["rules"][-1]["holds"]
    assert planned["joins"][-1]["name"] == "frill onto hem" and planned["pieces"][-1]["name"] == "frill strip"


def ways_of_working(page):
    """a way of working is a button with its pattern, and stretches are looked at by their bar"""
    browser = page.open(page.example)
    _unfold(browser, SEAM)
    browser.press("button", "back half, gathered, 3 of 4")
    group = browser.find("radiogroup", "back half: worked as")
    assert [each.text.strip() for each in group.find_elements("css selector", "button")] == ["gathered", "gauged", "drawn up", "eased", "plain"]
    assert len(group.find_elements("css selector", "svg")) >= 4
    group.find_elements("css selector", "button")[1].click()
    browser.find("button", "back half, gauged, 3 of 4")
    assert without_remarks(page.save())["joins"][2]["segments"][2]["kind"] == "gauge"


def kept_and_found(page):
    """a length is kept by a tick, and let be found or given by a button"""
    browser = page.open(page.example)
    assert browser.find("checkbox", re.compile("^keep cuff:")).is_selected()
    assert browser.find("checkbox", re.compile("^keep shoulder:")).is_selected(), "a formula that names a measure is kept"
    browser.press("checkbox", re.compile("^keep body:"))
    page.settled()
    assert without_remarks(page.save())["lengths"]["body"] == {"is": "70.5 cm", "keep": True}


SIDES = """      // what goes where
      "sides": {
        "top": "sleeve head into armhole", // the head
        // along the seam
        "right": { "join": "%s", // the hem, here
          "edge": "band", // of the cuff
          "at": "2 cm" // past the slit
        },
        // two of them
        "bottom": [
          "%s", // the first part
          { // the second part
            "join": "%s", // once more
            "from": "start" // from its start
          }
        ]
      }""" % (SEAM, SEAM, SEAM)


def remarks_on_sides(page):
    """a remark on what is sewn to a side stands at its part, however that is written"""
    piece = '{ "name": "patch", "across": "80 cm", "along": "80 cm",\n%s }' % SIDES
    text = re.sub(r'("pieces": \[)', lambda found: found.group(1) + "\n" + piece + ",", page.example, count=1)
    browser = page.open(text)
    _unfold(browser, "patch")
    told = [each.text for each in browser.find("group", "patch").find_elements("css selector", ".remark")]
    for remark in ("what goes where", "the head", "along the seam", "the hem, here", "of the cuff", "past the slit", "two of them", "the first part",
                   "the second part", "once more", "from its start"):
        assert " ".join(told).count(remark) == 1, (remark, told)


CAP = """<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">
  <path id="cap" d="M 10 90 L 60 %d"/>
</svg>"""


def given_by(page):
    """an edge is given by its length, by points off squared paper or by a line of a drawing"""
    browser = page.open("""{ "unit": "cm", "fabric": { "weight": "150 g/m2" },
      "joins": [ { "name": "cap into armhole", "long": "52 cm", "band": "30 cm" } ] }""")
    edge = "cap into armhole long edge"

    def unfold_all():
        page.settled()
        browser.script("for (const each of document.querySelectorAll('details')) each.open = true")

    def choose(way):
        unfold_all()
        Select(browser.find("combobox", f"{edge} given by")).select_by_visible_text(way)
        unfold_all()

    def planned():
        page.settled()
        return page.program.planned(page.save())["joins"][0]["long"]

    choose("points off squared paper")
    assert without_remarks(page.save())["joins"][0]["long"] == {"points": [["0", "0"], ["52 cm", "0"]]}
    assert abs(planned() - 52) < 1e-9
    # A right angle of 30 and 40 cm.
    browser.press("button", f"A point behind {edge} point 1")
    browser.write(f"{edge} point 2 to the right", "30 cm")
    browser.write(f"{edge} point 2 up", "0 cm")
    browser.press("checkbox", f"{edge} point 2 turns sharply")
    browser.write(f"{edge} point 3 to the right", "30 cm")
    browser.write(f"{edge} point 3 up", "40 cm")
    page.settled()
    assert without_remarks(page.save())["joins"][0]["long"]["points"] == [["0", "0"], {"at": ["30 cm", "0 cm"], "corner": True}, ["30 cm", "40 cm"]]
    assert abs(planned() - 70) < 1e-9
    browser.write(f"{edge} its allowance", "0 cm")
    browser.press("button", f"Remove {edge} point 2")
    assert abs(planned() - 50) < 1e-9

    # What it says besides goes along; a drawing is read anew when one comes back to the page.
    drawing = page.program.job.parent / "cap.svg"
    drawing.write_text(CAP % 90)
    choose("a line of a drawing")
    browser.write(f"{edge} in the drawing", "cap.svg")
    browser.write(f"{edge} line of the drawing", "cap")
    page.settled()
    assert without_remarks(page.save())["joins"][0]["long"] == {"drawing": "cap.svg", "id": "cap", "allowance": "0 cm"}
    browser.until(lambda: "5 cm" in browser.script("return document.getElementById('sheet').innerText"), "the line is as long as it is drawn")
    drawing.write_text(CAP % 50)
    browser.script("window.dispatchEvent(new Event('focus'))")
    browser.until(lambda: "6.4 cm" in browser.script("return document.getElementById('sheet').innerText"), "the line is read anew")

    choose("its length")
    assert without_remarks(page.save())["joins"][0]["long"] == "6.4 cm"
