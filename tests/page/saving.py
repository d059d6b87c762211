# SPDX-License-Identifier: GPL-3.0-or-later
"""Saving: the mark, the conflict, the file that goes, the program that goes."""
import re
import time

from selenium.webdriver.common.keys import Keys


def marked_and_saved(page):
    """what is not saved is marked, asked about before it is lost, and saved by a key too"""
    browser = page.open(page.example)
    assert ", saved" in browser.head()
    browser.write("wrist", "19 cm")
    browser.until(lambda: "not saved" in browser.head(), "it is marked")
    assert browser.driver.title.startswith("● ")
    page.settled()
    asks = "const leaving = new Event('beforeunload', { cancelable: true }); window.dispatchEvent(leaving); return leaving.defaultPrevented"
    assert browser.script(asks) is True, "the browser is to ask before the text is lost"
    browser.chord(Keys.CONTROL, "s")
    browser.until(lambda: ", saved" in browser.head(), "it is saved")
    assert page.program.written() == page.example.replace('"wrist": "18 cm"', '"wrist": "19 cm"')
    assert browser.script(asks) is False, "and not where there is nothing to lose"


def conflict_kept(page):
    """where somebody else wrote the file both texts are shown, and mine can be saved over it"""
    browser = page.open(page.example)
    browser.write("wrist", "19 cm")
    page.settled()
    other = page.example.replace('"neck": "40 cm"', '"neck": "41 cm"')
    page.program.job.write_text(other, encoding="utf-8")
    browser.press("button", "Save")
    dialog = browser.find("dialog", "The file was changed meanwhile")
    assert "19 cm" in dialog.text and "41 cm" in dialog.text
    assert page.program.written() == other, "nothing is written before it is chosen"
    browser.press("button", "Save yours over it")
    browser.until(lambda: ", saved" in browser.head(), "it is saved")
    assert '"19 cm"' in page.program.written() and '"neck": "40 cm"' in page.program.written()


conflict_kept.complaints = ("409",)


def conflict_taken(page):
    """the text on the disk can be taken instead, and mine is had back by a step"""
    browser = page.open(page.example)
    browser.write("wrist", "19 cm")
    page.settled()
    page.program.job.write_text(page.example.replace('"neck": "40 cm"', '"neck": "41 cm"'), encoding="utf-8")
    browser.press("button", "Save")
    browser.press("button", "Take the one on the disk")
    browser.until(lambda: browser.find("textbox", "neck").get_attribute("value") == "41 cm", "the forms show it")
    assert browser.find("textbox", "wrist").get_attribute("value") == "18 cm" and ", saved" in browser.head()
    browser.press("button", "Undo")
    browser.until(lambda: browser.find("textbox", "wrist").get_attribute("value") == "19 cm", "mine is had back")


conflict_taken.complaints = ("409",)


def _look_now(browser):
    """Every ten seconds the page asks; it does so as well when it comes into view, which takes no ten seconds."""
    browser.script("document.dispatchEvent(new Event('visibilitychange'))")


def changed_and_removed(page):
    """a file changed on the disk is told and can be read again, one that is removed is told too and saved anew"""
    browser = page.open(page.example)
    page.program.job.write_text(page.example.replace('"neck": "40 cm"', '"neck": "41 cm"'), encoding="utf-8")
    _look_now(browser)
    browser.press("button", "Read it again")
    browser.until(lambda: browser.find("textbox", "neck").get_attribute("value") == "41 cm", "the forms show it")
    page.program.job.unlink()
    _look_now(browser)
    browser.until(lambda: "The file is not on the disk any more" in browser.script("return document.body.innerText"), "it is told")
    browser.press("button", "Save")
    browser.press("button", "Save it again")
    browser.until(lambda: ", saved" in browser.head(), "it is saved")
    assert '"neck": "41 cm"' in page.program.written()


changed_and_removed.complaints = ("409",)


def program_gone(page):
    """where the program is gone the page says so, keeps everything and offers the text as a file"""
    browser = page.open(page.example)
    browser.write("wrist", "19 cm")
    page.settled()
    page.program.stop()
    browser.write("neck", "42 cm")
    browser.find("alert", re.compile(""))
    assert "The program has stopped" in browser.script("return document.body.innerText")
    assert browser.find("textbox", "wrist").get_attribute("value") == "19 cm"
    assert browser.find("textbox", "neck").get_attribute("value") == "42 cm", "what was typed stays"
    browser.cdp("Browser.setDownloadBehavior", behavior="allow", downloadPath=str(page.downloads))
    browser.press("button", "Keep the text as a file")
    import pathlib
    file = pathlib.Path(page.downloads) / "smock.json"
    browser.until(file.exists, "the file is kept")
    time.sleep(0.1)
    assert file.read_text(encoding="utf-8") == page.example.replace('"wrist": "18 cm"', '"wrist": "19 cm"')


program_gone.complaints = ("ERR_CONNECTION", "ERR_EMPTY_RESPONSE", "Failed to load resource")
