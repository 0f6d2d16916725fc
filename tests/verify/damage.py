#!/usr/bin/env python3
"""Damages and forges packets in every way the format names, for the suite.

    damage.py GOOD.pdf FOLDER [ORGANISATION.key]

Knows the synthetic stay's secrets (the organisation's and the devices' keys are repeated bytes, see the example
`synthetic_packets`), so that it can forge what only a thief or the office itself could. With the secret key of an
office (its data folder's `organisation.key`) it damages any packet of that office, all but what needs a phone's own
secret. Writes the files and `cases.json`: for each its key, a checkpoint to compare with, and the code word that must be
named.
"""
import base64
import copy
import hashlib
import io
import json
import pathlib
import sys

import cbor2
import pypdf
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat
from pypdf.generic import ArrayObject, DecodedStreamObject, DictionaryObject, FloatObject, NameObject, TextStringObject


class Key:
    def __init__(self, secret):
        self.private = Ed25519PrivateKey.from_private_bytes(secret)
        self.public = self.private.public_key().public_bytes(Encoding.Raw, PublicFormat.Raw)

    def envelope(self, payload, context, addressed=False):
        protected = cbor2.dumps({1: -8} if addressed else {1: -8, 4: self.public}, canonical=True)
        message = cbor2.dumps(["Signature1", protected, context.encode(), payload])
        return cbor2.dumps(cbor2.CBORTag(18, [protected, {}, payload, self.private.sign(message)]))

    def note(self, origin, size, root):
        text = f"{origin}\n{size}\n{base64.b64encode(root).decode()}\n"
        key_id = hashlib.sha256(origin.encode() + b"\n\x01" + self.public).digest()[:4]
        line = base64.b64encode(key_id + self.private.sign(text.encode())).decode()
        return f"{text}\n\u2014 {origin} {line}\n"


class PublicKey:
    """A device whose secret is not known here."""

    def __init__(self, public):
        self.public = public


OFFICE, PHONE, LOST = Key(bytes([42] * 32)), Key(bytes([1] * 32)), Key(bytes([3] * 32))
THIEF = Key(bytes([66] * 32))
# The phone two people share in the synthetic stay, one of them signing by hand, and the one for one site alone.
SHARED, SECOND, LARK = Key(bytes([4] * 32)), Key(bytes([2] * 32)), Key(bytes([11] * 32))


def sha256(data):
    return hashlib.sha256(data).digest()


def pack(value):
    return cbor2.dumps(value, canonical=True)


def names_of(root):
    return root["/Names"]["/EmbeddedFiles"]["/Names"]


def files_of(data):
    names = names_of(pypdf.PdfReader(io.BytesIO(data)).root_object)
    return {str(s.get_object()["/F"]): s.get_object()["/EF"]["/F"].get_object().get_data() for s in names[1::2]}


def rewrite(data, changes=None, page=None, shape=None):
    """The file written anew with attachments changed (None: taken out) and, if asked, words added to a page."""
    writer = pypdf.PdfWriter(clone_from=pypdf.PdfReader(io.BytesIO(data)))
    tree = writer.root_object["/Names"]["/EmbeddedFiles"]
    kept, changes = ArrayObject(), dict(changes or {})
    names = tree["/Names"]
    for name, specification in zip(names[0::2], names[1::2]):
        file = str(specification.get_object()["/F"])
        if file in changes:
            content = changes.pop(file)
            if content is None:
                continue
            stream = DecodedStreamObject()
            stream.set_data(content)
            stream[NameObject("/Type")] = NameObject("/EmbeddedFile")
            specification.get_object()[NameObject("/EF")] = DictionaryObject(
                {NameObject("/F"): writer._add_object(stream), NameObject("/UF"): writer._add_object(stream)})
        kept.extend([name, specification])
    for file, content in changes.items():
        stream = DecodedStreamObject()
        stream.set_data(content)
        specification = DictionaryObject({
            NameObject("/Type"): NameObject("/Filespec"), NameObject("/F"): TextStringObject(file),
            NameObject("/EF"): DictionaryObject({NameObject("/F"): writer._add_object(stream)})})
        kept.extend([TextStringObject(file), writer._add_object(specification)])
    tree[NameObject("/Names")] = kept
    if page is not None:
        first = writer.pages[0]
        content = DecodedStreamObject()
        content.set_data(first.get_contents().get_data() + page)
        first[NameObject("/Contents")] = writer._add_object(content)
    if shape is not None:
        shape(writer)
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def resealed(data, changes, key=None, fold=True, pages=None, page=None, shape=None):
    """The same with the seal made again: what somebody with the organisation's key could do. A fold of None leaves
    its number out, as version one did. The layout's number is left out too, unless `pages` is given: the pages of such
    a file are nobody's drawing. `page` is drawn on page one, `shape` changes the written file's objects."""
    key = key or OFFICE
    changes = dict(changes)
    files = {name: content for name, content in {**files_of(data), **changes}.items() if content is not None}
    raw = files.pop("seal.cbor")
    seal = cbor2.loads(cbor2.loads(raw).value[2])
    entries = cbor2.loads(files["entries.cbor"])
    # Whoever seals says what belongs to what is sealed.
    visit = {sha256(entry) for entry in entries["visit"]}
    times = [leaf["received_at"] for leaf in cbor2.loads(files["log.cbor"])["leaves"] if leaf["entry"] in visit]
    seal.update(stay=entries["stay"], at=max(times, default=seal["at"]))
    ids = [sha256(entry) for name in ("visit", "car", "site", "roster") for entry in entries[name]]
    seal["entries"] = {"count": len(ids), "root": tree([sha256(b"\0" + one) for one in ids])}
    seal["attachments"] = [{"name": name, "sha256": sha256(content), "length": len(content)}
                           for name, content in sorted(files.items())]
    seal.pop("pages", None)
    if pages is not None:
        seal["pages"] = pages
    if fold is None:
        seal.pop("fold")
    elif fold is not True:
        seal["fold"] = fold
    seal["file"] = bytes(32)
    blank = b"#" * len(key.envelope(pack(seal), "farsiding packet 1"))
    out = rewrite(data, {**changes, "seal.cbor": blank}, page, shape)
    assert out.count(blank) == 1
    seal["file"] = sha256(out.replace(blank, bytes(len(blank))))
    return out.replace(blank, key.envelope(pack(seal), "farsiding packet 1"))


def tree(leaves):
    if len(leaves) == 1:
        return leaves[0]
    split = 1 << ((len(leaves) - 1).bit_length() - 1)
    return sha256(b"\x01" + tree(leaves[:split]) + tree(leaves[split:]))


def flipped(data, at):
    return data[:at] + bytes([data[at] ^ 1]) + data[at + 1:]


def pages_cases(case, good, files):
    """What the holder of the organisation's key could print around true records."""
    def one(name, changes=None, only=None, **how):
        case(name, resealed(good, changes or {}, pages=3, **how), "altered_pages", only=only)

    words = b"\nBT /f0 14 Tf 1 0 0 1 60 400 Tm (NOT released: liquid found) Tj ET\n"
    one("repainted_first_page", page=words)
    # Lines that form letters are no text: only a drawing shows them.
    one("repainted_with_lines", page=b"\n8 w 60 400 m 500 460 l S\n", only="farsiding")
    one("repainted_with_a_white_bar", page=b"\n1 g 0 0 600 840 re f\n", only="farsiding")
    one("invisible_words", page=b"\nBT 3 Tr /f0 9 Tf 1 0 0 1 60 400 Tm () Tj ET\n")

    def note(writer):
        writer.pages[0][NameObject("/Annots")] = ArrayObject([writer._add_object(DictionaryObject({
            NameObject("/Type"): NameObject("/Annot"), NameObject("/Subtype"): NameObject("/FreeText"),
            NameObject("/Rect"): ArrayObject([FloatObject(n) for n in (60, 300, 500, 400)]),
            NameObject("/Contents"): TextStringObject("NOT released: liquid found")}))])

    def added(writer):
        writer.add_blank_page(595, 842)

    def gone(writer):
        writer.remove_page(len(writer.pages) - 1)

    def swapped(writer):
        content = writer.pages[2].get_contents().get_data()
        stream = DecodedStreamObject()
        stream.set_data(content)
        writer.pages[1][NameObject("/Contents")] = writer._add_object(stream)

    def script(writer):
        writer.root_object[NameObject("/OpenAction")] = DictionaryObject({
            NameObject("/S"): NameObject("/JavaScript"), NameObject("/JS"): TextStringObject("app.alert('hello');")})

    for name, shape in [("note_laid_over_a_page", note), ("page_added", added), ("page_taken_out", gone),
                        ("page_replaced", swapped), ("script_in_the_file", script)]:
        one(name, shape=shape)

    # What the first page says, changed alike in its text and its facts, while the entries say otherwise.
    front, text = cbor2.loads(files["front.cbor"]), files["pages.txt"].decode()

    def told(name, kind, change, only=None):
        changed = copy.deepcopy(front)
        fact = next(fact for fact in changed["facts"] if fact["kind"] == kind)
        change(fact, changed["facts"])
        first = "\n".join(fact["label"] + "\n" + fact["text"] for fact in changed["facts"]) + "\n"
        pages = "\f".join([first] + text.split("\f")[1:])
        one(name, {"front.cbor": pack(changed), "pages.txt": pages.encode()}, only)

    def says(words, cites=None):
        def change(fact, _):
            fact["text"] = words
            fact["cites"] = fact["cites"] if cites is None else cites
        return change

    def instead(old, new):
        def change(fact, _):
            assert old in fact["text"], fact["text"]
            fact["text"] = fact["text"].replace(old, new)
        return change

    if any("4 Invented Road" in fact["text"] for fact in front["facts"]):
        told("front_another_address", "site", instead("4 Invented Road", "5 Invented Road"))
        told("front_another_name_of_the_organisation", "organisation", instead("An invented organisation", "Another one"))
        told("front_names_it_after_another_entry", "organisation", lambda fact, _: fact.update(cites=[1]))
    told("front_text_alone", "said", says("Everything was seen by a notary."), None)
    told("front_not_released", "release", says("Released, so they say", []))
    told("front_another_pressure", "pressure", says("0 psi"))
    told("front_another_seal", "seal", says("through the housing pin: none was found"))
    told("front_cites_nothing_there", "car", lambda fact, _: fact["cites"].append(99_999))
    told("front_cites_something_else", "pressure", lambda fact, _: fact["cites"].append(1))
    told("front_without_a_fact", "hold", lambda fact, facts: facts.remove(fact))
    told("front_of_another_organisation", "organisation", says("public key " + "ab" * 32))
    told("front_with_another_notice", "notice", says("Farsiding declares this car safe."))
    for name, changes in [("front_is_gone", {"front.cbor": None}), ("pages_text_is_gone", {"pages.txt": None}),
                          ("front_is_no_front", {"front.cbor": pack({"facts": 5})})]:
        case(name, resealed(good, changes, pages=3), "unreadable_attachment")


def main():
    global OFFICE, PHONE, LOST
    good = pathlib.Path(sys.argv[1]).read_bytes()
    synthetic = len(sys.argv) < 4
    folder = pathlib.Path(sys.argv[2])
    folder.mkdir(parents=True, exist_ok=True)
    files = files_of(good)
    entries, log = cbor2.loads(files["entries.cbor"]), cbor2.loads(files["log.cbor"])
    certificates, receipts = cbor2.loads(files["certificates.cbor"]), cbor2.loads(files["receipts.cbor"])
    photos = sorted(name for name in files if name.endswith((".jpg", ".png")))
    body = lambda raw: cbor2.loads(cbor2.loads(raw).value[2])
    signer = lambda raw: cbor2.loads(cbor2.loads(raw).value[0])[4]
    cases = []
    if not synthetic:
        OFFICE = Key(bytes.fromhex(pathlib.Path(sys.argv[3]).read_text().strip()))
        # The device most entries are signed on; its secret is on it and nowhere else.
        signers = [signer(raw) for raw in entries["visit"]]
        PHONE, LOST = PublicKey(max(set(signers), key=signers.count)), None

    def case(name, data, expect, key=None, against=None, marked=None, only=None):
        key = key or OFFICE
        (folder / f"{name}.pdf").write_bytes(data)
        if against is not None:
            (folder / f"{name}.note").write_text(against)
        cases.append({"file": f"{name}.pdf", "key": key.public.hex(), "expect": expect, "marked": marked, "only": only,
                      "against": f"{name}.note" if against is not None else None})

    def with_entries(change, log_change=None):
        changed, other = copy.deepcopy(entries), copy.deepcopy(log)
        change(changed)
        out = {"entries.cbor": pack(changed)}
        if log_change:
            log_change(other)
            out["log.cbor"] = pack(other)
        return out

    def with_log(change):
        changed = copy.deepcopy(log)
        change(changed)
        return {"log.cbor": pack(changed)}

    case("good", good, None, marked="revoked_device" if synthetic else None)
    own_fold = cbor2.loads(cbor2.loads(files["seal.cbor"]).value[2])["fold"]
    if synthetic:
        # A stranger's entry, one of a device whose day was over, and a lie about a photograph's length.
        for code in ("uncertified_device", "expired_device", "other_length"):
            case(f"good_with_{code}", good, None, marked=code)
        case("strangers_in_a_packet_of_version_one", resealed(good, {}, fold=None), "forged_device")
        case("wrong_length_in_a_packet_of_version_one", resealed(good, {}, fold=1), "altered_photo")
        case("folded_by_later_rules", resealed(good, {}, fold=own_fold + 1), None, marked="revoked_device")
    elsewise = files["view.json"].replace(b"tool_tight", b"hand_tight", 1)
    case("another_view_by_another_fold", resealed(good, {"view.json": elsewise}, fold=own_fold + 1), None)
    sealed = files["seal.cbor"]
    digit = sealed.index(b"dfold") + 5
    assert sealed[digit] == own_fold
    case("fold_number_changed", good.replace(sealed, sealed[:digit] + b"\x01" + sealed[digit + 1:]), "altered_seal")
    case("fold_is_no_number", resealed(good, {}, fold=-1), "altered_seal")
    case("good_written_anew_and_resealed", resealed(good, {}), None)
    case("good_against_its_own_note", good, None, against=log["checkpoints"][-1])

    # Entries. An entry of the yard phone from the middle of the stay.
    middle = next(at for at, raw in enumerate(entries["visit"]) if at > 40 and signer(raw) == PHONE.public)
    victim = entries["visit"][middle]
    case("altered_entry", rewrite(good, with_entries(lambda e: e["visit"].__setitem__(middle, flipped(victim, len(victim) - 90)))), "altered_entry")
    case("altered_entry_resealed", resealed(good, with_entries(lambda e: e["visit"].__setitem__(middle, flipped(victim, len(victim) - 90)))), "altered_entry")

    def resigned(key):
        changed = body(victim)
        changed["by"] = "SOMEBODY"
        return key.envelope(pack(changed), "farsiding entry 1")

    case("altered_entry_signed_by_a_stranger", rewrite(good, with_entries(lambda e: e["visit"].__setitem__(middle, resigned(THIEF)))), "unlogged_entry",
         marked="uncertified_device")
    if synthetic:
        case("altered_entry_signed_with_a_stolen_key", rewrite(good, with_entries(lambda e: e["visit"].__setitem__(middle, resigned(PHONE)))), "unlogged_entry")

    def added_by_lost(e):
        own = [body(raw) for raw in e["visit"] if signer(raw) == LOST.public]
        later = dict(own[-1], seq=own[-1]["seq"] + 1, prev=sha256(e["visit"][-1]))
        e["visit"].append(LOST.envelope(pack(later), "farsiding entry 1"))

    if synthetic:
        case("entry_added_from_a_revoked_phone", rewrite(good, with_entries(added_by_lost)), "unlogged_entry", marked="revoked_device")
    case("removed_entry", rewrite(good, with_entries(lambda e: e["visit"].pop(middle))), "removed_entry")
    gone = sha256(victim)

    def unlist(other):
        other["leaves"] = [leaf for leaf in other["leaves"] if leaf["entry"] != gone]

    case("removed_entry_and_its_leaf", rewrite(good, with_entries(lambda e: e["visit"].pop(middle), unlist)), "removed_entry")
    case("removed_entry_by_the_office_itself", resealed(good, with_entries(lambda e: e["visit"].pop(middle), unlist)), "removed_entry")
    newest = sha256(entries["visit"][-1])

    def unlist_last(other):
        other["leaves"] = [leaf for leaf in other["leaves"] if leaf["entry"] != newest]

    case("removed_last_entry_and_its_leaf", rewrite(good, with_entries(lambda e: e["visit"].pop(), unlist_last)), "removed_entry")

    def swap(e):
        e["visit"][10], e["visit"][11] = e["visit"][11], e["visit"][10]

    case("reordered_entries", rewrite(good, with_entries(swap)), "reordered_entries")
    case("reordered_entries_resealed", resealed(good, with_entries(swap)), "reordered_entries")
    case("foreign_entry", rewrite(good, with_entries(lambda e: e["visit"].insert(0, e["site"].pop(0)))), "foreign_entry")

    # Photographs.
    first, second = files[photos[0]], files[photos[1]]
    case("altered_photo", rewrite(good, {photos[0]: flipped(first, len(first) // 2)}), "altered_photo")
    case("altered_photo_resealed", resealed(good, {photos[0]: flipped(first, len(first) // 2)}), "altered_photo")
    case("swapped_photo", rewrite(good, {photos[0]: second, photos[1]: first}), "swapped_photo")
    case("swapped_photo_resealed", resealed(good, {photos[0]: second, photos[1]: first}), "swapped_photo")
    case("removed_photo", rewrite(good, {photos[0]: None}), "removed_attachment")
    case("photo_left_out_by_the_office", resealed(good, {photos[0]: None}), None, marked="absent_photo")
    case("added_attachment", rewrite(good, {"note.txt": b"also true"}), "added_attachment")

    # Devices.
    yard = next(raw for raw in certificates["certificates"] if body(raw)["device"] == PHONE.public)
    forged = THIEF.envelope(pack(body(yard)), "farsiding certificate 1")
    replaced = {"certificates.cbor": pack({"certificates": [forged if raw == yard else raw for raw in certificates["certificates"]]})}
    case("forged_device", rewrite(good, replaced), "forged_device")
    missing = {"certificates.cbor": pack({"certificates": [raw for raw in certificates["certificates"] if raw != yard]})}
    # The record then folds to less: only who knows the fold can see that view and pages tell more.
    case("device_without_certificate_resealed", resealed(good, missing), "altered_view", marked="uncertified_device", only="farsiding")
    case("device_without_certificate_in_version_one", resealed(good, missing, fold=None), "forged_device")
    case("removed_certificate", rewrite(good, missing), "altered_attachment", marked="uncertified_device")

    def certified(old, new):
        return {"certificates.cbor": pack({"certificates": [new if raw == old else raw for raw in certificates["certificates"]]})}

    if synthetic:
        second = next(raw for raw in certificates["certificates"] if body(raw)["device"] == SECOND.public)
        wider = {name: value for name, value in body(second).items() if name != "sites"}
        plain = {name: value for name, value in wider.items() if name != "issuer"}
        one, two = "farsiding certificate 1", "farsiding certificate 2"
        part = cbor2.loads(second).value
        case("sites_taken_out_of_a_certificate", rewrite(good, certified(second, cbor2.dumps(
            cbor2.CBORTag(18, [part[0], {}, pack(wider), part[3]])))), "forged_device")
        for name, payload, context in [
            ("certificate_two_signed_as_one", wider, one),
            ("certificate_one_signed_as_two", plain, two),
            ("certificate_one_with_what_only_two_says", plain, one),
            ("certificate_of_another_issuer", dict(wider, issuer=THIEF.public), two),
            ("certificate_with_an_unknown_right", dict(wider, rights=["record", "everything"]), two),
            ("certificate_with_a_last_entry_and_not_revoked", dict(wider, last={"seq": 1, "entry": bytes(32)}), two),
            ("certificate_with_a_site_of_another_length", dict(wider, sites=[bytes(15)]), two),
        ]:
            case(name, resealed(good, certified(second, OFFICE.envelope(pack(payload), context))), "forged_device")
        case("certificate_with_a_field_of_later", resealed(good, certified(second, OFFICE.envelope(
            pack(dict(body(second), later=True)), two))), None)

        # A person's signature.
        own = [at for at, raw in enumerate(entries["visit"]) if signer(raw) == SHARED.public]
        by_hand = [at for at in own if "hand" in body(entries["visit"][at])]
        without = next(at for at in own if at not in by_hand)
        hand = body(entries["visit"][by_hand[0]])["hand"]

        def with_hand(at, hand, key=SHARED):
            changed = dict(body(entries["visit"][at]), hand=hand)
            return with_entries(lambda e: e["visit"].__setitem__(at, key.envelope(pack(changed), "farsiding entry 1")))

        case("hand_lifted_onto_another_entry", rewrite(good, with_hand(without, hand)), "altered_entry")
        case("hand_lifted_between_two_signed_entries", resealed(good, with_hand(by_hand[1], hand)), "altered_entry")
        case("hand_on_another_device", resealed(good, with_hand(by_hand[0], hand, PHONE)), "altered_entry")
        case("hand_cut_short", resealed(good, with_hand(by_hand[0], dict(hand, signature=hand["signature"][:63]))), "altered_entry")
        case("hand_as_a_list_of_numbers", resealed(good, with_hand(by_hand[0], dict(hand, signature=list(hand["signature"])))), "altered_entry")
        case("hand_with_more_beside_it", resealed(good, with_hand(by_hand[0], dict(hand, more=1))), "altered_entry")
        case("hand_of_somebody_else", resealed(good, with_hand(by_hand[0], dict(hand, key=THIEF.public))), "altered_entry")
        # Nobody looked at it in version one: the entry is another one than the log holds, and no altered one.
        case("hand_lifted_in_version_one", resealed(good, with_hand(without, hand), fold=None), "unlogged_entry")

        # Odd forms of an entry, by somebody with the phone's key: both verifiers must take them alike.
        plain = body(entries["visit"][without])

        def odd(**changed):
            raw = SHARED.envelope(pack(dict(plain, **changed)), "farsiding entry 1")
            return with_entries(lambda e: e["visit"].__setitem__(without, raw))

        case("odd_subject_as_text", resealed(good, odd(about="visit:" + plain["about"][1:].hex())), "altered_entry")
        case("odd_id_as_text", resealed(good, odd(prev=plain["prev"].hex())), "altered_entry")
        case("odd_id_as_a_list", resealed(good, odd(prev=list(plain["prev"]))), "altered_entry")
        case("odd_null", resealed(good, odd(place=None, hand=None)), "unlogged_entry")
        case("odd_field_of_later", resealed(good, odd(later=1)), "unlogged_entry")
        case("odd_photograph", resealed(good, odd(says={"photo": {"photo": 5}}, slot="x")), "unlogged_entry")

        # Late word that was let in.
        admitting = next(at for at, raw in enumerate(entries["visit"]) if "admitted" in body(raw)["says"])

        def admitted_by(key):
            changed = dict(body(entries["visit"][admitting]), seq=900)
            return with_entries(lambda e: e["visit"].append(key.envelope(pack(changed), "farsiding entry 1")))

        case("admitting_word_taken_out", resealed(good, with_entries(lambda e: e["visit"].pop(admitting))), "removed_entry", marked="revoked_device")
        case("admitted_by_a_stranger", resealed(good, admitted_by(THIEF)), "unlogged_entry", marked="revoked_device")

    # The names of people, by the office itself.
    if "names.cbor" in files:
        names = cbor2.loads(files["names.cbor"])["names"]

        def with_names(change):
            changed = copy.deepcopy(names)
            change(changed)
            return resealed(good, {"names.cbor": pack({"names": sorted(changed, key=lambda row: row["named"])})})

        def stranger(rows):
            salt, name = sha256(b"a salt"), "N. Obody"
            rows.append({"named": sha256(b"farsiding name 1" + salt + name.encode()), "salt": salt, "name": name})

        case("altered_name", with_names(lambda rows: rows[0].update(name="S. Else")), "altered_name")
        case("altered_salt_of_a_name", with_names(lambda rows: rows[0].update(salt=flipped(rows[0]["salt"], 3))), "altered_name")
        case("altered_commitment_of_a_name", with_names(lambda rows: rows[0].update(named=flipped(rows[0]["named"], 3))), "altered_name")
        case("name_of_a_stranger", with_names(stranger), "foreign_name")
        case("name_of_a_megabyte", with_names(lambda rows: rows[0].update(name="x" * (1 << 20))), "unreadable_attachment")
        case("name_given_twice", with_names(lambda rows: rows.append(rows[0])), "unreadable_attachment")
        case("no_names_in_a_file_of_names", with_names(list.clear), "unreadable_attachment")
        for odd, change in (
            ("salt_too_short", lambda row: row.update(salt=row["salt"][:31])),
            ("salt_of_text", lambda row: row.update(salt="a salt")),
            ("name_of_bytes", lambda row: row.update(name=b"S. Else")),
            ("name_of_nothing", lambda row: row.update(name=None)),
            ("name_empty", lambda row: row.update(name="")),
            ("name_too_long_in_bytes", lambda row: row.update(name="\u00e9" * 101)),
            ("another_field", lambda row: row.update(more=1)),
            ("no_commitment", lambda row: row.pop("named")),
        ):
            changed = copy.deepcopy(names)
            change(changed[0])
            case(f"name_odd_{odd}", resealed(good, {"names.cbor": pack({"names": changed})}), "unreadable_attachment")
        case("name_blank", with_names(lambda rows: rows[0].update(name="   ")), "altered_name")
        case("name_altered_and_not_resealed", rewrite(good, {"names.cbor": pack({"names": [dict(names[0], name="S. Else")] + names[1:]})}), "altered_name")
        # The pages and the view say a name then that nothing proves.
        case("names_taken_out", resealed(good, {"names.cbor": None}), "altered_view", only="farsiding")

    # Receipts.
    receipt = cbor2.loads(receipts["receipts"][0])
    head = cbor2.loads(cbor2.loads(receipt["head"]).value[2])
    head["t"] -= 86_400_000
    backdated = pack({"head": OFFICE.envelope(pack(head), "farsiding reply 1", addressed=True), "entries": receipt["entries"]})
    case("backdated_receipt", resealed(good, {"receipts.cbor": pack({"receipts": [backdated] + receipts["receipts"][1:]})}), "backdated_receipt")
    other = pack({"head": receipt["head"], "entries": receipt["entries"] + [newest]})
    case("forged_receipt", rewrite(good, {"receipts.cbor": pack({"receipts": [other] + receipts["receipts"][1:]})}), "forged_receipt")

    # The log.
    origin, size, root = log["checkpoints"][-1].split("\n")[:3]
    elsewhere = OFFICE.note(origin, int(size), sha256(b"another story"))
    case("log_fork_against_a_note", good, "log_fork", against=elsewhere)
    case("log_fork_inside", resealed(good, with_log(lambda l: (l["checkpoints"].insert(0, elsewhere), l["consistency"].insert(0, [])))), "log_fork")
    case("note_of_another_size", good, "not_compared", against=OFFICE.note(origin, int(size) + 9, sha256(b"x")))
    case("forged_checkpoint", rewrite(good, with_log(lambda l: l["checkpoints"].__setitem__(-1, THIEF.note(origin, int(size), base64.b64decode(root))))), "forged_checkpoint")
    case("note_of_a_stranger", good, "forged_checkpoint", against=THIEF.note(origin, int(size), base64.b64decode(root)))
    case("earlier_time_in_the_log", rewrite(good, with_log(lambda l: l["leaves"][-1].__setitem__("received_at", l["leaves"][-1]["received_at"] + 1000))), "unlogged_entry")

    def swap_leaves(l):
        l["leaves"][3], l["leaves"][4] = l["leaves"][4], l["leaves"][3]

    case("log_order", rewrite(good, with_log(swap_leaves)), "log_order")
    case("forged_time_stamp", resealed(good, with_log(lambda l: l["tokens"].append({"size": int(size), "token": b"stamped"}))), "forged_time_stamp")
    digest = sha256(log["checkpoints"][-1].encode())
    case("time_stamp_made_up", resealed(good, with_log(lambda l: l["tokens"].append({"size": int(size), "token": b"0" + digest}))), "forged_time_stamp")
    proof = files["last-entry.tlog-proof"].decode()
    number = proof.split("\nindex ", 1)[1].split("\n", 1)[0]
    for name, changed, expect in (
        ("last_entry_elsewhere", proof.replace(f"\nindex {number}\n", f"\nindex {int(number) - 1}\n"), "unlogged_entry"),
        ("last_entry_of_no_form", proof.replace("@v1", "@v2"), "unreadable_attachment"),
        ("last_entry_of_a_stranger", proof.split("\n\n", 1)[0] + "\n\n" + THIEF.note(origin, int(size), base64.b64decode(root)), "forged_checkpoint"),
        ("last_entry_in_another_log", proof.split("\n\n", 1)[0] + "\n\n" + elsewhere, "log_fork"),
    ):
        case(name, resealed(good, {"last-entry.tlog-proof": changed.encode()}), expect)

    # The pages, by whoever holds the organisation's key.
    pages_cases(case, good, files)

    # The file.
    case("truncated_file", good[: len(good) * 6 // 10], "truncated_file")
    case("truncated_at_its_last_bytes", good[:-4], "truncated_file")
    case("wrong_key", good, "wrong_key", key=THIEF)
    case("sealed_by_a_stranger", resealed(good, {}, key=THIEF), "wrong_key")
    words = b"\nBT /f0 9 Tf 60 760 Td (The car was empty.) Tj ET\n"
    case("edited_pages", rewrite(good, page=words), "edited_pages")
    incremental = pypdf.PdfWriter(io.BytesIO(good), incremental=True)
    content = DecodedStreamObject()
    content.set_data(incremental.pages[0].get_contents().get_data() + words)
    incremental.pages[0][NameObject("/Contents")] = incremental._add_object(content)
    out = io.BytesIO()
    incremental.write(out)
    case("edited_pages_by_an_update_behind", out.getvalue(), "edited_pages")
    info = good.find(b"Evidence packet, car")
    case("one_letter_of_the_title", flipped(good, info + 3), "edited_pages")
    case("something_behind_the_end", good + b"\n% more\n", "edited_pages")
    seal = files["seal.cbor"]
    at = good.find(seal)
    case("altered_seal", flipped(good, at + len(seal) - 3), "altered_seal")
    case("removed_seal", rewrite(good, {"seal.cbor": None}), "removed_attachment")
    case("unreadable_attachment", rewrite(good, {"log.cbor": b"\xff\xff"}), "unreadable_attachment")
    case("not_deterministic", rewrite(good, {"receipts.cbor": files["receipts.cbor"] + b"\0"}), "unreadable_attachment")
    case("missing_record", rewrite(good, {"receipts.cbor": None}), "unreadable_attachment")
    case("not_a_pdf", b"nothing of the kind", "unreadable_file")
    blank = pypdf.PdfWriter()
    blank.add_blank_page(100, 100)
    out = io.BytesIO()
    blank.write(out)
    case("another_pdf", out.getvalue(), "unreadable_file")
    # Only who knows the fold can see this one.
    view = files["view.json"].replace(b"tool_tight", b"hand_tight", 1)
    case("altered_view", resealed(good, {"view.json": view}), "altered_view", only="farsiding")
    (folder / "cases.json").write_text(json.dumps(cases, indent=1))
    print(f"{len(cases)} files")


if __name__ == "__main__":
    main()
