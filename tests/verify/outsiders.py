#!/usr/bin/env python3
"""A witness (C2SP tlog-witness) and a time stamp authority (RFC 3161, by OpenSSL) behind one loopback port, each with keys
of its own, for one log. Written from the standards; shares nothing with farsiding.

    outsiders.py LOG_KEY FOLDER

LOG_KEY is the log's NAME+ID+KEY. Writes FOLDER/witness.key, FOLDER/root.pem and, once it answers, FOLDER/address.
"""
import base64
import hashlib
import http.server
import pathlib
import re
import subprocess
import sys
import time

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat

NAME = "witness.example/second"


class No(Exception):
    def __init__(self, status, media="text/plain", body=b""):
        super().__init__(status)
        self.told = (status, media, body)


def sha256(*parts):
    return hashlib.sha256(b"".join(parts)).digest()


def roots(old, old_root, new, proof):
    """Roots of the first `old` and of all `new` leaves by a consistency proof (RFC 6962, 2.1.2), taken from its end."""
    def walk(old, new, known):
        if old == new:
            hashed = known or proof.pop()
            return hashed, hashed
        half = 1
        while half * 2 < new:
            half *= 2
        beside = proof.pop()
        if old <= half:
            before, left = walk(old, half, known)
            return before, sha256(b"\x01", left, beside)
        before, right = walk(old - half, new - half, None)
        return sha256(b"\x01", beside, before), sha256(b"\x01", beside, right)

    reached = walk(old, new, old_root)
    if proof:
        raise ValueError("something is left of the proof")
    return reached


class Witness:
    def __init__(self, log_key):
        name, key_id, key = log_key.split("+", 2)
        self.origin, self.log_id, self.log_key = name, bytes.fromhex(key_id), base64.b64decode(key)[1:]
        self.key, self.size, self.root = Ed25519PrivateKey.generate(), 0, None
        public = b"\x04" + self.key.public_key().public_bytes(Encoding.Raw, PublicFormat.Raw)
        self.key_id = sha256(NAME.encode(), b"\n", public)[:4]
        self.verifier = f"{NAME}+{self.key_id.hex()}+{base64.b64encode(public).decode()}"

    def add(self, body):
        head, _, note = body.decode().partition("\n\n")
        old, *proof = head.split("\n")
        old, proof = int(re.fullmatch("old (0|[1-9][0-9]*)", old)[1]), [base64.b64decode(line) for line in proof]
        text, _, lines = note.rpartition("\n\n")
        text += "\n"
        origin, size, root = text.split("\n")[:3]
        if origin != self.origin:
            raise No(404)
        size, root = int(size), base64.b64decode(root)
        mine = [base64.b64decode(line.split(" ")[2]) for line in lines.splitlines() if line.split(" ")[1] == origin]
        try:
            signature = next(signature for signature in mine if signature[:4] == self.log_id)
            Ed25519PublicKey.from_public_bytes(self.log_key).verify(signature[4:], text.encode())
        except (StopIteration, InvalidSignature):
            raise No(403) from None
        if old > size:
            raise No(400)
        if old != self.size:
            raise No(409, "text/x.tlog.size", f"{self.size}\n".encode())
        if old == size and self.root not in (None, root):
            raise No(409)
        if 0 < old < size:
            try:
                if roots(old, self.root, size, proof) != (self.root, root):
                    raise No(422)
            except (IndexError, ValueError):
                raise No(422) from None
        elif proof:
            raise No(422)
        self.size, self.root = size, root
        seconds = int(time.time())
        signature = self.key.sign(f"cosignature/v1\ntime {seconds}\n{text}".encode())
        line = base64.b64encode(self.key_id + seconds.to_bytes(8, "big") + signature).decode()
        return 200, "text/plain", f"\u2014 {NAME} {line}\n".encode()


class Authority:
    """A root and an authority under it, made anew each time."""

    def __init__(self, folder):
        self.folder = folder
        (folder / "ext").write_text("[tsa]\nbasicConstraints=critical,CA:FALSE\nextendedKeyUsage=critical,timeStamping\n")
        (folder / "ts.conf").write_text(
            f"[tsa]\ndefault_tsa=one\n[one]\nserial={folder}/serial\nsigner_cert={folder}/tsa.pem\n"
            f"signer_key={folder}/tsa.key\nsigner_digest=sha256\ndefault_policy=1.2.3.4.1\ndigests=sha256\n"
            "ess_cert_id_alg=sha256\n")
        (folder / "serial").write_text("01\n")
        for line in (
            "req -x509 -newkey rsa:2048 -nodes -keyout root.key -subj /CN=Invented-root -days 30 -sha256 -out root.pem",
            "req -newkey rsa:2048 -nodes -keyout tsa.key -subj /CN=Invented-authority -out tsa.csr",
            "x509 -req -in tsa.csr -CA root.pem -CAkey root.key -CAcreateserial -days 30 -sha256 -extfile ext "
            "-extensions tsa -out tsa.pem",
        ):
            self.openssl(line)

    def openssl(self, line):
        subprocess.run(["openssl", *line.split()], cwd=self.folder, capture_output=True, check=True)

    def stamp(self, query):
        (self.folder / "query").write_bytes(query)
        self.openssl("ts -reply -config ts.conf -queryfile query -out answer")
        return 200, "application/timestamp-reply", (self.folder / "answer").read_bytes()


def main():
    log_key, folder = sys.argv[1], pathlib.Path(sys.argv[2]).resolve()
    folder.mkdir(parents=True, exist_ok=True)
    witness, authority = Witness(log_key), Authority(folder)

    class Outsiders(http.server.BaseHTTPRequestHandler):
        def do_POST(self):
            body = self.rfile.read(int(self.headers["content-length"]))
            try:
                if self.path == "/witness/add-checkpoint":
                    told = witness.add(body)
                else:
                    told = authority.stamp(body)
            except No as no:
                told = no.told
            status, media, body = told
            self.send_response(status)
            self.send_header("content-type", media)
            self.send_header("content-length", str(len(body)))
            self.end_headers()
            self.wfile.write(body)

        def log_message(self, *_):
            pass

    server = http.server.HTTPServer(("127.0.0.1", 0), Outsiders)
    (folder / "witness.key").write_text(witness.verifier)
    (folder / "address.new").write_text(f"http://127.0.0.1:{server.server_port}")
    (folder / "address.new").rename(folder / "address")
    server.serve_forever()


if __name__ == "__main__":
    main()
