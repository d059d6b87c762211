#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds docs/job.schema.json and docs/plan.schema.json against the program.

usage: check.py PROJECT PROGRAM EVERY

- every good job of the project validates, and so does every plan the program makes of it;
- every key that a schema knows stands in some good job, or in some plan made of one, and the keys of every object of
  a job are those that the program's reader knows there;
- what the schema shows to who writes a job (titles, examples) is there and right;
- jobs that a schema can see to be bad do not validate, and the program refuses them too;
- what the schema refuses of jobs changed at one place, the program refuses: of some 47,000 such changes one in EVERY
  is tried, the whole takes minutes.
"""

import copy
import json
import pathlib
import subprocess
import sys

import jsonschema

project, program, every = pathlib.Path(sys.argv[1]), sys.argv[2], int(sys.argv[3])
faults = []


def told(fault):
    faults.append(fault)


def without_comments(text):
    """The job with its comments blanked out; quotes and their escapes are heeded."""
    out, at, quoted = [], 0, False
    while at < len(text):
        if quoted:
            step = 2 if text[at] == "\\" else 1
            quoted = text[at] != '"'
        elif text.startswith("//", at):
            at = (text + "\n").index("\n", at)
            continue
        elif text.startswith("/*", at):
            at = text.index("*/", at) + 2
            continue
        else:
            step, quoted = 1, text[at] == '"'
        out.append(text[at : at + step])
        at += step
    return "".join(out)


def job_in(path):
    return json.loads(without_comments(path.read_text(encoding="utf-8")))


def run(arguments, text=None):
    done = subprocess.run([program, *arguments], input=text, capture_output=True, encoding="utf-8", timeout=60)
    return done.returncode, done.stdout


class Schema:
    def __init__(self, name):
        self.root = json.loads((project / "docs" / name).read_text(encoding="utf-8"))
        jsonschema.Draft202012Validator.check_schema(self.root)
        self.validator = jsonschema.Draft202012Validator(self.root)
        self.seen = set()

    def why_not(self, value):
        return [f"/{'/'.join(map(str, e.absolute_path))}: {e.message[:200]}" for e in self.validator.iter_errors(value)]

    def accepts(self, value):
        return self.validator.is_valid(value)

    def parts(self, schema, where):
        """The schema, those it refers to and its alternatives, each with where it stands."""
        yield schema, where
        if "$ref" in schema:
            name = schema["$ref"].removeprefix("#/$defs/")
            yield from self.parts(self.root["$defs"][name], name)
        for i, part in enumerate(schema.get("anyOf", [])):
            yield from self.parts(part, f"{where}/{i}")

    def notice(self, value, schema=None, where=""):
        """Notes which of the schema's keys a value has."""
        for part, at in self.parts(self.root if schema is None else schema, where):
            if isinstance(value, dict):
                for key, inner in value.items():
                    if key in part.get("properties", {}):
                        self.seen.add(f"{at}/{key}")
                        self.notice(inner, part["properties"][key], f"{at}/{key}")
                    elif isinstance(part.get("additionalProperties"), dict):
                        self.notice(inner, part["additionalProperties"], f"{at}/*")
            elif isinstance(value, list) and isinstance(part.get("items"), dict):
                for inner in value:
                    self.notice(inner, part["items"], f"{at}/*")

    def keys(self, schema=None, where="", known=None):
        """Every key of the schema, by where it stands."""
        known = set() if known is None else known
        for part, at in self.parts(self.root if schema is None else schema, where):
            for key, inner in part.get("properties", {}).items():
                if f"{at}/{key}" not in known:
                    known.add(f"{at}/{key}")
                    self.keys(inner, f"{at}/{key}", known)
            for under in ("additionalProperties", "items"):
                if isinstance(part.get(under), dict):
                    self.keys(part[under], f"{at}/*", known)
        return known


    def keys_at(self, path):
        """The keys that an object at this place may have, whatever it is."""
        parts = list(self.parts(self.root, ""))
        for step in path:
            inner = []
            for part, at in parts:
                under = "items" if isinstance(step, int) else "additionalProperties"
                next_part = part.get("properties", {}).get(step, part.get(under))
                if isinstance(next_part, dict):
                    inner.extend(self.parts(next_part, at))
            parts = inner
        return sorted(key for part, _ in parts for key in part.get("properties", {}))


jobs, plans = Schema("job.schema.json"), Schema("plan.schema.json")

good = sorted(
    [*project.glob("docs/examples/*.json"), *project.glob("cli/start/*.jsonc"), *project.glob("tests/schema/good/*.json")]
    + [path for path in project.glob("tests/data/worked/**/*.job.json") if not path.name.startswith("bad-")]
)


def check_plan(arguments, called):
    status, text = run(arguments)
    if status not in (0, 1):
        return told(f"{called}: the program refuses it")
    plan = json.loads(text, parse_constant=lambda word: told(f"plan of {called}: {word}"))
    plans.notice(plan)
    for why in plans.why_not(plan):
        told(f"plan of {called}: {why}")


def check_good():
    for path in good:
        job = job_in(path)
        jobs.notice(job)
        for why in jobs.why_not(job):
            told(f"{path.name}: {why}")
        for options in ([], ["--profile"]):
            check_plan(["plan", str(path), "--json", *options], path.name)
    for edges in (["52 cm", "22 cm"], ["24 3/4 in", "10 in"], ["20 cm", "22 cm"]):
        check_plan(["join", *edges, "--json"], " into ".join(edges))
    for called, schema in (("job.schema.json", jobs), ("plan.schema.json", plans)):
        for key in sorted(schema.keys() - schema.seen):
            told(f"{called}: {key} stands in no job or plan of the tests")


# What is wrong with these a schema cannot see: a key that comes twice, what formulas come to, and names that stand for
# nothing or for two things.
UNSEEN = {"bad-11-duplicate-length", "bad-13-no-unit", "bad-18-cycle-self", "bad-12-unknown-join", "bad-15-mark-twice"}


def check_bad():
    seen = 0
    for path in sorted([*project.glob("tests/data/worked/**/bad-*.job.json"), *project.glob("tests/schema/bad/*.json")]):
        if run(["plan", str(path)])[0] != 2:
            told(f"{path.name}: the program takes it")
        accepted = jobs.accepts(job_in(path))
        if accepted != (path.name.removesuffix(".job.json") in UNSEEN):
            told(f"{path.name}: the schema {'accepts' if accepted else 'refuses'} it")
        seen += not accepted
    if seen < 2:
        told("too few bad jobs")


def places(value, path=()):
    yield path
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, each in inner:
        yield from places(each, (*path, key))


def changed(job, path, change):
    """A copy of the job in which the change was made to the holder of the last step of the path."""
    job = copy.deepcopy(job)
    holder = job
    for step in path[:-1]:
        holder = holder[step]
    change(holder, path[-1])
    return job


def setting(value):
    def change(holder, key):
        holder[key] = value

    return change


def leaving_out(holder, key):
    del holder[key]


def misspelling(holder, key):
    holder[key + "x"] = holder.pop(key)


PORTER = job_in(project / "docs/examples/porters-smock.json")
PIECES = job_in(project / "tests/schema/good/pieces.json")

# One change each that the schema must see.
MUTATIONS = [
    (("joins",), leaving_out),
    (("joins", 0, "name"), leaving_out),
    (("joins", 0, "long"), leaving_out),
    (("joins", 0, "band"), leaving_out),
    (("joins",), setting([])),
    (("joins",), setting({})),
    (("title",), misspelling),
    (("fabric", "weight"), misspelling),
    (("joins", 0, "segments", 0, "kind"), misspelling),
    (("lengths", "sleeve", "aim"), misspelling),
    (("rules", 0, "holds"), leaving_out),
    (("rules", 0), setting("collar")),
    (("unit",), setting("nail")),
    (("unit",), setting("inches")),
    (("tape_step",), setting(0)),
    (("title",), setting(7)),
    (("title",), setting("two\nlines")),
    (("fabric", "weight"), setting(165)),
    (("fabric", "weight"), setting("165")),
    (("fabric", "weight"), setting("5 oz")),
    (("fabric", "shrinks"), setting("true")),
    (("gathering", "rows"), setting(0)),
    (("gathering", "rows"), setting(1.5)),
    (("gathering", "threads"), setting([3, 4])),
    (("marks", "parts"), setting(4)),
    (("marks", "apart"), leaving_out),
    (("measures", "wrist"), setting(-1)),
    (("measures", "left wrist"), setting("18 cm")),
    (("measures", "cloth_width"), setting("18 cm")),
    (("lengths", "collar", "from"), setting("10 cm")),
    (("lengths", "body"), setting(None)),
    (("joins", 0, "name"), setting("")),
    (("joins", 1, "make"), setting(0)),
    (("joins", 0, "closed"), setting(1)),
    (("joins", 2, "long", "ends"), setting(["1 cm"])),
    (("joins", 2, "long", "path"), setting("M 0 0 L 9 0")),
    (("joins", 2, "long", "grain"), setting(45)),
    (("joins", 0, "segments"), setting([])),
    (("joins", 0, "segments", 0, "kind"), setting("pleat")),
    (("joins", 0, "segments", 0, "share"), setting(2)),
    (("joins", 0, "segments", 1, "share"), setting(0)),
    (("joins", 0, "segments", 1, "limits"), setting({"most": 0.9})),
    (("joins", 0, "segments", 1, "spread"), setting("smooth")),
    (("joins", 0, "segments", 1, "spread"), setting({"fade": ["1 cm"]})),
    (("joins", 0, "segments", 1, "spread"), setting({"shape": [[0, 1]]})),
    (("wearer",), setting({"age": "34"})),
    (("wearer",), setting({"age": 200})),
]


# The same of the job with pieces.
MUTATIONS_OF_PIECES = [
    (("pieces",), setting({})),
    (("pieces", 0), setting("sleeve")),
    (("pieces", 0, "name"), leaving_out),
    (("pieces", 0, "across"), leaving_out),
    (("pieces", 0, "along"), leaving_out),
    (("pieces", 0, "along"), misspelling),
    (("pieces", 0, "name"), setting("")),
    (("pieces", 0, "across"), setting(0)),
    (("pieces", 0, "cut"), setting(0)),
    (("pieces", 0, "cut"), setting(1.5)),
    (("pieces", 0, "cut"), setting(10001)),
    (("pieces", 0, "cut"), setting("two")),
    (("pieces", 0, "mirrored"), setting(1)),
    (("pieces", 1, "turn"), setting("yes")),
    (("pieces", 0, "allowance", "top"), misspelling),
    (("pieces", 0, "allowance", "top"), setting(-1)),
    (("pieces", 0, "allowance"), setting(["1 cm"])),
    (("pieces", 0, "sides"), setting("sleeve into cuff")),
    (("pieces", 0, "sides", "bottom"), misspelling),
    (("pieces", 0, "sides", "bottom"), setting(3)),
    (("pieces", 0, "sides", "bottom"), setting([[]])),
    (("pieces", 1, "sides", "top", 0, "join"), leaving_out),
    (("pieces", 1, "sides", "top", 0, "edge"), setting("bands")),
    (("pieces", 1, "sides", "top", 0, "from"), setting(0)),
    (("pieces", 1, "sides", "top", 0, "at"), setting(-1)),
    (("pieces", 2, "fabric"), setting("lawn")),
    (("fabric", "selvedge"), setting(-1)),
    (("fabric", "shrinkage"), setting("5 %")),
    (("fabric", "shrinkage", "along"), setting(5)),
    (("fabric", "shrinkage", "along"), setting("5")),
    (("fabric", "shrinkage", "across"), misspelling),
    (("fabric", "sold_by"), setting(0)),
    (("fabric", "stock"), setting(0)),
]


def check_mutations():
    for base, (path, change) in [(PORTER, each) for each in MUTATIONS] + [(PIECES, each) for each in MUTATIONS_OF_PIECES]:
        job = changed(base, path, change)
        called = f"/{'/'.join(map(str, path))} of the example changed"
        if jobs.accepts(job):
            told(f"{called}: the schema accepts {json.dumps(job)[:80]}")
        if run(["plan", "-"], json.dumps(job))[0] != 2:
            told(f"{called}: the program takes it")


# Put in every place of every good job; both spellings that are right somewhere and such as never are.
PALETTE = [None, True, False, 0, 1, 2.0, 2.5, -1, 1e9, "", " ", "8", "8 cm", "8\u00a0cm ", "\u00bd in", "1 yd 4\u00bd\u2033",
           "5\u2032 10\"", "8 cm + 8 cm", "8 / in", " 8/cm", "3/8 in", "120 g/m2 ", "120 g / m\u00b2", "4 oz/yd\u00b2", "90gsm",
           "8 cm<=9 cm", "8 cm = 8 cm", "even", "most", "least", "flat", "in", "ell", "M0,0L90,0", [], ["1 cm", 1], [3, 4], "8 %", "long",
           {}, {"parts": 2}, {"is": 8}, {"length": "9 cm"}, {"weight": "90 gsm"}, {"fade": [0, 0]}, {"shape": [[0, 1], [1, 0]]}]


def check_never_too_strict():
    tried = at = 0
    for path in good:
        job = job_in(path)
        for place in places(job):
            if not place:
                continue
            for value in PALETTE:
                at += 1
                if at % every:
                    continue
                wrong = changed(job, place, setting(value))
                if not jobs.accepts(wrong):
                    tried += 1
                    if run(["plan", "-"], json.dumps(wrong))[0] != 2:
                        told(f"{path.name}: {value!r} at /{'/'.join(map(str, place))}: refused by the schema alone")
    if tried < at / every / 2:
        told(f"only {tried} changed jobs were refused by the schema")


def subschemas(schema):
    if isinstance(schema, dict):
        yield schema
        for inner in schema.values():
            yield from subschemas(inner)
    elif isinstance(schema, list):
        for inner in schema:
            yield from subschemas(inner)


def check_what_editors_show():
    """Every key of a job has a title or says what it is; examples and defaults are what they are examples of."""
    for part in subschemas(jobs.root):
        for key, inner in part.get("properties", {}).items() if isinstance(part.get("properties"), dict) else ():
            if part.get("additionalProperties") is False and "title" not in inner:
                told(f"job.schema.json: {key} has no title")
        shown = part.get("examples", []) + ([part["default"]] if "default" in part else [])
        whole = {**part, "$defs": jobs.root["$defs"]}
        for value in shown if isinstance(shown, list) else ():
            if not jsonschema.Draft202012Validator(whole).is_valid(value):
                told(f"job.schema.json: {value!r} is no example of {part.get('title')}")


def check_readers_keys():
    """An unknown key is refused with a list of those that are known."""
    asked = set()
    for path in good:
        job = job_in(path)
        for place in places(job):
            known = jobs.keys_at(place)
            holder = job
            for step in place:
                holder = holder[step]
            if not isinstance(holder, dict) or not known or str(known) in asked:
                continue
            asked.add(str(known))
            unknown = changed(job, (*place, "qqqqqqqqqqqqqqqqqqqq"), setting(0))
            said = subprocess.run([program, "plan", "-"], input=json.dumps(unknown), capture_output=True, encoding="utf-8")
            listed = said.stderr.partition("; the keys are ")[2].splitlines()[:1]
            if not listed or sorted(listed[0].split(", ")) != known:
                told(f"/{'/'.join(map(str, place))} of {path.name}: the schema knows {known}, the reader {listed}")
    if len(asked) < 13:
        told(f"only {len(asked)} objects of a job were compared")


check_good()
check_what_editors_show()
check_readers_keys()
check_bad()
check_mutations()
check_never_too_strict()
for fault in faults:
    print(fault)
sys.exit(1 if faults else 0)
