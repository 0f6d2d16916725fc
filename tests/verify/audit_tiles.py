#!/usr/bin/env python3
"""Reads a log through from its tiles: a second reader, written from C2SP signed-note, tlog-checkpoint and tlog-tiles
and RFC 6962, and from what FORMAT.md says of a leaf. It shares nothing with the first.

    audit_tiles.py FOLDER --key HEX [--json]

Needs nothing but Python and OpenSSL 3; where the log has keys.json, also the second verifier's reader of key statements and what
that needs. Ends with 0 where the log holds, 3 where it does not: then it names the first place that is wrong.
"""
import argparse
import base64
import hashlib
import json
import pathlib
import re
import struct
import subprocess
import sys
import tempfile

WIDTH = 256


class Wrong(Exception):
    def __init__(self, path, what, entry=None):
        super().__init__(what)
        self.path, self.what, self.entry = path, what, entry


def sha256(*parts):
    return hashlib.sha256(b"".join(parts)).digest()


def signed_by(key, signature, text):
    """Whether an Ed25519 signature holds, by OpenSSL."""
    with tempfile.TemporaryDirectory() as folder:
        here = pathlib.Path(folder)
        # The public key as X.509 names one (RFC 8410, 4).
        (here / "key").write_bytes(bytes.fromhex("302a300506032b6570032100") + key)
        (here / "signature").write_bytes(signature)
        (here / "text").write_bytes(text)
        command = ["openssl", "pkeyutl", "-verify", "-pubin", "-keyform", "DER", "-inkey", "key", "-rawin", "-in", "text",
                   "-sigfile", "signature"]
        return subprocess.run(command, cwd=folder, capture_output=True, timeout=60).returncode == 0


def signers_of(folder, key):
    """The keys that may sign for the organisation of this root key: itself, or as the statements beside the log say. And what the
    root vouched for when it withdrew one: for each such key origin, size and root, or None."""
    file = pathlib.Path(folder) / "keys.json"
    if not file.is_file():
        return [key], {"stolen": set(), "up_to": {}}
    from second.forms import Refused
    from second.keys import Chain, read_keys_file
    chain = Chain(key)
    try:
        for statement in read_keys_file(file, key):
            chain.add(statement)
    except (Refused, ValueError, UnicodeDecodeError) as why:
        raise Wrong("keys.json", f"a statement about keys does not hold: {why}") from why
    seen = {one: said["checkpoint"] and (said["checkpoint"]["origin"], said["checkpoint"]["size"], said["checkpoint"]["root"])
            for one, said in chain.withdrawn.items()}
    stolen = {one for one, said in chain.withdrawn.items() if said["why"] == "stolen"}
    return chain.times, {"stolen": stolen, "up_to": {one: at for one, at in seen.items() if at}}


def open_checkpoint(note, key, signers):
    """Origin, size, root and extension lines of a checkpoint that one of `signers` signed for the organisation of the root `key`
    (C2SP signed-note, tlog-checkpoint)."""
    if any(ord(c) < 0x20 and c != "\n" for c in note) or not note.endswith("\n") or "\n\n" not in note:
        raise ValueError("it is no signed note")
    text, signatures = note.rsplit("\n\n", 1)
    lines = text.split("\n")
    if len(lines) < 3 or not all(lines):
        raise ValueError("it has no three lines")
    origin, size, root = lines[:3]
    organisation = hashlib.sha256(key).digest()[:16].hex()
    if not re.fullmatch(rf"farsiding/{organisation}(/[0-9a-f]{{16}})?", origin):
        raise ValueError("it is of another organisation's log")
    if not re.fullmatch(r"0|[1-9][0-9]*", size):
        raise ValueError("its size is no number")
    root = base64.b64decode(root, validate=True)
    if len(root) != 32:
        raise ValueError("its root has another length")
    key_ids = {sha256(origin.encode(), b"\n\x01", one)[:4]: one for one in signers}
    found = False
    for line in signatures.rstrip("\n").split("\n"):
        parts = re.fullmatch("\u2014 ([^ ]+) ([^ ]+)", line)
        if not parts:
            raise ValueError("a line under it is no signature")
        signature = base64.b64decode(parts[2], validate=True)
        if len(signature) < 5:
            raise ValueError("a line under it is no signature")
        if parts[1] == origin and signature[:4] in key_ids:
            if not signed_by(key_ids[signature[:4]], signature[4:], (text + "\n").encode()):
                raise ValueError("its signature does not hold")
            found = key_ids[signature[:4]]
    if not found:
        raise ValueError("the organisation has not signed it")
    return origin, int(size), root, lines[3:], found


def path_of(row, number, width):
    digits = f"{number:03d}"
    digits = digits.zfill(-(-len(digits) // 3) * 3)
    groups = [digits[at:at + 3] for at in range(0, len(digits), 3)]
    path = "/".join(["x" + group for group in groups[:-1]] + groups[-1:])
    return f"tile/{row}/{path}" + ("" if width == WIDTH else f".p/{width}")


def tree_hash(hashes):
    """RFC 6962, 2.1, over leaves that are hashed already."""
    if len(hashes) == 1:
        return hashes[0]
    k = 1
    while k * 2 < len(hashes):
        k *= 2
    return sha256(b"\x01", tree_hash(hashes[:k]), tree_hash(hashes[k:]))


class Log:
    def __init__(self, folder):
        self.folder = pathlib.Path(folder)

    def file(self, row, number, width):
        """A tile's bytes and how many it should hold: the full one may stand in a partial one's place."""
        for there in dict.fromkeys((width, WIDTH)):
            path = path_of(row, number, there)
            if (self.folder / path).is_file():
                return path, (self.folder / path).read_bytes(), there
        raise Wrong(path_of(row, number, width), "it is not there")

    def entries(self, number, width):
        path, data, there = self.file("entries", number, width)
        found, at = [], 0
        while at < len(data):
            if at + 2 > len(data):
                raise Wrong(path, "it ends within an entry")
            (length,) = struct.unpack_from(">H", data, at)
            if at + 2 + length > len(data):
                raise Wrong(path, "it ends within an entry")
            found.append(data[at + 2:at + 2 + length])
            at += 2 + length
        if len(found) != there:
            raise Wrong(path, f"it holds {len(found)} entries, {there} belong in it")
        return path, found[:width]

    def hashes(self, level, number, width):
        path, data, there = self.file(level, number, width)
        if len(data) != 32 * there:
            raise Wrong(path, f"it has {len(data)} bytes, {32 * there} belong in it")
        return path, [data[at:at + 32] for at in range(0, 32 * width, 32)]


def root_of(subtrees):
    """The root over complete subtrees, which stand from the left."""
    made = sha256()
    for at, (_, whole) in enumerate(reversed(subtrees)):
        made = whole if at == 0 else sha256(b"\x01", whole, made)
    return made


def audit(folder, key):
    log = Log(folder)
    try:
        note = (log.folder / "checkpoint").read_bytes().decode()
    except FileNotFoundError:
        raise Wrong("checkpoint", "it is not there") from None
    except UnicodeDecodeError:
        raise Wrong("checkpoint", "it is no text") from None
    try:
        signers, vouched = signers_of(folder, key)
        origin, size, root, more, signer = open_checkpoint(note, key, signers)
    except ValueError as why:
        raise Wrong("checkpoint", str(why)) from None
    if signer in vouched["stolen"] and vouched["up_to"].get(signer, ("", -1))[:2] != (origin, size):
        raise Wrong("checkpoint", "the key that signed it was stolen, and the root does not vouch for these entries")
    roots = {at: where for of, at, where in vouched["up_to"].values() if of == origin and at <= size}
    rows, odd, times, missed = [[]], None, [], False
    subtrees = []  # of complete subtrees from the left: how many leaves, and the hash
    count = 0

    def compare(level, number, hashes):
        nonlocal odd
        path, found = log.hashes(level, number, len(hashes))
        for at, (ours, theirs) in enumerate(zip(hashes, found)):
            if ours != theirs and odd is None:
                odd = Wrong(path, f"its hash {at} is not what lies below it", number * WIDTH + at if level == 0 else None)

    for number in range(-(-size // WIDTH)):
        path, entries = log.entries(number, min(WIDTH, size - number * WIDTH))
        for entry in entries:
            if len(entry) not in (40, 57):
                raise Wrong(path, f"entry {count} has {len(entry)} bytes", count)
            (received,) = struct.unpack(">q", entry[32:40])
            if times and received < times[-1]:
                raise Wrong(path, f"the time falls at entry {count}", count)
            times = [times[0] if times else received, received]
            leaf = sha256(b"\x00", entry)
            count += 1
            spans = 1
            whole = leaf
            while subtrees and subtrees[-1][0] == spans:
                whole = sha256(b"\x01", subtrees.pop()[1], whole)
                spans *= 2
            subtrees.append((spans, whole))
            if count in roots and root_of(subtrees) != roots[count]:
                missed = True
            level, rising = 0, leaf
            while True:
                if len(rows) == level:
                    rows.append([])
                rows[level].append(rising)
                if len(rows[level]) < WIDTH:
                    break
                compare(level, count // WIDTH ** (level + 1) - 1, rows[level])
                rising, rows[level] = tree_hash(rows[level]), []
                level += 1
    for level, row in enumerate(rows):
        if row:
            compare(level, count // WIDTH ** (level + 1), row)
    made = root_of(subtrees)
    if odd:
        raise odd
    if made != root:
        raise Wrong("checkpoint", "entries and tiles do not lead to its root")
    if missed:
        raise Wrong("checkpoint", "the log does not begin with what the root vouched for when it withdrew a key")
    return {"origin": origin, "size": size, "first": times[0] if times else None, "last": times[-1] if times else None,
            "extensions": more}


def main():
    arguments = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    arguments.add_argument("folder")
    arguments.add_argument("--key", required=True)
    arguments.add_argument("--json", action="store_true")
    given = arguments.parse_args()
    try:
        told = {"ok": True, **audit(given.folder, bytes.fromhex(given.key))}
    except Wrong as wrong:
        told = {"ok": False, "path": wrong.path, "entry": wrong.entry, "what": wrong.what}
    if given.json:
        print(json.dumps(told))
    elif told["ok"]:
        print(f"{told['size']} entries of {told['origin']} hold")
    else:
        print(f"the log does NOT hold: {told['path']}: {told['what']}")
    sys.exit(0 if told["ok"] else 3)


if __name__ == "__main__":
    main()
