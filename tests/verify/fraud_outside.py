"""Frauds about what lies outside the organisation's word: keys its root named or withdrew, time stamps, witnesses."""

import base64
import functools
import json
import pathlib
import subprocess
import tempfile

import cbor2

from damage import OFFICE, THIEF, Key, pack, sha256
from fraud_makers import note, with_log

BEGIN, DAY = 1_795_528_800_000, 86_400_000  # 2026-11-24T20:00:00Z
YEARLY = Key(bytes([50] * 32))
WITNESS = Key(bytes([51] * 32))
# Gone when the suite ends.
SCRATCH = tempfile.TemporaryDirectory()


def statements(*words, root=OFFICE):
    """What a root said of keys, each with when it was said, as a chain."""
    signed = []
    for at, says in words:
        said = {"organisation": sha256(OFFICE.public)[:16], "number": len(signed) + 1, "at": at, "says": says}
        if signed:
            said["prev"] = sha256(signed[-1])
        signed.append(root.envelope(pack(said), "farsiding key 1"))
    return {"keys.cbor": pack({"statements": signed})}


def named(until):
    return BEGIN - 400 * DAY, {"key": {"key": YEARLY.public, "from": BEGIN - 400 * DAY, "until": until}}


def withdrawn(at, why):
    return at, {"key_withdrawn": {"key": YEARLY.public, "why": why}}


def sealed_by_last_years_key(p):
    return p.sealed(statements(named(BEGIN - 100 * DAY)), key=YEARLY)


def sealed_by_a_stolen_key(p):
    return p.sealed(statements(named(BEGIN + 100 * DAY), withdrawn(BEGIN - DAY, "stolen")), key=YEARLY)


def sealed_by_a_replaced_key(p):
    return p.sealed(statements(named(BEGIN + 100 * DAY), withdrawn(BEGIN - DAY, "replaced")), key=YEARLY)


def sealed_by_a_key_nobody_named(p):
    return p.sealed(statements(named(BEGIN + 100 * DAY)), key=THIEF)


def sealed_by_a_key_stolen_since(p):
    return p.sealed(statements(named(BEGIN + 100 * DAY)), key=YEARLY)


@functools.cache
def keys_from_elsewhere():
    """A file of what the root said, newer than the packet: the key is withdrawn there."""
    raw = statements(named(BEGIN + 100 * DAY), withdrawn(BEGIN + 9 * DAY, "stolen"))["keys.cbor"]
    told = [base64.b64encode(one).decode() for one in cbor2.loads(raw)["statements"]]
    file = pathlib.Path(SCRATCH.name) / "keys.json"
    file.write_text(
        json.dumps({"format": "farsiding keys 1", "organisation_key": OFFICE.public.hex(), "statements": told})
    )
    return str(file)


def key_named_by_a_stranger(p):
    return p.sealed(statements(named(BEGIN + 100 * DAY), root=THIEF), key=OFFICE)


# Witnesses -----------------------------------------------------------------------------------------------------------------


def witness_named(name, key=WITNESS):
    """A witness's key as a reader gives it."""
    raw = b"\x04" + key.public
    key_id = sha256(name.encode() + b"\n" + raw)[:4]
    return f"{name}+{key_id.hex()}+{base64.b64encode(raw).decode()}"


def cosigned(p, key, name, told_key=None, text=None):
    """The last checkpoint with a witness's line (C2SP tlog-cosignature, `cosignature/v1`): by `key`, under the key id of
    `told_key`, over another text if one is given."""
    origin, size, root, heads = p.last_note()
    plain, at = note(OFFICE, origin, size, root, heads), 1_795_700_000
    text = text or plain.split("\n\n")[0] + "\n"
    key_id = sha256(name.encode() + b"\n\x04" + (told_key or key).public)[:4]
    signature = key.private.sign(f"cosignature/v1\ntime {at}\n{text}".encode())
    return plain + f"\u2014 {name} {base64.b64encode(key_id + at.to_bytes(8, 'big') + signature).decode()}\n"


# Time stamps ---------------------------------------------------------------------------------------------------------------

TS_CONFIG = """[tsa]
default_tsa = one
[one]
serial = {folder}/serial
default_policy = 1.2.3.4.1
digests = sha256
signer_digest = sha256
accuracy = secs:1
ordering = no
tsa_name = no
ess_cert_id_chain = no
ess_cert_id_alg = sha256
"""


@functools.cache
def authority(name):
    """The folder of a stamping authority made up on the spot: key.pem, cert.pem, config."""
    folder = pathlib.Path(SCRATCH.name) / name.replace(" ", "_")
    folder.mkdir()
    (folder / "serial").write_text("01\n")
    (folder / "config").write_text(TS_CONFIG.format(folder=folder))
    openssl(
        "req",
        "-x509",
        "-newkey",
        "rsa:2048",
        "-nodes",
        "-keyout",
        folder / "key.pem",
        "-out",
        folder / "cert.pem",
        "-days",
        "3650",
        "-subj",
        f"/CN={name}",
        "-addext",
        "extendedKeyUsage=critical,timeStamping",
    )
    return folder


def openssl(*arguments):
    subprocess.run(["openssl", *map(str, arguments)], check=True, capture_output=True)


def stamped_by(p, name, text=None):
    """A true RFC 3161 token over the last checkpoint (or another note), by an authority made up on the spot."""
    folder = authority(name)
    (folder / "note").write_text(text or p.log["checkpoints"][-1])
    openssl("ts", "-query", "-data", folder / "note", "-sha256", "-cert", "-out", folder / "query")
    openssl(
        "ts",
        "-reply",
        "-config",
        folder / "config",
        "-section",
        "one",
        "-queryfile",
        folder / "query",
        "-signer",
        folder / "cert.pem",
        "-inkey",
        folder / "key.pem",
        "-token_out",
        "-out",
        folder / "token",
    )
    return (folder / "token").read_bytes()


def root_of(name):
    return str(authority(name) / "cert.pem")


def stamped_and_cosigned(p):
    """The last checkpoint signed by the true witness and stamped by the true authority."""
    text = cosigned(p, WITNESS, "witness.example/true")
    token = {"size": p.last_note()[1], "token": stamped_by(p, "True Authority", text)}

    def change(log):
        log["checkpoints"][-1] = text
        log["tokens"].append(token)

    return with_log(p, change)


def all_that_is_trusted():
    return ["--witness", witness_named("witness.example/true"), "--tsa-root", root_of("True Authority"), "--strict"]
