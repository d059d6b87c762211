# SPDX-License-Identifier: GPL-3.0-or-later
"""Without a job, without scripts, and on paper."""
import pathlib
import re

from program import without_remarks


def starts(page):
    """without a job those to start from are offered with their pictures, and the first save takes a name"""
    browser = page.open()
    browser.find("heading", "What do you want to sew?")
    browser.until(lambda: browser.script("return document.querySelectorAll('#starts .picture svg').length") >= 6, "each has its picture")
    browser.press("button", "Start from cuff")
    browser.until(lambda: "within limits" in page.verdict(), "it is planned")
    assert "not saved" in browser.head()
    (pathlib.Path(page.program.folder.name) / "taken.json").write_text("{}")
    browser.press("button", "Save")
    for name, told in (("../evil", "name"), ("taken", "already")):
        browser.write("Name", name, leave="\n")
        browser.until(lambda: told in browser.find("alert", re.compile("")).text, f"why {name} is no name")
    browser.write("Name", "porters cuff", leave="\n")
    browser.until(lambda: "porters cuff.json, saved" in browser.head(), "it is saved")
    written = (pathlib.Path(page.program.folder.name) / "porters cuff.json").read_text(encoding="utf-8")
    assert without_remarks(written)["title"] == "Sleeve into cuff" and "//" in written
    assert (pathlib.Path(page.program.folder.name) / "taken.json").read_text() == "{}"


starts.complaints = ("409",)


def no_scripts(page):
    """a browser without scripts is told what to type instead"""
    browser = page.open(page.example)
    browser.cdp("Emulation.setScriptExecutionDisabled", value=True)
    try:
        browser.driver.get(page.program.address)
        words = " ".join(each["name"] for each in browser.tree())
        assert "gatherwright plan JOB" in words, words
    finally:
        browser.cdp("Emulation.setScriptExecutionDisabled", value=False)
        browser.driver.get(page.program.address)


def printed(page):
    """strips, sheet and layout are handed over as PDF, beside what to measure"""
    browser = page.open(page.example)
    browser.press("button", "Print…")
    dialog = browser.find("dialog", "Print")
    assert "Print at 100 %, and measure the bar" in dialog.text
    tab = browser.driver.current_window_handle
    for name in ("Marking strips", "Worksheet", "Pieces on their cloth"):
        browser.press("button", f"{name} as PDF")
        browser.until(lambda: len(browser.driver.window_handles) > 1, "it is opened in a tab of its own")
        for other in [each for each in browser.driver.window_handles if each != tab]:
            browser.driver.switch_to.window(other)
            browser.until(lambda: browser.driver.current_url.startswith("blob:http://127.0.0.1:"), "it is a file of the browser's own")
            browser.until(lambda: browser.script("return document.contentType") == "application/pdf", "it is a PDF")
            browser.driver.close()
        browser.driver.switch_to.window(tab)
        assert browser.find("link", f"Open: {name}").get_attribute("href").startswith("blob:")
    browser.press("button", "Done")
