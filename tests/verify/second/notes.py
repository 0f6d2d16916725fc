"""Section 7.2: checkpoints in signed notes."""
import re
from collections import namedtuple

from .cose import signed_by
from .forms import base64_of, need, sha256

Checkpoint = namedtuple("Checkpoint", "origin size root heads")


def decimal(text):
    need(re.fullmatch(r"0|[1-9][0-9]{0,19}", text, re.ASCII) and int(text) < 1 << 64, "no size")
    return int(text)


def parts_of(note):
    """The text of a signed note, and of each signature line its key name and what is signed with: key id and signature."""
    need(isinstance(note, str))
    text, separator, below = note.partition("\n\n")
    need(separator == "\n\n" and below.endswith("\n"), "not a signed note")
    need(not re.search("[\x00-\x09\x0b-\x1f]", note), "a control character")
    lines = []
    for line in below[:-1].split("\n"):
        match = re.fullmatch("\u2014 ([^\\s+]+) ([^ ]+)", line)
        need(match, "not a signature line")
        signature = base64_of(match[2])
        need(len(signature) > 4, "no signature")
        lines.append((match[1], signature[:4], signature[4:]))
    return text + "\n", lines


def heads_of(lines):
    """What the `heads ` line says, if there is one."""
    heads = [line for line in lines if line.startswith("heads ")]
    need(len(heads) <= 1, "two lines of heads")
    for line in heads:
        parts = line.split(" ")
        need(len(parts) == 3, "no line of heads")
        root = base64_of(parts[2])
        need(len(root) == 32, "no root of heads")
        return decimal(parts[1]), root
    return None


def key_id(name, key):
    return sha256(name.encode() + b"\n\x01" + key)[:4]


def open_checkpoint(note, key, keys=None):
    """What a checkpoint says that the organisation signed, and which of its keys did: its first root is `key`."""
    text, signatures = parts_of(note)
    lines = text[:-1].split("\n")
    need(3 <= len(lines) <= 11 and all(lines), "not of three lines and up to eight more")
    origin, size, root = lines[:3]
    first = "farsiding/" + sha256(key)[:16].hex()
    need(re.fullmatch(re.escape(first) + r"(/[0-9a-f]{16})?", origin), "another organisation's log")
    hashed = base64_of(root)
    need(len(hashed) == 32, "no hash")
    opened = Checkpoint(origin, decimal(size), hashed, heads_of(lines[3:]))
    own = {key_id(origin, one): one for one in keys or {key}}
    signers = [own[given] for name, given, signature in signatures if name == origin and given in own]
    need(signers, "not signed by the organisation")
    for name, given, signature in signatures:
        if name == origin and given in own:
            need(signed_by(own[given], signature, text.encode()), "the signature does not hold")
    return opened, signers
