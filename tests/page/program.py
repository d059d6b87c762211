# SPDX-License-Identifier: GPL-3.0-or-later
"""The program that the page comes from, started for a job of its own."""
import json
import os
import pathlib
import re
import signal
import subprocess
import tempfile


class Program:
    def __init__(self, program, text=None, name="smock.json"):
        self.program = str(pathlib.Path(program).resolve()) # it is started in a folder of its own
        self.folder = tempfile.TemporaryDirectory(prefix="gatherwright-page-")
        self.job = pathlib.Path(self.folder.name) / name
        command = [self.program, "page", "--port", "0", "--open", "never"]
        if text is not None:
            self.job.write_bytes(text.encode())
            command.append(str(self.job))
        self.process = subprocess.Popen(command, cwd=self.folder.name, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        self.address = self.process.stdout.readline().strip()
        assert re.fullmatch(r"http://127\.0\.0\.1:\d+/[^/]+/", self.address), (self.address, self.process.poll())

    def stop(self):
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGINT)
            self.process.wait(timeout=10)
        self.process.stdout.close()
        self.process.stderr.close()

    def written(self):
        return self.job.read_bytes().decode()

    def planned(self, text):
        """What the same program plans at the command line."""
        answer = subprocess.run([self.program, "plan", "-", "--json"], input=text, capture_output=True, text=True, check=False)
        return json.loads(answer.stdout) if answer.returncode < 2 else {"faults": answer.stderr.splitlines(), "verdict": None}

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.stop()
        self.folder.cleanup()


def without_remarks(text):
    """A job's values, its remarks taken off."""
    return json.loads(re.sub(r'("(?:[^"\\]|\\.)*")|//[^\n]*|/\*.*?\*/', lambda found: found.group(1) or "", text, flags=re.S))


def example(root):
    return (pathlib.Path(root) / "docs/examples/porters-smock.json").read_text(encoding="utf-8")


def folder_of_tests():
    return pathlib.Path(os.path.dirname(os.path.abspath(__file__)))
