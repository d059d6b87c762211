# SPDX-License-Identifier: GPL-3.0-or-later
"""The wearers: a pasted list, planned row by row."""


def red_ones_first(page):
    """a pasted list is planned a row a wearer, those that do not come right first, whatever parts its cells"""
    browser = page.open(page.example)
    browser.press("tab", "Wearers")
    for apart, comma in ((",", "."), (";", ","), ("\t", ",")):
        rows = [["wearer", "wrist", "neck"], ["first porter", f"18{comma}5", "40"], ["second porter", "6", "40"], ["third porter", "17", "39"]]
        text = "\n".join(apart.join(row) for row in rows)
        area = browser.find("textbox", "List of wearers")
        browser.script("const [area, text] = arguments; area.focus(); area.select(); document.execCommand('insertText', false, text)", area, text)
        browser.press("button", "Plan them all")
        browser.until(lambda: browser.is_there("rowheader", "first porter"), "the rows are there")
        page.settled()
        names = [each["name"] for each in browser.tree() if each["role"] == "rowheader" and "porter" in each["name"]]
        assert names == ["second porter", "first porter", "third porter"], names
        body = browser.script("return document.querySelector('table.wearers').innerText")
        assert "within limits" in body and "1 not within limits" in body, body


def faults_of_a_list(page):
    """faults of a list are told in words"""
    browser = page.open(page.example)
    browser.press("tab", "Wearers")
    browser.write("List of wearers", "wearer,wirst\nfirst porter,18", leave=None)
    browser.press("button", "Plan them all")
    browser.until(lambda: "wirst" in browser.find("list", "Faults in the list").text, "the fault is told")
