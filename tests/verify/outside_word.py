"""What others than the organisation say of a packet, for the second verifier: witnesses (C2SP tlog-cosignature), time
stamps (RFC 3161, by OpenSSL) and the last entry's proof in its open form (C2SP tlog-proof).

Each function takes the verifier, with what it has read of the packet, and adds lines to it.
"""
import base64
import datetime
import hashlib
import pathlib
import re
import subprocess
import tempfile

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

LAST_ENTRY = "last-entry.tlog-proof"
TEN_MINUTES = 600_000


def sha256(data):
    return hashlib.sha256(data).digest()


def read_witness(text):
    """Name, key id and public key of a witness, from NAME+ID+KEY."""
    name, key_id, key = text.strip().split("+", 2)
    key = base64.b64decode(key, validate=True)
    if not name or len(key) != 33 or key[0] != 4 or sha256(name.encode() + b"\n" + key)[:4].hex() != key_id:
        raise SystemExit("a witness's key is given as NAME+ID+KEY of the kind cosignature/v1")
    return name, bytes.fromhex(key_id), key[1:]


def signed_at(note, witness):
    """When the witness signed the note, by its own clock in milliseconds; nothing where it did not."""
    name, key_id, key = witness
    text, _, lines = note.rpartition("\n\n")
    for line in lines.splitlines():
        match = re.fullmatch("\u2014 ([^ ]+) ([^ ]+)", line)
        signature = base64.b64decode(match[2]) if match else b""
        if not match or match[1] != name or signature[:4] != key_id or len(signature) != 4 + 8 + 64:
            continue
        seconds = int.from_bytes(signature[4:12], "big")
        try:
            message = f"cosignature/v1\ntime {seconds}\n{text}\n".encode()
            Ed25519PublicKey.from_public_bytes(key).verify(signature[12:], message)
            return seconds * 1000
        except InvalidSignature:
            pass
    return None


def before_the_log(verifier, size, at):
    """Whether a time an outsider gave is more than ten minutes before the log received what the checkpoint covers."""
    covered = [leaf["received_at"] for leaf in verifier.log["leaves"] if leaf["number"] < size]
    return bool(covered) and at + TEN_MINUTES < max(covered)


def checkpoints(verifier):
    return [(note, opened) for note, opened in zip(verifier.log["checkpoints"], verifier.checkpoints) if opened]


def witnesses(verifier, given, strict):
    found = False
    for witness in given:
        signed = [(opened[1], signed_at(note, witness)) for note, opened in checkpoints(verifier)]
        signed = [(size, at) for size, at in signed if at is not None]
        if not signed:
            continue
        found = True
        size, at = max(signed, key=lambda pair: pair[0])
        say = verifier.mark if before_the_log(verifier, size, at) else verifier.holds
        say("witness", f"{witness[0]} signed the checkpoint of size {size}")
    if given and not found:
        verifier.mark("no_witness", "none of the witnesses given has signed a checkpoint here")
    if strict and not found:
        verifier.broken("no_witness", "no witness given has signed a checkpoint here")


def openssl(folder, *arguments):
    ran = subprocess.run(["openssl", *arguments], cwd=folder, capture_output=True, timeout=60)
    return ran.stdout if ran.returncode == 0 else None


def tokens(verifier, roots, strict):
    """Time stamps whose digest is that of their note (the others are told by the verifier itself)."""
    found = False
    for token in verifier.log["tokens"]:
        notes = [note for note, opened in checkpoints(verifier)
                 if opened[1] == token["size"] and sha256(note.encode()) in token["token"]]
        if notes:
            found |= token_holds(verifier, token, notes[0], roots)
    if strict and not found:
        verifier.broken("unchecked_time_stamp", "no time stamp here holds to a root given")


def token_holds(verifier, token, note, roots):
    with tempfile.TemporaryDirectory() as folder:
        here = pathlib.Path(folder)
        (here / "token").write_bytes(token["token"])
        (here / "note").write_text(note, encoding="utf-8")
        content = openssl(folder, "cms", "-verify", "-noverify", "-inform", "DER", "-in", "token")
        if content is None or sha256(note.encode()) not in content:
            verifier.broken("forged_time_stamp", "a time stamp's signature does not hold")
            return False
        if not roots:
            verifier.mark("unchecked_time_stamp", "who gave a time stamp is not checked: no root was given")
            return False
        text = openssl(folder, "ts", "-reply", "-token_in", "-in", "token", "-text").decode()
        time = re.search(r"Time stamp: (\w+ +\d+ \d+:\d+:\d+ \d+) GMT", text)[1]
        time = datetime.datetime.strptime(time, "%b %d %H:%M:%S %Y").replace(tzinfo=datetime.timezone.utc)
        (here / "roots").write_bytes(b"\n".join(pathlib.Path(root).read_bytes() for root in roots))
        (here / "others").write_bytes(openssl(folder, "pkcs7", "-inform", "DER", "-in", "token", "-print_certs") or b"")
        if openssl(folder, "ts", "-verify", "-data", "note", "-in", "token", "-token_in", "-CAfile", "roots",
                   "-untrusted", "others", "-attime", str(int(time.timestamp()))) is None:
            verifier.broken("forged_time_stamp", "no root given certifies who gave a time stamp")
            return False
        at = int(time.timestamp() * 1000) + accuracy(text)
        say = verifier.mark if before_the_log(verifier, token["size"], at) else verifier.holds
        say("time_stamp", f"the checkpoint of size {token['size']} existed not after {time.isoformat()}")
        return True


def accuracy(text):
    """How far the authority says its time may be off, milliseconds."""
    told = re.search(r"Accuracy: (.*)", text)
    units = {"seconds": 1000, "millis": 1, "micros": 1}
    amounts = re.findall(r"(0x[0-9A-Fa-f]+|\d+) (seconds|millis|micros)", told[1] if told else "")
    return sum(int(amount, 0) * units[unit] for amount, unit in amounts if unit != "micros" or int(amount, 0))


def last_entry(verifier, files, open_checkpoint, root_of_inclusion, refused):
    """The proof of the stay's last entry, where there is one."""
    if LAST_ENTRY not in files:
        return
    try:
        head, _, note = files[LAST_ENTRY].decode().partition("\n\n")
        lines = head.split("\n")
        if lines.pop(0) != "c2sp.org/tlog-proof@v1":
            raise ValueError("another first line")
        extra = None
        if lines and lines[0].startswith("extra "):
            extra = base64.b64decode(lines.pop(0)[6:], validate=True)
        index = re.fullmatch(r"index (0|[1-9][0-9]*)", lines.pop(0))[1]
        path = [base64.b64decode(line, validate=True) for line in lines]
        if len(path) > 64 or any(len(hashed) != 32 for hashed in path) or "\n\n" not in note:
            raise ValueError("its path is none")
    except (ValueError, TypeError, IndexError, UnicodeDecodeError) as why:
        return verifier.broken("unreadable_attachment", f"{LAST_ENTRY}: {why}")
    try:
        checkpoint = open_checkpoint(note, verifier.key)
    except refused as why:
        return verifier.broken("forged_checkpoint", f"{LAST_ENTRY}: {why}")
    if checkpoint not in [opened for _, opened in checkpoints(verifier)]:
        return verifier.broken("log_fork", f"{LAST_ENTRY} leads to a checkpoint that is none of the packet's")
    if verifier.altered:
        return None
    visit = {entry["id"] for entry in verifier.visit}
    leaf = max((leaf for leaf in verifier.log["leaves"] if leaf["entry"] in visit), key=lambda leaf: leaf["number"],
               default=None)
    if leaf:
        data = leaf["entry"] + leaf["received_at"].to_bytes(8, "big", signed=True) + (leaf.get("about") or b"")
        reached = root_of_inclusion(sha256(b"\x00" + data), int(index), checkpoint[1], path)
        if int(index) == leaf["number"] and extra in (None, data) and reached == checkpoint[2]:
            return verifier.holds("log", f"{LAST_ENTRY} proves the stay's last entry")
    return verifier.broken("unlogged_entry", f"{LAST_ENTRY} does not prove the stay's last entry")
