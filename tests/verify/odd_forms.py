#!/usr/bin/env python3
"""The odd forms both verifiers must take alike: for each where it stands, what is odd about it, and what must be said of it.

    odd_forms.py FOLDER

The tables are in odd_cbor, odd_records, odd_notes and odd_files. Writes a hand-made packet for each and `cases.json` for agree.py;
`expect` is the whole set of code words of what is broken.
"""
import json
import pathlib
import sys

import handmade
from handmade import OFFICE
from odd_cbor import cbor_cases, envelope_cases, size_cases
from odd_files import file_cases
from odd_notes import note_cases
from odd_records import entry_cases, log_cases, seal_and_receipt_cases


def all_cases():
    for cases in (cbor_cases, envelope_cases, size_cases, entry_cases, note_cases, log_cases, seal_and_receipt_cases, file_cases):
        yield from cases()


def main():
    folder = pathlib.Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    listed = []
    for name, changes, expect in [("good", {}, [])] + list(all_cases()):
        file = name.replace("/", "-") + ".pdf"
        (folder / file).write_bytes(handmade.packet(changes))
        listed.append({"file": file, "key": OFFICE.public.hex(), "expect": expect, "marked": None, "only": None, "against": None})
    assert len({one["file"] for one in listed}) == len(listed), "two cases have one name"
    (folder / "cases.json").write_text(json.dumps(listed, indent=1))
    print(f"{len(listed)} files")


if __name__ == "__main__":
    main()
