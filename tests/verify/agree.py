#!/usr/bin/env python3
"""Runs both verifiers over a folder of cases: each must name the damage, and both must say the same code words.

    agree.py FARSIDING FOLDER
"""
import json
import os
import pathlib
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor

farsiding, folder = sys.argv[1], pathlib.Path(sys.argv[2])
here = pathlib.Path(__file__).parent
second = [sys.executable, str(here / "verify_packet.py")]
wrong, kinds = 0, set()
cases = json.loads((folder / "cases.json").read_text())


def run(command, timeout):
    return subprocess.run(command, capture_output=True, text=True, timeout=timeout)


def arguments_of(case):
    against = ["--against", str(folder / case["against"])] if case["against"] else []
    return [str(folder / case["file"]), "--key", case["key"], "--json", *case.get("arguments", []), *against]


def is_plain(case):
    return not case["against"] and "arguments" not in case


# The second verifier takes all packets of one key in one go where nothing is to be compared with. Nobody waits for anybody: the
# long runs are begun first.
with ThreadPoolExecutor(os.cpu_count()) as pool:
    runs = []
    for key in sorted({case["key"] for case in cases if is_plain(case)}):
        files = list(dict.fromkeys(str(folder / case["file"]) for case in cases if case["key"] == key and is_plain(case)))
        runs.append((key, files, pool.submit(run, [*second, *files, "--key", key, "--json"], 1800)))
    asked = []
    for case in cases:
        alone = None if is_plain(case) else pool.submit(run, second + arguments_of(case), 300)
        asked.append({"farsiding": pool.submit(run, [farsiding, "verify"] + arguments_of(case), 300), "second": alone})
seconds = {}
for key, files, ran in runs:
    ran = ran.result()
    if ran.stderr:
        print(f"WRONG  the second verifier stumbles: {ran.stderr[-600:]}")
        wrong += 1
    seconds.update(((file, key), line) for file, line in zip(files, ran.stdout.splitlines()))
for case, both in zip(cases, asked):
    told = {}
    for name, ran in both.items():
        line = None if ran else seconds.get((str(folder / case["file"]), case["key"]))
        ran = ran.result() if ran else run(second + arguments_of(case), 300) if line is None else None
        try:
            if ran:
                line, ends = ran.stdout, ran.returncode
            else:
                ends = 0 if json.loads(line)["ok"] else 3
            answer = json.loads(line)
        except ValueError:
            print(f"WRONG  {case['file']}: {name} gave no answer: {ran.stderr[-300:] if ran else line}")
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
