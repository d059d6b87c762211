# SPDX-License-Identifier: GPL-3.0-or-later
"""What the browser tells those who cannot see the page, and whether those who see can read it."""
import re

CONTROLS = {"button", "textbox", "combobox", "checkbox", "radio", "slider", "tab", "link", "spinbutton", "DisclosureTriangle", "searchbox"}

READ = """
const luminance = (c) => { const [r, g, b] = c.map((v) => { v /= 255; return v <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; }); return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
const parsed = (text) => { const m = text.match(/[\\d.]+/g)?.map(Number) ?? [0, 0, 0, 0]; return [m.slice(0, 3), m[3] ?? 1]; };
const over = (top, alpha, below) => top.map((v, i) => v * alpha + below[i] * (1 - alpha));
const ground = (e) => { if (!e) return parsed(getComputedStyle(document.documentElement).backgroundColor)[1] ? parsed(getComputedStyle(document.documentElement).backgroundColor)[0] : [255, 255, 255];
  const [c, a] = parsed(getComputedStyle(e).backgroundColor); return a === 1 ? c : over(c, a, ground(e.parentElement)); };
const ratio = (a, b) => { const [x, y] = [luminance(a), luminance(b)].sort((p, q) => q - p); return (x + 0.05) / (y + 0.05); };
const faults = [];
for (const e of document.querySelectorAll('body *')) {
  if (!e.checkVisibility({ opacityProperty: true, visibilityProperty: true }) || e.closest('noscript, .unseen')) continue;
  const s = getComputedStyle(e);
  const words = [...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim() !== '') || (e.matches('input[type=text], select') && e.value !== '');
  const svg_text = e.matches('svg text');
  if (words && e.localName !== 'textarea' && e.localName !== 'option') {
    const r = ratio(over(parsed(svg_text ? s.fill : s.color)[0], parsed(svg_text ? s.fill : s.color)[1], ground(e)), ground(e));
    if (r < 4.5) faults.push(['words', e.localName, e.className.baseVal ?? e.className, e.textContent.slice(0, 30), r.toFixed(2)]);
  }
  if (e.matches('input[type=text], textarea, select, button:enabled:not(.quiet):not(.link):not(.back):not(.more):not([role=tab])') && parseFloat(s.borderTopWidth) > 0 && parsed(s.borderTopColor)[1] > 0) {
    const r = ratio(parsed(s.borderTopColor)[0], ground(e.parentElement));
    if (r < 3) faults.push(['edge', e.localName, e.className, e.textContent.slice(0, 30), r.toFixed(2)]);
  }
}
return faults;
"""


def _states(page):
    """The page in the states that look different: good, wrong, at fault, unfolded, the other views."""
    yield "good", page.open(page.example)
    browser = page.browser
    browser.script("for (const d of document.querySelectorAll('details')) d.open = true; for (const b of [...document.querySelectorAll('.more')].slice(0, 3)) b.click()")
    page.settled()
    yield "unfolded", browser
    browser.press("tab", "The text")
    yield "text", browser
    browser.press("tab", "Wearers")
    yield "wearers", browser
    browser.press("tab", "The plan")
    browser.press("button", "Print…")
    yield "print", browser
    browser.press("button", "Done")
    yield "wrong", page.open(page.example.replace('"from": "45 cm"', '"from": "58 cm"'))
    browser.write("wrist", "17 furlongs")
    browser.until(lambda: "fault" in page.verdict(), "there is a fault")
    yield "at fault", browser


def named_and_in_order(page):
    """every control has a name, no two elements the same id, headings go in order, and controls are told apart by their names"""
    for state, browser in _states(page):
        tree = browser.tree()
        nameless = [(each["role"], each["description"]) for each in tree if each["role"] in CONTROLS and not each["name"].strip()]
        assert not nameless, (state, nameless)
        ids = browser.script("const ids = [...document.querySelectorAll('[id]')].map((e) => e.id); return ids.filter((id, i) => ids.indexOf(id) !== i)")
        assert ids == [], (state, ids)
        levels = browser.script("return [...document.querySelectorAll('h1, h2, h3, h4')].filter((e) => e.checkVisibility() && !e.closest('dialog')).map((e) => [Number(e.localName[1]), e.textContent])")
        assert levels[0][0] == 1 and [each[0] for each in levels].count(1) == 1, (state, levels[:3])
        for (before, _), (after, words) in zip(levels, levels[1:]):
            assert after <= before + 1, (state, words, before, after)
        fields = [each["name"] for each in tree if each["role"] in {"textbox", "slider", "combobox", "checkbox"}]
        assert len(fields) == len(set(fields)), (state, sorted({each for each in fields if fields.count(each) > 1}))
        references = browser.script("""return [...document.querySelectorAll('[aria-describedby], [aria-labelledby], [aria-controls], label[for]')].flatMap((e) =>
            ['aria-describedby', 'aria-labelledby', 'aria-controls', 'for'].flatMap((a) => (e.getAttribute(a) ?? '').split(' ').filter(Boolean))).filter((id) => !document.getElementById(id))""")
        assert references == [], (state, references)


def contrast(page):
    """words stand out 4.5 to 1 and edges 3 to 1, in light and in dark"""
    for state, browser in _states(page):
        for scheme in ("light", "dark"):
            browser.colours(scheme)
            faults = browser.script(READ)
            assert faults == [], (state, scheme, faults[:8])
        browser.colours("light")


def quiet(page):
    """nothing is fetched from elsewhere, and nothing on the page has an inline style sheet or script"""
    browser = page.open(page.example)
    browser.press("tab", "The text")
    page.settled()
    foreign = browser.script("return performance.getEntriesByType('resource').map((e) => e.name).filter((name) => !name.startsWith(location.href))")
    assert foreign == [], foreign
    assert browser.script("return document.querySelectorAll('style, script:not([src]), [onclick]').length") == 0
    source = browser.script("const r = new XMLHttpRequest(); r.open('GET', location.href, false); r.send(); return r.responseText")
    assert not re.search(r"style=|<style|https?://", source), source
