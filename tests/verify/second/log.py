"""Section 7: the log, chains, whether all is here, times; section 8: receipts."""
from bisect import bisect_left, bisect_right

from .cose import envelope
from .entries import claimed, says_of, seen_of
from .forms import (Refused, decode, fields, is_bytes, is_digest, is_list, is_time, is_uint, need)
from .notes import open_checkpoint
from .tree import consistent, leaf_hash, log_leaf, root_of_heads, root_of_inclusion, tree_hash

PLAY, LONG = 10 * 60 * 1000, 7 * 24 * 60 * 60 * 1000
MOST_CHECKPOINTS, MOST_TOKENS = 16, 64


def is_path(value):
    return is_list(value, is_digest)


def is_about(value):
    return is_bytes(value, 17) and value[0] in b"vcsr"


def check_leaf(leaf):
    fields(leaf, ("entry", "number", "received_at", "path"), ("about",))
    need(is_digest(leaf["entry"]) and is_uint(leaf["number"]) and is_time(leaf["received_at"]) and is_path(leaf["path"]))
    need("about" not in leaf or is_about(leaf["about"]))


def read_log(value):
    fields(value, ("checkpoints", "consistency", "leaves", "chains", "tokens"), ("heads", "seen", "photos_elsewhere"))
    need(is_list(value["checkpoints"], lambda note: isinstance(note, str)) and is_list(value["consistency"], is_path))
    for name in ("leaves", "chains", "tokens", "heads", "seen", "photos_elsewhere"):
        need(isinstance(value.get(name, ()), tuple))
    need(len(value["checkpoints"]) <= MOST_CHECKPOINTS and len(value["tokens"]) <= MOST_TOKENS, "too many checkpoints or tokens")
    need(all(value.get(name) != () for name in ("heads", "seen", "photos_elsewhere")), "an empty list that should be absent")
    for leaf in value["leaves"]:
        check_leaf(leaf)
    for chain in value["chains"]:
        fields(chain, ("device", "elsewhere", "missing"))
        need(is_digest(chain["device"]) and isinstance(chain["elsewhere"], tuple))
        need(is_list(chain["missing"], lambda run: is_list(run, is_uint) and len(run) == 2))
        for other in chain["elsewhere"]:
            fields(other, ("seq", "entry"))
            need(is_uint(other["seq"]) and is_digest(other["entry"]))
    for token in value["tokens"]:
        fields(token, ("size", "token"))
        need(is_uint(token["size"]) and isinstance(token["token"], bytes))
    for item in value.get("heads", ()):
        fields(item, ("about", "count", "root", "path"))
        need(is_about(item["about"]) and is_uint(item["count"]) and is_digest(item["root"]) and is_path(item["path"]))
    for item in value.get("seen", ()):
        fields(item, ("size", "root", "path", "last"))
        need(is_uint(item["size"]) and is_digest(item["root"]) and is_path(item["path"]))
        check_leaf(item["last"])
    need(is_list(value.get("photos_elsewhere", ()),
                 lambda pair: isinstance(pair, tuple) and len(pair) == 2 and is_digest(pair[0]) and is_uint(pair[1])))
    return value


def read_receipts(value):
    fields(value, ("receipts",))
    need(is_list(value["receipts"], lambda one: isinstance(one, bytes)))
    return value["receipts"]


def agree(a, b, proof=()):
    """Whether two checkpoints can both be of one log."""
    old, new = (a, b) if a.size <= b.size else (b, a)
    if old.origin != new.origin:
        return False
    if old.size == new.size:
        return old.root == new.root and (None in (old.heads, new.heads) or old.heads == new.heads)
    return consistent(old.size, old.root, new.size, new.root, proof)


def open_reply(payload):  # 8
    told = decode(payload)
    need(isinstance(told, dict) and is_time(told.get("t")) and is_bytes(told.get("q"), 16) and is_bytes(told.get("s"), 16))
    need(all(told.get(name) is None or is_digest(told[name]) for name in "rd"), "no tree hash")
    need(is_uint(told.get("n")) and isinstance(told.get("c"), dict) and all(is_uint(told["c"].get(name)) for name in "ep"))
    return told


class Log:
    """The part of the verifier that reads the log."""

    def open_log(self):
        log = self.log
        self.received = {leaf["entry"]: leaf["received_at"] for leaf in log["leaves"]}
        self.numbers = {leaf["entry"]: leaf["number"] for leaf in log["leaves"]}
        self.checkpoints, self.noted, self.last_noted = [], [], []
        for note in log["checkpoints"]:
            try:
                opened, signers = open_checkpoint(note, self.key, self.keys)
                self.checkpoints.append(opened)
                self.last_noted = [(opened.size, key) for key in signers]
                self.noted += self.last_noted
            except Refused as why:
                self.checkpoints.append(None)
                self.broken("forged_checkpoint", f"a checkpoint does not hold: {why}")
        if not log["checkpoints"]:
            self.broken("forged_checkpoint", "there is no checkpoint")
        for at, (old, new) in enumerate(zip(self.checkpoints, self.checkpoints[1:])):
            proof = log["consistency"][at] if at < len(log["consistency"]) else ()
            if old and new and (new.size < old.size or not agree(old, new, proof)):
                self.broken("log_fork", f"checkpoints of size {old.size} and {new.size} cannot both be of one log")
        self.last = self.checkpoints[-1] if self.checkpoints else None
        self.latest = latest(log["leaves"])
        self.latest_here = latest([leaf for leaf in log["leaves"] if leaf["entry"] in self.ids])

    def logged(self, leaf):
        last = self.last
        return root_of_inclusion(log_leaf(leaf), leaf["number"], last.size, leaf["path"]) == last.root

    def check_log(self):
        sound, before, about = True, None, {entry["id"]: entry["body"]["about"] for entry in self.all}
        for leaf in self.log["leaves"]:
            if self.last and not self.logged(leaf):
                sound = False
                self.broken("unlogged_entry", f"the log does not hold {leaf['entry'].hex()} at {leaf['number']}")
            elif "about" in leaf and about.get(leaf["entry"], leaf["about"]) != leaf["about"]:
                sound = False
                self.broken("unlogged_entry", f"the log holds {leaf['entry'].hex()} as about something else")
            if before and (leaf["number"] <= before["number"] or leaf["received_at"] < before["received_at"]):
                self.broken("log_order", f"numbers or times fall at {leaf['number']}")
            before = leaf
        here, listed = set(about), set(self.received)
        for entry in sorted(here - listed):
            sound = False
            self.broken("unlogged_entry", f"entry {entry.hex()} has no leaf")
        if sound and self.last:
            self.holds("log", f"the log of {self.last.size} entries holds each entry at its place")
        for name, order in self.order.items():
            rising = [self.numbers[entry] for entry in order if entry in self.numbers]
            if any(a >= b for a, b in zip(rising, rising[1:])):
                self.broken("reordered_entries", f"{name} is not in the order of the log")
        missing = len(listed - here)
        if missing > self.altered:
            self.broken("removed_entry", f"{missing - self.altered} entries the log lists are not here")

    def compare(self, against):
        note, proof = against
        try:
            theirs, _ = open_checkpoint(note, self.key, self.keys)
        except Refused as why:
            return self.broken("forged_checkpoint", f"the checkpoint given does not hold: {why}")
        ours = [checkpoint for checkpoint in self.checkpoints if checkpoint]
        same = [checkpoint for checkpoint in ours if checkpoint.size == theirs.size]
        if ours and ours[-1].origin != theirs.origin:
            return self.broken("not_compared", "the checkpoint given is of another log of the organisation")
        if same:
            if all(agree(one, theirs) for one in same):
                self.agreed = True
                return self.holds("log", "the checkpoint given is the packet's own")
            return self.broken("log_fork", f"two checkpoints of size {theirs.size} differ")
        if not ours:
            return None
        if not proof:
            return self.broken("not_compared", "sizes differ and no consistency proof was given")
        if agree(ours[-1], theirs, proof):
            if theirs.size > ours[-1].size:
                self.mark("older_packet", "the checkpoint given is of more entries than this packet's")
            self.agreed = True
            return self.holds("log", "the checkpoint given is of the same log")
        return self.broken("log_fork", "the checkpoint given cannot be of the same log")

    # 7.4 ---------------------------------------------------------------------------------------------------------------
    def chains(self):
        known, runs, own = {}, {}, {}
        for entry in self.all:
            known.setdefault(entry["device"], {}).setdefault(entry["body"]["seq"], set()).add(entry["id"])
        for chain in self.log["chains"]:
            runs.setdefault(chain["device"], []).extend(chain["missing"])
            for other in chain["elsewhere"]:
                known.setdefault(chain["device"], {}).setdefault(other["seq"], set()).add(other["entry"])
        for entry in self.visit:
            own.setdefault(entry["device"], []).append(entry["body"]["seq"])
        for device, numbers in own.items():
            within, expected = missing_runs(runs.get(device, [])), min(numbers)
            for seq in sorted(n for n in known[device] if min(numbers) <= n <= max(numbers)):
                if seq > expected:
                    if within(expected, seq - 1):
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

    # 7.5 ---------------------------------------------------------------------------------------------------------------
    def completeness(self):
        if self.last is not None:
            if self.last.heads is None:
                self.mark("no_head", "the last checkpoint commits to no document")
            else:
                self.heads()
        replaced = {other for entry in self.visit for other in entry["body"].get("replaces", ())}
        joined, apart = set(), set()
        for entry in self.visit:
            for kind, pairs in (("joined", joined), ("not_joined", apart)):
                other, about = (says_of(entry, kind) or {}).get("other"), entry["body"]["about"]
                if is_bytes(other, 16) and (kind == "not_joined" or entry["id"] not in replaced):
                    pairs.add(frozenset([other, about[1:]] if about[:1] == b"v" else [other]))
        for other in sorted(set().union(*(joined - apart)) - self.stay):
            self.mark("absent_visit", f"visit {other.hex()} was joined and is not here")
        self.unjoined()
        elsewhere = self.log.get("photos_elsewhere", ())
        if elsewhere:
            self.mark("photo_elsewhere", f"{len(elsewhere)} photographs are named by other visits too")

    def unjoined(self):
        """Visits of the stay that no entry joins to another of them."""
        joined = set()
        for entry in self.visit:
            other, about = (says_of(entry, "joined") or {}).get("other"), entry["body"]["about"]
            if is_bytes(other, 16) and about[:1] == b"v" and other != about[1:] and {other, about[1:]} <= self.stay:
                joined |= {other, about[1:]}
        for visit in sorted(self.stay - joined) if len(self.stay) > 1 else ():
            self.mark("unjoined_visit", f"nobody joined visit {visit.hex()} to another of the stay")

    def heads(self):
        here, items, whole = {}, {}, True
        for entry in self.visit:
            here.setdefault(entry["body"]["about"], set()).add(entry["id"])
        for item in self.log.get("heads", ()):
            items.setdefault(item["about"], []).append(item)
        for visit in sorted(self.stay):
            about = b"v" + visit
            if about not in items:
                whole = False
                self.mark("no_head", f"nothing says how many entries the log holds of visit {visit.hex()}")
            ids = sorted(here.get(about, ()), key=lambda entry: self.numbers.get(entry, 1 << 64))
            root = tree_hash([leaf_hash(entry) for entry in ids])
            for item in items.get(about, ()):
                if root_of_heads(about, item["count"], item["root"], item["path"]) != self.last.heads[1]:
                    whole = False
                    self.broken("other_head", f"the log holds another head of visit {visit.hex()}")
                elif len(ids) + self.altered < item["count"]:
                    whole = False
                    self.broken("removed_entry", f"the log holds {item['count']} entries of {visit.hex()}, {len(ids)} are here")
                elif (len(ids), root) != (item["count"], item["root"]) and not self.altered:
                    whole = False
                    self.broken("other_head", f"the entries of visit {visit.hex()} are not those the log holds")
        self.whole = whole

    # 7.6 ---------------------------------------------------------------------------------------------------------------
    def times(self):
        after, told = {}, {}
        for item in self.log.get("seen", ()):
            if self.last is not None and item["last"]["number"] == item["size"] - 1 and self.state(item) \
                    and self.logged(item["last"]):
                after[item["size"], item["root"]] = item["last"]["received_at"]
        for entry in self.all:
            claims, seen = claimed(entry), seen_of(entry["body"])
            certificate, received = self.certified.get(entry["device"]), self.received.get(entry["id"])
            if seen is not None and seen not in after:
                told.setdefault("other_log_seen", []).append(entry)
            if seen in after and claims + PLAY < after[seen]:
                told.setdefault("claimed_before_seen", []).append(entry)
            if certificate and claims + PLAY < certificate["issued_at"]:
                told.setdefault("claimed_before_certificate", []).append(entry)
            if received is not None and claims + LONG < received:
                told.setdefault("received_long_after", []).append(entry)
        for code, entries in told.items():
            self.mark(code, f"{len(entries)} entries, the first {entries[0]['id'].hex()}")

    def state(self, item):
        last = self.last
        if (item["size"], item["root"]) == (last.size, last.root):
            return True
        return 0 < item["size"] < last.size and consistent(item["size"], item["root"], last.size, last.root, item["path"])

    # 8 -----------------------------------------------------------------------------------------------------------------
    def receipts(self, receipts):
        sound = True
        for raw in receipts:
            try:
                receipt = fields(decode(raw), ("head", "entries"))
                need(isinstance(receipt["head"], bytes) and is_list(receipt["entries"], is_digest))
                by, payload = self.reply(receipt["head"])
                told = open_reply(payload)
                root = tree_hash([leaf_hash(entry) for entry in receipt["entries"]])
                need(receipt["entries"] and root in (told.get("r"), told.get("d")), "it is about other entries")
            except Refused as why:
                sound = False
                self.broken("forged_receipt", f"a receipt does not hold: {why}")
                continue
            self.by(by, "receipt", told["t"])
            times = [self.received[entry] for entry in receipt["entries"] if entry in self.received and entry in self.ids]
            if times and told["t"] + PLAY < max(times):
                sound = False
                self.broken("backdated_receipt", "a receipt is older than the log's word on an entry it covers")
        if sound:
            self.holds("receipts", f"{len(receipts)} receipts hold")

    def reply(self, head):
        """Who signed a receipt's head, which names no key, and its payload."""
        for number, key in enumerate(sorted(self.keys, key=lambda one: one != self.newest), 1):
            try:
                payload = envelope(head, "farsiding reply 1", key, addressed=True)[1]
                self.newest = key
                return key, payload
            except Refused:
                if number == len(self.keys):
                    raise
        raise Refused("signed by nobody")

    def leads(self, old, new, proof):
        return old.size < new.size and agree(old, new, proof)

    def early(self):
        early = [entry for entry in self.all if entry["id"] in self.received
                 and self.received[entry["id"]] + PLAY < claimed(entry)]
        if early:
            self.mark("claimed_after_received", f"{len(early)} entries claim a later time than they were received")


def latest(leaves):
    """The latest time among those of these leaves whose number is less than a size; None where there is none."""
    numbers, times = [], []
    for leaf in sorted(leaves, key=lambda leaf: leaf["number"]):
        numbers.append(leaf["number"])
        times.append(max(leaf["received_at"], times[-1] if times else leaf["received_at"]))

    def before(size):
        at = bisect_left(numbers, size)
        return times[at - 1] if at else None
    return before


def missing_runs(runs):
    """Whether a run of numbers lies within one of these."""
    starts, ends, furthest = [], [], -1
    for start, end in sorted(runs):
        furthest = max(furthest, end)
        starts.append(start)
        ends.append(furthest)

    def within(first, last):
        at = bisect_right(starts, first)
        return at > 0 and ends[at - 1] >= last
    return within
