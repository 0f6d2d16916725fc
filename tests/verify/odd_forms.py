#!/usr/bin/env python3
"""The odd forms both verifiers must take alike: for each where it stands, what is odd about it, and what must be said of it.

    odd_forms.py FOLDER

Writes a hand-made packet for each and `cases.json` for agree.py; `expect` is the whole set of code words of what is broken.
"""
import base64
import json
import pathlib
import sys
import zlib

import handmade
from handmade import ORIGIN, OFFICE, STRANGER, Pairs, Raw, head, pack, sha256, signature_line

# Where a map in CBOR stands, and what is said of one that is not of its form.
SAID_OF = {"odd": "altered_entry", "certificate": "forged_device", "seal": "altered_seal", "head": "forged_receipt",
           "receipt": "forged_receipt", "entries.cbor": "unreadable_attachment", "certificates.cbor": "unreadable_attachment",
           "log.cbor": "unreadable_attachment", "receipts.cbor": "unreadable_attachment"}
# Where fields that are not listed are not looked at, and a null is as if its field were absent.
LENIENT = {"odd", "certificate"}
IGNORES_MORE = LENIENT | {"head"}


def grown(raw, more):
    """The map with pairs added behind, whose keys must sort there."""
    count = raw[0] & 31
    return bytes([0xa0 | count + 1]) + raw[1:] + more


def two_swapped(raw):
    """The map with its first two pairs exchanged."""
    from second.forms import Reader
    reader = Reader(raw)
    _, count, _ = reader.head()
    start, pairs = reader.at, [pair[2] for pair in reader.pairs(count, 0)]
    return raw[:start] + pairs[1] + pairs[0] + b"".join(pairs[2:])


def first_twice(raw):
    from second.forms import Reader
    reader = Reader(raw)
    _, count, _ = reader.head()
    start, pairs = reader.at, [pair[2] for pair in reader.pairs(count, 0)]
    return head(5, count + 1) + pairs[0] + raw[start:]


def with_value(value):
    return lambda raw: grown(raw, pack("zzzzzzzzzzzzzzzzzz") + value)


# What can be odd about the bytes of a map: always refused.
BYTES = {
    "one_byte_behind": lambda raw: raw + b"\0",
    "nothing": lambda raw: b"",
    "cut_short": lambda raw: raw[:-1],
    "head_not_shortest": lambda raw: bytes([0xb8, raw[0] & 31]) + raw[1:],
    "head_of_eight_bytes": lambda raw: b"\xbb" + (raw[0] & 31).to_bytes(8, "big") + raw[1:],
    "indefinite": lambda raw: b"\xbf" + raw[1:] + b"\xff",
    "keys_unsorted": two_swapped,
    "key_twice": first_twice,
    "count_too_large": lambda raw: b"\xbb" + b"\xff" * 8 + raw[1:],
    "count_of_a_billion": lambda raw: b"\xba\x40\x00\x00\x00" + raw[1:],
    "described_by_a_tag": lambda raw: b"\xd9\xd9\xf7" + raw,
    "in_a_byte_string": lambda raw: pack(raw),
    "in_an_array": lambda raw: b"\x81" + raw,
    "null_alone": lambda raw: b"\xf6",
}
# What can be odd about a value of a field nobody knows: refused everywhere, for it is not in deterministic encoding.
VALUES = {
    "integer_not_shortest": b"\x18\x05", "integer_of_eight_bytes": b"\x1b" + bytes(7) + b"\x05", "negative_not_shortest": b"\x38\x05",
    "float_not_shortest": b"\xfb\x3f\xf0" + bytes(6), "float_of_four_bytes": b"\xfa\x3f\x80\0\0",
    "nan_of_eight_bytes": b"\xfb\x7f\xf8" + bytes(6), "nan_with_a_payload": b"\xf9\x7e\x01",
    "text_in_pieces": b"\x7f\x61a\xff", "bytes_in_pieces": b"\x5f\x41a\xff", "array_indefinite": b"\x9f\x01\xff",
    "map_indefinite": b"\xbf\xff", "text_not_utf8": b"\x61\xff", "text_of_a_surrogate": b"\x63\xed\xa0\x80",
    "text_length_not_shortest": b"\x78\x01a", "inner_keys_unsorted": b"\xa2\x61b\x01\x61a\x01", "inner_key_twice": b"\xa2\x61a\x01\x61a\x01",
    "inner_key_by_length_first": b"\xa2\x61a\x01\x19\x03\xe8\x01", "simple_in_two_bytes": b"\xf8\x14", "reserved_head": b"\x1c",
    "break_alone": b"\xff", "tag_not_shortest": b"\xd8\x01\x00", "length_beyond_the_end": b"\x5b\x7f" + b"\xff" * 7,
    "undefined": b"\xf7", "simple_value": b"\xf0", "simple_value_255": b"\xf8\xff", "big_number": b"\xc2\x49\x01" + bytes(8),
    "tag": b"\xc0\x61a", "tags_in_tags": b"\xc1\xc1\xc1\x00", "tag_18": b"\xd2\x00", "nested_33_deep": b"\x81" * 32 + b"\x00", "nested_too_deep": b"\x81" * 5000 + b"\x00",
}
# Values in deterministic encoding: not looked at where nobody looks at such fields.
FINE = {
    "integer": b"\x05", "null": b"\xf6", 
    "nan": b"\xf9\x7e\x00", "infinity": b"\xf9\x7c\x00", "float": b"\xf9\x3e\x00", "negative_zero": b"\xf9\x80\x00",
    "smallest_half": b"\xf9\x00\x01", "float_of_eight_bytes": b"\xfb\x3f\xb9\x99\x99\x99\x99\x99\x9a", "largest": b"\x1b" + b"\xff" * 8,
    "least": b"\x3b" + b"\xff" * 8,
    "integer_keys": b"\xa2\x01\x01\x20\x01", "bytes_for_a_key": b"\xa1\x41a\x01", "array_for_a_key": b"\xa1\x81\x01\x01",
    "float_for_a_key": b"\xa1\xf9\x3e\x00\x01", "one_and_true_for_keys": b"\xa2\x01\x01\xf5\x01", "nested_30_deep": b"\x81" * 30 + b"\x00",
    "keys_by_bytes": b"\xa2\x19\x03\xe8\x01\x61a\x01", "deepest_32": b"\x81" * 31 + b"\x00",
}
# Every field: where, its way, what it is, whether it is optional.
FIELDS = [line.split() for line in """
odd.body about b17 no
odd.body slot text no
odd.body follows digests yes
odd.body replaces digests yes
odd.body by text no
odd.body seq uint no
odd.body prev b32 yes
odd.body when map no
odd.body when.at time no
odd.body when.offset_minutes int no
odd.body when.ahead_millis time yes
certificate.body organisation b16 no
certificate.body device b32 no
certificate.body name text no
certificate.body role text no
certificate.body issued_at time no
certificate.body sites sites yes
certificate.body rights words yes
certificate.body renewed_at time yes
certificate.body valid_until time yes
certificate.body last map yes
certificate.body last.seq uint no
certificate.body last.entry b32 no
certificate.body earlier list yes
certificate.body earlier.0 map -
certificate.body earlier.0.role text no
certificate.body earlier.0.last map no
certificate.body earlier.0.last.seq uint no
certificate.body earlier.0.last.entry b32 no
seal.map format text no
seal.map fold uint yes
seal.map file b32 no
seal.map stay list no
seal.map stay.0 b16 -
seal.map at time no
seal.map entries map no
seal.map entries.count uint no
seal.map entries.root b32 no
seal.map attachments list no
seal.map attachments.0 map -
seal.map attachments.0.name text no
seal.map attachments.0.sha256 b32 no
seal.map attachments.0.length uint no
entries.map format text no
entries.map stay list no
entries.map stay.0 b16 -
entries.map visit list no
entries.map car list no
entries.map car.0 bytes -
certificates.map certificates list no
certificates.map certificates.0 bytes -
receipts.map receipts list no
receipts.map receipts.0 bytes -
receipt.map head bytes no
receipt.map entries digests no
log.map checkpoints list no
log.map checkpoints.0 text -
log.map consistency list no
log.map consistency.0 digests -
log.map leaves list no
log.map leaves.0 map -
log.map leaves.0.entry b32 no
log.map leaves.0.number uint no
log.map leaves.0.received_at time no
log.map leaves.0.path digests no
log.map leaves.0.about b17 ?
log.map chains list no
log.map chains.0 map -
log.map chains.0.device b32 no
log.map chains.0.elsewhere list no
log.map chains.0.elsewhere.0 map -
log.map chains.0.elsewhere.0.seq uint no
log.map chains.0.elsewhere.0.entry b32 no
log.map chains.0.missing list no
log.map tokens list no
log.map heads list yes
log.map heads.0 map -
log.map heads.0.about b17 no
log.map heads.0.count uint no
log.map heads.0.root b32 no
log.map heads.0.path digests no
log.map seen list yes
log.map seen.0 map -
log.map seen.0.size uint no
log.map seen.0.root b32 no
log.map seen.0.path digests no
log.map seen.0.last map no
""".strip().split("\n")]
ODD_VALUES = {
    "b": {"as_text": lambda v: v.hex(), "as_a_list_of_numbers": list, "too_short": lambda v: v[:-1], "too_long": lambda v: v + b"\0",
          "empty": lambda v: b"", "as_a_number": lambda v: 5},
    "bytes": {"as_text": lambda v: v.hex(), "as_a_list_of_numbers": list, "as_a_number": lambda v: 5},
    "uint": {"as_a_float": float, "negative": lambda v: -1, "too_large": lambda v: 1 << 64, "as_text": str, "as_truth": lambda v: True,
             "in_a_list": lambda v: [v], "as_a_small_big_number": lambda v: Raw(b"\xc2\x41\x05")},
    "time": {"as_a_float": float, "too_large": lambda v: 1 << 63, "too_small": lambda v: -(1 << 63) - 1, "as_text": str},
    "int": {"as_a_float": float, "far_too_large": lambda v: 1 << 64, "as_text": str},
    "text": {"as_bytes": lambda v: v.encode(), "as_a_number": lambda v: 5, "in_a_list": lambda v: [v]},
    "list": {"as_a_map": lambda v: {}, "as_bytes": lambda v: b"", "as_text": lambda v: "", "as_a_number": lambda v: 0},
    "map": {"as_a_list": lambda v: list(v.values()), "as_bytes": lambda v: b"", "as_a_number": lambda v: 0, "as_a_list_of_pairs": lambda v: [list(p) for p in v.items()]},
}
ODD_VALUES["digests"] = {**ODD_VALUES["list"], "one_too_short": lambda v: list(v) + [bytes(31)], "one_as_text": lambda v: list(v) + ["00" * 32]}
ODD_VALUES["sites"] = {**ODD_VALUES["list"], "one_too_short": lambda v: v + [bytes(15)], "one_as_text": lambda v: v + ["00" * 16]}
ODD_VALUES["words"] = {**ODD_VALUES["list"], "one_unknown": lambda v: v + ["fly"], "one_as_bytes": lambda v: [b"record"]}
GONE = object()


def changed(value, way, change):
    """A copy with what stands at this way changed, or taken out."""
    name, *rest = way
    name = int(name) if isinstance(value, list) else name
    out = value.copy()
    inner = changed(value[name], rest, change) if rest else change(value[name])
    if inner is GONE:
        out.pop(name)
    else:
        out[name] = inner
    return out


def cbor_cases():
    for place, said in SAID_OF.items():
        at = place + ".payload" if place in ("odd", "certificate", "seal", "head") else place
        for name, change in BYTES.items():
            if name != "keys_unsorted" or place not in ("certificates.cbor", "receipts.cbor"):
                yield f"{place}/{name}", {at: change}, [said]
        for name, value in VALUES.items():
            yield f"{place}/more_with_{name}", {at: with_value(value)}, [said]
        for name, value in FINE.items():
            yield f"{place}/more_with_{name}", {at: with_value(value)}, [] if place in IGNORES_MORE else [said]
    for at, way, kind, optional in FIELDS:
        place = at.split(".")[0]
        said = SAID_OF.get(place) or SAID_OF[place + ".cbor"]
        odd = dict(ODD_VALUES["b" if kind[1:].isdigit() else kind])
        for name, change in odd.items():
            yield f"{place}/{way}/{name}", {at: lambda v, c=change, w=way: changed(v, w.split("."), c)}, [said]
        if optional == "-":
            continue
        null = [] if place in LENIENT and optional == "yes" and way not in ("follows", "replaces", "earlier") else [said]
        yield f"{place}/{way}/null", {at: lambda v, w=way: changed(v, w.split("."), lambda _: None)}, null
        gone = {"yes": [], "no": [said], "?": ["unlogged_entry"]}[optional]
        yield f"{place}/{way}/gone", {at: lambda v, w=way: changed(v, w.split("."), lambda _: GONE)}, gone


def envelope_cases():
    for place in ("odd", "certificate", "seal", "head"):
        said = SAID_OF[place]
        keyed = place != "head"

        def parts(change, place=place):
            """The four parts of the envelope, changed after signing."""
            def at(raw):
                import cbor2
                return change(*cbor2.loads(raw).value)
            return {place: at}
        yield f"{place}/envelope/untagged", {place: lambda raw: raw[1:]}, [said]
        yield f"{place}/envelope/tag_17", {place: lambda raw: b"\xd1" + raw[1:]}, [said]
        yield f"{place}/envelope/tag_not_shortest", {place: lambda raw: b"\xd8\x12" + raw[1:]}, [said]
        yield f"{place}/envelope/tagged_twice", {place: lambda raw: b"\xd2" + raw}, [said]
        yield f"{place}/envelope/described_by_a_tag", {place: lambda raw: b"\xd9\xd9\xf7" + raw}, [said]
        yield f"{place}/envelope/byte_behind", {place: lambda raw: raw + b"\0"}, [said]
        yield f"{place}/envelope/indefinite", {place: lambda raw: b"\xd2\x9f" + raw[2:] + b"\xff"}, [said]
        yield f"{place}/envelope/five_parts", parts(lambda p, u, b, s: b"\xd2" + pack([p, u, b, s, 0])), [said]
        yield f"{place}/envelope/three_parts", parts(lambda p, u, b, s: b"\xd2" + pack([p, u, b])), [said]
        yield f"{place}/envelope/unprotected_not_empty", parts(lambda p, u, b, s: b"\xd2" + pack([p, {1: 1}, b, s])), [said]
        yield f"{place}/envelope/unprotected_null", parts(lambda p, u, b, s: b"\xd2" + pack([p, None, b, s])), [said]
        yield f"{place}/envelope/payload_null", parts(lambda p, u, b, s: b"\xd2" + pack([p, u, None, s])), [said]
        if place != "seal":  # whose length must not hang on what is in it
            yield f"{place}/envelope/payload_as_a_list", parts(lambda p, u, b, s: b"\xd2" + pack([p, u, list(b), s])), [said]
        yield f"{place}/envelope/signature_too_long", parts(lambda p, u, b, s: b"\xd2" + pack([p, u, b, s + b"\0"])), [said]
        yield f"{place}/envelope/signature_empty", parts(lambda p, u, b, s: b"\xd2" + pack([p, u, b, b""])), [said]
        yield f"{place}/envelope/protected_as_a_map", parts(lambda p, u, b, s: b"\xd2" + pack([Raw(p), u, b, s])), [said]
        order = (1 << 252) + 27742317777372353535851937790883648493
        yield f"{place}/envelope/signature_beyond_the_order", parts(lambda p, u, b, s: b"\xd2" + pack(
            [p, u, b, s[:32] + (int.from_bytes(s[32:], "little") + order).to_bytes(32, "little")])), [said]
        kid = {"odd": handmade.PHONE, "head": None}.get(place, OFFICE)
        kid = kid.public if kid else OFFICE.public
        heads = {
            "another_algorithm": {1: -7, 4: kid}, "more_beside": {1: -8, 3: 0, 4: kid}, "text_for_algorithm": {1: "EdDSA", 4: kid},
            "keys_unsorted": Pairs([(4, kid), (1, -8)]), "no_algorithm": {4: kid}, "key_id_too_short": {1: -8, 4: kid[:31]},
            "key_id_as_text": {1: -8, 4: kid.hex()}, "key_id_null": {1: -8, 4: None}, "not_shortest": Raw(b"\xb8\x02\x01\x27\x04" + pack(kid)),
            ("no_key_id" if keyed else "a_key_id"): {1: -8} if keyed else {1: -8, 4: kid}}
        for name, value in heads.items():
            wrong = place == "seal" and name in ("key_id_too_short", "no_key_id")
            yield f"{place}/protected/{name}", {place + ".protected": lambda raw, v=value: pack(v)}, ["wrong_key"] if wrong else [said]


def entry_cases():
    def body(**more):
        return {"odd.body": lambda v: {**v, **more}}
    for name, more, said in [
        ("seen_with_more", {"seen": {"size": 99, "root": bytes(32), "more": 1}}, []), ("seen_of_another_log", {"seen": {"size": 3, "root": bytes(32)}}, []),
        ("seen_of_none", {"seen": {"size": 0, "root": bytes(32)}}, []), ("seen_as_a_list", {"seen": [3, bytes(32)]}, []),
        ("seen_with_a_short_root", {"seen": {"size": 3, "root": bytes(31)}}, []), ("seen_with_text", {"seen": {"size": "3", "root": bytes(32)}}, []),
        ("seen_with_a_float", {"seen": {"size": 3.0, "root": bytes(32)}}, []), ("seen_null", {"seen": None}, []), ("seen_as_a_number", {"seen": 3}, []),
        ("seen_with_null_root", {"seen": {"size": 3, "root": None}}, []), ("hand_null", {"hand": None}, []), ("hand_as_text", {"hand": "mine"}, ["altered_entry"]),
        ("hand_empty", {"hand": {}}, ["altered_entry"]), ("why_gone", {"why": None}, ["altered_entry"]), ("why_blank", {"why": " \n\t"}, ["altered_entry"]),
        ("why_empty", {"why": ""}, ["altered_entry"]), ("why_of_wide_blanks", {"why": "\u00a0\u2003"}, ["altered_entry"]),
        ("why_as_bytes", {"why": b"x"}, ["altered_entry"]), ("why_without_cause", {"replaces": [], "why": "because"}, []),
        ("replaces_one_twice", {"replaces": [bytes(32)] * 2}, []), ("says_of_two_pairs", {"says": {"remark": {"text": "a"}, "withdrawn": {}}}, ["altered_entry"]),
        ("says_nothing", {"says": {}}, ["altered_entry"]), ("says_as_a_list", {"says": ["remark"]}, ["altered_entry"]), ("says_as_text", {"says": "withdrawn"}, []),
        ("says_null_content", {"says": {"withdrawn": None}}, []), ("says_with_a_number_for_kind", {"says": {5: {}}}, ["altered_entry"]), ("says_null", {"says": None}, ["altered_entry"]),
        ("says_unknown", {"says": {"later": [1, 2]}}, []), ("seq_zero", {"seq": 0}, ["removed_entry"]), ("seq_largest", {"seq": (1 << 64) - 1}, ["removed_entry"]),
        ("about_an_unknown_letter", {"about": b"z" + bytes(16)}, ["altered_entry"]), ("about_a_car", {"about": b"c" + bytes(16)}, ["foreign_entry"]),
        ("joined_slot_of_another", {"about": b"v" + handmade.OTHER, "slot": "joined/" + handmade.VISIT.hex()}, []),
        ("joined_slot_in_capitals", {"about": b"v" + handmade.OTHER, "slot": "joined/" + handmade.VISIT.hex().upper()}, ["foreign_entry"]),
        ("joined_slot_with_more", {"about": b"v" + handmade.OTHER, "slot": "joined/" + handmade.VISIT.hex() + "/x"}, ["foreign_entry"]),
        ("joined_slot_with_a_line_feed", {"about": b"v" + handmade.OTHER, "slot": "joined/" + handmade.VISIT.hex() + "\n"}, ["foreign_entry"]),
        ("joined_slot_about_a_car", {"about": b"c" + handmade.OTHER, "slot": "joined/" + handmade.VISIT.hex()}, ["foreign_entry"]),
        ("joined_with_an_absent_one", {"says": {"joined": {"other": handmade.OTHER}}}, []), ("joined_with_text", {"says": {"joined": {"other": handmade.OTHER.hex()}}}, []),
        ("joined_with_more", {"says": {"joined": {"other": handmade.OTHER, "more": 1}}}, []), ("joined_with_a_list", {"says": {"joined": {"other": list(handmade.OTHER)}}}, []),
        ("joined_with_a_car", {"slot": "same_car", "says": {"joined": {"other": handmade.CAR}}}, []),
        ("photo_of_text_length", {"says": {"photo": {"photo": {"sha256": bytes(32), "length": "5", "media": "x"}, "of": "y"}}}, []),
        ("photo_without_of", {"says": {"photo": {"photo": {"sha256": bytes(32), "length": 5, "media": "x"}}}}, []),
        ("photo_absent", {"says": {"photo": {"photo": {"sha256": bytes(32), "length": 5, "media": "image/png"}, "of": "car_number"}}}, []),
        ("photo_of_strange_media", {"says": {"photo": {"photo": {"sha256": bytes(32), "length": 5, "media": ""}, "of": "car_number"}}}, []),
        ("photo_with_text_digest", {"says": {"photo": {"photo": {"sha256": "00" * 32, "length": 5, "media": "x"}, "of": "y"}}}, []),
        ("photo_of_an_unknown_word", {"says": {"photo": {"photo": {"sha256": bytes(32), "length": 5, "media": "x"}, "of": "y"}}}, []),
        ("photo_about_null", {"says": {"photo": {"photo": {"sha256": bytes(32), "length": 5, "media": "image/png"}, "of": "car_number", "about": None}}}, []),
        ("offset_of_years", {"when": {"at": handmade.BEGIN, "offset_minutes": 1 << 20}}, ["altered_entry"]), ("offset_too_large", {"when": {"at": handmade.BEGIN, "offset_minutes": 1 << 40}}, ["altered_entry"]), ("offset_largest", {"when": {"at": handmade.BEGIN, "offset_minutes": 32767}}, []),
        ("offset_one_too_large", {"when": {"at": handmade.BEGIN, "offset_minutes": 32768}}, ["altered_entry"]),
        ("when_with_more", {"when": {"at": handmade.BEGIN, "offset_minutes": 0, "more": 1}}, []), ("when_ahead_null", {"when": {"at": handmade.BEGIN, "offset_minutes": 0, "ahead_millis": None}}, []),
        ("time_before_all", {"when": {"at": -(1 << 63), "offset_minutes": 0}}, []), ("time_before_all_and_ahead", {"when": {"at": -(1 << 63), "offset_minutes": 0, "ahead_millis": (1 << 63) - 1}}, []),
        ("time_after_all", {"when": {"at": (1 << 63) - 1, "offset_minutes": 0, "ahead_millis": -(1 << 63)}}, []),
        ("by_empty", {"by": ""}, []), ("slot_empty", {"slot": ""}, []), ("by_with_control_characters", {"by": "A\u202e\0"}, []), ("by_long", {"by": "A" * 5000}, []),
        ("place_null", {"place": None}, []), ("place_as_text", {"place": "here"}, ["altered_entry"]), ("place_empty", {"place": {}}, ["altered_entry"]),
        ("place_of_integers", {"place": {"latitude": 1, "longitude": -2, "accuracy_m": 3}}, []), ("place_with_text", {"place": {"latitude": "1", "longitude": 2, "accuracy_m": 3}}, ["altered_entry"]),
        ("place_with_more", {"place": {"latitude": 1, "longitude": -2, "accuracy_m": 3, "more": 1}}, []),
        ("place_with_null", {"place": {"latitude": 1, "longitude": -2, "accuracy_m": None}}, ["altered_entry"]),
        ("place_nowhere", {"place": {"latitude": float("inf"), "longitude": -2, "accuracy_m": -1}}, []),
        ("place_with_truth", {"place": {"latitude": True, "longitude": -2, "accuracy_m": 3}}, ["altered_entry"]),
        ("place_as_a_list", {"place": [1.5, 2.5, 3.5]}, ["altered_entry"]), ("too_large", {"by": "A" * 32768}, ["altered_entry"]),
        ("odd_key_beside", {5: 6}, ["altered_entry"]),
    ]:
        yield f"entry/{name}", body(**more) if all(isinstance(one, str) for one in more) else {"odd.body": lambda v, m=more: {**v, **m}}, said


def note_cases():
    def lines(change):
        return {"note.lines": change}
    good = lambda name, change: (f"note/{name}", change, [])
    bad = lambda name, change: (f"note/{name}", change, ["forged_checkpoint"])
    at = lambda n, change: lines(lambda l: l[:n] + [change(l[n])] + l[n + 1:])
    url = lambda raw: base64.urlsafe_b64encode(raw).decode()
    own = lambda text: signature_line(OFFICE, ORIGIN, text)
    yield good("one_more_line", lines(lambda l: l + ["something else"]))
    yield good("eight_more_lines", lines(lambda l: l + [f"x{n}" for n in range(7)]))
    yield bad("nine_more_lines", lines(lambda l: l + [f"x{n}" for n in range(8)]))
    yield good("heads_behind_others", lines(lambda l: l[:3] + ["first"] + l[3:]))
    yield good("no_heads", lines(lambda l: l[:3]))
    yield good("headsless", at(3, lambda h: "heads"))
    yield good("heads_in_capitals", at(3, lambda h: "HEADS" + h[5:]))
    yield good("heads_and_a_tab", at(3, lambda h: "heads:" + h[5:]))
    yield bad("empty_line_within", lines(lambda l: l + ["", "x"]))
    yield bad("two_line_feeds_at_the_end", {"note.text": lambda t: t + "\n"})
    yield bad("heads_twice", lines(lambda l: l + [l[3]]))
    yield bad("heads_leading_zero", at(3, lambda h: h.replace("heads ", "heads 0")))
    yield bad("heads_plus", at(3, lambda h: h.replace("heads ", "heads +")))
    yield bad("heads_two_blanks", at(3, lambda h: h.replace("heads ", "heads  ")))
    yield bad("heads_blank_behind", at(3, lambda h: h + " "))
    yield bad("heads_third_word", at(3, lambda h: h + " x"))
    yield bad("heads_without_root", at(3, lambda h: h.rsplit(" ", 1)[0]))
    yield bad("heads_nothing", at(3, lambda h: "heads "))
    yield bad("heads_unpadded", at(3, lambda h: h.rstrip("=")))
    yield bad("heads_short_root", at(3, lambda h: "heads 2 " + base64.b64encode(bytes(31)).decode()))
    yield bad("heads_url_alphabet", at(3, lambda h: "heads 2 " + url(b"\xff" * 32)))
    yield bad("heads_count_too_large", at(3, lambda h: f"heads {1 << 64} " + h.split()[2]))
    yield ("note/heads_of_none", at(3, lambda h: "heads 0 " + base64.b64encode(bytes(32)).decode()), ["other_head"])
    yield bad("heads_stray_bits", at(3, lambda h: h[:-2] + chr(ord(h[-2]) + 1) + "="))
    for name, change in [("leading_zero", lambda s: "0" + s), ("plus", lambda s: "+" + s), ("blank_behind", lambda s: s + " "), ("blank_before", lambda s: " " + s),
                         ("empty_minus", lambda s: "-1"), ("too_large", lambda s: str(1 << 64)), ("very_long", lambda s: "9" * 5000), ("other_digits", lambda s: "\u0661\u0660"),
                         ("hexadecimal", lambda s: "0xa"), ("float", lambda s: s + ".0"), ("underscore", lambda s: "1_0")]:
        yield bad("size_" + name, at(1, change))
    for name, change in [("unpadded", lambda s: s.rstrip("=")), ("padded_twice", lambda s: s + "="), ("blank_within", lambda s: s[:9] + " " + s[9:]), ("blank_behind", lambda s: s + " "),
                         ("url_alphabet", lambda s: url(b"\xff" * 32)), ("short", lambda s: base64.b64encode(bytes(31)).decode()), ("long", lambda s: base64.b64encode(bytes(33)).decode()),
                         ("stray_bits", lambda s: s[:-2] + chr(ord(s[-2]) + 1) + "="), ("hexadecimal", lambda s: base64.b64decode(s).hex()), ("tab", lambda s: s + "\t")]:
        yield bad("root_" + name, at(2, change))
    for name, change in [("in_capitals", str.upper), ("blank_behind", lambda s: s + " "), ("suffix_too_short", lambda s: s + "/0123"), ("suffix_in_capitals", lambda s: s + "/0123456789ABCDEF"),
                         ("suffix_empty", lambda s: s + "/"), ("of_another", lambda s: s[:-1] + "x")]:
        yield bad("origin_" + name, at(0, change))
    yield ("note/origin_begun_anew", {"note": lambda n: begun_anew(n), "early": lambda n: begun_anew(n)}, [])
    yield ("note/origin_begun_anew_in_one", {"note": lambda n: begun_anew(n)}, ["log_fork"])
    yield bad("carriage_returns", {"note": lambda n: n.replace("\n", "\r\n")})
    yield bad("carriage_returns_signed", {"note.text": lambda t: t.replace("\n", "\r\n")})
    yield bad("control_character_in_a_line", lines(lambda l: l + ["x\x01"]))
    yield bad("carriage_return_in_a_line", lines(lambda l: l + ["x\r"]))
    yield bad("byte_order_mark", {"note": lambda n: "\ufeff" + n})
    yield bad("line_feed_before", {"note": lambda n: "\n" + n})
    yield bad("no_last_line_feed", {"note": lambda n: n[:-1]})
    yield bad("line_feed_behind", {"note": lambda n: n + "\n"})
    yield bad("words_behind", {"note": lambda n: n + "more"})
    yield bad("two_line_feeds_before_signatures", {"note": lambda n: n.replace("\n\n", "\n\n\n")})
    yield bad("empty", {"note": lambda n: ""})
    for name, dash in [("hyphen", "-"), ("two_hyphens", "--"), ("en_dash", "\u2013"), ("horizontal_bar", "\u2015"), ("minus", "\u2212"), ("two_dashes", "\u2014\u2014")]:
        yield bad("dash_" + name, {"note.signatures": lambda s, d=dash: s.replace("\u2014", d)})
    yield bad("signature_two_blanks", {"note.signatures": lambda s: s.replace("\u2014 ", "\u2014  ")})
    yield bad("signature_blank_behind", {"note.signatures": lambda s: s[:-1] + " \n"})
    yield bad("signature_third_word", {"note.signatures": lambda s: s[:-1] + " x\n"})
    yield bad("signature_unpadded", {"note.signatures": lambda s: s.replace("=", "")})
    yield bad("signature_byte_more", {"note.signatures": lambda s: longer(s)})
    yield bad("signature_of_another_key", {"note.signatures": lambda s: signature_line(STRANGER, ORIGIN, "x\n")})
    yield bad("signature_empty", {"note.signatures": lambda s: ""})
    yield bad("name_in_capitals", {"note.signatures": lambda s: s.replace("farsiding", "Farsiding")})
    other = signature_line(STRANGER, "witness.example/w1", "x\n")
    yield good("line_of_another_behind", {"note.signatures": lambda s: s + other})
    yield good("line_of_another_before", {"note.signatures": lambda s: other + s})
    yield good("line_of_another_of_the_same_name", {"note.signatures": lambda s: s + signature_line(STRANGER, ORIGIN, "x\n")})
    yield good("own_line_twice", {"note.signatures": lambda s: s + s})
    yield bad("own_line_that_does_not_hold_behind", {"note.signatures": lambda s: s + own("another")})
    yield bad("own_line_that_does_not_hold_before", {"note.signatures": lambda s: own("another") + s})
    yield bad("line_of_no_form_behind", {"note.signatures": lambda s: s + "something\n"})
    yield bad("line_of_no_base64_behind", {"note.signatures": lambda s: s + "\u2014 other !!!\n"})
    yield bad("line_of_a_short_key_id_behind", {"note.signatures": lambda s: s + "\u2014 other AAAA\n"})
    yield bad("line_of_a_name_with_a_plus", {"note.signatures": lambda s: s + "\u2014 oth+er AAAAAAAA\n"})
    yield good("hundreds_of_lines_of_others", {"note.signatures": lambda s: s + other * 300})


def begun_anew(note):
    text = note.split("\n\n")[0] + "\n"
    origin = ORIGIN + "/0123456789abcdef"
    text = text.replace(ORIGIN, origin)
    return text + "\n" + signature_line(OFFICE, origin, text)


def longer(line):
    dash, name, signed = line[:-1].split(" ")
    return f"{dash} {name} {base64.b64encode(base64.b64decode(signed) + bytes(1)).decode()}\n"


def log_cases():
    def log(change):
        return {"log.map": lambda v: {**v, **change(v)}}
    item = lambda v: v["heads"][0]
    yield "log/heads_empty", log(lambda v: {"heads": []}), ["unreadable_attachment"]
    yield "log/seen_empty", log(lambda v: {"seen": []}), ["unreadable_attachment"]
    yield "log/photos_elsewhere_empty", log(lambda v: {"photos_elsewhere": []}), ["unreadable_attachment"]
    yield "log/photos_elsewhere", log(lambda v: {"photos_elsewhere": [[bytes(32), 2]]}), []
    yield "log/photos_elsewhere_of_three", log(lambda v: {"photos_elsewhere": [[bytes(32), 2, 3]]}), ["unreadable_attachment"]
    yield "log/photos_elsewhere_as_maps", log(lambda v: {"photos_elsewhere": [{"photo": bytes(32)}]}), ["unreadable_attachment"]
    yield "log/heads_item_twice", log(lambda v: {"heads": v["heads"] * 2}), []
    yield "log/heads_item_and_a_wrong_one", log(lambda v: {"heads": v["heads"] + [{**item(v), "count": 9}]}), ["other_head"]
    yield "log/heads_wrong_one_and_the_item", log(lambda v: {"heads": [{**item(v), "count": 9}] + v["heads"]}), ["other_head"]
    yield "log/heads_of_a_strange_visit", log(lambda v: {"heads": v["heads"] + [{**item(v), "about": b"v" + bytes(16)}]}), []
    yield "log/heads_count_largest", log(lambda v: {"heads": [{**item(v), "count": (1 << 64) - 1}]}), ["other_head"]
    yield "log/heads_path_of_256", log(lambda v: {"heads": [{**item(v), "path": [bytes(32)] * 256}]}), ["other_head"]
    yield "log/heads_path_of_257", log(lambda v: {"heads": [{**item(v), "path": [bytes(32)] * 257}]}), ["other_head"]
    yield "log/heads_path_turned", log(lambda v: {"heads": [{**item(v), "path": item(v)["path"][::-1]}]}), ["other_head"]
    seen = lambda v, **more: {"seen": [{**v["seen"][0], **more}]}
    yield "log/seen_of_none", log(lambda v: seen(v, size=0)), []
    yield "log/seen_with_another_leaf", log(lambda v: seen(v, last=v["leaves"][0])), []
    yield "log/seen_with_another_time", log(lambda v: seen(v, last={**v["seen"][0]["last"], "received_at": 5})), []
    yield "log/seen_without_a_proof", log(lambda v: seen(v, path=[])), []
    yield "log/seen_larger_than_the_log", log(lambda v: seen(v, size=1 << 60)), []
    yield "log/seen_with_more", log(lambda v: seen(v, more=1)), ["unreadable_attachment"]
    yield "log/leaf_number_largest", log(lambda v: {"leaves": v["leaves"][:-1] + [{**v["leaves"][-1], "number": (1 << 64) - 1}]}), ["unlogged_entry"]
    yield "log/leaf_twice", log(lambda v: {"leaves": v["leaves"] + v["leaves"][-1:]}), ["log_order"]
    yield "log/leaf_path_longer", log(lambda v: {"leaves": v["leaves"][:-1] + [{**v["leaves"][-1], "path": v["leaves"][-1]["path"] + [bytes(32)]}]}), ["unlogged_entry"]
    yield "log/no_checkpoint", log(lambda v: {"checkpoints": [], "consistency": []}), ["forged_checkpoint"]
    yield "log/one_checkpoint", log(lambda v: {"checkpoints": v["checkpoints"][1:], "consistency": []}), []
    yield "log/one_checkpoint_and_a_proof", log(lambda v: {"checkpoints": v["checkpoints"][1:]}), []
    yield "log/proof_missing", log(lambda v: {"consistency": []}), ["log_fork"]
    yield "log/proof_longer", log(lambda v: {"consistency": [v["consistency"][0] + [bytes(32)]]}), ["log_fork"]
    yield "log/proof_too_many", log(lambda v: {"consistency": v["consistency"] * 2}), []
    yield "log/checkpoint_twice", log(lambda v: {"checkpoints": v["checkpoints"] + v["checkpoints"][1:], "consistency": v["consistency"] + [[]]}), []
    yield "log/checkpoint_twice_and_a_proof", log(lambda v: {"checkpoints": v["checkpoints"] + v["checkpoints"][1:], "consistency": v["consistency"] * 2}), []
    yield "log/checkpoints_fall", log(lambda v: {"checkpoints": v["checkpoints"][::-1]}), ["log_fork", "unlogged_entry", "other_head"]
    run = lambda missing: log(lambda v: {"chains": [{**v["chains"][0], "elsewhere": [], "missing": missing}]})
    yield "log/run_of_missing", run([[3, 3]]), []
    yield "log/run_backwards", run([[3, 2]]), ["removed_entry"]
    yield "log/run_of_all", run([[0, (1 << 64) - 1]]), []
    yield "log/run_of_one_number", run([[3]]), ["unreadable_attachment"]
    yield "log/run_of_three_numbers", run([[3, 3, 3]]), ["unreadable_attachment"]
    yield "log/run_as_a_map", run([{"first": 3, "last": 3}]), ["unreadable_attachment"]
    yield "log/no_chain", log(lambda v: {"chains": []}), ["removed_entry"]
    yield "log/chain_twice", log(lambda v: {"chains": v["chains"] * 2}), []
    yield "log/token_of_text", log(lambda v: {"tokens": [{"size": 10, "token": "x"}]}), ["unreadable_attachment"]
    yield "log/token_of_nothing", log(lambda v: {"tokens": [{"size": 10, "token": b""}]}), ["forged_time_stamp"]


def seal_and_receipt_cases():
    yield "seal/fold_one_less_null", {"seal.map": lambda v: {**v, "fold": None}}, ["altered_seal"]
    yield "seal/another_format", {"seal.map": lambda v: {**v, "format": "farsiding packet 2"}}, ["altered_seal"]
    yield "seal/no_stay", {"seal.map": lambda v: {**v, "stay": []}}, ["altered_seal"]
    yield "seal/another_stay", {"seal.map": lambda v: {**v, "stay": [bytes(16)]}}, ["altered_seal"]
    yield "seal/another_root", {"seal.map": lambda v: {**v, "entries": {**v["entries"], "root": bytes(32)}}}, ["altered_seal"]
    yield "seal/fewer_entries", {"seal.map": lambda v: {**v, "entries": {**v["entries"], "count": 1}}}, ["altered_seal"]
    yield "seal/more_entries", {"seal.map": lambda v: {**v, "entries": {**v["entries"], "count": 99}}}, ["removed_entry", "altered_seal"]
    yield "seal/attachment_twice", {"seal.map": lambda v: {**v, "attachments": v["attachments"] + v["attachments"][:1]}}, ["removed_attachment"]
    yield "seal/attachment_more", {"seal.map": lambda v: {**v, "attachments": [{**v["attachments"][0], "more": 1}]}}, ["altered_seal"]
    yield "seal/attachments_turned", {"seal.map": lambda v: {**v, "attachments": v["attachments"][::-1]}}, []
    yield "seal/lists_itself", {"seal.map": lambda v: {**v, "attachments": v["attachments"] + [{"name": "seal.cbor", "sha256": bytes(32), "length": 1}]}}, ["removed_attachment"]
    yield "seal/another_time", {"seal.map": lambda v: {**v, "at": v["at"] + 1}}, ["altered_seal"]
    yield "seal/of_fold_two", {"seal.map": lambda v: {**v, "fold": 2}}, []
    yield "seal/of_fold_one", {"seal.map": lambda v: {k: w for k, w in v.items() if k != "fold"}}, []
    yield "seal/of_fold_three", {"seal.map": lambda v: {**v, "fold": 3}}, []
    yield "files/no_view", {"files": lambda f: {k: w for k, w in f.items() if k != "view.json"}}, ["unreadable_attachment"]
    yield "files/no_format", {"files": lambda f: {k: w for k, w in f.items() if k != "FORMAT.txt"}}, []
    yield "seal/fold_zero", {"seal.map": lambda v: {**v, "fold": 0}}, []
    yield "seal/fold_largest", {"seal.map": lambda v: {**v, "fold": (1 << 64) - 1}}, []
    yield "seal/other_length_of_a_photograph", {"seal.map": lambda v: {**v, "attachments": [{**one, "length": 1} for one in v["attachments"]]}}, ["altered_attachment"]
    receipt = lambda change: {"receipt.map": lambda v: {**v, **change(v)}}
    yield "receipt/of_none", {"receipt.map": lambda v: {**v, "entries": []}, "head.payload": lambda raw: raw}, ["forged_receipt"]
    yield "receipt/one_twice", receipt(lambda v: {"entries": v["entries"] + v["entries"][:1]}), ["forged_receipt"]
    yield "receipt/turned", receipt(lambda v: {"entries": v["entries"][::-1]}), ["forged_receipt"]
    yield "receipt/more_beside", receipt(lambda v: {"more": 1}), ["forged_receipt"]
    import cbor2

    def told(change):
        def at(raw):
            value = cbor2.loads(raw)
            change(value)
            return pack(value)
        return {"head.payload": at}
    yield "receipt/r_for_d", told(lambda v: v.update(r=v.pop("d"))), []
    yield "receipt/r_null_beside_d", told(lambda v: v.update(r=None)), []
    yield "receipt/r_another_beside_d", told(lambda v: v.update(r=bytes(32))), []
    yield "receipt/r_short_beside_d", told(lambda v: v.update(r=bytes(31))), ["forged_receipt"]
    yield "receipt/d_as_text", told(lambda v: v.update(d=v["d"].hex())), ["forged_receipt"]
    yield "receipt/neither", told(lambda v: v.pop("d")), ["forged_receipt"]
    yield "receipt/no_time", told(lambda v: v.pop("t")), ["forged_receipt"]
    yield "receipt/time_as_a_float", told(lambda v: v.update(t=float(v["t"]))), ["forged_receipt"]
    yield "receipt/time_too_large", told(lambda v: v.update(t=1 << 63)), ["forged_receipt"]
    for name in "qsnc":
        yield f"receipt/without_{name}", told(lambda v, n=name: v.pop(n)), ["forged_receipt"]
        yield f"receipt/another_{name}", told(lambda v, n=name: v.update({n: "x"})), ["forged_receipt"]
    none = sha256(b"")
    yield "receipt/of_none_that_holds", {"receipt.map": lambda v: {**v, "entries": []}, **told(lambda v: v.update(d=none))}, ["forged_receipt"]
    body = lambda **more: {"certificate.body": lambda v: {**v, **more}}
    yield "certificate/of_another_organisation", body(organisation=bytes(16)), []
    yield "certificate/no_sites", body(sites=[]), []
    yield "certificate/no_rights", body(rights=[]), []
    yield "certificate/right_twice", body(rights=["record", "record"]), []
    yield "certificate/last_not_revoked", {"certificate.body": lambda v: {k: w for k, w in v.items() if k != "revoked_at"}}, ["forged_device"]
    yield "certificate/revoked_without_last", {"certificate.body": lambda v: {k: w for k, w in v.items() if k != "last"}}, []
    yield "certificate/last_null_not_revoked", {"certificate.body": lambda v: {**{k: w for k, w in v.items() if k != "revoked_at"}, "last": None}}, []
    yield "certificate/issuer_null", {"certificate.body": lambda v: {**v, "issuer": None}}, ["forged_device"]
    yield "certificate/role_unknown", body(role="king"), ["forged_device"]
    yield "certificate/earlier_empty", body(earlier=[]), []
    yield "certificate/earlier_role_unknown", body(earlier=[{"role": "king", "last": {"seq": 1, "entry": bytes(32)}}]), ["forged_device"]
    yield "certificate/earlier_with_more", body(earlier=[{"role": "office", "last": {"seq": 1, "entry": bytes(32), "x": 1}, "more": 1}]), []
    yield "certificate/earlier_out_of_order", body(earlier=[{"role": "office", "last": {"seq": n, "entry": bytes(32)}} for n in (5, 1)]), []
    yield "certificate/valid_until_before_issued", body(valid_until=0), []
    yield "certificate/same_twice", {"certificates.map": lambda v: {"certificates": v["certificates"] * 2}}, []
    yield "certificate/none", {"certificates.map": lambda v: {"certificates": []}}, []
    yield "certificate/one_empty", {"certificates.map": lambda v: {"certificates": v["certificates"] + [b""]}}, ["forged_device"]
    yield "entries/one_empty", {"entries.map": lambda v: {**v, "car": v["car"] + [b""]}}, ["altered_entry", "altered_seal"]
    yield "entries/one_twice", {"entries.map": lambda v: {**v, "car": v["car"] * 2}}, ["reordered_entries", "altered_seal"]
    yield "entries/no_stay", {"entries.map": lambda v: {**v, "stay": []}}, ["foreign_entry", "altered_seal"]
    yield "entries/stay_twice", {"entries.map": lambda v: {**v, "stay": v["stay"] * 2}}, ["altered_seal"]
    yield "entries/another_format", {"entries.map": lambda v: {**v, "format": "farsiding packet 2"}}, ["unreadable_attachment"]
    yield "records/several_unreadable", {"log.cbor": lambda raw: b"", "receipts.cbor": lambda raw: b""}, ["unreadable_attachment"]
    yield "records/receipts_and_an_entry", {"receipts.cbor": lambda raw: b"", "odd": lambda raw: b""}, ["unreadable_attachment"]


def file_cases():
    stream = lambda change: {"stream receipts.cbor": change}
    deflated = lambda change: stream(lambda s: (s[0], change(s[1])))
    yield "file/stored", stream(lambda s: (b"", zlib.decompress(s[1]))), []
    yield "file/filter_in_a_list", stream(lambda s: (b"/Filter[/FlateDecode]", s[1])), []
    yield "file/no_filters", stream(lambda s: (b"/Filter[]", zlib.decompress(s[1]))), []
    yield "file/filter_null", stream(lambda s: (b"/Filter null", zlib.decompress(s[1]))), ["unreadable_file"]
    yield "file/deflated_twice", stream(lambda s: (b"/Filter[/FlateDecode/FlateDecode]", zlib.compress(s[1]))), ["unreadable_file"]
    yield "file/hexadecimal", stream(lambda s: (b"/Filter/ASCIIHexDecode", zlib.decompress(s[1]).hex().encode() + b">")), ["unreadable_file"]
    yield "file/short_filter_name", stream(lambda s: (b"/Filter/Fl", s[1])), ["unreadable_file"]
    yield "file/predictor", stream(lambda s: (b"/Filter/FlateDecode/DecodeParms<</Predictor 12/Columns 1>>", s[1])), ["unreadable_file"]
    yield "file/bytes_behind_the_deflated", deflated(lambda raw: raw + b"more"), []
    yield "file/line_feed_behind_the_deflated", deflated(lambda raw: raw + b"\n"), []
    yield "file/deflated_cut_short", deflated(lambda raw: raw[:-6]), ["unreadable_file"]
    yield "file/deflated_checksum_gone", deflated(lambda raw: raw[:-4]), ["unreadable_file"]
    yield "file/deflated_checksum_wrong", deflated(lambda raw: raw[:-1] + bytes([raw[-1] ^ 1])), ["unreadable_file"]
    yield "file/deflated_without_head", deflated(lambda raw: raw[2:-4]), ["unreadable_file"]
    yield "file/deflated_nothing", deflated(lambda raw: b""), ["unreadable_file"]
    names = lambda change: {"names": change}
    at = lambda n, name: next(number for one, number in n if one == name)
    yield "file/names_turned", names(lambda n: n[::-1]), []
    yield "file/name_twice", names(lambda n: n + [n[0]]), ["unreadable_file"]
    yield "file/other_keys_in_the_tree", names(lambda n: [(b"%d" % i, number) for i, (_, number) in enumerate(n)]), []
    yield "file/same_key_in_the_tree", names(lambda n: [(b"x", number) for _, number in n]), []
    yield "file/name_of_another_case", {"files": lambda f: {**f, "View.json": b"{}"}}, []
    yield "file/name_empty", {"files": lambda f: {**f, "": b"{}"}}, []
    yield "file/seal_of_another_case", {"files": lambda f: {**f, "Seal.cbor": b"{}"}}, []
    yield "file/photograph_without_ending", {"files": lambda f: {**f, sha256(b"x").hex(): b"y"}}, []
    yield "file/photograph_with_an_empty_ending", {"files": lambda f: {**f, sha256(b"x").hex() + ".": b"y"}}, ["altered_photo"]
    yield "file/photograph_in_capitals", {"files": lambda f: {**f, sha256(b"x").hex().upper() + ".jpg": b"y"}}, []
    yield "file/photograph_nobody_names", {"files": lambda f: {**f, sha256(b"x").hex() + ".jpg": b"x"}}, []
    yield "file/photograph_of_two_endings", {"files": lambda f: {**f, handmade.sha256(handmade.PHOTO).hex() + ".png": handmade.PHOTO}}, []
    yield "file/empty_attachment", {"files": lambda f: {**f, "empty.txt": b""}}, []
    tree = lambda change: {"tree": change}
    yield "file/tree_empty", tree(lambda t: b"<</Names[]>>"), ["removed_attachment", "unreadable_attachment"]
    yield "file/tree_of_nothing", tree(lambda t: b"<<>>"), ["removed_attachment", "unreadable_attachment"]
    yield "file/tree_null", tree(lambda t: b"null"), ["removed_attachment", "unreadable_attachment"]
    yield "file/tree_with_an_odd_number", tree(lambda t: t[:-3] + b"(x)]>>"), ["unreadable_file"]
    yield "file/tree_in_a_circle", tree(lambda t: b"<</Kids[4 0 R]>>"), ["unreadable_file"]
    yield "file/tree_with_a_kid_null", tree(lambda t: t[:-2] + b"/Kids[99 0 R]>>"), ["unreadable_file"]
    held = []

    def deeper(depth):
        def objects(o):
            return {**{200 + n: b"<</Kids[%d 0 R]>>" % (201 + n) for n in range(depth)}, 200 + depth: held.pop()}
        return {"tree": lambda t: (held.append(t), b"<</Kids[200 0 R]>>")[1], "objects": objects}
    for depth in (1, 10, 15, 16, 500):
        yield f"file/tree_{depth}_deep", deeper(depth), [] if depth < 16 else ["unreadable_file"]
    yield "file/names_in_another_object", {"tree": lambda t: (held.append(t[8:-2]), b"<</Names 200 0 R>>")[1], "objects": lambda o: {200: held.pop()}}, []
    pdf = lambda change: {"pdf": change}
    yield "file/older_version", pdf(lambda p: p.replace(b"%PDF-1.7", b"%PDF-1.0")), []
    yield "file/no_version", pdf(lambda p: p.replace(b"%PDF-1.7", b"%PDF-9.9")), []
    yield "file/end_without_blanks", pdf(lambda p: p.replace(b"\n%%EOF", b"%%EOF")), []
    yield "file/end_with_blanks", pdf(lambda p: p.replace(b"\n%%EOF", b" \t\f\r\n%%EOF")), []
    yield "file/end_with_a_vertical_tab", pdf(lambda p: p.replace(b"\n%%EOF", b"\v%%EOF")), ["truncated_file"]
    yield "file/end_with_a_nought", pdf(lambda p: p.replace(b"\n%%EOF", b"\0%%EOF")), ["truncated_file"]
    yield "file/end_twice", pdf(lambda p: p + b"%%EOF\n"), []
    yield "file/bytes_behind_the_end", pdf(lambda p: p + b"\0" * 100), []
    yield "file/bytes_before_the_head", pdf(lambda p: b"\n" + p), ["unreadable_file"]
    yield "file/table_place_wrong", pdf(lambda p: p.replace(b"startxref\n", b"startxref\n1")), ["unreadable_file"]
    yield "file/encrypted", pdf(lambda p: p.replace(b"/Root 1 0 R", b"/Root 1 0 R/Encrypt<</Filter/Standard/V 1/R 2/O(x)/U(x)/P 0>>")), ["unreadable_file"]


def all_cases():
    for cases in (cbor_cases, envelope_cases, entry_cases, note_cases, log_cases, seal_and_receipt_cases, file_cases):
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
