"""Odd CBOR and odd envelopes, wherever a map or a signed envelope stands in a packet."""
import handmade
from handmade import OFFICE, Pairs, Raw, head, pack

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


def size_cases():
    """Records with as many values as they may have, and with one more."""
    import cbor2

    def padded(values, length):
        """The log with a consistency proof too many, of so many values and bytes in all; it rises where it stands."""
        def at(raw):
            log = cbor2.loads(raw)
            plain = count(pack({**log, "consistency": log["consistency"] + [[]]}))
            empty = [[]] * (values - plain)
            short = pack({**log, "consistency": log["consistency"] + [[]] + empty, "tokens": [{"size": 10, "token": b""}]})
            token = bytes(length - len(short) - 4)
            return pack({**log, "consistency": log["consistency"] + [[]] + empty[:-5], "tokens": [{"size": 10, "token": token}]})
        return {"log.cbor": at}
    yield "sizes/a_quarter_of_values", padded(11_000, 44_100), ["forged_time_stamp"]
    yield "sizes/more_than_a_quarter_of_values", padded(11_100, 44_000), ["unreadable_attachment"]
    yield "sizes/many_values_in_few_bytes", padded(30_000, 39_000), ["forged_time_stamp"]


def count(raw):
    """How many values stand in it."""
    from second.forms import Reader
    reader = Reader(raw)
    before = reader.left
    reader.value()
    return before - reader.left
