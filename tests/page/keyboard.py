# SPDX-License-Identifier: GPL-3.0-or-later
"""By the keyboard alone."""
import re

from selenium.webdriver.common.keys import Keys


def _name(browser):
    return browser.driver.switch_to.active_element.accessible_name


def _tab_to(browser, name, limit=400):
    seen = []
    for _ in range(limit):
        now = _name(browser)
        seen.append(now)
        if re.search(name, now):
            return seen
        browser.keys(Keys.TAB)
    raise AssertionError(f"{name} is not reached by Tab: {seen}")


def in_order(page):
    """Tab goes through the head, the cards from top to bottom, the ways to look and the tables"""
    browser = page.open(page.example)
    browser.script("document.activeElement.blur()")
    seen = browser.driver.execute_script("""
        const can = 'button:enabled, input:enabled, select:enabled, textarea:enabled, summary, a[href], [tabindex]';
        return [...document.querySelectorAll(can)].filter((e) => e.tabIndex >= 0 && e.checkVisibility() && !e.closest('[inert]') && !(e.closest('details:not([open])') && e.localName !== 'summary')).map((e) => e.getAttribute('aria-label') || e.textContent.trim() || e.labels?.[0]?.textContent)""")
    order = [seen.index(each) for each in ("Print…", "Save", "Add a measure", "wrist", "name", "slide sleeve", "slide cuff_slit", "Add a rule", "Add a seam", "Add a piece", "stitch", "title", "The plan", "Pieces", "Marks of sleeve hem into cuff")]
    assert order == sorted(order), list(zip(seen, order))
    assert browser.script("return [...document.querySelectorAll('[tabindex]')].every((e) => e.tabIndex <= 0)")
    walked = []
    for _ in range(12):
        browser.keys(Keys.TAB)
        walked.append(_name(browser))
    assert walked == seen[:12], (walked, seen[:12])


def whole_way(page):
    """by the keyboard alone a length is slid, a remedy taken and the job saved"""
    browser = page.open(page.example)
    browser.script("document.activeElement.blur()")
    _tab_to(browser, "^slide sleeve$")
    browser.keys(Keys.END)
    browser.until(lambda: browser.driver.switch_to.active_element.get_attribute("aria-valuetext").startswith("57 cm"), "it is slid")
    _tab_to(browser, "^sleeve from$")
    browser.keys("58 cm", Keys.TAB)
    browser.until(lambda: "too full" in page.verdict(), "the verdict says too full")
    page.settled()
    _tab_to(browser, "^Do this: ")
    browser.keys(Keys.ENTER)
    browser.until(lambda: "within limits" in page.verdict(), "it is put right")
    page.settled()
    browser.chord(Keys.CONTROL, "s")
    browser.until(lambda: ", saved" in browser.head(), "it is saved")
    assert page.program.planned(page.program.written())["verdict"] == "within limits"
    browser.chord(Keys.CONTROL, "z")
    browser.until(lambda: "too full" in page.verdict(), "one step back")


def fields_by_enter(page):
    """Enter takes what was typed and the focus stays in the field"""
    browser = page.open(page.example)
    browser.write("wrist", "19 cm", leave=Keys.ENTER)
    browser.until(lambda: "24 cm" in browser.script("return document.body.innerText"), "the cuff follows")
    assert _name(browser) == "wrist"


def announced(page):
    """the verdict is told half a second after the last change"""
    browser = page.open(page.example)
    browser.until(lambda: "within limits" in browser.script("return document.querySelector('[aria-live]').textContent"), "the first verdict is told")
    browser.script("""
        window.told = []; const live = document.querySelector('[aria-live]');
        new MutationObserver(() => told.push([performance.now(), live.textContent])).observe(live, { childList: true, characterData: true, subtree: true });""")
    browser.find("slider", "slide cuff_slit").send_keys(Keys.HOME)
    browser.find("slider", "slide body").send_keys(Keys.HOME)
    began = browser.script("return performance.now()")
    browser.until(lambda: browser.script("return told.length > 0"), "the new verdict is told")
    at, words = browser.script("return told[0]")
    assert "within limits" not in words and at - began > 200, (at - began, words)
