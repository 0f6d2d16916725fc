#!/usr/bin/env python3
"""Hostile packets as large as may be: the second verifier must be done with each in 30 s and 600 MB.

    hostile_sizes.py FOLDER [FARSIDING]

With a path to the first verifier, it is held to the same.
"""
import os
import pathlib
import resource
import sys
import time

import handmade
from handmade import STRANGER, head, pack, signature_line

LARGEST = 8 << 20


def many(piece, spare=200, most=1 << 30):
    """An array of as many of these as a record may hold, or of so many."""
    count = min(most, (LARGEST - spare) // len(piece))
    return head(4, count) + piece * count


def record(name, **parts):
    """The record with parts of it so large; what is not named stays as it is."""
    def change(value):
        value = {**value, **{key: handmade.Raw(raw) for key, raw in parts.items()}}
        return value
    return {name + ".map": change}


def attachments(count, content):
    return {"files": lambda f: {**f, **{f"{n}.bin": content for n in range(count)}}}


def names_of_one(count):
    return {"names": lambda n: n + [(b"x", n[0][1])] * count}



CASES = {
    "empty_entries": record("entries", car=many(b"\x40")),
    "short_entries": record("entries", car=many(pack(bytes(100)))),
    "entries_that_hold": None,
    "empty_certificates": record("certificates", certificates=many(b"\x40")),
    "empty_receipts": record("receipts", receipts=many(b"\x40")),
    "empty_proofs": record("log", consistency=many(b"\x80", 4000)),
    "runs": record("log", chains=head(4, 1) + pack({"device": handmade.PHONE.public, "elsewhere": [], "missing": handmade.Raw(many(b"\x82\x01\x01", 5000))})),
    "tokens": record("log", tokens=many(pack({"size": 10, "token": b""}), 4000)),
    "tokens_and_checkpoints": {"log.map": lambda v: {
        **v, "tokens": handmade.Raw(many(pack({"size": 10, "token": bytes(40)}), most=50_000)), "consistency": v["consistency"] + [[]] * 9000,
        "checkpoints": v["checkpoints"] + v["checkpoints"][1:] * 9000}},
    "page_of_many_words": {"objects": lambda o: {3: b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 99 99]/Contents 9999 0 R>>",
                                                 9999: b"<</Length %d>>stream\n%s\nendstream" % (40 << 20, b"(a) Tj " * ((40 << 20) // 7) + b"     ")},
                           "files": lambda f: {**f, "pages.txt": b"", "front.cbor": pack({"facts": []})}, "seal.map": lambda v: {**v, "pages": 2}},
    "checkpoints_empty": record("log", checkpoints=many(b"\x60", 4000)),
    "heads": record("log", heads=many(pack({"about": b"v" + handmade.VISIT, "count": 5, "root": bytes(32), "path": []}), 4000)),
    "head_of_a_long_path": record("log", heads=head(4, 1) + pack({"about": b"v" + handmade.VISIT, "count": 5, "root": bytes(32), "path": handmade.Raw(many(pack(bytes(32)), 5000))})),
    "proof_of_a_long_path": record("log", consistency=head(4, 1) + many(pack(bytes(32)), 5000)),
    "note_of_many_lines": {"note.signatures": lambda s: s + signature_line(STRANGER, "w", "x\n") * 60000},
    "note_of_line_feeds": {"note": lambda n: "\n" * (7 << 20)},
    "note_of_dashes": {"note": lambda n: n + "\u2014 " * (2 << 20)},
    "note_of_digits": {"note.lines": lambda lines: [lines[0], "9" * (6 << 20)] + lines[2:]},
    "maps_in_maps": {"odd.payload": lambda raw: b"\xa1\x00" * 15000 + b"\0"},
    "bomb": {"files": lambda f: {**f, "bomb.bin": bytes(63 << 20)}},
    "bombs": attachments(60, bytes(60 << 20)),
    "bomb_for_a_record": {"log.cbor": lambda raw: bytes(63 << 20)},
    "many_attachments": attachments(9000, b"x"),
    "too_many_attachments": attachments(12000, b"x"),
    "one_attachment_very_often": names_of_one(1_000_000),
    "startxref_over_and_over": {"pdf": lambda p: p + b"startxref 1 " * (5 << 20)},
    "blanks_behind": {"pdf": lambda p: p + b"startxref" + b" " * (60 << 20)},
    "digits_behind": {"pdf": lambda p: p + b"startxref " + b"1" * (60 << 20)},
    "objects_over_and_over": {"pdf": lambda p: p.replace(b"\ntrailer", b"\n" + b"1 0 obj\n" * (7 << 20) + b"trailer")},
    "dictionaries_in_dictionaries": {"objects": lambda o: {3: b"<</A " * (1 << 20)}},
    "tree_of_arrays": {"tree": lambda t: b"<</Names" + b"[" * (10 << 20) + b">>"},
    "tree_of_numbers": {"tree": lambda t: b"<</Names[" + b"1 " * (25 << 20) + b"]>>"},
    "tree_of_a_long_text": {"tree": lambda t: b"<</Names[(" + b"\\(" * (25 << 20) + b")]>>"},
    "tree_of_comments": {"tree": lambda t: b"<<" + b"%\n" * (25 << 20) + t[2:]},
    "updates_in_a_circle": {"pdf": lambda p: p.replace(b"/Root 1 0 R>>", b"/Root 1 0 R/Prev %010d>>" % p.index(b"xref\n0 "))},
}


def entries_that_hold():
    """As many good entries as go in, none of which the log holds."""
    raw = []
    count = (LARGEST - 4000) // 300
    for n in range(count):
        body = {"about": b"c" + handmade.CAR, "slot": "", "says": {}, "by": "", "seq": n + 1, "when": {"at": 0, "offset_minutes": 0}}
        protected, payload = pack({1: -8, 4: STRANGER.public}), pack(body)
        signed = STRANGER.private.sign(pack(["Signature1", protected, b"farsiding entry 1", payload]))
        raw.append(head(6, 18) + pack([protected, {}, payload, signed]))
    return record("entries", car=pack(raw))


def measured(command):
    """Seconds and megabytes of a program, and what it ends with."""
    began = time.monotonic()
    pid = os.fork()
    if pid == 0:
        resource.setrlimit(resource.RLIMIT_CPU, (120, 120))
        with open(os.devnull, "wb") as nowhere:
            os.dup2(nowhere.fileno(), 1)
            os.dup2(nowhere.fileno(), 2)
        os.execv(command[0], command)
    _, status, used = os.wait4(pid, 0)
    return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, os.waitstatus_to_exitcode(status), time.monotonic() - began


def main():
    folder, programs = pathlib.Path(sys.argv[1]), {"second": [sys.executable, str(pathlib.Path(__file__).parent / "verify_packet.py")]}
    only = sys.argv[3:]
    if len(sys.argv) > 2 and sys.argv[2] != "-":
        programs["farsiding"] = [sys.argv[2], "verify"]
    folder.mkdir(parents=True, exist_ok=True)
    worst = 0
    for name, changes in CASES.items():
        if only and name not in only:
            continue
        path = folder / "hostile.pdf"
        path.write_bytes(handmade.packet(entries_that_hold() if changes is None else changes))
        for program, command in programs.items():
            seconds, megabytes, ends, _ = measured([*command, str(path), "--key", handmade.OFFICE.public.hex(), "--json"])
            wrong = seconds > 30 or megabytes > 600 or ends not in (0, 2, 3)
            worst |= wrong
            print(f"{'WRONG' if wrong else 'ok':<6}{name:<30}{program:<10}{path.stat().st_size / 1e6:6.1f} MB {seconds:5.1f} s {megabytes:5.0f} MB, ends with {ends}", flush=True)
        path.unlink()
    sys.exit(1 if worst else 0)


if __name__ == "__main__":
    main()
