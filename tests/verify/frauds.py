#!/usr/bin/env python3
"""Commits every fraud of `fraud_table.py` against a packet and asks both verifiers: each must say what the table says, both
the same, and neither ever that all holds and nothing else.

    frauds.py FARSIDING LEDGERS SYNTHETIC.pdf FOLDER [--all] [NAME …]    LEDGERS is what the example `fraud_packets` wrote
    frauds.py --table                                                    prints FRAUDS.md

A fraud whose code word is not in FORMAT.md yet, or whose option not both verifiers know, is skipped and said to be; with --all it is committed all the same. With names
only these are.
"""

import functools
import io
import json
import pathlib
import subprocess
import sys
from collections import defaultdict
from concurrent.futures import ThreadPoolExecutor

import pypdf

from fraud_makers import Bank, Packet
from fraud_table import FRAUDS

HERE = pathlib.Path(__file__).parent
FORMAT = (HERE / "../../core/src/evidence/FORMAT.md").read_text()
# What only the verifier can see that knows how a record is folded and a page laid out.
OF_ONE = {"altered_view", "altered_pages", "pages_not_drawn", "other_fold"}


def table():
    lines = [
        "# Frauds against an evidence packet, and what both verifiers say",
        "",
        "Printed by `frauds.py --table` from `fraud_table.py`, and made and checked one by one by `tests/verify/run`. A code word is",
        "of section 11 of `core/src/evidence/FORMAT.md`: **broken** means that the packet does not hold, **marked** that it holds and",
        "the reader is told. **On the page** means that the packet's own pages say so. **On the organisation's word**: the file alone",
        "cannot show it; the verdict's last line says what rests on nothing but the organisation's word, and the last column what helps.",
    ]
    number = 0
    for who in dict.fromkeys(fraud.who for fraud in FRAUDS):
        lines += [
            "",
            f"## By {who}",
            "",
            "| no. | what was done | what both say | what helps |",
            "| --- | --- | --- | --- |",
        ]
        for fraud in (fraud for fraud in FRAUDS if fraud.who == who):
            number += 1
            lines.append(f"| {number} | {fraud.what} | {said(fraud)} | {fraud.helps} |")
    return "\n".join(lines) + "\n"


def said(fraud):
    kind, _, what = fraud.says.partition(" ")
    alone = "; the second verifier cannot know" if fraud.only else ""
    return {
        "broken": f"broken: `{what}`{alone}",
        "marked": f"marked: `{what}`{alone}",
        "page": f'on the page: "{what}"',
        "word": "on the organisation's word",
    }[kind]


class Case:
    def __init__(self, fraud, bank, folder):
        self.fraud, self.file, self.note = fraud, folder / f"{fraud.name}.pdf", None
        self.file.write_bytes(fraud.make(bank))
        if fraud.against is not None:
            self.note = folder / f"{fraud.name}.note"
            self.note.write_text(bank.note(fraud.against) if isinstance(fraud.against, str) else fraud.against(bank))
        self.answers, self.problems = {}, []

    def arguments(self):
        against = ["--against", str(self.note)] if self.note else []
        return ["--key", self.fraud.key.public.hex(), *against, *self.fraud.asks(), "--json"]

    def judge(self):
        for name, answer in self.answers.items():
            self.problems += [f"{name} {what}" for what in self.wrong(name, answer)]
        if len(self.answers) == 2:
            first, second = (
                tuple(codes(answer, outcome) - OF_ONE for outcome in ("broken", "marked"))
                for answer in self.answers.values()
            )
            if first != second:
                self.problems.append(f"they differ: {first} and {second}")
            first, second = (answer.get("outside", {}) for answer in self.answers.values())
            if any(first.get(name) != second.get(name) for name in ("word", "strict")):
                self.problems.append(f"they differ in what rests on the organisation's word: {first} and {second}")

    def wrong(self, name, answer):
        broken, marked = codes(answer, "broken"), codes(answer, "marked")
        kind, _, what = self.fraud.says.partition(" ")
        told = f"; it says {sorted(broken)}, marks {sorted(marked)}"
        if answer["ok"] != (not broken):
            yield "does not end as its lines say" + told
        if kind == "broken":
            if what not in broken and self.fraud.only in (None, name):
                yield f"does not name {what}" + told
        elif broken - OF_ONE:
            yield "accuses it" + told
        if kind == "marked" and what not in marked and self.fraud.only in (None, name):
            yield f"does not mark {what}" + told
        if not broken and "'s word alone" not in last_line(answer):
            yield f"does not say what rests on the organisation's word: {last_line(answer)}"
        if kind == "page" and what not in words_of(self.file):
            yield f'holds a packet whose pages do not say "{what}"'


def last_line(answer):
    """What the verdict ends with: what lies outside the organisation's word, and what does not."""
    return answer.get("rests_on") or answer.get("outside", {}).get("verdict", "")


def codes(answer, outcome):
    return {line["code"] for line in answer["lines"] if line["outcome"] == outcome}


def words_of(file):
    pages = pypdf.PdfReader(io.BytesIO(file.read_bytes())).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split()).lower()


def lacking(frauds, farsiding):
    """The frauds that cannot be judged yet, each with why."""
    for fraud in frauds:
        if fraud.needs and fraud.needs not in FORMAT:
            yield fraud.name, f"{fraud.needs} is not in FORMAT.md"
        elif fraud.option and not all(fraud.option in told for told in options(farsiding)):
            yield fraud.name, f"not both verifiers know {fraud.option}"


@functools.cache
def options(farsiding):
    """What each verifier says of its options."""
    commands = [farsiding, "verify", "--help"], [sys.executable, str(HERE / "verify_packet.py"), "--help"]
    return [subprocess.run(command, capture_output=True, text=True, timeout=60).stdout for command in commands]


def ask_first(farsiding, case):
    ran = subprocess.run(
        [farsiding, "verify", str(case.file), *case.arguments()], capture_output=True, text=True, timeout=300
    )
    try:
        case.answers["farsiding"] = json.loads(ran.stdout)
    except ValueError:
        case.problems.append(f"farsiding gave no answer: {ran.stderr[-300:]}")


def ask_second(cases):
    """Cases with the same key and checkpoint, in one go."""
    files = [str(case.file) for case in cases]
    command = [sys.executable, str(HERE / "verify_packet.py"), *files, *cases[0].arguments()]
    ran = subprocess.run(command, capture_output=True, text=True, timeout=600)
    answers = ran.stdout.splitlines()
    for at, case in enumerate(cases):
        try:
            case.answers["second"] = json.loads(answers[at])
        except (ValueError, IndexError):
            case.problems.append(f"second gave no answer: {ran.stderr[-300:]}")


def main():
    if sys.argv[1:] == ["--table"]:
        sys.stdout.write(table())
        return 0
    everything, names = "--all" in sys.argv, set(sys.argv[5:]) - {"--all"}
    farsiding, ledgers, synthetic, folder = sys.argv[1:5]
    folder = pathlib.Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    bank = Bank(ledgers)
    bank.put("synthetic", Packet(pathlib.Path(synthetic).read_bytes()))
    if (HERE / "FRAUDS.md").read_text() != table():
        print("WRONG  FRAUDS.md is not what frauds.py --table prints")
        return 1
    asked_for = [fraud for fraud in FRAUDS if not names or fraud.name in names]
    skipped = {} if everything else dict(lacking(asked_for, farsiding))
    cases = [Case(fraud, bank, folder) for fraud in asked_for if fraud.name not in skipped]
    alike = defaultdict(list)
    for case in cases:
        alike[tuple(case.arguments())].append(case)
    with ThreadPoolExecutor(2) as pool:
        asked = [pool.submit(ask_second, group) for group in alike.values()]
        asked += [pool.submit(ask_first, farsiding, case) for case in cases]
        for one in asked:
            one.result()
    wrong = 0
    for case in cases:
        case.judge()
        for problem in case.problems:
            print(f"WRONG  {case.fraud.name}: {problem}")
        wrong += bool(case.problems)
    for name, why in skipped.items():
        print(f"skipped: {name} ({why})")
    print(
        f"{wrong} of {len(cases)} frauds wrong"
        if wrong
        else f"{len(cases)} frauds, each said by both verifiers as expected"
    )
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
