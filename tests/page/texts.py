# SPDX-License-Identifier: GPL-3.0-or-later
"""The text view: what is edited there, its lines and their ends."""
import random
import re

from selenium.webdriver.common.keys import Keys


def edited(page):
    """the text is edited in its own view, planned as it is typed, and is one step"""
    browser = page.open(page.example)
    browser.press("tab", "The text")
    area = browser.find("textbox", "The text of the job")
    browser.script("const a = arguments[0], i = a.value.indexOf('18 cm'); a.focus(); a.setSelectionRange(i, i + 2)", area)
    browser.keys("19")
    browser.until(lambda: browser.find("textbox", "wrist").get_attribute("value") == "19 cm", "the form follows")
    assert page.save() == page.example.replace('"wrist": "18 cm"', '"wrist": "19 cm"')
    browser.press("button", "Undo")
    browser.until(lambda: browser.find("textbox", "wrist").get_attribute("value") == "18 cm", "one step back")


def fault_at_its_line(page):
    """the text view shows faults at their lines"""
    browser = page.open(page.example)
    browser.write("wrist", "17 furlongs")
    browser.press("tab", "The text")
    line = next(n for n, words in enumerate(page.example.split("\n"), 1) if '"wrist"' in words)
    browser.press("button", f"Line {line}")
    area = browser.find("textbox", "The text of the job")
    assert "furlongs" in browser.script("return arguments[0].value.slice(arguments[0].selectionStart, arguments[0].selectionEnd)", area)
    assert browser.script("return [...document.querySelectorAll('.numbers .faulty')].map((e) => e.textContent).join()") == f"✗ {line}"


def line_ends(page):
    """lines that are not edited keep their ends, and new ones take their neighbours'"""
    text = page.example.replace("\n", "\r\n")
    browser = page.open(text)
    browser.press("tab", "The text")
    area = browser.find("textbox", "The text of the job")
    browser.script("const a = arguments[0], i = a.value.indexOf('  \"tolerance\"'); a.focus(); a.setSelectionRange(i, i)", area)
    browser.keys("// cut true", Keys.ENTER)
    browser.until(lambda: "not saved" in browser.head(), "it is not saved")
    assert page.save() == text.replace('  "tolerance"', '// cut true\r\n  "tolerance"')


def _ends_kept(before, edited):
    """Independently: what of `before` stands above the first line that differs is there byte by byte."""
    lines = re.findall(r"[^\r\n]*(?:\r\n|\r|\n)", before)
    kept = ""
    for line, now in zip(lines, edited.split("\n")[:-1]):
        if line.rstrip("\r\n") != now:
            break
        kept += line
    return kept


def line_ends_of_many(page):
    """a thousand edits of texts with mixed line ends give the words that were typed and keep what was not touched"""
    browser = page.open(page.example)
    draw = random.Random(7)
    cases = []
    for _ in range(1000):
        before = "".join(draw.choice(["a", "b", ""]) + draw.choice(["\n", "\r\n", "\r", "\n"]) for _ in range(draw.randrange(6))) + draw.choice(["", "c"])
        words = before.replace("\r\n", "\n").replace("\r", "\n")
        start = draw.randrange(len(words) + 1)
        end = min(len(words), start + draw.randrange(4))
        cases.append([before, words[:start] + draw.choice(["", "x", "x\ny", "\n", "\n\n"]) + words[end:]])
    results = browser.driver.execute_async_script(
        "const [cases, done] = arguments; import(new URL('lines.js', location)).then((m) => done(cases.map(([before, edited]) => [m.as_edited(before), m.after_edit(before, edited), m.after_edit(before, m.as_edited(before))])))", cases)
    for (before, edited_text), (shown, after, untouched) in zip(cases, results):
        assert shown == before.replace("\r\n", "\n").replace("\r", "\n")
        assert untouched == before
        assert after.replace("\r\n", "\n").replace("\r", "\n") == edited_text, (before, edited_text, after)
        assert after.startswith(_ends_kept(before, edited_text)), (before, edited_text, after)
        if "\r" not in before:
            assert after == edited_text
