# SPDX-License-Identifier: GPL-3.0-or-later
"""A browser in which things are found as a person finds them: by what they are and what they are called."""
import re
import time

from selenium import webdriver
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.keys import Keys

PATIENCE = 8  # seconds until something that is looked for has to be there


class NotFound(AssertionError):
    pass


class Browser:
    def __init__(self, downloads):
        options = Options()
        for argument in ("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--window-size=1280,1000"):
            options.add_argument(argument)
        options.add_experimental_option("prefs", {"download.default_directory": str(downloads), "download.prompt_for_download": False})
        options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
        options.set_capability("unhandledPromptBehavior", "ignore")
        self.driver = webdriver.Chrome(service=Service("/usr/bin/chromedriver"), options=options)
        self.count = 0
        # What has been asked of the program and what is still to be answered, for who waits.
        self.cdp("Page.addScriptToEvaluateOnNewDocument", source="""
            window.asked = 0; window.unanswered = 0; const ask = window.fetch;
            window.fetch = (...what) => { ++window.asked; ++window.unanswered; return ask(...what).finally(() => --window.unanswered); };""")

    def close(self):
        self.driver.quit()

    def cdp(self, command, **parameters):
        return self.driver.execute_cdp_cmd(command, parameters)

    def script(self, text, *arguments):
        return self.driver.execute_script(text, *arguments)

    def module(self, name, function, *arguments):
        """What a function of one of the page's own modules answers."""
        return self.driver.execute_async_script(
            "const [name, call, given, done] = arguments; import(new URL(name, location)).then((module) => done(module[call](...given)))", name, function, arguments)

    def window(self, width, height=1000):
        self.cdp("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=False)

    def colours(self, scheme):
        self.cdp("Emulation.setEmulatedMedia", features=[{"name": "prefers-color-scheme", "value": scheme}])

    def open(self, address):
        self.leave()
        self.driver.get(address)

    def leave(self):
        """Leaves a page without its question about what is not saved."""
        self.script("window.addEventListener('beforeunload', (event) => event.stopImmediatePropagation(), true)")

    def prompts(self, accept):
        """Answers the browser's own question, if there is one; whether there was."""
        try:
            alert = self.driver.switch_to.alert
            (alert.accept if accept else alert.dismiss)()
            return True
        except Exception:
            return False

    # What is there, as the browser tells it to those who cannot see.

    def tree(self):
        """All that the accessibility tree holds: role, name, value, whether it is focusable, the node behind it."""
        found = []
        for node in self.cdp("Accessibility.getFullAXTree")["nodes"]:
            if node.get("ignored"):
                continue
            said = {each["name"]: each["value"].get("value") for each in node.get("properties", [])}
            found.append({"role": node["role"]["value"], "name": node.get("name", {}).get("value", ""),
                          "value": node.get("value", {}).get("value"), "description": node.get("description", {}).get("value", ""),
                          "node": node.get("backendDOMNodeId"), **said})
        return found

    def _nodes(self, role, name):
        root = self.cdp("DOM.getDocument", depth=0)["root"]["backendNodeId"]
        asked = {"accessibleName": name} if isinstance(name, str) else {}
        nodes = self.cdp("Accessibility.queryAXTree", backendNodeId=root, role=role, **asked)["nodes"]
        pattern = re.compile("") if isinstance(name, str) else name
        return [node["backendDOMNodeId"] for node in nodes if not node.get("ignored") and pattern.search(node.get("name", {}).get("value", ""))]

    def _element(self, node):
        """The control behind a node, found by a mark that is taken off again."""
        self.count += 1
        mark = f"data-found-{self.count}"
        held = self.cdp("DOM.resolveNode", backendNodeId=node)["object"]["objectId"]
        self.cdp("Runtime.callFunctionOn", objectId=held, functionDeclaration=f"function () {{ (this.nodeType === 1 ? this : this.parentNode).setAttribute('{mark}', '') }}")
        element = self.driver.find_element("css selector", f"[{mark}]")
        self.script("arguments[0].removeAttribute(arguments[1])", element, mark)
        return element

    def all(self, role, name=re.compile("")):
        return [self._element(node) for node in self._nodes(role, name)]

    def find(self, role, name, patience=PATIENCE):
        """The one control of this role and name (a text, or a pattern)."""
        end = time.monotonic() + patience
        while True:
            try:
                nodes = self._nodes(role, name)
                if nodes:
                    return self._element(nodes[0])
            except Exception as trouble:  # the document was changed meanwhile
                if time.monotonic() > end:
                    raise NotFound(f"no {role} is called {name!r}: {trouble}") from trouble
            if time.monotonic() > end:
                names = sorted({each["name"] for each in self.tree() if each["role"] == role})
                raise NotFound(f"no {role} is called {name!r}; there are {names}")
            time.sleep(0.03)

    def is_there(self, role, name):
        return bool(self._nodes(role, name))

    def head(self):
        """What the head of the page says: the title, the file, whether it is saved."""
        return self.script("return document.querySelector('header').innerText")

    # What a person does.

    def press(self, role, name):
        element = self.find(role, name)
        self.script("arguments[0].scrollIntoView({ block: 'center' })", element)
        element.click()
        return element

    def write(self, name, text, role="textbox", leave=Keys.TAB):
        """Writes into a field in place of what stands there, and leaves it."""
        field = self.find(role, name)
        self.script("arguments[0].scrollIntoView({ block: 'center' })", field)
        field.click()
        field.send_keys(Keys.CONTROL, "a")
        field.send_keys(text if text != "" else Keys.DELETE)
        if leave:
            field.send_keys(leave)
        return field

    def keys(self, *keys):
        ActionChains(self.driver).send_keys(*keys).perform()

    def chord(self, held, key):
        ActionChains(self.driver).key_down(held).send_keys(key).key_up(held).perform()

    def drag(self, element, by):
        """Drags what lies in the middle of the slider's pin so many pixels to the side, in small moves."""
        self.script("arguments[0].scrollIntoView({ block: 'center' })", element)
        box = self.script("const e = arguments[0], b = e.getBoundingClientRect(); return [b.left, b.width, b.top + b.height / 2, (e.value - e.min) / (e.max - e.min)]", element)
        pin = 16  # the browser's own pin is as wide as this
        x, y = box[0] + pin / 2 + (box[1] - pin) * box[3], box[2]
        mouse = lambda kind, at: self.cdp("Input.dispatchMouseEvent", type=kind, x=at, y=y, button="left", buttons=0 if kind == "mouseReleased" else 1, clickCount=1)
        mouse("mousePressed", x)
        steps = 12
        for step in range(1, steps + 1):
            mouse("mouseMoved", x + by * step / steps)
            time.sleep(0.016)
        mouse("mouseReleased", x + by)

    def until(self, true, what, patience=PATIENCE):
        """Waits until `true()` holds."""
        end = time.monotonic() + patience
        while True:
            try:
                result = true()
                if result:
                    return result
            except NotFound:
                raise
            except Exception:
                if time.monotonic() > end:
                    raise
            assert time.monotonic() < end, f"never: {what}"
            time.sleep(0.03)

    def complaints(self):
        """What the browser has to say of the page itself."""
        return [each["message"] for each in self.driver.get_log("browser") if each["level"] == "SEVERE"]
