"""Makes a small packet of fold 3 from nothing, by FORMAT.md, with every key at hand, so that any byte of it can be another one
while all the rest is signed, logged and sealed as it should be.

`packet({place: change, …})` makes it with something changed: a change is given what stands at that place and returns what is
to stand there. Places are the names `put` is called with below.
"""
import base64
import hashlib
import struct
import zlib

from damage import Key, sha256

OFFICE, PHONE, DESK, STRANGER = (Key(bytes([n] * 32)) for n in (42, 1, 9, 66))
VISIT, CAR, SITE, OTHER = (bytes([n] * 16) for n in (0xa1, 0xa2, 0xa3, 0xa5))
BEGIN, MINUTE = 1_790_000_000_000, 60_000
ORGANISATION = sha256(OFFICE.public)[:16]
ORIGIN = f"farsiding/{ORGANISATION.hex()}"
PHOTO = b"\xff\xd8\xff\xe0 no picture, but bytes \xff\xd9"


def opened(site, **more):
    """What the first entry of a visit says."""
    return {"opened": {"car": "ZZQX 1", "site": site, "spot": "Spot 2", "nonce": bytes(16), "receiver": "fixed_tank", "procedure": bytes(32), **more}}


class Raw(bytes):
    """CBOR that stands as it is."""


class Pairs(list):
    """A map's pairs, in this order."""


def head(major, number):
    if number < 24:
        return bytes([major << 5 | number])
    for code, form, end in ((24, ">B", 8), (25, ">H", 16), (26, ">I", 32), (27, ">Q", 64)):
        if number < 1 << end:
            return bytes([major << 5 | code]) + struct.pack(form, number)
    raw = number.to_bytes((number.bit_length() + 7) // 8, "big")
    return bytes([0xc2 + major]) + head(2, len(raw)) + raw


def pack(value):
    if isinstance(value, Raw):
        return bytes(value)
    if value is None or isinstance(value, bool):
        return {None: b"\xf6", True: b"\xf5", False: b"\xf4"}[value]
    if isinstance(value, int):
        return head(0, value) if value >= 0 else head(1, -1 - value)
    if isinstance(value, float):
        if value != value:
            return b"\xf9\x7e\x00"
        for form, first in ((">e", b"\xf9"), (">f", b"\xfa"), (">d", b"\xfb")):
            try:
                if struct.unpack(form, struct.pack(form, value))[0] == value:
                    return first + struct.pack(form, value)
            except OverflowError:
                continue
    if isinstance(value, bytes):
        return head(2, len(value)) + value
    if isinstance(value, str):
        return head(3, len(value.encode())) + value.encode()
    if isinstance(value, dict):
        pairs = sorted(pack(name) + pack(inner) for name, inner in value.items())
        return head(5, len(pairs)) + b"".join(pairs)
    if isinstance(value, Pairs):
        return head(5, len(value)) + b"".join(pack(name) + pack(inner) for name, inner in value)
    return head(4, len(value)) + b"".join(pack(one) for one in value)


def tree(leaves):
    if len(leaves) < 2:
        return leaves[0] if leaves else sha256(b"")
    split = 1 << ((len(leaves) - 1).bit_length() - 1)
    return sha256(b"\x01" + tree(leaves[:split]) + tree(leaves[split:]))


def audit_path(leaves, at):
    if len(leaves) < 2:
        return []
    split = 1 << ((len(leaves) - 1).bit_length() - 1)
    if at < split:
        return audit_path(leaves[:split], at) + [tree(leaves[split:])]
    return audit_path(leaves[split:], at - split) + [tree(leaves[:split])]


def growth(leaves, old, whole=True):
    """The consistency proof from the first `old` leaves to all of them (RFC 9162, 2.1.4.1)."""
    if old == len(leaves):
        return [] if whole else [tree(leaves)]
    split = 1 << ((len(leaves) - 1).bit_length() - 1)
    if old <= split:
        return growth(leaves[:split], old, whole) + [tree(leaves[split:])]
    return growth(leaves[split:], old - split, False) + [tree(leaves[:split])]


def heads_map(documents, depth=0):
    if len(documents) < 2:
        return documents[0][1] if documents else bytes(32)
    sides = [[one for one in documents if one[0][depth // 8] >> (7 - depth % 8) & 1 == side] for side in (0, 1)]
    return sha256(b"\x03" + heads_map(sides[0], depth + 1) + heads_map(sides[1], depth + 1))


def heads_path(documents, key, depth=0):
    """The hashes beside the way of a document, from its place upwards."""
    if len(documents) < 2:
        return []
    bit = key[depth // 8] >> (7 - depth % 8) & 1
    sides = [[one for one in documents if one[0][depth // 8] >> (7 - depth % 8) & 1 == side] for side in (0, 1)]
    return heads_path(sides[bit], key, depth + 1) + [heads_map(sides[1 - bit], depth + 1)]


class Log:
    def __init__(self):
        self.leaves = []  # entry, received_at, about

    def hashes(self, size=None):
        return [sha256(b"\0" + entry + struct.pack(">q", at) + about) for entry, at, about in self.leaves[:size]]

    def head_of(self, about, size=None):
        ids = [entry for entry, _, of in self.leaves[:size] if of == about]
        return len(ids), tree([sha256(b"\0" + one) for one in ids])

    def documents(self, size=None):
        out = []
        for about in {of for _, _, of in self.leaves[:size]}:
            count, root = self.head_of(about, size)
            key = sha256(about)
            out.append((key, sha256(b"\2" + key + count.to_bytes(8, "big") + root)))
        return out


def signature_line(key, name, text, word=None):
    key_id = sha256(name.encode() + b"\n\x01" + key.public)[:4]
    return f"\u2014 {name} {base64.b64encode(key_id + key.private.sign((word or text).encode())).decode()}\n"


def file_of(attachments, put):
    """A PDF with these attachments; what `put` is asked of: `names` (pairs of name and object number), `stream` and `pdf`."""
    objects = {1: b"<</Type/Catalog/Pages 2 0 R/Names<</EmbeddedFiles 4 0 R>>>>",
               2: b"<</Type/Pages/Kids[3 0 R]/Count 1>>", 3: b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 99 99]>>"}
    names, number = [], 5
    for name, content in sorted(attachments.items()):
        plain = name == "seal.cbor"
        dictionary, body = put("stream " + name, (b"" if plain else b"/Filter/FlateDecode", content if plain else zlib.compress(content)))
        objects[number] = b"<</Type/EmbeddedFile" + dictionary + b"/Length %d>>stream\n%s\nendstream" % (len(body), body)
        objects[number + 1] = b"<</Type/Filespec/F(%s)/UF(%s)/EF<</F %d 0 R>>>>" % (name.encode(), name.encode(), number)
        names.append((name.encode(), number + 1))
        number += 2
    listed = b" ".join(b"(%s) %d 0 R" % pair for pair in put("names", names))
    objects[4] = put("tree", b"<</Names[" + listed + b"]>>")
    objects.update(put("objects", {}))
    out, places = b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n", {}
    for number, content in sorted(objects.items()):
        places[number] = len(out)
        out += b"%d 0 obj\n%s\nendobj\n" % (number, content)
    at, size = len(out), max(objects) + 1
    table = b"".join(b"%010d 00000 n \n" % places[n] if n in places else b"0000000000 65535 f \n" for n in range(size))
    out += b"xref\n0 %d\n" % size + table
    return out + b"trailer\n<</Size %d/Root 1 0 R>>\nstartxref\n%d\n%%%%EOF\n" % (size, at)


def packet(changes=None):
    changes = changes or {}
    # Who signs in the organisation's place, by what is signed (12).
    signers = changes.get("signers", {})

    def put(place, value):
        return changes[place](value) if place in changes else value

    def envelope(place, key, payload, context, addressed=False):
        key = signers.get(place, key)
        protected = put(place + ".protected", pack({1: -8} if addressed else {1: -8, 4: key.public}))
        payload = put(place + ".payload", pack(payload))
        signed = key.private.sign(pack(["Signature1", protected, context.encode(), payload]))
        return put(place, head(6, 18) + pack([protected, {}, payload, signed]))

    log, entries, last = Log(), {"visit": [], "car": [], "site": [], "roster": []}, {}
    ids = {}

    def entry(called, where, key, about, says, **more):
        seq, prev = last.get(key, (0, None))
        at = BEGIN + len(log.leaves) * MINUTE
        body = {"about": about, "slot": "remark/" + called, "says": says, "by": "AB", "seq": seq + 1,
                "when": {"at": at, "offset_minutes": 60, "ahead_millis": 0}, **more}
        if prev is not None:
            body["prev"] = prev
        body = put(called + ".body", body)
        if isinstance(body.get("about"), bytes) and len(body["about"]) == 17:
            about = body["about"]
        raw = envelope(called, key, body, "farsiding entry 1")
        last[key] = (seq + 1, sha256(raw))
        ids[called] = sha256(raw)
        log.leaves.append((sha256(raw), at + 5000, about))
        if where:
            entries[where].append(raw)

    entry("first", "visit", PHONE, b"v" + VISIT, opened(SITE))
    entry("person", "roster", DESK, b"r" + ORGANISATION, {"operator": {"name": "Ada"}})
    entry("place", "site", DESK, b"s" + SITE, {"site": {"name": "Yard"}})
    entry("second", "visit", PHONE, b"v" + VISIT, {"remark": {"text": "more"}}, follows=[ids["first"]])
    early = len(log.leaves)
    digest = sha256(PHOTO)
    entry("elsewhere", None, PHONE, b"v" + OTHER, {"remark": {"text": "of another"}})
    entry("photo", "visit", PHONE, b"v" + VISIT, {"photo": {"photo": {"sha256": digest, "length": len(PHOTO), "media": "image/jpeg"}, "of": "car_number"}})
    entry("odd", "visit", PHONE, b"v" + VISIT, {"remark": {"text": "less"}}, follows=[ids["first"]], replaces=[ids["second"]],
          why="a slip",
          seen={"size": early, "root": tree(log.hashes(early))}, place={"latitude": 0.5, "longitude": 1.5, "accuracy_m": 2.5})
    signed_by_hand = {"about": b"v" + VISIT, "slot": "remark/hand", "says": {"remark": {"text": "mine"}}, "by": "AB",
                      "seq": last[PHONE][0] + 1, "prev": last[PHONE][1],
                      "when": {"at": BEGIN + len(log.leaves) * MINUTE, "offset_minutes": 60}}
    message = pack(["Signature1", pack({1: -8, 4: STRANGER.public}), b"farsiding person 1", PHONE.public + pack(signed_by_hand)])
    entry("hand", "visit", PHONE, b"v" + VISIT, {"remark": {"text": "mine"}}, when=signed_by_hand["when"],
          hand={"key": STRANGER.public, "signature": STRANGER.private.sign(message)})
    entry("wagon", "car", DESK, b"c" + CAR, {"remark": {"text": "old"}})
    entry("another", None, DESK, b"c" + OTHER, {"remark": {"text": "of another car"}})

    def note(size, place):
        documents = log.documents(size)
        lines = [ORIGIN, str(size), base64.b64encode(tree(log.hashes(size))).decode(),
                 f"heads {len(documents)} {base64.b64encode(heads_map(documents)).decode()}"]
        text = put(place + ".text", "\n".join(put(place + ".lines", lines)) + "\n")
        return put(place, text + "\n" + put(place + ".signatures", signature_line(signers.get(place, OFFICE), ORIGIN, text)))

    size, here = len(log.leaves), {sha256(raw) for name in entries for raw in entries[name]}
    leaves = [{"entry": one, "number": at, "received_at": when, "about": about, "path": audit_path(log.hashes(), at)}
              for at, (one, when, about) in enumerate(log.leaves)]
    count, root = log.head_of(b"v" + VISIT)
    checked = {
        "checkpoints": [note(early, "early"), note(size, "note")], "consistency": [growth(log.hashes(), early)],
        "leaves": [leaf for leaf in leaves if leaf["entry"] in here],
        "chains": [{"device": PHONE.public, "elsewhere": [{"seq": 3, "entry": ids["elsewhere"]}], "missing": []}],
        "tokens": [],
        "heads": [{"about": b"v" + VISIT, "count": count, "root": root, "path": heads_path(log.documents(), sha256(b"v" + VISIT))}],
        "seen": [{"size": early, "root": tree(log.hashes(early)), "path": growth(log.hashes(), early), "last": leaves[early - 1]}]}
    covered = [sha256(raw) for raw in entries["visit"]]
    told = {"t": log.leaves[-1][1], "q": bytes(16), "s": bytes(16), "n": size, "c": {"e": 1, "p": size},
            "d": tree([sha256(b"\0" + one) for one in covered])}
    receipt = put("receipt", pack(put("receipt.map", {"head": envelope("head", OFFICE, told, "farsiding reply 1", addressed=True),
                                                      "entries": covered})))
    certified = []
    for place, key, role in (("certificate", PHONE, "operator"), ("desk", DESK, "office")):
        body = {"organisation": ORGANISATION, "device": key.public, "name": place, "role": role, "issued_at": BEGIN - MINUTE,
                "issuer": signers.get(place, OFFICE).public}
        if place == "certificate":
            body.update(sites=[SITE], rights=["record"], renewed_at=BEGIN, valid_until=BEGIN + 10**9, revoked_at=BEGIN + 10**8,
                        last={"seq": 9, "entry": bytes(32)}, earlier=[{"role": "office", "last": {"seq": 1, "entry": bytes(32)}}])
        body = put(place + ".body", body)
        context = "farsiding certificate 2" if "issuer" in body else "farsiding certificate 1"
        certified.append(envelope(place, OFFICE, body, context))
    files = {
        "entries.cbor": pack(put("entries.map", {"format": "farsiding packet 1", "stay": [VISIT], **entries})),
        "log.cbor": pack(put("log.map", checked)), "certificates.cbor": pack(put("certificates.map", {"certificates": certified})),
        "receipts.cbor": pack(put("receipts.map", {"receipts": [receipt]})), "view.json": b"{}", "FORMAT.txt": b"FORMAT.md\n",
        digest.hex() + ".jpg": PHOTO}
    if "statements" in changes:
        files["keys.cbor"] = pack({"statements": changes["statements"]})
    files = put("files", {name: put(name, content) for name, content in files.items()})
    return sealed(files, entries, put, envelope)


def sealed(files, entries, put, envelope):
    ids = [sha256(raw) for name in ("visit", "car", "site", "roster") for raw in entries[name]]
    # A fold of later rules, so that nobody compares a view that nobody folded.
    seal = {"format": "farsiding packet 1", "fold": 5, "file": bytes(32), "stay": [VISIT], "at": BEGIN + 7 * MINUTE + 5000,
            "entries": {"count": len(ids), "root": tree([sha256(b"\0" + one) for one in ids])},
            "attachments": [{"name": name, "sha256": sha256(content), "length": len(content)} for name, content in sorted(files.items())]}
    seal = put("seal.map", seal)
    blank = b"#" * len(envelope("seal", OFFICE, seal, "farsiding packet 1"))
    out = put("pdf", file_of({**files, "seal.cbor": blank}, put))
    if isinstance(seal.get("file"), bytes) and len(seal["file"]) == 32:
        seal["file"] = hashlib.sha256(out.replace(blank, bytes(len(blank)))).digest()
    return out.replace(blank, envelope("seal", OFFICE, seal, "farsiding packet 1"))
