# SPDX-License-Identifier: GPL-3.0-or-later
"""Sliders: dragged, by keys, at rest; what they say and what moves along."""
import re

from program import without_remarks
from selenium.webdriver.common.keys import Keys


def _aim(page):
    return without_remarks(page.save())["lengths"]["sleeve"]["aim"]


def dragged(page):
    """a slider is dragged, the pin follows, and the whole drag is one step"""
    browser = page.open(page.example)
    slider = browser.find("slider", "slide sleeve")
    assert slider.get_attribute("aria-valuetext").startswith("52 cm")
    browser.drag(slider, 60)
    page.settled()
    browser.until(lambda: not slider.get_attribute("aria-valuetext").startswith("52 cm"), "it comes to something else")
    aim = _aim(page)
    size = float(re.fullmatch(r"([\d.]+) cm", aim)[1])
    assert 53 < size < 58, aim
    assert slider.get_attribute("aria-valuetext").startswith(aim), (slider.get_attribute("aria-valuetext"), aim)
    browser.press("button", "Undo")
    browser.until(lambda: browser.find("textbox", "sleeve near").get_attribute("value") == "52 cm", "one step back is before the drag")


def there_and_back(page):
    """a slider that goes there and back in a moment leaves the picture of where it stands"""
    browser = page.open(page.example)
    slider = browser.find("slider", "slide sleeve")
    picture = "return document.querySelector('[data-fragment=\"join-3-picture\"]')"
    browser.script(picture + ".scrollIntoView({ block: 'center' })")
    page.settled()
    for far in (1, 7, 2):
        browser.script("""
            const [slider, far] = arguments, stands = Number(slider.value);
            slider.dispatchEvent(new PointerEvent('pointerdown', { bubbles: true }));
            for (const value of [stands + far, stands]) {
              slider.value = String(value);
              slider.dispatchEvent(new Event('input', { bubbles: true }));
            }
            slider.dispatchEvent(new PointerEvent('pointerup', { bubbles: true }));""", slider, far)
        page.settled()
        told = browser.script(picture + ".querySelector('svg').getAttribute('aria-label')")
        assert "the long edge, 52 cm" in told, told


def by_keys(page):
    """a slider goes by tape steps with the arrow keys, and speaks what it comes to"""
    browser = page.open(page.example)
    slider = browser.find("slider", "slide sleeve")
    slider.send_keys(*[Keys.ARROW_RIGHT] * 3)
    browser.until(lambda: slider.get_attribute("aria-valuetext").startswith("52.3 cm"), "52.3 cm")
    slider.send_keys(Keys.ARROW_LEFT)
    browser.until(lambda: slider.get_attribute("aria-valuetext").startswith("52.2 cm"), "52.2 cm")
    assert "anything from 45 cm to 57 cm will do" in slider.get_attribute("aria-valuetext")
    assert _aim(page) == "52.2 cm"


def ends(page):
    """a slider runs from the least to the most that is allowed, else from half to one and a half times"""
    browser = page.open(page.example)
    sleeve = browser.find("slider", "slide sleeve")
    assert (sleeve.get_attribute("min"), sleeve.get_attribute("max")) == ("450", "600")
    body = browser.find("slider", "slide body_length")
    assert (body.get_attribute("min"), body.get_attribute("max")) == ("470", "1410")
    browser = page.open(page.example.replace('"from": "45 cm", "to": "60 cm", "aim": "52 cm"', '"from": "400 mm", "to": "wrist + 42 cm", "aim": "20 in"'))
    sleeve = browser.find("slider", "slide sleeve")
    assert (sleeve.get_attribute("min"), sleeve.get_attribute("max"), sleeve.get_attribute("value")) == ("400", "600", "508"), "whatever unit or formula says it"


def given_and_formulas(page):
    """sliding a given length changes its value, a formula its one added quantity, and one without rests and says why"""
    browser = page.open(page.example)
    browser.find("slider", "slide body_length").send_keys(Keys.ARROW_RIGHT)
    page.settled()
    browser.find("slider", "slide cuff").send_keys(Keys.ARROW_RIGHT)
    page.settled()
    lengths = without_remarks(page.save())["lengths"]
    assert lengths["body_length"] == "94.1 cm" and lengths["cuff"]["is"] == "wrist + 5.1 cm", lengths
    resting = browser.find("slider", "slide front_of_collar")
    assert not resting.is_enabled()
    assert "It cannot be slid" in resting.find_element("xpath", "../..").text


def moved_along(page):
    """beyond the room found lengths move along, and the page says which"""
    browser = page.open(page.example)
    assert browser.find("slider", "slide collar").get_attribute("aria-valuetext").startswith("42 cm")
    slider = browser.find("slider", "slide collar")
    slider.send_keys(*[Keys.ARROW_LEFT] * 10)
    told = re.compile(r"neck_slit 13 cm → 13\.5 cm")
    browser.until(lambda: told.search(slider.find_element("xpath", "../..").text), "what moved along is told")


def what_binds(page):
    """what binds at an end of the room is said in words that lead there"""
    browser = page.open(page.example)
    planned = page.program.planned(page.example)["lengths"]
    bind = planned["neck_slit"]["binds"][0]
    assert bind["rule"] == "the head goes through"
    browser.script("arguments[0].scrollIntoView()", browser.find("slider", "slide neck_slit"))
    browser.find("slider", "slide neck_slit").find_element("xpath", f"../..//button[text()='Below: {bind['says']}']").click()
    focused = browser.driver.switch_to.active_element
    assert focused.accessible_name == "rule: the head goes through", focused.accessible_name


def never_moves(page):
    """while a slider is moved neither the focus nor the scroll nor the order of cards changes"""
    browser = page.open(page.example)
    slider = browser.find("slider", "slide sleeve")
    browser.script("arguments[0].scrollIntoView({ block: 'center' })", slider)
    slider.send_keys(Keys.ARROW_RIGHT)
    page.settled()
    place = "const m = document.querySelector('main:not([hidden])'); return [m.scrollTop, document.activeElement.getAttribute('aria-label'), [...document.querySelectorAll('.card h2')].map((h) => h.textContent).join()]"
    before = browser.script(place)
    slider.send_keys(*[Keys.ARROW_RIGHT] * 20)
    page.settled()
    assert browser.script(place) == before and before[1] == "slide sleeve"
