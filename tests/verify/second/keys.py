"""Section 12: the organisation's root and the keys it named."""
import base64
import json

from .cose import envelope, parts_of
from .forms import Refused, decode, fields, is_digest, is_list, is_time, is_uint, need, sha256
from .notes import open_checkpoint

PLAY, LARGEST_STATEMENT = 10 * 60 * 1000, 2048
PRIME = 2 ** 255 - 19
CURVE = -121665 * pow(121666, -1, PRIME) % PRIME


def is_point(raw):
    """Whether these bytes are a point of Ed25519 of no small order, in its one encoding (RFC 8032, 5.1.3)."""
    number = int.from_bytes(raw, "little")
    sign, y = number >> 255, number & (1 << 255) - 1
    if y >= PRIME:
        return False
    above, below = (y * y - 1) % PRIME, (CURVE * y * y + 1) % PRIME
    square = above * pow(below, -1, PRIME) % PRIME
    x = pow(square, (PRIME + 3) // 8, PRIME)
    if (x * x - square) % PRIME:
        x = x * pow(2, (PRIME - 1) // 4, PRIME) % PRIME
    if (x * x - square) % PRIME or (x == 0 and sign):
        return False
    point = (x, y)
    for _ in range(3):
        (x, y), product = point, CURVE * point[0] ** 2 * point[1] ** 2 % PRIME
        point = (2 * x * y * pow(1 + product, -1, PRIME) % PRIME, (y * y + x * x) * pow(1 - product, -1, PRIME) % PRIME)
    return point != (0, 1)


def read_keys(value):
    fields(value, ("statements",))
    need(is_list(value["statements"], lambda one: isinstance(one, bytes)))
    return list(value["statements"])


def read_keys_file(path, key):
    """The statements of a file given with `--keys`."""
    with open(path, encoding="utf-8") as file:
        told = json.load(file)
    need(isinstance(told, dict) and told.get("format") == "farsiding keys 1" and isinstance(told.get("statements"), list), "no file of keys")
    need(told.get("organisation_key") == key.hex(), "the keys are another organisation's")
    return [base64.b64decode(one, validate=True) for one in told["statements"]]


class Chain:
    """The keys that may sign for an organisation whose first root is `root`."""

    def __init__(self, root):
        self.first = self.root = root
        # Each key with the times from and until which it may sign, of which either may be absent.
        self.times, self.withdrawn = {root: (None, None)}, {}
        self.ids, self.statements, self.roots = [], [], {root}

    def add(self, raw):
        need(len(raw) <= LARGEST_STATEMENT, "too large")
        _, payload = envelope(raw, "farsiding key 1", self.root)
        number = len(self.ids) + 1
        said = fields(decode(payload), ("organisation", "number", "at", "says") + (("prev",) if number > 1 else ()))
        need(said["organisation"] == sha256(self.first)[:16], "another organisation's")
        need(is_uint(said["number"]) and said["number"] == number, "another number")
        need(number == 1 or said["prev"] == self.ids[-1], "another before it")
        need(is_time(said["at"]) and isinstance(said["says"], dict) and len(said["says"]) == 1)
        (kind, content), = said["says"].items()
        need(kind in ("key", "key_withdrawn", "successor"), "of no known kind")
        getattr(self, "say_" + kind)(content, said["at"])
        self.ids.append(sha256(raw))
        self.statements.append(raw)

    def new(self, key):
        need(is_digest(key) and is_point(key), "no key")
        need(key not in self.times, "named before")
        return key

    def say_key(self, content, _at):
        fields(content, ("key", "from"), ("until",))
        need(is_time(content["from"]) and is_time(content.get("until", 0)))
        need("until" not in content or content["until"] > content["from"], "it ends before it begins")
        self.times[self.new(content["key"])] = (content["from"], content.get("until"))

    def say_successor(self, content, at):
        fields(content, ("key",))
        key = self.new(content["key"])
        self.times[self.root] = (None, at)
        self.root = key
        self.roots.add(key)
        self.times[key] = (None, None)

    def say_key_withdrawn(self, content, at):
        fields(content, ("key", "why"), ("checkpoint",))
        key = content["key"]
        need(is_digest(key) and key in self.times and key != self.root, "no key that could be withdrawn")
        need(content["why"] in ("replaced", "lost", "stolen"), "no reason")
        need(key not in self.withdrawn or self.withdrawn[key]["why"] != "stolen", "withdrawn as stolen before")
        if "checkpoint" in content:
            seen = fields(content["checkpoint"], ("origin", "size", "root"), ("heads",))
            need(isinstance(seen["origin"], str) and is_uint(seen["size"]) and is_digest(seen["root"]))
            need(is_digest(seen.get("heads", bytes(32))))
        self.withdrawn[key] = {"why": content["why"], "at": at, "checkpoint": content.get("checkpoint")}

    def within(self, key, at, late):
        """Whether this key may have signed at this time; `late` is for what may be signed long after."""
        begins, ends = self.times[key]
        play = 0 if key in self.roots else PLAY
        return (late or begins is None or at >= begins - play) and (ends is None or at <= ends + play)


class Keys:
    """The part of the verifier that knows whose word is the organisation's."""

    def open_keys(self, files, given):
        self.chain, self.signed, self.key_problem = Chain(self.key), [], False
        told = []
        if "keys.cbor" in files:
            try:
                told = read_keys(decode(files["keys.cbor"].bytes()))
            except Refused as why:
                self.broken("unreadable_attachment", f"keys.cbor: {why}")
        if given is not None:
            shorter = min(len(told), len(given))
            if told[:shorter] != given[:shorter]:
                self.forged_key("the statements here and those given differ")
                told = given
            told = max(told, given, key=len)
        for number, raw in enumerate(told, 1):
            try:
                self.chain.add(raw)
            except Refused as why:
                self.forged_key(f"statement {number} does not hold: {why}")
                break
        return set(self.chain.times)

    def forged_key(self, what):
        self.key_problem = True
        self.broken("forged_key", what)

    def by(self, key, what, at):
        """Notes that a key signed something, at a time (none: nobody knows)."""
        self.signed.append((key, what, at))

    def judge_keys(self, against):
        if not self.chain.statements:
            return
        held, spoken = {}, False
        for size, key in self.noted:
            self.by(key, "checkpoint", self.latest(size))
        for key, what, at in self.signed:
            if at is not None and not self.chain.within(key, at, what in ("seal", "checkpoint")):
                self.key_problem = True
                self.broken("expired_key", f"a {what} is by {key.hex()[:16]}, which could not sign then")
                continue
            held.setdefault(key, []).append((what, at))
        for key, things in held.items():
            withdrawn = self.chain.withdrawn.get(key)
            if withdrawn is None:
                spoken = True
            elif withdrawn["why"] != "stolen":
                late = any(at is not None and at > withdrawn["at"] + PLAY for _, at in things)
                self.say("broken" if late else "marked", "withdrawn_key", f"{key.hex()[:16]} was {withdrawn['why']}")
            else:
                self.stolen(key, things, withdrawn["checkpoint"], against)
        if not self.key_problem and spoken:
            self.holds("keys", "the organisation's root named the keys that signed here")

    def stolen(self, key, things, seen, against):
        own_last = self.last is not None and any(by == key and size == self.last.size for size, by in self.last_noted)
        if all(what == "checkpoint" for what, _ in things) and not own_last:
            return
        inside = self.last is not None and seen is not None and self.inside(seen, against)
        self.say("marked" if inside else "broken", "withdrawn_key", f"{key.hex()[:16]} was stolen" + (", later than this log" if inside else ""))

    def inside(self, seen, against):
        """Whether the last checkpoint is within the one a withdrawal names."""
        last = self.last
        if last.origin != seen["origin"]:
            return False
        if last.size == seen["size"]:
            return last.root == seen["root"] and (last.heads is None or last.heads[1] == seen.get("heads"))
        if last.size > seen["size"] or against is None:
            return False
        note, proof = against
        try:
            theirs, signers = open_checkpoint(note, self.key, set(self.chain.times))
        except Refused:
            return False
        stolen = any(self.chain.withdrawn.get(key, {}).get("why") == "stolen" for key in signers)
        if theirs.origin != last.origin or (stolen and (theirs.size, theirs.root) != (seen["size"], seen["root"])):
            return False
        return (theirs.size, theirs.root) == (last.size, last.root) or self.leads(last, theirs, proof)


def signer_of(raw, keys):
    """Whose key id an envelope bears, if it is one of these."""
    kid = parts_of(raw)[0]
    need(kid in keys, "signed by another key")
    return kid
