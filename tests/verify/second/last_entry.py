"""Section 7.7: the place of the stay's last entry in an open form (C2SP tlog-proof)."""
from collections import namedtuple

from .forms import Refused, base64_of, need
from .notes import decimal, open_checkpoint, parts_of
from .tree import leaf_data, leaf_hash, root_of_inclusion

NAME = "last-entry.tlog-proof"
Proof = namedtuple("Proof", "extra number path note")


def read_proof(raw):
    try:
        text = raw.decode()
    except UnicodeDecodeError as error:
        raise Refused("not a text") from error
    above, separator, note = text.partition("\n\n")
    lines = above.split("\n")
    need(separator and lines.pop(0) == "c2sp.org/tlog-proof@v1", "not a proof")
    extra = base64_of(lines.pop(0)[6:]) if lines and lines[0].startswith("extra ") else None
    need(lines and lines[0].startswith("index "), "no index")
    number = decimal(lines.pop(0)[6:])
    need(len(lines) <= 64, "too many hashes")
    path = [base64_of(line) for line in lines]
    need(all(len(one) == 32 for one in path), "no hash")
    parts_of(note)
    return Proof(extra, number, path, note)


class LastEntry:
    def last_entry(self, files):
        if NAME not in files:
            return None
        try:
            proof = read_proof(files[NAME].bytes())
        except Refused as why:
            return self.broken("unreadable_attachment", f"{NAME}: {why}")
        try:
            opened, _ = open_checkpoint(proof.note, self.key, self.keys)
        except Refused as why:
            return self.broken("forged_checkpoint", f"{NAME}: its checkpoint does not hold: {why}")
        if opened not in self.checkpoints:
            return self.broken("log_fork", f"{NAME}: its checkpoint is none of the packet's")
        here = {entry["id"] for entry in self.visit}
        leaves = [leaf for leaf in self.log["leaves"] if leaf["entry"] in here]
        if self.altered or not leaves:
            return None
        last = max(leaves, key=lambda leaf: leaf["number"])
        data = leaf_data(last)
        if proof.number != last["number"] or proof.extra not in (None, data) \
                or root_of_inclusion(leaf_hash(data), proof.number, opened.size, proof.path) != opened.root:
            return self.broken("unlogged_entry", f"{NAME} does not prove the place of the last entry")
        return self.holds("last_entry", "the last entry's place stands in an open form too")
