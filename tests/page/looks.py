# SPDX-License-Identifier: GPL-3.0-or-later
"""Windows of all widths: nothing is cut off, nothing scrolls sideways, and what matters stays in view."""


def narrow_windows(page):
    """no window from 320 px up scrolls sideways, whatever is looked at and unfolded"""
    browser = page.open(page.example)
    browser.script("for (const d of document.querySelectorAll('details')) d.open = true; for (const b of [...document.querySelectorAll('.more')].slice(0, 3)) b.click()")
    for view in ("The plan", "The text", "Wearers"):
        browser.press("tab", view)
        for width in (320, 480, 751, 752, 1024):
            browser.window(width)
            if view == "The plan" and width in (320, 1024):
                page.settled()  # its pictures are others
            over = browser.script("""
                const wide = document.documentElement.clientWidth;
                const halves = [document.documentElement, document.querySelector('#known'), document.querySelector('#follows')];
                if (halves.every((e) => e.scrollWidth <= e.clientWidth)) return [];
                return [wide, ...[...document.querySelectorAll('#page *')].filter((e) => e.getBoundingClientRect().right > wide + 1 && !e.closest('.scroll, .written')).map((e) => e.outerHTML.slice(0, 90))].slice(0, 6)""")
            assert over == [], (view, width, over)
        browser.window(1280)


def one_column(page):
    """below 752 px the verdict, a figure and a way to what follows stand at the foot"""
    browser = page.open(page.example)
    browser.window(752)
    assert not browser.is_there("button", "What follows")
    browser.window(751)
    foot = browser.find("complementary", "Verdict")
    assert "within limits" in foot.text and "2.26 to 1" in foot.text
    browser.press("button", "What follows")
    browser.until(lambda: browser.script("return document.querySelector('.verdict').getBoundingClientRect().top") < 600, "what follows is in view")
    browser.press("button", "What is known")
    browser.until(lambda: browser.script("return scrollY") < 200, "back at the top")


def two_halves(page):
    """in a wide window the halves scroll by themselves and the verdict stays in view"""
    browser = page.open(page.example)
    moved = browser.script("""
        const [known, follows] = [document.querySelector('#known'), document.querySelector('#follows')];
        follows.scrollTop = 2000;
        return [known.scrollTop, follows.scrollTop, document.querySelector('.verdict').getBoundingClientRect().top, document.documentElement.scrollTop]""")
    assert moved[0] == 0 and moved[1] == 2000 and 0 < moved[2] < 200 and moved[3] == 0, moved


def lit_together(page):
    """the mark under the pointer is lit in picture and table alike"""
    browser = page.open(page.example)
    counts = browser.script("""
        const row = document.querySelector('[data-join="2"] table [data-mark="5"]');
        row.dispatchEvent(new PointerEvent('pointerover', { bubbles: true }));
        const lit = [...document.querySelectorAll('.lit')];
        return [lit.some((e) => e.closest('svg')), lit.some((e) => e.closest('table')), lit.every((e) => e.dataset.mark === '5' && e.closest('[data-join="2"]'))]""")
    assert counts == [True, True, True], counts
