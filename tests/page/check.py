# SPDX-License-Identifier: GPL-3.0-or-later
"""Tries the page in Chromium, as a person uses it: check.py ROOT PROGRAM [part of a name]. Two browsers share all tests.

--look leaves a picture of the page where a test failed in the folder of temporary files.
"""
import subprocess
import sys
import tempfile
import time
import traceback

from browser import Browser
from program import Program, example

import accessibility
import cards
import faults
import keyboard
import looks
import saving
import sliders
import starting
import texts
import wearers
import way_through

PARTS = (way_through, cards, sliders, faults, texts, saving, starting, wearers, looks, keyboard, accessibility)

HALVES = 2
SHARE = "--share="


class Page:
    """The browser, and the program behind the page that is open in it."""

    def __init__(self, root, program, downloads):
        self.root, self.path, self.downloads = root, program, downloads
        self.example = example(root)
        self.browser = Browser(downloads)
        self.program = None

    def open(self, text=None, name="smock.json"):
        """Starts the program for a job of this text, or for none, and opens its page."""
        self.stop()
        self.program = Program(self.path, text, name)
        self.browser.open(self.program.address)
        self.browser.complaints()  # those of the page before, whose program is gone
        if text is not None:
            self.browser.until(lambda: self.verdict() != "", "there is a verdict")
            self.settled()
        return self.browser

    def settled(self):
        """Waits until what is written is what is planned and shown: nothing has been asked for a little while."""
        before, since = None, time.monotonic()
        while time.monotonic() - since < 0.1:
            now = self.browser.script("return [window.asked, window.unanswered + document.querySelectorAll('[aria-busy]').length]")
            if now != before or now[1] > 0:
                before, since = now, time.monotonic()
            time.sleep(0.02)

    def save(self):
        """Saves, and gives what then stands in the file."""
        self.settled()
        self.browser.press("button", "Save")
        self.browser.until(lambda: ", saved" in self.browser.head(), "the page says that it is saved")
        return self.program.written()

    def verdict(self):
        """The verdict as it is shown."""
        return self.browser.script("return document.querySelector('.verdict')?.innerText ?? ''")

    def stop(self):
        if self.program:
            self.browser.leave()
            self.program.__exit__()
            self.program = None


def tests():
    for part in PARTS:
        for name, test in vars(part).items():
            if callable(test) and getattr(test, "__module__", "") == part.__name__ and test.__doc__ and not name.startswith("_") and test.__code__.co_varnames[:1] == ("page",):
                yield test


def tried(page, test, look):
    """Whether a test passes; it is told how long it took, and why it failed."""
    began = time.monotonic()
    page.browser.window(1280)
    page.browser.colours("light")
    try:
        test(page)
        complaints = page.browser.complaints()
        allowed = getattr(test, "complaints", ())
        others = [each for each in complaints if not any(part in each for part in allowed)]
        assert not others, f"the browser complains: {others}"
        print(f"ok    {time.monotonic() - began:5.1f} s  {test.__doc__}", flush=True)
        return True
    except Exception:
        print(f"FAIL  {time.monotonic() - began:5.1f} s  {test.__doc__}\n{traceback.format_exc()}", flush=True)
        if look:
            page.browser.driver.save_screenshot(f"{tempfile.gettempdir()}/page-{test.__name__}.png")
        return False


def try_all(root, program, chosen, look):
    """Tries these tests one after another in one browser; how many fail."""
    with tempfile.TemporaryDirectory(prefix="gatherwright-downloads-") as downloads:
        page = Page(root, program, downloads)
        try:
            return [tried(page, test, look) for test in chosen].count(False)
        finally:
            page.stop()
            page.browser.close()


def shared(arguments):
    """Tries all tests in two processes; how many of those fail."""
    halves = [subprocess.Popen([sys.executable, __file__, *arguments, f"{SHARE}{half}"]) for half in range(HALVES)]
    return [half.wait() for half in halves].count(0) - HALVES


def main():
    look = "--look" in sys.argv
    share = next((int(each.removeprefix(SHARE)) for each in sys.argv if each.startswith(SHARE)), None)
    root, program, *parts = [each for each in sys.argv[1:] if not each.startswith("--")]
    if not parts and share is None:
        sys.exit(1 if shared(sys.argv[1:]) else 0)
    chosen = [test for test in tests() if not parts or any(part in test.__doc__ for part in parts)]
    if share is not None:
        chosen = chosen[share::HALVES]
    if failed := try_all(root, program, chosen, look):
        sys.exit(f"{failed} failed")


if __name__ == "__main__":
    main()
