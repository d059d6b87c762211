# SPDX-License-Identifier: GPL-3.0-or-later
"""How long from a touch to the new picture painted: touches.py ROOT PROGRAM [seconds].

The example's sleeve is slid at 60 touches a second; each touch is timed until a picture is painted that shows it or a
later one. Prints the centiles in milliseconds.
"""
import sys
import tempfile

from browser import Browser
from program import Program, example

SLIDE = """
const [seconds, done] = arguments;
const input = document.querySelector('input[type=range][aria-label="slide sleeve"]');
const picture = document.querySelector('[data-fragment="join-3-picture"]');
const touches = [], painted = [];
// In millimetres, as the picture itself has it.
const shown = () => Math.round(10 * parseFloat(/long edge, ([0-9.]+) cm/.exec(picture.querySelector('svg').getAttribute('aria-label'))[1]));
picture.scrollIntoView({ block: 'center' });
const answered = new MutationObserver(() => requestAnimationFrame(() => {
  const channel = new MessageChannel(); // its message comes when the frame has been painted
  channel.port1.onmessage = () => painted.push([shown(), performance.now()]);
  channel.port2.postMessage(0);
}));
answered.observe(picture, { attributeFilter: ['aria-label'], childList: true, subtree: true }); // it says how long the edge is
let value = 455, by = 1;
input.dispatchEvent(new PointerEvent('pointerdown', { bubbles: true }));
const began = performance.now();
const timer = setInterval(() => {
  if (performance.now() - began > seconds * 1000) {
    clearInterval(timer);
    setTimeout(() => {
      answered.disconnect();
      // Up and down again: a touch is shown by the first picture after it of its own value or of a later touch's.
      done([touches, painted]);
    }, 500);
    return;
  }
  value += by;
  if (value >= 565 || value <= 455) by = -by;
  input.value = String(value);
  touches.push([value, performance.now()]);
  input.dispatchEvent(new Event('input', { bubbles: true }));
}, 1000 / 60);
"""


def waits(touches, painted):
    """For each touch the time until a picture of it, or of a later one, was painted."""
    found = []
    for i, (_, when) in enumerate(touches):
        for value, at in painted:
            # Which touch this picture shows: the last of that value before it was painted.
            shows = next((j for j in range(len(touches) - 1, -1, -1) if touches[j][1] <= at and touches[j][0] == value), -1)
            if at >= when and shows >= i:
                found.append(at - when)
                break
    return sorted(found)


def main():
    root, path, *rest = sys.argv[1:]
    seconds = int(rest[0]) if rest else 5
    with tempfile.TemporaryDirectory() as downloads, Program(path, example(root)) as program:
        browser = Browser(downloads)
        try:
            browser.driver.set_script_timeout(seconds + 60)
            browser.open(program.address)
            # Not found by its role: a browser that has been asked for its accessibility tree keeps it up to date from then on.
            browser.until(lambda: browser.script("return document.querySelector('[data-fragment=\"join-3-picture\"]') !== null"), "the picture is there")
            touches, painted = browser.driver.execute_async_script(SLIDE, seconds)
            found = waits(touches, painted)
            assert len(found) >= 0.98 * len(touches), f"{len(touches) - len(found)} of {len(touches)} touches were never shown"
            print(f"touches {len(touches)}, pictures {len(painted)}")
            for centile in (50, 95, 99):
                print(f"from a touch to the new picture, {centile}th centile: {found[min(len(found) - 1, len(found) * centile // 100)]:.1f} ms")
        finally:
            browser.leave()
            browser.close()


if __name__ == "__main__":
    main()
