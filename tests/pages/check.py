#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the manual page and the completions against what the program says of itself.

usage: check.py PROGRAM FOLDER (of the pages)

What every command takes is read from its --help; the pages must have it, the shells and the manual's own reader must
find no fault in them, and words begun in bash and fish must be completed.
"""

import os
import pathlib
import re
import subprocess
import sys

program, folder = sys.argv[1], pathlib.Path(sys.argv[2])
faults = []


def told(fault):
    faults.append(fault)


def run(*command):
    done = subprocess.run(command, capture_output=True, encoding="utf-8", timeout=60)
    return done.returncode, done.stdout + done.stderr


def listed(text):
    """What stands at the left of a help's lists."""
    return re.findall(r"^  (--?[a-z-]+|[a-z]+(?= ))", text, re.M)


program_help = run(program, "--help")[1]
commands = [word for word in listed(program_help) if not word.startswith("-")]
options = {command: [word for word in listed(run(program, command, "--help")[1]) if word.startswith("--")] for command in commands}
if len(commands) < 4 or len(options["join"]) < 15:
    told(f"the help could not be read: {options}")


def check_without_fault():
    for command in (["mandoc", "-T", "lint", "-W", "warning", "gatherwright.1"], ["bash", "-n", "gatherwright"],
                    ["zsh", "-n", "_gatherwright"], ["fish", "-n", "gatherwright.fish"]):
        status, said = run(*command[:-1], str(folder / command[-1]))
        if status or said:
            told(f"{' '.join(command)}: {said}")


def check_all_there():
    manual = run("mandoc", "-T", "utf8", "-O", "width=78", str(folder / "gatherwright.1"))[1]
    manual = re.sub(".\b", "", manual)
    sections = dict(re.findall(r"^   (\w+)\n(.*?)(?=^\S|^   \w)", manual, re.M | re.S))
    zsh = (folder / "_gatherwright").read_text()
    branches = dict(re.findall(r"^        (\w+)\)\n(.*?);;", zsh, re.M | re.S))
    common = manual[manual.index("\nOPTIONS\n") :]
    for command in commands:
        for option in options[command]:
            if f" {option} " not in (sections.get(command, "") + common).replace("\n", " "):
                told(f"the manual has no {option} under {command}")
            if f"'{option}[" not in branches.get(command, ""):
                told(f"zsh is not offered {option} of {command}")


def bash(words):
    """What bash offers for the last of the words."""
    script = f"source '{folder}/gatherwright'; COMP_WORDS=(\"$@\"); COMP_CWORD=$(($# - 1)); _gatherwright; printf '%s\\n' \"${{COMPREPLY[@]}}\""
    return sorted(filter(None, run("bash", "-c", script, "bash", *words)[1].splitlines()))


def fish(words):
    line = " ".join(words)
    said = run("fish", "--no-config", "-c", f"source '{folder}/gatherwright.fish'; complete -C '{line}'")[1]
    return sorted(line.split("\t")[0] for line in said.splitlines())


def check_completed():
    for called, complete in (("bash", bash), ("fish", fish)):
        def offered(words, wanted):
            found = complete(["gatherwright", *words])
            if found != sorted(wanted):
                told(f"{called}: {' '.join(words)!r} is completed to {found}, not {sorted(wanted)}")

        for command in commands:
            offered([command[:-1]], [c for c in commands if c.startswith(command[:-1])])
            offered([command, "--"], options[command])
        offered(["join", "52", "22", "--uni"], ["--unit"])
        offered(["join", "52", "22", "--unit", "c"], ["cm"])
        offered(["join", "52", "22", "--kind", "ga"], ["gather", "gauge"])
        offered(["--color", "a"], ["always", "auto"])
        offered(["page", "--open", "a"], ["always", "auto"])
        offered(["start", "s"], ["set-in-sleeve", "sleeve-head", "smock"])
        offered(["join", "52", "22", "--weight", ""], [])
        offered(["plan", str(folder / "gatherwright.")], [str(folder / "gatherwright.1"), str(folder / "gatherwright.fish")])
    if bash(["gatherwright", "join", "--unit", "=", "y"]) != ["yd"]:
        told("bash: --unit=y is not completed")


def check_choices():
    """What is offered for a value is taken."""
    for option, values in (
        ("--unit", bash(["gatherwright", "join", "--unit", ""])), ("--kind", bash(["gatherwright", "join", "--kind", ""])),
                           ("--color", bash(["gatherwright", "join", "--color", ""]))):
        for value in values:
            edges = ["22 cm", "22 cm"] if value == "flat" else ["24 cm", "22 cm"]
            if not values or run(program, "join", *edges, option, value)[0] not in (0, 1):
                told(f"{option} {value} is offered, but the program does not take it")
    for name in bash(["gatherwright", "start", ""]):
        if run(program, "start", name)[0] != 0:
            told(f"{name} is no job to start from")


os.environ["LC_ALL"] = "C.UTF-8"
check_without_fault()
check_all_there()
check_completed()
check_choices()
for fault in faults:
    print(fault)
sys.exit(1 if faults else 0)
