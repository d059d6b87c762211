# SPDX-License-Identifier: GPL-3.0-or-later
"""The way through: a job is opened, slid, put right and saved."""
import re

from program import without_remarks
from selenium.webdriver.common.keys import Keys

CUFF = re.compile("Picture: the long edge, .* over the band, (cuff, )?23 cm")
TOO_FULL = ('"from": "45 cm"', '"from": "58 cm"')


def slid_put_right_and_saved(page):
    """the sleeve is slid, the cuff's picture changes, a remedy is taken, and the file is changed there alone, remarks kept"""
    browser = page.open(page.example)
    assert "within limits" in page.verdict()
    before = browser.find("image", CUFF).accessible_name
    browser.find("slider", "slide sleeve").send_keys(Keys.END)  # 60 cm are asked for, and it comes to what the cuff takes
    browser.until(lambda: "57 cm, over" in browser.find("image", CUFF).accessible_name, "the picture is another")
    assert "the long edge, 52 cm, over" in before, before
    browser.write("sleeve from", "58 cm")
    browser.until(lambda: "too full" in page.verdict(), "the verdict says too full")
    assert "more than this cloth takes" in browser.find("heading", "What is wrong").find_element("xpath", "../..").text
    offers = browser.all("button", re.compile("^Do this: "))
    assert offers, "there are remedies"
    words = offers[0].accessible_name
    browser.press("button", words)
    browser.until(lambda: "within limits" in page.verdict(), "the remedy puts it right")
    written = page.save()
    assert page.program.planned(written)["verdict"] == "within limits"
    old, new = page.example.split("\n"), written.split("\n")
    assert len(old) == len(new)
    differ = [(a, b) for a, b in zip(old, new) if a != b]
    assert 1 <= len(differ) <= 2 and all(a.count("//") == b.count("//") for a, b in differ), differ
    assert without_remarks(written)["lengths"]["sleeve"]["aim"] == "60 cm"


def each_remedy(page):
    """each remedy's button does what its sentence says, and one step back undoes it"""
    text = page.example.replace(*TOO_FULL)
    browser = page.open(text)
    remedies = page.program.planned(text)["remedies"]
    assert len(remedies) >= 3
    for n, remedy in enumerate(remedies):
        button = f"Do this: {remedy['says']}"
        place = [each["says"] for each in remedies[:n]].count(remedy["says"])
        browser.all("button", button)[place].click()
        browser.until(lambda: "Undo" in [each.text for each in browser.all("button", "Undo") if each.is_enabled()], "there is a step to undo")
        page.settled()
        written = page.save()
        planned = page.program.planned(written)
        assert planned["verdict"] is not None, (remedy["says"], planned)
        right = planned["verdict"] if "join" not in remedy else next(each["verdict"] for each in planned["joins"] if each["name"] == remedy["join"])
        assert right == "within limits", (remedy["says"], right)
        browser.press("button", "Undo")
        browser.until(lambda: "too full" in page.verdict(), "it is as it was")
        page.settled()
    assert page.save() == text


def each_saving(page):
    """each saving's button makes the length what its sentence says, less cloth is bought, and one step back undoes it"""
    browser = page.open(page.example)
    plan = page.program.planned(page.example)
    assert plan["savings"]
    for saving in plan["savings"]:
        browser.press("button", f"Do this: {saving['says']}")
        browser.until(lambda: browser.find("button", "Undo").is_enabled(), "there is a step to undo")
        planned = page.program.planned(page.save())
        assert planned["verdict"] == "within limits", (saving["says"], planned)
        assert planned["lengths"][saving["length"]]["is"] == saving["to"], saving
        browser.press("button", "Undo")
        browser.find("button", f"Do this: {saving['says']}")
    assert page.save() == page.example


def undone_and_redone(page):
    """steps are undone and redone without end, each a field left, and the browser's history has no part in it"""
    browser = page.open(page.example)
    entries = browser.script("return history.length")
    for size in range(19, 23):
        browser.write("wrist", f"{size} cm")
        page.settled()
    for size in range(21, 17, -1):
        browser.press("button", "Undo")
        browser.until(lambda: browser.find("textbox", "wrist").get_attribute("value") == f"{size} cm", f"back at {size} cm")
    assert not browser.find("button", "Undo").is_enabled()
    for _ in range(4):
        browser.press("button", "Redo")
    browser.until(lambda: browser.find("textbox", "wrist").get_attribute("value") == "22 cm", "on at 22 cm")
    assert not browser.find("button", "Redo").is_enabled()
    assert browser.script("return history.length") == entries
