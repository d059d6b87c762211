#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs one case: a command over files of its own, and all that it answers.

usage: run.py PROGRAM CASE [--accept]

A case is one readable file. What stands before the first line that begins with "-- " says what is shown. Then come
  -- file NAME      an input, to the next such line
  -- made NAME      an input that a command prints; one line, as below
  -- command        one line, its words as a POSIX shell splits them, the first "gatherwright"
  -- output         standard output
  -- errors         standard error
  -- status         the exit status
  -- wrote NAME     a file as the command left it; as many as are worth showing
--accept writes what was answered into the case: read it before you keep it.
"""

import difflib
import os
import pathlib
import shlex
import subprocess
import sys
import tempfile


def read_case(text):
    """The heading, and the parts as [title, lines]."""
    heading, parts = [], []
    for line in text.splitlines(keepends=True):
        if line.startswith("-- "):
            parts.append([line[3:].strip(), []])
        elif parts:
            parts[-1][1].append(line)
        else:
            heading.append(line)
    return "".join(heading), [[title, "".join(lines)] for title, lines in parts]


def run(program, command, folder):
    """Runs a line in a folder."""
    words = shlex.split(command)
    assert words[0] == "gatherwright"
    environment = {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8"}
    return subprocess.run([program, *words[1:]], cwd=folder, env=environment, stdin=subprocess.DEVNULL,
                          capture_output=True, encoding="utf-8", timeout=60)


def answers(program, parts):
    """What the command answers, by the titles of the parts."""
    with tempfile.TemporaryDirectory() as folder:
        for title, text in parts:
            if title.startswith("file "):
                pathlib.Path(folder, title[5:]).write_text(text, encoding="utf-8")
            elif title.startswith("made "):
                made = run(program, text, folder)
                assert made.returncode == 0, made.stderr
                pathlib.Path(folder, title[5:]).write_text(made.stdout, encoding="utf-8")
        done = run(program, dict(parts)["command"], folder)
        told = {"output": done.stdout, "errors": done.stderr, "status": f"{done.returncode}\n"}
        for title, _ in parts:
            if title.startswith("wrote "):
                written = pathlib.Path(folder, title[6:])
                told[title] = written.read_text(encoding="utf-8") if written.exists() else "nothing\n"
        return told


def main():
    program, path = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2])
    heading, parts = read_case(path.read_text(encoding="utf-8"))
    told = answers(program, parts)
    missing = [title for title in ("output", "errors", "status") if title not in dict(parts)]
    if "--accept" in sys.argv[3:]:
        parts = [[title, told.get(title, text)] for title, text in parts] + [[title, told[title]] for title in missing]
        path.write_text(heading + "".join(f"-- {title}\n{text}" for title, text in parts), encoding="utf-8")
        return 0
    faults = [f"the case does not say its {title}\n" for title in missing]
    for title, text in parts:
        if title in told and told[title] != text:
            faults += difflib.unified_diff(text.splitlines(True), told[title].splitlines(True), f"{path.name}: {title}",
                                           "answered")
    sys.stdout.writelines(faults)
    return 1 if faults else 0


sys.exit(main())
