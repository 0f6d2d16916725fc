"""How the frauds of `fraud_table.py` are made from packets: with no key, with a device's, or with the organisation's.

What needs a ledger of its own (people who lie to an honest office, an office that makes up its log) comes from the
example `fraud_packets`; here are the ones made from a finished packet.
"""

import base64
import copy
import io
import pathlib

import cbor2
import pypdf
from pypdf.generic import DecodedStreamObject, NameObject

from damage import OFFICE, THIEF, files_of, pack, resealed, rewrite, sha256, tree

PAINTED = b"\nq 1 1 1 rg 40 600 520 150 re f Q BT /f0 16 Tf 60 700 Td (RELEASED: nothing speaks against it) Tj ET\n"
# No text is changed: a bar as white as the paper.
COVERED = b"\nq 1 1 1 rg 40 400 520 400 re f Q\n"
WORDS = b"\nBT /f0 9 Tf 60 760 Td (The car was empty.) Tj ET\n"


def body(raw):
    return cbor2.loads(cbor2.loads(raw).value[2])


def signer(raw):
    return cbor2.loads(cbor2.loads(raw).value[0])[4]


class Packet:
    """A packet taken apart."""

    def __init__(self, data):
        self.data, self.files = data, files_of(data)
        self.entries, self.log = cbor2.loads(self.files["entries.cbor"]), cbor2.loads(self.files["log.cbor"])
        self.certificates = cbor2.loads(self.files["certificates.cbor"])["certificates"]
        self.receipts = cbor2.loads(self.files["receipts.cbor"])["receipts"]
        self.photos = sorted(name for name in self.files if name.endswith((".jpg", ".png")))

    def at(self, kind, nth=0, purpose=None):
        """The place in `visit` of the nth entry of a kind."""
        return [
            at
            for at, raw in enumerate(self.entries["visit"])
            if kind in body(raw)["says"] and (purpose is None or body(raw)["says"][kind].get("purpose") == purpose)
        ][nth]

    def without(self, at, leaf=True, head=False):
        """Entries and log without an entry of `visit`: its leaf too, and told one less in the visit's head."""
        entries, log = copy.deepcopy(self.entries), copy.deepcopy(self.log)
        raw = entries["visit"].pop(at)
        if leaf:
            log["leaves"] = [one for one in log["leaves"] if one["entry"] != sha256(raw)]
        if head:
            log["heads"] = [self.head_of(entries)]
        return entries, log

    def sealed(self, changes, **how):
        """Sealed anew with these changes. What proves the last entry to others is left out: it would prove the true one."""
        others = {name: None for name in self.files if name.endswith(".tlog-proof")}
        return resealed(self.data, {**others, **changes}, **how)

    def head_of(self, entries):
        """The first visit's head, as these entries would make it; on the way the true one stands."""
        item = dict(self.log["heads"][0])
        ids = [sha256(raw) for raw in entries["visit"] if body(raw)["about"] == item["about"]]
        item.update(count=len(ids), root=tree([sha256(b"\0" + one) for one in ids]))
        return item

    def last_note(self):
        """Origin, size, root and heads line of the last checkpoint."""
        lines = self.log["checkpoints"][-1].split("\n\n")[0].split("\n")
        return lines[0], int(lines[1]), base64.b64decode(lines[2]), lines[3] if len(lines) > 3 else None


def note(key, origin, size, root, heads=None, more=""):
    """A signed checkpoint. `more` are signature lines of others."""
    text = f"{origin}\n{size}\n{base64.b64encode(root).decode()}\n" + (f"{heads}\n" if heads else "")
    key_id = sha256(origin.encode() + b"\n\x01" + key.public)[:4]
    line = base64.b64encode(key_id + key.private.sign(text.encode())).decode()
    return f"{text}\n\u2014 {origin} {line}\n{more}"


def map_root(item):
    """The root that a document's head leads to."""
    key = sha256(item["about"])
    root = sha256(b"\x02" + key + item["count"].to_bytes(8, "big") + item["root"])
    for i, beside in enumerate(item["path"]):
        depth = len(item["path"]) - 1 - i
        bit = key[depth // 8] >> (7 - depth % 8) & 1
        root = sha256(b"\x03" + (beside + root if bit else root + beside))
    return root


def parts(entries=None, log=None, certificates=None, receipts=None):
    out = {}
    for name, value in [
        ("entries.cbor", entries),
        ("log.cbor", log),
        ("certificates.cbor", certificates and {"certificates": certificates}),
        ("receipts.cbor", receipts is not None and {"receipts": receipts} or None),
    ]:
        if value is not None:
            out[name] = pack(value)
    return out


class Bank:
    """The packets of the example `fraud_packets`, by name."""

    def __init__(self, folder):
        self.folder, self.known = pathlib.Path(folder), {}

    def put(self, name, packet):
        self.known[name] = packet

    def __getitem__(self, name):
        if name not in self.known:
            self.put(name, Packet((self.folder / f"{name}.pdf").read_bytes()))
        return self.known[name]

    def note(self, name):
        return (self.folder / f"{name}.note").read_text()


# Without any key ---------------------------------------------------------------------------------------------------------


def behind_the_end(data, words):
    """Words put onto page one by a revision appended to the file."""
    incremental = pypdf.PdfWriter(io.BytesIO(data), incremental=True)
    content = DecodedStreamObject()
    content.set_data(incremental.pages[0].get_contents().get_data() + words)
    incremental.pages[0][NameObject("/Contents")] = incremental._add_object(content)
    out = io.BytesIO()
    incremental.write(out)
    return out.getvalue()


def pages_changed(data, change):
    """The file with its list of pages changed."""
    writer = pypdf.PdfWriter(clone_from=pypdf.PdfReader(io.BytesIO(data)))
    change(writer)
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def sealed_in_its_layout(data):
    """Sealed anew as pages of the layout they were drawn in."""
    layout = body(files_of(data)["seal.cbor"]).get("pages")
    return resealed(data, {}, **({} if layout is None else {"pages": layout}))


def page_added(data):
    return pages_changed(data, lambda writer: writer.insert_blank_page(595, 842, 0))


def page_left_out(data):
    return pages_changed(data, lambda writer: writer.remove_page(0))


def page_of_another(data, other):
    """Page one is the other packet's page one."""

    def change(writer):
        writer.remove_page(0)
        writer.insert_page(pypdf.PdfReader(io.BytesIO(other)).pages[0], 0)

    return pages_changed(data, change)


def two_of_one_name(p):
    """A second attachment called entries.cbor, in front of the true one in the tree."""
    entries, _ = p.without(p.at("hold"))
    with_more = rewrite(p.data, {"zz.cbor": pack(entries)})
    reader = pypdf.PdfReader(io.BytesIO(with_more))
    writer = pypdf.PdfWriter(clone_from=reader)
    names = writer.root_object["/Names"]["/EmbeddedFiles"]["/Names"]
    for specification in names[1::2]:
        if str(specification.get_object()["/F"]) == "zz.cbor":
            specification.get_object()[NameObject("/F")] = pypdf.generic.TextStringObject("entries.cbor")
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def entry_altered(p):
    at = p.at("reading", purpose="final")
    raw = p.entries["visit"][at]
    entries = copy.deepcopy(p.entries)
    entries["visit"][at] = raw.replace(b"21", b"12", 1)
    assert entries["visit"][at] != raw
    return rewrite(p.data, parts(entries))


def list_shortened(p, name):
    entries = copy.deepcopy(p.entries)
    entries[name].pop()
    return rewrite(p.data, parts(entries))


def log_time_of_one(p, seal):
    log = copy.deepcopy(p.log)
    log["leaves"][-1]["received_at"] += 3_600_000
    return seal(p.data, parts(log=log))


def entry_of_another(p, other):
    """The hold's place is taken by an entry of another stay."""
    entries = copy.deepcopy(p.entries)
    entries["visit"][p.at("hold")] = next(raw for raw in other.entries["visit"] if "remark" in body(raw)["says"])
    return rewrite(p.data, parts(entries))


def certificate_of_a_stranger(p):
    forged = [
        THIEF.envelope(pack(dict(body(raw), issuer=THIEF.public)), "farsiding certificate 2") if at == 0 else raw
        for at, raw in enumerate(p.certificates)
    ]
    return rewrite(p.data, parts(certificates=forged))


def receipt_of_a_stranger(p):
    receipt = cbor2.loads(p.receipts[0])
    head = cbor2.loads(cbor2.loads(receipt["head"]).value[2])
    forged = pack(dict(receipt, head=THIEF.envelope(pack(head), "farsiding reply 1", addressed=True)))
    return rewrite(p.data, parts(receipts=[forged] + p.receipts[1:]))


# With a device's key -----------------------------------------------------------------------------------------------------


def said_otherwise(p, key):
    """The last reading signed anew with the key that signed it, in the finished packet."""
    at = p.at("reading", purpose="final")
    changed = body(p.entries["visit"][at])
    changed["when"]["at"] -= 60_000
    entries = copy.deepcopy(p.entries)
    entries["visit"][at] = key.envelope(pack(changed), "farsiding entry 1")
    return rewrite(p.data, parts(entries))


def said_besides(p, key):
    """One more entry, signed with a phone's key, that the office never had."""
    own = [raw for raw in p.entries["visit"] if signer(raw) == key.public]
    last = max(own, key=lambda raw: body(raw)["seq"])
    more = dict(body(last), seq=body(last)["seq"] + 1, prev=sha256(last))
    entries = copy.deepcopy(p.entries)
    entries["visit"].append(key.envelope(pack(more), "farsiding entry 1"))
    return rewrite(p.data, parts(entries))


# With the organisation's key -----------------------------------------------------------------------------------------------


def left_out(p, at, head=False, missing=False):
    """An entry, its leaf and, if asked, its share of the head left out and sealed; its number claimed missing."""
    entries, log = p.without(at, head=head)
    if missing:
        claim_missing(p, at, log)
    return p.sealed(parts(entries, log))


def claim_missing(p, at, log):
    device, seq = signer(p.entries["visit"][at]), body(p.entries["visit"][at])["seq"]
    chains = [chain for chain in log["chains"] if chain["device"] != device]
    mine = next((chain for chain in log["chains"] if chain["device"] == device), {"elsewhere": []})
    chains.append({"device": device, "elsewhere": mine["elsewhere"], "missing": [[seq, seq]]})
    log["chains"] = sorted(chains, key=lambda chain: chain["device"])


def fewer_in_the_map(p, at, missing=False):
    """An entry left out, and a checkpoint signed anew whose map of heads never had it."""
    entries, log = p.without(at, head=True)
    origin, size, root, heads = p.last_note()
    count = heads.split(" ")[1]
    line = f"heads {count} {base64.b64encode(map_root(log['heads'][0])).decode()}"
    log["checkpoints"][-1] = note(OFFICE, origin, size, root, line)
    if missing:
        claim_missing(p, at, log)
    return p.sealed(parts(entries, log))


def swapped_entries(p):
    entries = copy.deepcopy(p.entries)
    entries["visit"][3], entries["visit"][4] = entries["visit"][4], entries["visit"][3]
    return p.sealed(parts(entries))


def entry_twice(p):
    entries = copy.deepcopy(p.entries)
    entries["visit"].append(entries["visit"][-1])
    return p.sealed(parts(entries))


def moved_to_the_car(p, at):
    """An entry of the stay put among what was known of the car besides."""
    entries = copy.deepcopy(p.entries)
    entries["car"].append(entries["visit"].pop(at))
    return p.sealed(parts(entries))


def with_log(p, change):
    log = copy.deepcopy(p.log)
    change(log)
    return p.sealed(parts(log=log))


def another_checkpoint_first(p):
    origin, size, _, _ = p.last_note()
    other = note(OFFICE, origin, size, sha256(b"another story"))
    return with_log(p, lambda log: (log["checkpoints"].insert(0, other), log["consistency"].insert(0, [])))


def checkpoint_without_heads(p):
    origin, size, root, _ = p.last_note()

    def change(log):
        log["checkpoints"][-1] = note(OFFICE, origin, size, root)
        log.pop("heads")

    return with_log(p, change)


def made_up_cosignature(p):
    """A line as a witness would write it, of a witness that nobody knows."""
    origin, size, root, heads = p.last_note()
    name = "witness.example/made-up"
    key_id = sha256(name.encode() + b"\n\x04" + THIEF.public)[:4]
    told = base64.b64encode(key_id + bytes(8) + bytes(64)).decode()
    line = f"\u2014 {name} {told}\n"
    return with_log(p, lambda log: log["checkpoints"].__setitem__(-1, note(OFFICE, origin, size, root, heads, line)))


def last_note_as(p, text):
    """The last checkpoint's note is this one."""
    return with_log(p, lambda log: log["checkpoints"].__setitem__(-1, text))


def token_added(p, token):
    return with_log(p, lambda log: log["tokens"].append({"size": p.last_note()[1], "token": token}))


def time_stamp(p, of_this):
    """Bytes called a time stamp, with this checkpoint's digest in them or another's."""
    size = p.last_note()[1]
    digest = sha256(p.log["checkpoints"][-1].encode()) if of_this else sha256(b"another checkpoint")
    return with_log(p, lambda log: log["tokens"].append({"size": size, "token": b"0" + digest + b"stamped"}))


def backdated_receipt(p):
    receipt = cbor2.loads(p.receipts[0])
    head = cbor2.loads(cbor2.loads(receipt["head"]).value[2])
    head["t"] -= 86_400_000
    earlier = pack(dict(receipt, head=OFFICE.envelope(pack(head), "farsiding reply 1", addressed=True)))
    return p.sealed(parts(receipts=sorted([earlier] + p.receipts[1:])))


def other_last_leaf(p):
    """What entries had seen is said to be older than it was."""

    def change(log):
        newest = log["seen"][-1]
        newest["last"] = log["seen"][0]["last"]

    return with_log(p, change)


def second_visit_left_out(p):
    """One of the two records of a stay is dropped and no longer named."""
    entries, log = copy.deepcopy(p.entries), copy.deepcopy(p.log)
    joined = body(p.entries["visit"][p.at("joined")])
    other = joined["says"]["joined"]["other"]
    entries["stay"] = [visit for visit in entries["stay"] if visit != other]
    entries["visit"] = [raw for raw in entries["visit"] if body(raw)["about"] != b"v" + other]
    here = {sha256(raw) for name in ("visit", "car", "site", "roster") for raw in entries[name]}
    log["leaves"] = [leaf for leaf in log["leaves"] if leaf["entry"] in here]
    log["heads"] = [item for item in log["heads"] if item["about"] != b"v" + other]
    return p.sealed(parts(entries, log))


def certificate_left_out(p, key):
    return p.sealed(parts(certificates=[raw for raw in p.certificates if body(raw)["device"] != key.public]))


def other_view(p):
    view = p.files["view.json"].replace(b"liquid found at the vapour valve", b"nothing to be seen at the valve ", 1)
    assert view != p.files["view.json"]
    return view


def unnamed_photo(bank):
    """A photograph of the same organisation that no entry of this stay names."""
    honest, other = bank["honest"], bank["synthetic"]
    name = next(name for name in other.photos if name not in honest.photos)
    return {name: other.files[name]}


def names_as(p, change):
    rows = cbor2.loads(p.files["names.cbor"])["names"]
    change(rows)
    return {"names.cbor": pack({"names": sorted(rows, key=lambda row: row["named"])})}


def name_exchanged(p):
    return names_as(p, lambda rows: rows[0].update(name="Somebody Else"))


def name_of_nobody_here(p):
    salt, name = sha256(b"of a fraud"), "N. Obody"
    named = sha256(b"farsiding name 1" + salt + name.encode())
    return names_as(p, lambda rows: rows.append({"named": named, "salt": salt, "name": name}))


def with_seal(p, **changed):
    """Sealed with something else in the seal's own words."""
    out = p.sealed({})
    raw = files_of(out)["seal.cbor"]
    seal = body(raw)
    for name, value in changed.items():
        seal[name] = value(seal[name])
    seal["file"] = bytes(32)
    blank = b"#" * len(raw)
    out = out.replace(raw, blank)
    seal["file"] = sha256(out.replace(blank, bytes(len(blank))))
    new = OFFICE.envelope(pack(seal), "farsiding packet 1")
    assert len(new) == len(blank), "the seal's place has its length"
    return out.replace(blank, new)
