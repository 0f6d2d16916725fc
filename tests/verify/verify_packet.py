#!/usr/bin/env python3
"""A second verifier of evidence packets, written from core/src/evidence/FORMAT.md alone.

    verify_packet.py PACKET.pdf --key HEX|FILE [--against NOTE_FILE] [--witness KEY …] [--tsa-root PEM …] [--strict] [--json]

Needs cbor2, cryptography and pypdf, and for time stamps OpenSSL (`outside_word`). Section numbers in comments are FORMAT.md's. It neither folds the record nor draws the
pages (10, 10.3); what can be said of them without, `verify_pages` says. Exit 0 only if nothing is broken. More than one file may be given with --json: one line each.
"""
import argparse
import base64
import hashlib
import io
import json
import os
import re
import sys

import cbor2
import pypdf
import verify_pages
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

import outside_word

FORMAT = "farsiding packet 1"
RIGHTS = {"record", "settle", "lift_hold", "override", "release", "withdraw_others", "keep_site", "issue_seals",
          "keep_people", "publish_procedures", "admit", "enrol", "read"}
LARGEST_RECORD, LARGEST_ATTACHMENT, LARGEST_ENTRY = 8 << 20, 64 << 20, 32768
RECORDS = ("entries.cbor", "certificates.cbor", "receipts.cbor", "log.cbor")
PLAY = 10 * 60 * 1000


class Refused(Exception):
    """Something is not of the form described."""


def sha256(data):
    return hashlib.sha256(data).digest()


def decode(data, limit=LARGEST_RECORD):  # 1
    if len(data) > limit:
        raise Refused("too large")
    try:
        stream = io.BytesIO(data)
        value = cbor2.CBORDecoder(stream).decode()
        if stream.read(1) or cbor2.dumps(value, canonical=True) != data:
            raise Refused("not in deterministic encoding")
    except Refused:
        raise
    except Exception as error:
        raise Refused(f"not CBOR: {error}") from error
    return value


def need(condition, what="not of the form described"):
    if not condition:
        raise Refused(what)


def fields(value, required, optional=()):
    need(isinstance(value, dict) and set(required) <= set(value) <= set(required) | set(optional))
    return value


def listed_fields(value, required):
    """As `fields`, where what is not listed is not looked at."""
    need(isinstance(value, dict) and set(required) <= set(value))
    return value


def is_bytes(value, length):
    return isinstance(value, bytes) and len(value) == length


def is_number(value):
    return isinstance(value, int) and not isinstance(value, bool)


def is_uint(value):
    return is_number(value) and 0 <= value < 1 << 64


def is_time(value):
    return is_number(value) and -(1 << 63) <= value < 1 << 63


def is_last(value):  # 6
    return isinstance(value, dict) and is_uint(value.get("seq")) and is_bytes(value.get("entry"), 32)


def check_grant(grant):  # 6
    need(grant["role"] in ("operator", "office", "inspector"), "no role")
    for name, right in (("sites", lambda site: is_bytes(site, 16)), ("rights", lambda word: word in RIGHTS)):
        if name in grant:
            need(isinstance(grant[name], list) and all(right(one) for one in grant[name]), f"no {name}")


def open_certificate(raw, key):  # 6
    try:
        two = "issuer" in decode(decode(raw).value[2])
    except (AttributeError, IndexError, TypeError) as error:
        raise Refused("not an envelope") from error
    _, payload = envelope(raw, "farsiding certificate 2" if two else "farsiding certificate 1", key)
    certificate = listed_fields(decode(payload), ("organisation", "device", "name", "role", "issued_at"))
    need(is_bytes(certificate["organisation"], 16) and is_bytes(certificate["device"], 32))
    need(isinstance(certificate["name"], str))
    for name in ("issued_at", "revoked_at", "renewed_at", "valid_until"):
        need(name not in certificate or is_time(certificate[name]), "no time")
    check_grant(certificate)
    if two:
        need(certificate["issuer"] == key, "another issuer")
    else:
        need(not {"sites", "rights", "renewed_at", "valid_until", "last", "earlier"} & set(certificate),
             "a certificate of version one has no sites or rights")
    need("last" not in certificate or (is_last(certificate["last"]) and "revoked_at" in certificate), "no last entry")
    need(isinstance(certificate.get("earlier", []), list))
    for earlier in certificate.get("earlier", []):
        check_grant(listed_fields(earlier, ("role", "last")))
        need(is_last(earlier["last"]), "no last entry")
    return certificate


def hand_holds(body, device):  # 5
    hand = body["hand"]
    if hand is None:
        return True
    if not (isinstance(hand, dict) and set(hand) == {"key", "signature"} and is_bytes(hand["key"], 32)
            and is_bytes(hand["signature"], 64)):
        return False
    without = {name: value for name, value in body.items() if name != "hand"}
    protected = cbor2.dumps({1: -8, 4: hand["key"]}, canonical=True)
    payload = device + cbor2.dumps(without, canonical=True)
    message = cbor2.dumps(["Signature1", protected, b"farsiding person 1", payload])
    return signed_by(hand["key"], hand["signature"], message)


def without_nulls(value):  # 5
    need(isinstance(value, dict))
    return {name: inner for name, inner in value.items() if inner is not None}


def says_of(entry, kind):  # 5
    """The content of a statement of this kind."""
    says = entry["body"]["says"]
    content = says.get(kind) if isinstance(says, dict) and len(says) == 1 else None
    return content if isinstance(content, dict) else None


def claimed(entry):  # 8
    when = entry["body"]["when"]
    return when["at"] - when.get("ahead_millis", 0)


def signed_by(key, signature, message):
    try:
        Ed25519PublicKey.from_public_bytes(key).verify(signature, message)
        return True
    except (InvalidSignature, ValueError):
        return False


def envelope(data, context, signer=None, addressed=False):  # 3
    """Key id and payload of an envelope whose signature holds."""
    value = decode(data)
    need(isinstance(value, cbor2.CBORTag) and value.tag == 18)
    parts = value.value
    need(isinstance(parts, (list, tuple)) and len(parts) == 4 and parts[1] == {})
    protected, _, payload, signature = parts
    need(all(isinstance(part, bytes) for part in (protected, payload, signature)) and len(signature) == 64)
    header = decode(protected)
    need(header == ({1: -8} if addressed else {1: -8, 4: header.get(4)}) and (addressed or isinstance(header.get(4), bytes)))
    kid = header.get(4)
    if signer is not None and not addressed and kid != signer:
        raise Refused("signed by another key")
    by = signer if signer is not None else kid
    need(is_bytes(by, 32))
    message = cbor2.dumps(["Signature1", protected, context.encode(), payload])
    need(signed_by(by, signature, message), "the signature does not hold")
    return kid, payload


# 7.1 -------------------------------------------------------------------------------------------------------------------
def leaf_hash(data):
    return sha256(b"\x00" + data)


def node_hash(left, right):
    return sha256(b"\x01" + left + right)


def tree_hash(leaves):
    if not leaves:
        return sha256(b"")
    if len(leaves) == 1:
        return leaves[0]
    split = 1 << ((len(leaves) - 1).bit_length() - 1)
    return node_hash(tree_hash(leaves[:split]), tree_hash(leaves[split:]))


def root_of_inclusion(leaf, number, size, path):  # RFC 9162, 2.1.3.2
    if number >= size:
        return None
    fn, sn, result = number, size - 1, leaf
    for sibling in path:
        if sn == 0:
            return None
        if fn & 1 or fn == sn:
            result = node_hash(sibling, result)
            while not fn & 1 and fn != 0:
                fn, sn = fn >> 1, sn >> 1
        else:
            result = node_hash(result, sibling)
        fn, sn = fn >> 1, sn >> 1
    return result if sn == 0 else None


def consistent(old, old_hash, new, new_hash, proof):  # RFC 9162, 2.1.4.2
    if old == 0:
        return True
    if old == new:
        return old_hash == new_hash and not proof
    if not 0 < old < new:
        return False
    proof = list(proof)
    if old & (old - 1) == 0:
        proof.insert(0, old_hash)
    if not proof:
        return False
    fn, sn = old - 1, new - 1
    while fn & 1:
        fn, sn = fn >> 1, sn >> 1
    first = second = proof[0]
    for hashed in proof[1:]:
        if sn == 0:
            return False
        if fn & 1 or fn == sn:
            first, second = node_hash(hashed, first), node_hash(hashed, second)
            while not fn & 1 and fn != 0:
                fn, sn = fn >> 1, sn >> 1
        else:
            second = node_hash(second, hashed)
        fn, sn = fn >> 1, sn >> 1
    return sn == 0 and first == old_hash and second == new_hash


# 7.2 -------------------------------------------------------------------------------------------------------------------
def base64_of(text):
    try:
        data = base64.b64decode(text, validate=True)
    except ValueError as error:
        raise Refused("not base64") from error
    need(base64.b64encode(data).decode() == text, "not base64")
    return data


def open_checkpoint(note, key):
    """Origin, size and hash of a checkpoint the organisation signed."""
    need(isinstance(note, str))
    text, separator, below = note.partition("\n\n")
    need(separator == "\n\n" and below.endswith("\n"), "not a signed note")
    text += "\n"
    lines = text.split("\n")
    need(len(lines) == 4 and lines[3] == "", "not three lines")
    origin, size, root = lines[:3]
    first = "farsiding/" + sha256(key)[:16].hex()
    need(re.fullmatch(re.escape(first) + r"(/[0-9a-f]{16})?", origin), "another organisation's log")
    need(re.fullmatch(r"0|[1-9][0-9]*", size) and int(size) < 1 << 64, "no size")
    hashed = base64_of(root)
    need(len(hashed) == 32, "no hash")
    key_id = sha256(origin.encode() + b"\n\x01" + key)[:4]
    for line in below[:-1].split("\n"):
        match = re.fullmatch("\u2014 ([^ +]+) ([^ ]+)", line)
        need(match, "not a signature line")
        signature = base64_of(match[2])
        if match[1] == origin and signature[:4] == key_id:
            need(signed_by(key, signature[4:], text.encode()), "the signature does not hold")
            return origin, int(size), hashed
    raise Refused("not signed by the organisation")


class Verifier:
    def __init__(self, key, witnesses=(), tsa_roots=(), strict=False):
        self.key = key
        self.witnesses, self.tsa_roots, self.strict = witnesses, tsa_roots, strict
        self.lines = []

    def say(self, outcome, code, message):
        self.lines.append({"outcome": outcome, "code": code, "message": message})

    def holds(self, code, message):
        self.say("holds", code, message)

    def mark(self, code, message):
        self.say("marked", code, message)

    def broken(self, code, message):
        self.say("broken", code, message)

    # 2 -----------------------------------------------------------------------------------------------------------------
    def verify(self, data, against=None):
        if data.startswith(b"%PDF-") and not re.search(rb"startxref\s+\d+\s+%%EOF", data):
            return self.broken("truncated_file", "the file was cut off")
        try:
            files = self.attachments(data)
        except Exception as error:
            return self.broken("unreadable_file", f"the attachments cannot be taken out: {error}")
        seal = self.seal(data, files)
        if seal is False:
            return None
        parts = {}
        for name in RECORDS:
            try:
                need(name in files, "it is not there")
                parts[name] = getattr(self, "read_" + name.split(".")[0])(decode(files[name]))
            except Refused as why:
                self.broken("unreadable_attachment", f"{name}: {why}")
        if len(parts) < len(RECORDS):
            return None
        self.entries, certificates = parts["entries.cbor"], parts["certificates.cbor"]
        self.log, receipts = parts["log.cbor"], parts["receipts.cbor"]
        self.received = {leaf["entry"]: leaf["received_at"] for leaf in self.log["leaves"]}
        self.first = seal is not None and seal.get("fold", 1) < 2  # 4
        self.open_entries()
        self.devices(certificates)
        missing = self.check_log()
        self.count(missing, seal)
        self.chains()
        self.receipts(receipts)
        if against is not None:
            self.compare(against)
        self.tokens()
        outside_word.last_entry(self, files, open_checkpoint, root_of_inclusion, Refused)
        self.photos(files, seal)
        self.pages(data, files, seal)
        outside_word.tokens(self, self.tsa_roots, self.strict)
        outside_word.witnesses(self, self.witnesses, self.strict)
        return None

    # 10 ----------------------------------------------------------------------------------------------------------------
    def pages(self, data, files, seal):
        if seal is None:
            return
        self.mark("pages_not_drawn", "what the pages say beyond what was checked rests on the organisation's word")
        if "pages" not in seal:
            return
        try:
            front = fields(decode(files.get("front.cbor", b"")), ("facts",))["facts"]
            need(isinstance(front, list))
            for fact in front:
                fields(fact, ("kind", "label", "text", "cites"))
                need(all(isinstance(fact[name], str) for name in ("kind", "label", "text")))
                need(isinstance(fact["cites"], list) and all(is_uint(number) for number in fact["cites"]))
            need("pages.txt" in files, "pages.txt is not there")
            text = files["pages.txt"].decode("utf-8").split("\f")
        except (Refused, UnicodeDecodeError) as why:
            self.broken("unreadable_attachment", f"front.cbor or pages.txt: {why}")
            return
        photographs = {content for name, content in files.items() if re.fullmatch(r"[0-9a-f]{64}\..*", name)}
        found = list(verify_pages.of_the_front(front, text[0], self.key, seal))
        if not any(line["outcome"] == "broken" and line["code"] == "edited_pages" for line in self.lines):
            found += verify_pages.of_the_file(data, text, photographs)
        damage = {"altered_entry", "removed_entry", "reordered_entries", "foreign_entry"}
        if not any(line["outcome"] == "broken" and line["code"] in damage for line in self.lines):
            found += verify_pages.of_the_entries(front, self.visit, self.besides, self.not_counting)
        for what in found[:50]:
            self.broken("altered_pages", what)

    def attachments(self, data):
        need(data.startswith(b"%PDF-"), "not a PDF")
        reader = pypdf.PdfReader(io.BytesIO(data), strict=False)
        files = {}

        def walk(node, depth):
            need(depth < 16, "the name tree is too deep")
            for kid in node.get("/Kids", []):
                walk(kid.get_object(), depth + 1)
            names = node.get("/Names", [])
            names = names.get_object() if hasattr(names, "get_object") else names
            for specification in names[1::2]:
                specification = specification.get_object()
                name = specification["/F"]
                name = name.original_bytes.decode() if hasattr(name, "original_bytes") else str(name)
                content = specification["/EF"]["/F"].get_object().get_data()
                need(len(content) <= LARGEST_ATTACHMENT, "an attachment is too large")
                need(name not in files, "two attachments have one name")
                files[name] = content

        walk(reader.root_object["/Names"]["/EmbeddedFiles"], 0)
        return files

    # 4 -----------------------------------------------------------------------------------------------------------------
    def seal(self, data, files):
        if "seal.cbor" not in files:
            self.broken("removed_attachment", "seal.cbor is not there")
            return None
        raw = files["seal.cbor"]
        try:
            header = decode(decode(raw).value[0])
            if header.get(4) != self.key:
                self.broken("wrong_key", f"sealed by {header.get(4, b'').hex()}")
                return False
        except Exception:
            pass  # whatever it is, the envelope does not hold
        try:
            _, payload = envelope(raw, FORMAT, self.key)
            seal = fields(decode(payload), ("format", "file", "stay", "at", "entries", "attachments"), ("fold", "pages"))
            need(seal["format"] == FORMAT and is_bytes(seal["file"], 32))
            need(is_uint(seal.get("fold", 1)) and is_uint(seal.get("pages", 1)))
            need(is_number(fields(seal["entries"], ("count", "root"))["count"]))
            for listed in seal["attachments"]:
                fields(listed, ("name", "sha256", "length"))
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
            if (sha256(files[name]), len(files[name])) != (listed["sha256"], listed["length"]):
                intact = False
                self.broken("altered_attachment", f"{name} is not the file sealed")
        for name in sorted(there):
            intact = False
            self.broken("added_attachment", f"{name} was not sealed")
        at = data.find(raw)
        alone = at >= 0 and data.find(raw, at + 1) < 0
        if alone and sha256(data[:at] + bytes(len(raw)) + data[at + len(raw):]) == seal["file"]:
            self.holds("seal", "the whole file is as sealed")
        elif intact:
            self.broken("edited_pages", "the attachments are the sealed ones, the file around them is not")
        return seal

    # 5–8: forms ----------------------------------------------------------------------------------------------------------
    @staticmethod
    def read_entries(value):
        fields(value, ("format", "stay", "visit", "car", "site", "roster"))
        need(value["format"] == FORMAT, "another format")
        need(all(is_bytes(visit, 16) for visit in value["stay"]))
        for name in ("visit", "car", "site", "roster"):
            need(isinstance(value[name], list) and all(isinstance(entry, bytes) for entry in value[name]))
        return value

    @staticmethod
    def read_certificates(value):
        fields(value, ("certificates",))
        need(all(isinstance(one, bytes) for one in value["certificates"]))
        return value["certificates"]

    @staticmethod
    def read_receipts(value):
        fields(value, ("receipts",))
        need(all(isinstance(one, bytes) for one in value["receipts"]))
        return value["receipts"]

    @staticmethod
    def read_log(value):
        fields(value, ("checkpoints", "consistency", "leaves", "chains", "tokens"))
        need(all(isinstance(note, str) for note in value["checkpoints"]))
        need(all(is_bytes(one, 32) for proof in value["consistency"] for one in proof))
        for leaf in value["leaves"]:
            fields(leaf, ("entry", "number", "received_at", "path"))
            need(is_bytes(leaf["entry"], 32) and is_number(leaf["number"]) and leaf["number"] >= 0)
            need(is_number(leaf["received_at"]) and all(is_bytes(one, 32) for one in leaf["path"]))
        for chain in value["chains"]:
            fields(chain, ("device", "elsewhere", "missing"))
            need(is_bytes(chain["device"], 32) and all(len(run) == 2 for run in chain["missing"]))
            for other in chain["elsewhere"]:
                fields(other, ("seq", "entry"))
                need(is_number(other["seq"]) and is_bytes(other["entry"], 32))
        for token in value["tokens"]:
            fields(token, ("size", "token"))
        return value

    # 5 -----------------------------------------------------------------------------------------------------------------
    def open_entries(self):
        self.visit, self.besides, self.order, self.altered = [], [], {}, 0
        self.not_counting = set()
        letters = {"visit": "v", "car": "cv", "site": "s", "roster": "r"}
        for name in ("visit", "car", "site", "roster"):
            self.order[name] = []
            for number, raw in enumerate(self.entries[name], 1):
                try:
                    need(len(raw) <= LARGEST_ENTRY, "too large")
                    device, payload = envelope(raw, "farsiding entry 1")
                    body = listed_fields(decode(payload), ("about", "slot", "says", "by", "seq", "when"))
                    holds_by_hand = self.first or "hand" not in body or hand_holds(body, device)
                    body = without_nulls(body)
                    body["when"] = without_nulls(body["when"])
                    need(is_bytes(body["about"], 17) and is_uint(body["seq"]))
                    need(is_time(body["when"].get("at")))
                    need(is_time(body["when"].get("ahead_millis", 0)) and isinstance(body.get("why", ""), str))
                    need(isinstance(body.get("replaces", []), list) and is_bytes(body.get("prev", bytes(32)), 32))
                    need(all(is_bytes(one, 32) for one in body.get("replaces", [])))
                    need(not body.get("replaces") or body.get("why", "").strip(), "replaces without a reason")
                    need(holds_by_hand, "the person's signature does not hold")
                except Refused as why:
                    self.altered += 1
                    self.broken("altered_entry", f"entry {number} of {name}: {why}")
                    continue
                entry = {"id": sha256(raw), "device": device, "body": body, "list": name}
                about = body["about"]
                if chr(about[0]) not in letters[name] or (name == "visit" and about[1:] not in self.entries["stay"]):
                    self.broken("foreign_entry", f"entry {entry['id'].hex()} is about something else than {name}")
                self.order[name].append(entry["id"])
                (self.visit if name == "visit" else self.besides).append(entry)
        self.all = self.visit + self.besides
        if not self.altered:
            self.holds("entries", f"{len(self.all)} entries bear the signatures of their devices")

    # 6 -----------------------------------------------------------------------------------------------------------------
    def devices(self, certificates):
        certified, forged = {}, False
        for raw in certificates:
            try:
                certificate = open_certificate(raw, self.key)
                certified[certificate["device"]] = certificate
            except Refused as why:
                forged = True
                self.broken("forged_device", f"a certificate does not hold: {why}")
        if not self.first:
            self.judge(certified)
            if not forged:
                self.holds("devices", "every certificate holds")
            return
        for device in sorted({entry["device"] for entry in self.all}):
            certificate = certified.get(device)
            if certificate is None:
                forged = True
                self.broken("forged_device", f"device {device.hex()} is not certified")
            elif certificate.get("revoked_at") is not None:
                late = [e for e in self.all if e["device"] == device
                        and self.received.get(e["id"], certificate["revoked_at"]) >= certificate["revoked_at"]]
                if late:
                    self.mark("revoked_device", f"{len(late)} entries of {certificate['name']} came in after it was revoked")
        if not forged:
            self.holds("devices", "every device is certified")

    def judge(self, certified):
        """Fold 2: which entries do not count for their device's sake."""
        def mark_of(entry):
            certificate = certified.get(entry["device"])
            if certificate is None:
                return "uncertified_device"
            revoked = certificate.get("revoked_at")
            if revoked is not None and self.received.get(entry["id"], revoked) >= revoked:
                return "revoked_device"
            return "expired_device" if claimed(entry) > certificate.get("valid_until", 1 << 63) else None

        def may_admit(entry):
            if mark_of(entry) is not None:
                return False
            certificate = certified[entry["device"]]
            grants = [certificate] + [one for one in certificate.get("earlier", [])
                                      if entry["body"]["seq"] <= one["last"]["seq"]]
            return any("admit" in grant["rights"] if "rights" in grant else grant["role"] == "office" for grant in grants)

        marked = {}
        for name in ("visit", "car", "site", "roster"):
            entries, words, taken_back = [entry for entry in self.all if entry["list"] == name], {}, set()
            for entry in entries:
                admitted = says_of(entry, "admitted")
                is_word = admitted is not None and is_bytes(admitted.get("entry"), 32)
                if (is_word or says_of(entry, "withdrawn") is not None) and may_admit(entry):
                    taken_back |= set(entry["body"].get("replaces", []))
                    if is_word:
                        words[entry["id"]] = admitted["entry"]
            admitted = {late for word, late in words.items() if word not in taken_back}
            for entry in entries:
                code = mark_of(entry)
                if code and (code == "uncertified_device" or entry["id"] not in admitted):
                    self.not_counting.add(entry["id"])
                    marked.setdefault((code, entry["device"]), []).append(entry)
        for (code, device), entries in sorted(marked.items()):
            self.mark(code, f"{len(entries)} entries of {device.hex()} do not count")

    # 7 -----------------------------------------------------------------------------------------------------------------
    def agree(self, a, b, proof=()):
        old, new = (a, b) if a[1] <= b[1] else (b, a)
        if old[0] != new[0]:
            return False
        if old[1] == new[1]:
            return old[2] == new[2]
        return consistent(old[1], old[2], new[1], new[2], proof)

    def check_log(self):
        log, sound = self.log, True
        self.checkpoints = []
        for note in log["checkpoints"]:
            try:
                self.checkpoints.append(open_checkpoint(note, self.key))
            except Refused as why:
                self.checkpoints.append(None)
                self.broken("forged_checkpoint", f"a checkpoint does not hold: {why}")
        if not log["checkpoints"]:
            self.broken("forged_checkpoint", "there is no checkpoint")
        for at, (old, new) in enumerate(zip(self.checkpoints, self.checkpoints[1:])):
            proof = log["consistency"][at] if at < len(log["consistency"]) else ()
            if old and new and not self.agree(old, new, proof):
                self.broken("log_fork", f"checkpoints of size {old[1]} and {new[1]} cannot both be of one log")
        last = self.checkpoints[-1] if self.checkpoints else None
        before = None
        for leaf in log["leaves"]:
            hashed = leaf_hash(leaf["entry"] + leaf["received_at"].to_bytes(8, "big", signed=True))
            if last and root_of_inclusion(hashed, leaf["number"], last[1], leaf["path"]) != last[2]:
                sound = False
                self.broken("unlogged_entry", f"the log does not hold {leaf['entry'].hex()} at {leaf['number']}")
            if before and (leaf["number"] <= before["number"] or leaf["received_at"] < before["received_at"]):
                self.broken("log_order", f"numbers or times fall at {leaf['number']}")
            before = leaf
        here, listed = {entry["id"] for entry in self.all}, set(self.received)
        for entry in here - listed:
            sound = False
            self.broken("unlogged_entry", f"entry {entry.hex()} has no leaf")
        if sound and last:
            self.holds("log", f"the log of {last[1]} entries holds each entry at its place")
        numbers = {leaf["entry"]: leaf["number"] for leaf in log["leaves"]}
        for name, order in self.order.items():
            rising = [numbers[entry] for entry in order if entry in numbers]
            if any(a >= b for a, b in zip(rising, rising[1:])):
                self.broken("reordered_entries", f"{name} is not in the order of the log")
        return listed - here

    def count(self, missing, seal):
        if len(missing) > self.altered:
            self.broken("removed_entry", f"{len(missing) - self.altered} entries the log lists are not here")
        if seal:
            here = sum(len(self.entries[name]) for name in ("visit", "car", "site", "roster"))
            if here < seal["entries"]["count"]:
                self.broken("removed_entry", f"{seal['entries']['count']} entries were sealed, {here} are here")

    def compare(self, against):
        note, proof = against
        try:
            theirs = open_checkpoint(note, self.key)
        except Refused as why:
            return self.broken("forged_checkpoint", f"the checkpoint given does not hold: {why}")
        ours = [checkpoint for checkpoint in self.checkpoints if checkpoint]
        same = [checkpoint for checkpoint in ours if checkpoint[1] == theirs[1]]
        if ours and ours[-1][0] != theirs[0]:
            return self.broken("not_compared", "the checkpoint given is of another log of the organisation")
        if same:
            if self.agree(same[0], theirs):
                return self.holds("log", "the checkpoint given is the packet's own")
            return self.broken("log_fork", f"two checkpoints of size {theirs[1]} differ")
        if not ours:
            return None
        if not proof:
            return self.broken("not_compared", "sizes differ and no consistency proof was given")
        if self.agree(ours[-1], theirs, proof):
            return self.holds("log", "the checkpoint given is of the same log")
        return self.broken("log_fork", "the checkpoint given cannot be of the same log")

    def tokens(self):
        for token in self.log["tokens"]:
            notes = [note for note, opened in zip(self.log["checkpoints"], self.checkpoints)
                     if opened and opened[1] == token["size"]]
            if any(sha256(note.encode()) in token["token"] for note in notes):
                self.holds("time_stamp", f"a time stamp names the checkpoint of size {token['size']}")
            else:
                self.broken("forged_time_stamp", f"a time stamp is not of the checkpoint of size {token['size']}")

    # 7.4 ---------------------------------------------------------------------------------------------------------------
    def chains(self):
        known, runs = {}, {}
        for entry in self.all:
            known.setdefault(entry["device"], {}).setdefault(entry["body"]["seq"], set()).add(entry["id"])
        for chain in self.log["chains"]:
            runs[chain["device"]] = chain["missing"]
            for other in chain["elsewhere"]:
                known.setdefault(chain["device"], {}).setdefault(other["seq"], set()).add(other["entry"])
        for device in {entry["device"] for entry in self.visit}:
            numbers = [entry["body"]["seq"] for entry in self.visit if entry["device"] == device]
            expected = min(numbers)
            for seq in sorted(n for n in known[device] if min(numbers) <= n <= max(numbers)):
                if seq > expected:
                    if any(a <= expected and seq - 1 <= b for a, b in runs.get(device, [])):
                        self.mark("chain_gap", f"entries {expected} to {seq - 1} of {device.hex()[:8]} are not at the office")
                    elif not self.altered:
                        self.broken("removed_entry", f"entries {expected} to {seq - 1} of {device.hex()[:8]} are gone")
                if len(known[device][seq]) > 1:
                    self.mark("chain_gap", f"several entries carry the number {seq}")
                expected = seq + 1
        for entry in self.visit:
            before = known[entry["device"]].get(entry["body"]["seq"] - 1)
            if before is not None and entry["body"].get("prev") not in before:
                self.mark("chain_gap", f"entry {entry['id'].hex()[:8]} names another entry before it")

    # 8 -----------------------------------------------------------------------------------------------------------------
    def receipts(self, receipts):
        sound = True
        for raw in receipts:
            try:
                receipt = fields(decode(raw), ("head", "entries"))
                need(isinstance(receipt["head"], bytes) and all(is_bytes(e, 32) for e in receipt["entries"]))
                _, payload = envelope(receipt["head"], "farsiding reply 1", self.key, addressed=True)
                head = decode(payload)
                need(isinstance(head, dict) and is_number(head.get("t")))
                root = tree_hash([leaf_hash(entry) for entry in receipt["entries"]])
                need(receipt["entries"] and root in (head.get("r"), head.get("d")), "it is about other entries")
            except Refused as why:
                sound = False
                self.broken("forged_receipt", f"a receipt does not hold: {why}")
                continue
            times = [self.received[entry] for entry in receipt["entries"] if entry in self.received]
            if times and head["t"] + PLAY < max(times):
                sound = False
                self.broken("backdated_receipt", "a receipt is older than the log's word on an entry it covers")
        if sound:
            self.holds("receipts", f"{len(receipts)} receipts hold")
        early = [entry for entry in self.all if entry["id"] in self.received and
                 self.received[entry["id"]] + PLAY < claimed(entry)]
        if early:
            self.mark("claimed_after_received", f"{len(early)} entries claim a later time than they were received")

    # 9 -----------------------------------------------------------------------------------------------------------------
    def photos(self, files, seal):
        signed, named = {}, set()
        for entry in self.all:
            for kind in ("seal", "defect"):
                photo = (says_of(entry, kind) or {}).get("photo")
                if is_bytes(photo, 32):
                    named.add(photo)
            photo = (says_of(entry, "photo") or {}).get("photo")
            if isinstance(photo, dict) and is_bytes(photo.get("sha256"), 32) and is_uint(photo.get("length")):
                lengths = signed.setdefault(photo["sha256"], set())
                if self.first:
                    lengths.clear()
                lengths.add(photo["length"])

        def digest_in(name):
            return bytes.fromhex(name[:64]) if re.fullmatch(r"[0-9a-f]{64}\..*", name) else None

        sound, there = True, set()
        for name, content in sorted(files.items()):
            digest = digest_in(name)
            if digest is None:
                continue
            there.add(digest)
            found = sha256(content)
            if found == digest:
                if signed.get(digest, set()) - {len(content)}:
                    if self.first:
                        sound = False
                        self.broken("altered_photo", f"{name} has another length than signed for")
                    else:
                        self.mark("other_length", f"an entry gives another length than {name} has")
            elif found in signed or found in named:
                sound = False
                self.broken("swapped_photo", f"under the name {name} stands another photograph")
            else:
                sound = False
                self.broken("altered_photo", f"{name} is not the photograph signed for")
        sealed = {digest_in(listed["name"]) for listed in seal["attachments"]} if seal else set()
        absent = [digest for digest in signed if digest not in there and digest not in sealed]
        if absent:
            self.mark("absent_photo", f"{len(absent)} photographs were not at the office")
        if sound:
            self.holds("photos", "the photographs are those signed for")


def read_key(text):
    if os.path.exists(text):
        with open(text, encoding="utf-8") as file:
            text = file.read()
    return bytes.fromhex(text.strip())


def read_against(path):
    with open(path, encoding="utf-8") as file:
        lines = file.read().splitlines()
    proof = []
    while lines and re.fullmatch(r"[A-Za-z0-9+/]{43}=", lines[-1]):
        proof.insert(0, base64.b64decode(lines.pop()))
    return "\n".join(lines) + "\n", proof


def main():
    arguments = argparse.ArgumentParser(description="Checks evidence packets.")
    arguments.add_argument("files", nargs="+")
    arguments.add_argument("--key", required=True)
    arguments.add_argument("--against")
    arguments.add_argument("--witness", action="append", default=[], type=outside_word.read_witness)
    arguments.add_argument("--tsa-root", action="append", default=[])
    arguments.add_argument("--strict", action="store_true")
    arguments.add_argument("--json", action="store_true")
    given = arguments.parse_args()
    key, worst = read_key(given.key), 0
    against = read_against(given.against) if given.against else None
    for path in given.files:
        verifier = Verifier(key, given.witness, given.tsa_root, given.strict)
        with open(path, "rb") as file:
            verifier.verify(file.read(), against)
        ok = not any(line["outcome"] == "broken" for line in verifier.lines)
        worst |= 0 if ok else 3
        if given.json:
            print(json.dumps({"ok": ok, "lines": verifier.lines}))
        else:
            for line in verifier.lines:
                print(f"{line['outcome']:<7} {line['code']:<22} {line['message']}")
            print("All of it holds." if ok else "It does NOT hold.")
    return worst


if __name__ == "__main__":
    sys.exit(main())
