#!/usr/bin/env python3
"""Damages the packet of a stay that took things over: from the office's paper, from the car beside it, from a colleague.

    taken_over.py TAKEN_OVER.pdf FOLDER

Knows the stay's secrets, as damage.py does. What is changed is signed again by the device that made it and the packet sealed
again, so that only the log stands against it. Writes the files and `cases.json` for agree.py.
"""
import copy
import json
import pathlib
import sys

import cbor2
from damage import OFFICE, PHONE, SECOND, Key, files_of, pack, resealed, sha256

DESK = Key(bytes([6] * 32))
KEYS = {key.public: key for key in (PHONE, SECOND, DESK)}


def opened(raw):
    part = cbor2.loads(raw).value
    return cbor2.loads(part[0])[4], cbor2.loads(part[2])


def main():
    good, folder = pathlib.Path(sys.argv[1]).read_bytes(), pathlib.Path(sys.argv[2])
    folder.mkdir(parents=True, exist_ok=True)
    files = files_of(good)
    entries, log = cbor2.loads(files["entries.cbor"]), cbor2.loads(files["log.cbor"])
    cases = []

    def case(name, data, expect):
        (folder / f"{name}.pdf").write_bytes(data)
        cases.append({"file": f"{name}.pdf", "key": OFFICE.public.hex(), "expect": expect, "marked": None, "only": None, "against": None})

    def place(part, wanted):
        return next(at for at, raw in enumerate(entries[part]) if wanted(opened(raw)[1]))

    def signed_anew(part, wanted, change):
        at = place(part, wanted)
        signer, body = opened(entries[part][at])
        before = pack(body)
        change(body)
        assert pack(body) != before, "nothing was changed"
        changed = copy.deepcopy(entries)
        changed[part][at] = KEYS[signer].envelope(pack(body), "farsiding entry 1")
        return resealed(good, {"entries.cbor": pack(changed)})

    def gone(wanted):
        changed, other = copy.deepcopy(entries), copy.deepcopy(log)
        one = sha256(changed["visit"].pop(place("visit", wanted)))
        other["leaves"] = [leaf for leaf in other["leaves"] if leaf["entry"] != one]
        return resealed(good, {"entries.cbor": pack(changed), "log.cbor": pack(other)})

    def rebilled(kind):
        def change(body):
            body["says"][kind]["billed"].update(text="20,120 gal", value=20120.0)
        return change

    paper = lambda body: "paper" in body["says"]
    sent = lambda body: "paper_expected" in body["says"]
    rests = lambda body: "rests_on" in body
    taken = lambda body: "handover_taken" in body["says"]
    case("good", good, [])
    case("paper_says_another_quantity", signed_anew("visit", paper, rebilled("paper")), "unlogged_entry")
    case("office_sent_another_quantity", signed_anew("site", sent, rebilled("paper_expected")), "unlogged_entry")
    case("paper_compared_with_nothing", signed_anew("visit", paper, lambda body: body["says"]["paper"].pop("compared")), "unlogged_entry")
    case("mark_of_what_it_rests_on_taken_out", signed_anew("visit", rests, lambda body: body.pop("rests_on")), "unlogged_entry")
    case("rests_on_another_entry", signed_anew("visit", rests, lambda body: body["rests_on"].update(entry=bytes(32))), "unlogged_entry")
    case("handover_taken_out", gone(taken), "removed_entry")
    (folder / "cases.json").write_text(json.dumps(cases, indent=1))
    print(f"{len(cases)} files")


if __name__ == "__main__":
    main()
