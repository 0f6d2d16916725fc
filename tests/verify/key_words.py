#!/usr/bin/env python3
"""Packets signed by keys that the organisation's root named, and everything that can be wrong with them (12), for agree.py.

    key_words.py FOLDER
"""
import base64
import json
import pathlib
import sys

import cbor2

import handmade
from damage import Key, files_of
from handmade import BEGIN, MINUTE, OFFICE, ORGANISATION, ORIGIN, Raw, pack, sha256

WORKING, SECOND, NEXT, THIEF = (Key(bytes([n] * 32)) for n in (51, 52, 53, 66))
DAY = 86_400_000
BEFORE, AFTER = BEGIN - DAY, BEGIN + 3 * DAY
ALL = ("seal", "certificate", "desk", "head", "note", "early")


def statements(*said, by=None, at=BEFORE, change=lambda body, number: body, context="farsiding key 1"):
    """The chain of these; a word is (kind, content) or (kind, content, time)."""
    out, root = [], by or OFFICE
    for number, (kind, content, *when) in enumerate(said, 1):
        body = {"organisation": ORGANISATION, "number": number, "at": when[0] if when else at, "says": {kind: content}}
        if out:
            body["prev"] = sha256(out[-1])
        out.append(root.envelope(pack(change(body, number)), context) if not isinstance(kind, Raw) else bytes(kind))
        if kind == "successor":
            root = NEXT
    return out


def key(one=WORKING, begins=BEFORE, **more):
    return "key", {"key": one.public, "from": begins, **more}


def gone(why, one=WORKING, at=AFTER, **more):
    return "key_withdrawn", {"key": one.public, "why": why, **more}, at


def signed_by(one, places=ALL):
    return {place: one for place in places}


def last_of(raw):
    """Size, tree hash and heads of the last checkpoint of a packet."""
    lines = cbor2.loads(files_of(raw)["log.cbor"])["checkpoints"][-1].split("\n")
    return {"origin": lines[0], "size": int(lines[1]), "root": base64.b64decode(lines[2]), "heads": base64.b64decode(lines[3].split(" ")[2])}


SEEN = last_of(handmade.packet())


def seen(**more):
    return {name: value for name, value in {**SEEN, **more}.items() if value is not None}


def cases():
    successor = ("successor", {"key": NEXT.public})
    small = [bytes(32), b"\x01" + bytes(31), bytes.fromhex("ecffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f"),
             bytes.fromhex("26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc05"), b"\xff" * 32, b"\x02" + bytes(31),
             bytes.fromhex("edffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f")]
    for name, told, signers, expect in [
        ("working", [key()], signed_by(WORKING), []), ("root_beside", [key()], {}, []), ("working_until", [key(until=AFTER)], signed_by(WORKING), []),
        ("nobody_said", [], {}, []), ("working_unnamed", [key(SECOND)], signed_by(WORKING), ["wrong_key"]),
        ("certificates_of_one_unnamed", [key(SECOND)], signed_by(WORKING, ("certificate",)), ["forged_device"]),
        ("receipt_of_one_unnamed", [key(SECOND)], signed_by(WORKING, ("head",)), ["forged_receipt"]),
        ("checkpoint_of_one_unnamed", [key(SECOND)], signed_by(WORKING, ("note",)), ["forged_checkpoint"]),
        ("several", [key(), key(SECOND)], {**signed_by(WORKING), "seal": SECOND, "note": SECOND}, []),
        ("begins_later", [key(begins=AFTER)], signed_by(WORKING), ["expired_key"]), ("ended_before", [key(begins=BEFORE - DAY, until=BEFORE)], signed_by(WORKING), ["expired_key"]),
        ("begins_within_ten_minutes", [key(begins=BEGIN + 9 * MINUTE)], signed_by(WORKING), []), ("begins_later_seal_alone", [key(begins=AFTER)], signed_by(WORKING, ("seal", "note", "early")), []),
        ("ended_before_seal_alone", [key(begins=BEFORE - DAY, until=BEFORE)], signed_by(WORKING, ("seal",)), ["expired_key"]),
        ("successor", [successor], signed_by(NEXT), []), ("successor_named_later", [(*successor, AFTER)], {}, []), ("former_root_still_signs", [successor], {}, ["expired_key"]),
        ("successor_names_a_key", [successor, key()], signed_by(WORKING), []), ("successor_twice", [successor, successor], signed_by(NEXT), ["forged_key"]),
        ("replaced_later", [key(), gone("replaced")], signed_by(WORKING), []), ("replaced_before", [key(), gone("replaced", at=BEFORE + 1000)], signed_by(WORKING), ["withdrawn_key"]),
        ("lost_before", [key(), gone("lost", at=BEGIN - 11 * MINUTE)], signed_by(WORKING), ["withdrawn_key"]), ("lost_and_unused", [key(), gone("lost", at=BEFORE)], {}, []),
        ("stolen", [key(), gone("stolen")], signed_by(WORKING), ["withdrawn_key"]), ("stolen_with_the_checkpoint", [key(), gone("stolen", checkpoint=seen())], signed_by(WORKING), []),
        ("stolen_with_another_root", [key(), gone("stolen", checkpoint=seen(root=bytes(32)))], signed_by(WORKING), ["withdrawn_key"]),
        ("stolen_with_other_heads", [key(), gone("stolen", checkpoint=seen(heads=bytes(32)))], signed_by(WORKING), ["withdrawn_key"]),
        ("stolen_without_heads", [key(), gone("stolen", checkpoint=seen(heads=None))], signed_by(WORKING), ["withdrawn_key"]),
        ("stolen_of_another_origin", [key(), gone("stolen", checkpoint=seen(origin=ORIGIN + "/0123456789abcdef"))], signed_by(WORKING), ["withdrawn_key"]),
        ("stolen_at_a_smaller_log", [key(), gone("stolen", checkpoint=seen(size=4))], signed_by(WORKING), ["withdrawn_key"]),
        ("stolen_at_a_larger_log", [key(), gone("stolen", checkpoint=seen(size=99))], signed_by(WORKING), ["withdrawn_key"]),
        ("stolen_early_checkpoint_alone", [key(), gone("stolen")], signed_by(WORKING, ("early",)), []), ("stolen_last_checkpoint_alone", [key(), gone("stolen")], signed_by(WORKING, ("note",)), ["withdrawn_key"]),
        ("stolen_receipt_alone", [key(), gone("stolen")], signed_by(WORKING, ("head",)), ["withdrawn_key"]),
        ("stolen_and_then_lost", [key(), gone("stolen"), gone("lost")], {}, ["forged_key"]), ("lost_and_then_stolen", [key(), gone("lost"), gone("stolen")], signed_by(WORKING), ["withdrawn_key"]),
        ("withdrawn_unnamed", [gone("lost")], {}, ["forged_key"]), ("root_withdrawn", [gone("lost", OFFICE)], {}, ["forged_key"]), ("former_root_withdrawn", [(*successor, AFTER), gone("lost", OFFICE)], {}, []),
        ("named_twice", [key(), key()], {}, ["forged_key"]), ("root_named", [key(OFFICE)], {}, ["forged_key"]), ("until_before_from", [key(until=BEFORE)], {}, ["forged_key"]),
        ("until_null", [key(until=None)], {}, ["forged_key"]), ("key_with_more", [key(more=1)], {}, ["forged_key"]), ("why_unknown", [key(), gone("forgotten")], {}, ["forged_key"]),
        ("checkpoint_null", [key(), gone("lost", checkpoint=None)], {}, ["forged_key"]), ("checkpoint_with_more", [key(), gone("lost", checkpoint=seen(more=1))], {}, ["forged_key"]),
        ("unknown_kind", [("something", {})], {}, ["forged_key"]), ("broken_after_the_key", [key(), ("something", {})], signed_by(WORKING), ["forged_key"]),
        ("from_a_float", [key(begins=1.5)], {}, ["forged_key"]), ("from_text", [key(begins="1")], {}, ["forged_key"]), ("key_as_text", [("key", {"key": WORKING.public.hex(), "from": 1})], {}, ["forged_key"]),
    ]:
        yield name, {"statements": statements(*told), "signers": signers}, expect, []
    for number, raw in enumerate(small):
        yield f"key_that_is_none_{number}", {"statements": statements(("key", {"key": raw, "from": 1}))}, ["forged_key"], []
    for name, change in [
        ("organisation_another", lambda b, n: {**b, "organisation": bytes(16)}), ("number_nought", lambda b, n: {**b, "number": n - 1}), ("number_more", lambda b, n: {**b, "number": n + 1}),
        ("prev_in_the_first", lambda b, n: {**b, "prev": bytes(32)}), ("prev_null", lambda b, n: {**b, "prev": None}), ("field_more", lambda b, n: {**b, "more": 1}), ("at_gone", lambda b, n: {k: v for k, v in b.items() if k != "at"}),
        ("says_two", lambda b, n: {**b, "says": {**b["says"], "more": {}}}), ("says_text", lambda b, n: {**b, "says": "key"}), ("number_float", lambda b, n: {**b, "number": 1.0}), ("too_large", lambda b, n: {**b, "says": {"key": {"key": bytes(2048)}}}),
        ("second_without_prev", lambda b, n: {k: v for k, v in b.items() if k != "prev"}), ("second_with_another_prev", lambda b, n: {**b, "prev": bytes(32)} if n > 1 else b)]:
        yield "statement_" + name, {"statements": statements(key(), key(SECOND), change=change)}, ["forged_key"], []
    yield "statement_of_a_thief", {"statements": statements(key(), by=THIEF)}, ["forged_key"], []
    yield "statement_of_a_thief_who_seals", {"statements": statements(key(), by=THIEF), "signers": signed_by(WORKING)}, ["forged_key", "wrong_key"], []
    yield "statement_by_a_working_key", {"statements": statements(key()) + statements(key(), key(SECOND), by=WORKING)[1:]}, ["forged_key"], []
    yield "statement_of_another_context", {"statements": statements(key(), context="farsiding certificate 2")}, ["forged_key"], []
    yield "statement_empty", {"statements": [b""]}, ["forged_key"], []
    yield "statements_out_of_order", {"statements": statements(key(), key(SECOND))[::-1]}, ["forged_key"], []
    yield "statement_twice", {"statements": statements(key()) * 2}, ["forged_key"], []
    for name, raw in [("empty", b""), ("null", b"\xf6"), ("with_more", pack({"statements": [], "more": 1})), ("of_text", pack({"statements": ["x"]})), ("trailing", pack({"statements": []}) + b"\0"), ("as_a_list", pack([]))]:
        yield "keys_" + name, {"files": lambda f, r=raw: {**f, "keys.cbor": r}}, ["unreadable_attachment"], []
    one = {"certificate.body": lambda v: {n: w for n, w in v.items() if n in ("organisation", "device", "name", "role", "issued_at")}}
    yield "certificate_of_version_one_by_a_working_key", {**one, "statements": statements(key()), "signers": signed_by(WORKING)}, ["forged_device"], []
    yield "certificate_of_another_organisation_by_a_working_key", {"certificate.body": lambda v: {**v, "organisation": bytes(16)}, "statements": statements(key()),
                                                                   "signers": signed_by(WORKING)}, ["forged_device"], []
    yield "certificate_whose_issuer_is_the_root", {"certificate.body": lambda v: {**v, "issuer": OFFICE.public}, "statements": statements(key()), "signers": signed_by(WORKING)}, ["forged_device"], []
    # The early checkpoint leads to the last one, not the last one to it: that shows nothing of what came after.
    yield ("stolen_at_a_larger_log_and_a_smaller_checkpoint", {"statements": statements(key(), gone("stolen", checkpoint=seen(size=99))), "signers": signed_by(WORKING, ("seal",))},
           ["withdrawn_key"], ["--against", "early.note"])
    given = ["--keys", "newer.json"]
    yield "newer_withdraws", {"statements": statements(key()), "signers": signed_by(WORKING)}, ["withdrawn_key"], given
    yield "newer_to_one_without", {"signers": {}}, [], given
    yield "newer_differs", {"statements": statements(key(SECOND)), "signers": {}}, ["forged_key"], given
    yield "newer_is_older", {"statements": statements(key(), gone("stolen"), key(SECOND)), "signers": {}}, [], given


def main():
    folder = pathlib.Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    newer = {"format": "farsiding keys 1", "organisation_key": OFFICE.public.hex(),
             "statements": [base64.b64encode(one).decode() for one in statements(key(), gone("stolen"))]}
    (folder / "newer.json").write_text(json.dumps(newer))
    log = cbor2.loads(files_of(handmade.packet())["log.cbor"])
    proof = "".join(base64.b64encode(one).decode() + "\n" for one in log["consistency"][0])
    (folder / "early.note").write_text(log["checkpoints"][0] + proof)
    listed = []
    for name, changes, expect, given in cases():
        if changes.get("statements") == []:
            changes.pop("statements")
        (folder / f"{name}.pdf").write_bytes(handmade.packet(changes))
        given = [str(folder / word) if word.endswith((".json", ".note")) else word for word in given]
        listed.append({"file": f"{name}.pdf", "key": OFFICE.public.hex(), "expect": expect, "marked": None, "only": None, "against": None,
                       **({"arguments": given} if given else {})})
    (folder / "cases.json").write_text(json.dumps(listed, indent=1))
    print(f"{len(listed)} files")


if __name__ == "__main__":
    main()
