"""Section 1: CBOR in its core deterministic encoding, read strictly and in time that grows with its length; base64; words."""
import base64
import hashlib
import struct

DEEPEST = 32  # nested arrays and maps, the outermost counted
LARGEST_RECORD = 8 << 20
MOST_VALUES = 1 << 20  # in one record: every value counts, those within others and names too
FEW_BYTES = 40_000  # of more than these, a quarter may be values


class Refused(Exception):
    """Something is not of the form described."""


class Tag:
    __slots__ = ("number", "value")

    def __init__(self, number, value):
        self.number, self.value = number, value


class OddKey(bytes):
    """A map's key that is neither a text, nor bytes, nor an integer: its encoding."""


def need(condition, what="not of the form described"):
    if not condition:
        raise Refused(what)


def sha256(data):
    return hashlib.sha256(data).digest()


LENGTHS = {24: (1, 24), 25: (2, 1 << 8), 26: (4, 1 << 16), 27: (8, 1 << 32)}
SIMPLE = {20: False, 21: True, 22: None}


def shortest_float(raw, width):
    """The float of these bytes, refused where fewer bytes say the same."""
    value, = struct.unpack({2: ">e", 4: ">f", 8: ">d"}[width], raw)
    if value != value:
        need(raw == b"\x7e\x00", "a float is not in its shortest form")
        return value
    for shorter, form in ((2, ">e"), (4, ">f")):
        if shorter < width:
            try:
                same = struct.unpack(form, struct.pack(form, value))[0] == value
            except OverflowError:
                same = False
            need(not same, "a float is not in its shortest form")
    return value


class Reader:
    def __init__(self, data):
        self.data, self.at = data, 0
        self.left = MOST_VALUES if len(data) <= FEW_BYTES else min(MOST_VALUES, len(data) // 4)

    def head(self):
        data, at = self.data, self.at
        first = data[at]
        major, value = first >> 5, first & 31
        self.at = at + 1
        if value < 24:
            return major, value, 0
        need(value in LENGTHS, "not of definite length")
        width, least = LENGTHS[value]
        raw = data[at + 1:at + 1 + width]
        need(len(raw) == width, "cut off")
        self.at = at + 1 + width
        number = int.from_bytes(raw, "big")
        if major != 7:
            need(number >= least, "not the shortest encoding")
        return major, number, width

    def bytes(self, length):
        at = self.at
        need(length <= len(self.data) - at, "cut off")
        self.at = at + length
        return self.data[at:at + length]

    def value(self, depth=0):
        self.left -= 1
        need(self.left >= 0, "of too many values")
        major, number, width = self.head()
        if major == 0:
            return number
        if major == 1:
            return -1 - number
        if major == 2:
            return self.bytes(number)
        if major == 3:
            return self.bytes(number).decode("utf-8")
        if major == 7:
            return self.simple(number, width)
        if major == 6:
            need(depth == 0 and number == 18, "a tag")
            return Tag(number, self.value())
        need(depth < DEEPEST, "nested too deep")
        if major == 4:
            need(number <= len(self.data) - self.at, "cut off")
            value, depth = self.value, depth + 1
            return tuple([value(depth) for _ in range(number)])
        return dict(pair[:2] for pair in self.pairs(number, depth))

    def pairs(self, count, depth):
        """Each pair of a map with its own bytes."""
        need(count <= (len(self.data) - self.at) // 2, "cut off")
        before, data = b"", self.data
        for _ in range(count):
            start = self.at
            key = self.value(depth + 1)
            encoded = data[start:self.at]
            need(before < encoded, "keys are not in order")
            before = encoded
            if not isinstance(key, (str, bytes, int)) or isinstance(key, bool):
                key = OddKey(b"odd" + encoded)
            value = self.value(depth + 1)
            yield key, value, data[start:self.at]

    def simple(self, number, width):
        if width in (2, 4, 8):
            return shortest_float(self.data[self.at - width:self.at], width)
        need(width == 0 and number in SIMPLE, "another simple value")
        return SIMPLE[number]


def reading(data, limit, read):
    need(len(data) <= limit, "too large")
    reader = Reader(data)
    try:
        value = read(reader)
    except Refused:
        raise
    except (IndexError, UnicodeDecodeError, struct.error, RecursionError) as error:
        raise Refused(f"not CBOR: {error}") from error
    need(reader.at == len(data), "something follows")
    return value


def decode(data, limit=LARGEST_RECORD):
    return reading(data, limit, Reader.value)


def map_without(data, name, limit=LARGEST_RECORD):
    """The encoding of a map in deterministic encoding, with one of its pairs taken out."""
    def read(reader):
        major, count, _ = reader.head()
        need(major == 5)
        return [raw for key, _, raw in reader.pairs(count, 0) if key != name]
    kept = reading(data, limit, read)
    return head(5, len(kept)) + b"".join(kept)


def head(major, number):
    if number < 24:
        return bytes([major << 5 | number])
    for code, (width, _) in LENGTHS.items():
        if number < 1 << 8 * width:
            return bytes([major << 5 | code]) + number.to_bytes(width, "big")
    raise Refused("too large")


def bstr(data):
    return head(2, len(data)) + data


def fields(value, required, optional=()):
    """A map with these fields and no others."""
    need(isinstance(value, dict) and set(required) <= set(value) <= set(required) | set(optional))
    return value


def listed_fields(value, required):
    """A map whose fields that are not listed are not looked at; a null is as if its field were absent (5), but in lists."""
    need(isinstance(value, dict) and all(value.get(name, ()) is not None for name in ("follows", "replaces", "earlier")))
    value = {name: inner for name, inner in value.items() if inner is not None}
    need(set(required) <= set(value))
    return value


def is_bytes(value, length):
    return isinstance(value, bytes) and len(value) == length


def is_number(value):
    return isinstance(value, int) and not isinstance(value, bool)


def is_uint(value):
    return is_number(value) and 0 <= value < 1 << 64


def is_time(value):
    return is_number(value) and -(1 << 63) <= value < 1 << 63


def is_list(value, each):
    return isinstance(value, tuple) and all(each(one) for one in value)


def is_digest(value):
    return is_bytes(value, 32)


def base64_of(text):
    """Standard alphabet, padded, in its one spelling."""
    try:
        data = base64.b64decode(text.encode("ascii"), validate=True)
    except (ValueError, UnicodeEncodeError) as error:
        raise Refused("not base64") from error
    need(base64.b64encode(data).decode() == text, "not base64")
    return data
