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
for case in cases:
    told = {}
    for name, command in {"farsiding": [farsiding, "verify"], "second": [sys.executable, str(here / "verify_packet.py")]}.items():
        arguments = [str(folder / case["file"]), "--key", case["key"], "--json"]
        if case["against"]:
            arguments += ["--against", str(folder / case["against"])]
        ran = subprocess.run(command + arguments, capture_output=True, text=True, timeout=300)
        try:
            answer = json.loads(ran.stdout)
        except ValueError:
            print(f"WRONG  {case['file']}: {name} gave no answer: {ran.stderr[-300:]}")
            wrong += 1
            continue
        codes = lambda outcome: {line["code"] for line in answer["lines"] if line["outcome"] == outcome}
        told[name] = (codes("broken"), codes("marked"))
        problems = []
        only = case["only"] not in (None, name)
        expect = None if only else case["expect"]
        if expect and expect not in codes("broken"):
            problems.append(f"does not name {expect}")
        if not expect and codes("broken"):
            problems.append("accuses a good one")
        if case["marked"] and case["marked"] not in codes("marked"):
            problems.append(f"does not mark {case['marked']}")
        if (ran.returncode == 0) != (not codes("broken")) or answer["ok"] != (ran.returncode == 0):
            problems.append(f"ends with {ran.returncode}")
        for problem in problems:
            print(f"WRONG  {case['file']}: {name} {problem}; it says {sorted(codes('broken'))}, marks {sorted(codes('marked'))}")
            wrong += 1
    if len(told) == 2:
        # Section 10 of FORMAT.md is for who knows the fold and draws the pages: farsiding may name more, never less.
        drawn = {"pages_not_drawn"} | (set() if "altered_pages" in told["second"][0] else {"altered_pages"})
        first = (told["farsiding"][0] - {"altered_view"} - drawn, told["farsiding"][1] - {"other_fold"} - drawn)
        if first != (told["second"][0], told["second"][1] - {"pages_not_drawn"}):
            print(f"WRONG  {case['file']}: they differ: {first} and {told['second']}")
            wrong += 1
        kinds |= told["farsiding"][0]
print(f"{len(cases)} packets, {len(kinds)} kinds of damage named, both verifiers agree" if not wrong else f"{wrong} wrong")
sys.exit(1 if wrong else 0)
