#!/usr/bin/env python3
"""A second verifier of evidence packets, written from core/src/evidence/FORMAT.md and the standards it names alone: whoever
wrote it and the modules of `second/` beside it had not opened the first verifier's source. What its program says was seen:
where the two differed, the text was asked, and mended where it did not say. For `second/pages.py` an earlier one was read.

    verify_packet.py PACKET.pdf --key HEX|FILE [--against NOTE_FILE] [--witness NAME+ID+KEY …] [--tsa-root PEM …]
                     [--keys FILE] [--strict] [--json]

Needs cryptography, asn1crypto and pypdf. Section numbers in comments are FORMAT.md's. It leaves section 10 out (it does not
know how a record is folded) but for what can be said of the pages without drawing them. Exit 0 only if nothing is
broken. More than one file may be given with --json: one line each.
"""
import argparse
import json
import os
import re
import sys

from cryptography import x509

from second.certificates import Devices
from second.cose import envelope, parts_of
from second.entries import FORMAT, LISTS, Entries, digest_in, read_entries, says_of
from second.forms import (Refused, base64_of, decode, fields, is_bytes, is_digest, is_list, is_time, is_uint, need, sha256)
from second.keys import Keys, read_keys_file, signer_of
from second.last_entry import LastEntry
from second.log import Log, read_log, read_receipts
from second.names import Names
from second.pages import Pages
from second.pdf import NAMED, attachments, is_cut_off
from second.stamps import Stamps, read_witness
from second.tree import leaf_hash, tree_hash

NEWEST_FOLD, MOST_LINES = 4, 100


def read_certificates(value):
    fields(value, ("certificates",))
    need(is_list(value["certificates"], lambda one: isinstance(one, bytes)))
    return value["certificates"]


RECORDS = {"entries.cbor": read_entries, "certificates.cbor": read_certificates, "receipts.cbor": read_receipts,
           "log.cbor": read_log}
KNOWN = NAMED | {"FORMAT.txt"}


def open_seal(raw, key):  # 4
    _, payload = envelope(raw, FORMAT, key)
    seal = fields(decode(payload), ("format", "file", "stay", "at", "entries", "attachments"),
                  ("fold", "pages", "language"))
    need(seal["format"] == FORMAT and is_digest(seal["file"]) and is_time(seal["at"]))
    need(is_uint(seal.get("fold", 1)) and is_uint(seal.get("pages", 1)))
    need(isinstance(seal.get("language", "en-US"), str))
    need(is_list(seal["stay"], lambda visit: is_bytes(visit, 16)) and isinstance(seal["attachments"], tuple))
    fields(seal["entries"], ("count", "root"))
    need(is_uint(seal["entries"]["count"]) and is_digest(seal["entries"]["root"]))
    for listed in seal["attachments"]:
        fields(listed, ("name", "sha256", "length"))
        need(isinstance(listed["name"], str) and is_digest(listed["sha256"]) and is_uint(listed["length"]))
    return seal


class Verifier(Entries, Devices, Log, LastEntry, Stamps, Pages, Keys, Names):
    """Checks one packet; `lines` has what was found. `roots` are certificates of time stamping authorities that are trusted,
    `witnesses` the keys of witnesses (name, key id, key), `newer` the statements about the organisation's keys from elsewhere."""

    def __init__(self, key, roots=(), witnesses=(), strict=False, newer=None):
        self.key, self.roots, self.witnesses, self.strict = key, list(roots), list(witnesses), strict
        self.newer, self.stamps, self.cosigned, self.agreed = newer, [], [], False
        self.lines, self.said = [], {}

    def say(self, outcome, code, message):
        """At most a hundred lines of one code word: a hostile file could ask for millions."""
        said = self.said[code] = self.said.get(code, 0) + 1
        if said <= MOST_LINES:
            self.lines.append({"outcome": outcome, "code": code, "message": message})
        elif said == MOST_LINES + 1:
            self.lines.append({"outcome": outcome, "code": code, "message": "and more of that kind"})

    def holds(self, code, message):
        self.say("holds", code, message)

    def mark(self, code, message):
        self.say("marked", code, message)

    def broken(self, code, message):
        self.say("broken", code, message)

    def verify(self, data, against=None):
        if is_cut_off(data):
            return self.broken("truncated_file", "the file was cut off")
        try:
            files = attachments(data)
        except Refused as error:
            return self.broken("unreadable_file", f"the attachments cannot be taken out: {error}")
        self.keys, self.newest = self.open_keys(files, self.newer), self.key
        seal = self.seal(data, files)
        if seal is False:
            return None
        parts = {}
        for name, read in RECORDS.items():
            try:
                need(name in files, "it is not there")
                parts[name] = read(decode(files[name].bytes()))
            except Refused as why:
                self.broken("unreadable_attachment", f"{name}: {why}")
        if len(parts) < len(RECORDS):
            return None
        self.entries, self.log = parts["entries.cbor"], parts["log.cbor"]
        self.fold = seal.get("fold", 1) if seal else NEWEST_FOLD
        self.open_entries()
        self.ids = {entry["id"] for entry in self.all}
        self.open_log()
        self.open_certificates(parts["certificates.cbor"])
        self.devices()
        self.check_log()
        self.count(seal)
        if seal and self.fold >= 3:
            self.sealed_words(seal, files)
        self.chains()
        if self.fold >= 3:
            self.completeness()
            self.times()
        else:
            self.mark("no_head", "packets of this version do not say how many entries the log holds of a stay")
            if (self.last and self.last.heads) or {"heads", "seen", "photos_elsewhere"} & set(self.log) \
                    or any("about" in leaf for leaf in self.log["leaves"]):
                self.mark("older_rules", "the seal asks for less than what made this packet would have checked")
        self.receipts(parts["receipts.cbor"])
        self.early()
        if against is not None:
            self.compare(against)
        self.last_entry(files)
        self.tokens()
        self.witnessed()
        self.photos(files, seal)
        self.names(files)
        self.pages(data, files, seal)
        self.judge_keys(against)
        return None

    # 4 -----------------------------------------------------------------------------------------------------------------
    def seal(self, data, files):
        if "seal.cbor" not in files:
            self.broken("removed_attachment", "seal.cbor is not there")
            return None
        try:
            raw = files["seal.cbor"].bytes()
            try:
                kid = parts_of(raw)[0]
            except Refused:
                pass  # whatever it is, the envelope does not hold
            else:
                if kid not in self.keys:
                    self.broken("wrong_key", f"sealed by {kid.hex() if kid else 'nobody'}")
                    return False
            seal = open_seal(raw, signer_of(raw, self.keys))
            self.by(signer_of(raw, self.keys), "seal", seal["at"])
        except Refused as why:
            self.broken("altered_seal", f"the seal does not hold: {why}")
            return None
        there, intact = set(files) - {"seal.cbor"}, True
        for listed in seal["attachments"]:
            name = listed["name"]
            if name not in there:
                intact = False
                self.broken("removed_attachment", f"{name} was sealed and is gone")
                continue
            there.remove(name)
            if (files[name].sha256, files[name].length) != (listed["sha256"], listed["length"]):
                intact = False
                self.broken("altered_attachment", f"{name} is not the file sealed")
        for name in sorted(there):
            intact = False
            self.broken("added_attachment", f"{name} was not sealed")
        self.intact, at = intact, data.find(raw)
        alone = at >= 0 and data.find(raw, at + 1) < 0
        if alone and sha256(data[:at] + bytes(len(raw)) + data[at + len(raw):]) == seal["file"]:
            self.holds("seal", "the whole file is as sealed")
        elif intact:
            self.broken("edited_pages", "the attachments are the sealed ones, the file around them is not")
        return seal

    def sealed_words(self, seal, files):
        """What the seal says besides of what is here, and what is here besides (5 and 6)."""
        if self.fold > NEWEST_FOLD:
            self.mark("later_rules", f"sealed under rules of version {self.fold}, which are not known here")
        if self.intact:
            raws = [raw for name in LISTS for raw in self.entries[name]]
            root = tree_hash([leaf_hash(sha256(raw)) for raw in raws])
            times = [self.received[entry["id"]] for entry in self.visit if entry["id"] in self.received]
            if seal["stay"] != self.entries["stay"]:
                self.broken("altered_seal", "the seal is of another stay")
            if seal["entries"] != {"count": len(raws), "root": root}:
                self.broken("altered_seal", "the seal is of other entries")
            if not self.altered and times and seal["at"] != max(times):
                self.broken("altered_seal", "the seal's time is not that of the newest entry")
        if "view.json" not in files:
            self.broken("unreadable_attachment", "view.json: it is not there")
        named = self.named_photos()
        sealed = {listed["name"] for listed in seal["attachments"]}
        for name in sorted(set(files) & sealed - KNOWN):
            if digest_in(name) not in named:
                self.mark("foreign_attachment", f"{name} is nothing the entries name")
        if self.fold >= 4:
            self.procedure(files)

    def procedure(self, files):
        found = {line["code"] for line in self.lines}
        if {"altered_attachment", "edited_pages"} & found:
            return
        named = {(says_of(entry, "opened") or {}).get("procedure") for entry in self.visit}
        text, words = files.get("procedure.toml"), files.get("procedure.ftl")
        if text and text.sha256 in named:
            self.holds("seal", "procedure.toml is the procedure under which the stay was begun")
        elif text or words:
            self.broken("altered_attachment", "what is attached as the procedure is not that of the stay")

    def count(self, seal):
        here = sum(len(self.entries[name]) for name in LISTS)
        if seal and here < seal["entries"]["count"]:
            self.broken("removed_entry", f"{seal['entries']['count']} entries were sealed, {here} are here")


def read_text(text):
    if os.path.exists(text):
        with open(text, encoding="utf-8") as file:
            text = file.read()
    return text.strip()


def read_key(text):
    return bytes.fromhex(read_text(text))


def read_roots(paths):
    roots = []
    for path in paths:
        with open(path, "rb") as file:
            roots += x509.load_pem_x509_certificates(file.read())
    return roots


def read_against(path):
    with open(path, encoding="utf-8", newline="") as file:
        lines = file.read().split("\n")
    if lines[-1] == "":
        lines.pop()
    proof = []
    while lines and re.fullmatch(r"[A-Za-z0-9+/]{43}=", lines[-1]):
        proof.insert(0, base64_of(lines.pop()))
    return "\n".join(lines) + "\n", proof


def main():
    arguments = argparse.ArgumentParser(description="Checks evidence packets.")
    arguments.add_argument("files", nargs="+")
    arguments.add_argument("--key", required=True)
    arguments.add_argument("--against")
    arguments.add_argument("--witness", action="append", default=[])
    arguments.add_argument("--tsa-root", action="append", default=[])
    arguments.add_argument("--keys")
    arguments.add_argument("--strict", action="store_true")
    arguments.add_argument("--json", action="store_true")
    given = arguments.parse_args()
    key, worst = read_key(given.key), 0
    against = read_against(given.against) if given.against else None
    newer = read_keys_file(given.keys, key) if given.keys else None
    roots, witnesses = read_roots(given.tsa_root), [read_witness(read_text(one)) for one in given.witness]
    for path in given.files:
        verifier = Verifier(key, roots, witnesses, given.strict, newer)
        with open(path, "rb") as file:
            verifier.verify(file.read(), against)
        ok = not any(line["outcome"] == "broken" for line in verifier.lines)
        worst |= 0 if ok else 3
        if given.json:
            print(json.dumps({"ok": ok, "lines": verifier.lines, "outside": verifier.outside()}))
        else:
            for line in verifier.lines:
                print(f"{line['outcome']:<7} {line['code']:<22} {line['message']}")
            print("All of it holds. " + verifier.rests_on() if ok else "It does NOT hold.")
    return worst


if __name__ == "__main__":
    sys.exit(main())
