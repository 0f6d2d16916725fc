#!/usr/bin/env python3
"""Runs both verifiers over a folder of cases: each must name the damage, and both must say the same code words.

    agree.py FARSIDING FOLDER
"""
import json
import pathlib
import subprocess
import sys

farsiding, folder = sys.argv[1], pathlib.Path(sys.argv[2])
here = pathlib.Path(__file__).parent
wrong, kinds = 0, set()
cases = json.loads((folder / "cases.json").read_text())
# The second verifier takes all packets of one key in one go where nothing is to be compared with.
seconds = {}
for key in sorted({case["key"] for case in cases if not case["against"] and "arguments" not in case}):
    files = list(dict.fromkeys(str(folder / case["file"]) for case in cases if case["key"] == key
                               and not case["against"] and "arguments" not in case))
    ran = subprocess.run([sys.executable, str(here / "verify_packet.py"), *files, "--key", key, "--json"],
                         capture_output=True, text=True, timeout=1800)
    if ran.stderr:
        print(f"WRONG  the second verifier stumbles: {ran.stderr[-600:]}")
        wrong += 1
    seconds.update(((file, key), line) for file, line in zip(files, ran.stdout.splitlines()))
for case in cases:
    told = {}
    for name, command in {"farsiding": [farsiding, "verify"], "second": [sys.executable, str(here / "verify_packet.py")]}.items():
        arguments = [str(folder / case["file"]), "--key", case["key"], "--json"]
        arguments += case.get("arguments", [])
        if case["against"]:
            arguments += ["--against", str(folder / case["against"])]
        line = seconds.get((arguments[0], case["key"])) if name == "second" and "arguments" not in case else None
        try:
            if line is None:
                ran = subprocess.run(command + arguments, capture_output=True, text=True, timeout=300)
                line, ends = ran.stdout, ran.returncode
            else:
                ends = 0 if json.loads(line)["ok"] else 3
            answer = json.loads(line)
        except ValueError:
            print(f"WRONG  {case['file']}: {name} gave no answer: {ran.stderr[-300:]}")
            wrong += 1
            continue
        codes = lambda outcome: {line["code"] for line in answer["lines"] if line["outcome"] == outcome}
        told[name] = (codes("broken"), codes("marked"))
        problems = []
        only = case["only"] not in (None, name)
        expect = None if only else case["expect"]
        # A list is all that is to be named, a word is one of what is.
        if isinstance(expect, list) and set(expect) != codes("broken") - {"altered_view"}:
            problems.append(f"should name {expect} and nothing else")
        elif isinstance(expect, list):
            pass
        elif "arguments" in case:
            pass
        elif expect and expect not in codes("broken"):
            problems.append(f"does not name {expect}")
        elif not expect and codes("broken"):
            problems.append("accuses a good one")
        if case["marked"] and case["marked"] not in codes("marked"):
            problems.append(f"does not mark {case['marked']}")
        if (ends == 0) != (not codes("broken")) or answer["ok"] != (ends == 0):
            problems.append(f"ends with {ends}")
        for problem in problems:
            print(f"WRONG  {case['file']}: {name} {problem}; it says {sorted(codes('broken'))}, marks {sorted(codes('marked'))}")
            wrong += 1
    if len(told) == 2:
        # Section 10 of FORMAT.md is for who knows the fold and draws the pages: farsiding may name more, never less; but where
        # the file is not as sealed neither draws, both say so and only hold page 1 to the entries.
        altered = told["second"][0] & {"altered_attachment", "removed_attachment", "added_attachment", "edited_pages"}
        drawn = {"pages_not_drawn"} | (set() if altered or "altered_pages" in told["second"][0] else {"altered_pages"})
        first = (told["farsiding"][0] - {"altered_view"} - drawn, told["farsiding"][1] - {"other_fold"} - drawn)
        if first != (told["second"][0], told["second"][1] - {"pages_not_drawn"}):
            print(f"WRONG  {case['file']}: they differ: {first} and {told['second']}")
            wrong += 1
        if altered and "pages_not_drawn" in told["second"][1] - told["farsiding"][1] and "altered_pages" not in told["farsiding"][0]:
            print(f"WRONG  {case['file']}: farsiding does not mark that it left the pages out")
            wrong += 1
        kinds |= told["farsiding"][0]
print(f"{len(cases)} packets, {len(kinds)} kinds of damage named, both verifiers agree" if not wrong else f"{wrong} wrong")
sys.exit(1 if wrong else 0)
