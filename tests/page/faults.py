# SPDX-License-Identifier: GPL-3.0-or-later
"""Faults stand at their fields, with what would be right and a way back; commas are read as they are meant."""
import re

from program import without_remarks
from selenium.webdriver.common.keys import Keys


def at_its_field(page):
    """a fault stands at its field with what would be right and a button back, and the last good plan stays"""
    browser = page.open(page.example)
    browser.write("wrist", "17 furlongs")
    browser.until(lambda: browser.find("textbox", "wrist").get_attribute("aria-invalid") == "true", "the field is marked")
    described = browser.find("textbox", "wrist").get_attribute("aria-describedby")
    told = browser.script("return document.getElementById(arguments[0].split(' ').at(-1)).textContent", described)
    assert "furlongs is no unit" in told and "write 17 and one of mm, cm" in told
    assert "One fault to mend: wrist" in page.verdict()
    assert browser.is_there("heading", "What to cut"), "the last good plan stays"
    focused = browser.press("button", "wrist")
    assert browser.driver.switch_to.active_element.accessible_name == "wrist", focused
    browser.press("button", "Back to 18 cm")
    browser.until(lambda: "within limits" in page.verdict(), "the plan is good again")
    assert page.save() == page.example


def each_in_words(page):
    """several faults are told each at its own field and counted in the verdict"""
    browser = page.open(page.example)
    browser.write("wrist", "17")
    browser.write("neck", "")
    browser.write("cuff", "wrist + 5")
    browser.until(lambda: "2 faults to mend" in page.verdict(), "two faults are counted")
    for name in ("neck", "cuff"):
        assert browser.find("textbox", name).get_attribute("aria-invalid") == "true"


def elsewhere(page):
    """a fault that no field shows stands above the cards and leads to its line"""
    browser = page.open(page.example.replace('"title"', '"titel"'))
    browser.press("button", "To line 5")
    area = browser.find("textbox", "The text of the job")
    assert browser.script("return arguments[0].value.slice(arguments[0].selectionStart, arguments[0].selectionEnd)", area).strip().startswith('"titel"')


def decimal_commas(page):
    """a decimal comma is read as a point, and before exactly three digits the page asks"""
    browser = page.open(page.example)
    browser.write("wrist", "18,5 cm")
    browser.until(lambda: browser.find("textbox", "wrist").get_attribute("value") == "18.5 cm", "the comma is a point")
    browser.write("body_length", "1,250 mm")
    group = browser.find("group", "Which is meant?")
    assert [each.text for each in group.find_elements("css selector", "button")] == ["1.250 mm", "1250 mm"]
    browser.press("button", "1250 mm")
    browser.write("collar", "max(neck, 39,5 cm) + 2 cm")
    page.settled()
    job = without_remarks(page.save())
    assert job["measures"]["wrist"] == "18.5 cm" and job["lengths"]["body_length"] == "1250 mm"
    assert job["lengths"]["collar"]["is"] == "max(neck, 39,5 cm) + 2 cm", "within brackets of max commas part"


def commas_everywhere(page):
    """commas are read so wherever they stand, as an independent reading has it"""
    browser = page.open(page.example)
    for text, wanted in (("2,5", {"text": "2.5"}), (",5 cm", {"text": ",5 cm"}), ("min(2,5 cm, 3 cm)", {"text": "min(2,5 cm, 3 cm)"}),
                         ("(2,5 cm + a) * 2", {"text": "(2.5 cm + a) * 2"}), ("1,2345", {"text": "1.2345"}), ("1,250", {"asks": ["1.250", "1250"]}),
                         ("1,250 + 2,5", {"asks": ["1.250 + 2.5", "1250 + 2.5"]}), ("my_min(2,5)", {"text": "my_min(2.5)"}), ("a, b", {"text": "a, b"})):
        got = browser.module("comma.js", "without_commas", text)
        assert got == wanted, (text, got, wanted)


def no_json(page):
    """where the text is no job the forms rest, and the text has the word"""
    browser = page.open(page.example)
    browser.press("tab", "The text")
    area = browser.find("textbox", "The text of the job")
    browser.script("const a = arguments[0]; a.focus(); a.setSelectionRange(a.value.length, a.value.length)", area)
    browser.keys("}")
    browser.until(lambda: "fault" in page.verdict(), "a fault is told")
    browser.until(lambda: not browser.is_there("textbox", "wrist"), "the forms rest")
    browser.keys(Keys.BACKSPACE)
    browser.until(lambda: "within limits" in page.verdict(), "it is good again")
    browser.find("textbox", "wrist")


def markup_is_text(page):
    """markup, control signs and direction marks in names are shown as text"""
    mark = "<img src=x onerror=alert(1)>"
    text = page.example.replace("sleeve hem into cuff", mark + "&amp;\u202eb").replace("round the knuckles", "<script>alert(2)</script>").replace('"centre"', '"<b>centre</b>"')
    browser = page.open(text)
    assert "within limits" in page.verdict()
    assert browser.script("return document.querySelectorAll('img, [onerror], #page script').length") == 0
    assert browser.script("return document.body.innerText.includes(arguments[0])", mark)
    assert browser.script("return document.body.innerText.includes('<script>alert(2)</script>')")
    browser.press("tab", "The text")
    browser.press("button", "Print…")
    assert browser.script("return document.querySelectorAll('img, [onerror], #page script').length") == 0
    browser.press("button", "Done")


def odd_names(page):
    """names that mean something to a program are names like any other"""
    text = page.example.replace('"wrist": "18 cm",', '"wrist": "18 cm", "constructor": "3 cm", "toString": "4 cm", "__proto__": "5 cm",')
    browser = page.open(text)
    for name in ("constructor", "toString"):
        assert re.fullmatch(r"\d cm", browser.find("textbox", name).get_attribute("value"))
    browser.write("constructor", "6 cm")
    assert without_remarks(page.save())["measures"]["constructor"] == "6 cm"
