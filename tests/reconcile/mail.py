"""The office's mail against a real SMTP server (aiosmtpd, PyPI) on loopback: taken, refused, down and up again, TLS
by STARTTLS and from the first byte, and a certificate nobody vouches for; and a defect forwarded from the page of a
running office, with its photographs. Run by ./run beside this file.
"""

import hashlib
import html
import http.cookiejar
import re
import time
import urllib.parse
import urllib.request

import json
import os
import subprocess
import sys
import tempfile
from datetime import datetime, timedelta, timezone
from email import message_from_bytes
from pathlib import Path
import socket
import ssl

from aiosmtpd.controller import Controller
from aiosmtpd.smtp import SMTP
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID
import ipaddress

import logging

logging.getLogger("mail.log").setLevel(logging.CRITICAL)  # a refused handshake is what is looked for
DEMO, FARSIDING = (str(Path(program).resolve()) for program in sys.argv[1:3])
failures = 0


def check(what, right):
    global failures
    print(("ok      " if right else "FAILED  ") + what)
    failures += not right


class Box:
    def __init__(self):
        self.letters, self.busy = [], True

    async def handle_RCPT(self, server, session, envelope, address, options):
        if address.startswith("nobody@"):
            return "550 no such box"
        if address.startswith("later@") and self.busy:
            return "451 come back later"
        envelope.rcpt_tos.append(address)
        return "250 OK"

    async def handle_DATA(self, server, session, envelope):
        self.letters.append((envelope.rcpt_tos, message_from_bytes(envelope.content), session.ssl is not None))
        return "250 taken"


class Starttls(Controller):
    def factory(self):
        return SMTP(self.handler, tls_context=self.tls, require_starttls=True)


def free_port():
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        return listener.getsockname()[1]


def certificate(folder, name):
    key = ec.generate_private_key(ec.SECP256R1())
    subject = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "invented mail server")])
    now = datetime.now(timezone.utc)
    made = (
        x509.CertificateBuilder().subject_name(subject).issuer_name(subject).public_key(key.public_key())
        .serial_number(x509.random_serial_number()).not_valid_before(now - timedelta(days=1))
        .not_valid_after(now + timedelta(days=2))
        .add_extension(x509.SubjectAlternativeName([x509.DNSName("localhost"), x509.IPAddress(ipaddress.ip_address("127.0.0.1"))]), False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), True)
        .sign(key, hashes.SHA256())
    )
    pem, secret = Path(folder, f"{name}.pem"), Path(folder, f"{name}.key")
    pem.write_bytes(made.public_bytes(serialization.Encoding.PEM))
    secret.write_bytes(key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()))
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(pem, secret)
    return pem, context


with tempfile.TemporaryDirectory() as folder:
    data = f"{folder}/month/office"
    subprocess.run([DEMO, "--month", f"{folder}/month", "--faults", "none"], check=True, capture_output=True)
    at = datetime(2026, 11, 10, tzinfo=timezone.utc)

    def farsiding(*words, text=None, fails=False):
        clock = at.isoformat().replace("+00:00", "Z")
        done = subprocess.run([FARSIDING, "mail", *words, "--data", data], input=text, text=True, capture_output=True,
                              env={**os.environ, "FARSIDING_CLOCK": clock})
        assert (done.returncode != 0) == fails, done.stderr
        return done.stdout + done.stderr

    def settings(port, security, root=None, host="127.0.0.1"):
        text = f'host = "{host}"\nport = {port}\nsecurity = "{security}"\nfrom = "office@invented.invalid"\nseconds = 5\n'
        return text + (f'root = "{root}"\n' if root else "")

    def letter():
        return json.loads(farsiding("list").splitlines()[0])

    def send(to):
        farsiding("try", "--to", to)
        farsiding("send")
        return letter()

    first = send("shop@invented.invalid")
    check("without settings a letter waits and says why", first["state"] == "waiting" and "not set up" in first["said"])
    refused = farsiding("set", text=settings(25, "plain", host="mail.invented.invalid"), fails=True)
    check("no mail without TLS to another machine", "without TLS" in refused)
    secret = farsiding("set", text='password = "s3cret', fails=True)
    check("a broken file does not tell its password", "s3cret" not in secret)

    box = Box()
    server = Controller(box, hostname="127.0.0.1", port=free_port())
    server.start()
    farsiding("set", text=settings(server.port, "plain"))
    check("mail.toml is for its owner alone", os.stat(f"{data}/mail.toml").st_mode & 0o077 == 0)
    sent = send("shop@invented.invalid")
    check("a letter taken is sent", sent["state"] == "sent" and "250" in sent["said"] and len(box.letters) == 1)
    check("a trial is about no record and has no extract", not any(part.get_filename() for part in box.letters[0][1].walk()))
    no = send("nobody@invented.invalid")
    check("a refused recipient has failed and is not tried again", no["state"] == "failed" and "550" in no["said"])
    later = send("later@invented.invalid")
    check("a server that says later is tried later", later["state"] == "waiting" and later["tries"] == 1)

    server.stop()
    down = send("shop@invented.invalid")
    check("with the server down it waits", down["state"] == "waiting" and down["tries"] == 1)
    taken = len(box.letters)
    server = Controller(box, hostname="127.0.0.1", port=server.port)
    server.start()
    farsiding("send")
    check("not before its time", letter()["state"] == "waiting" and len(box.letters) == taken)
    at += timedelta(minutes=2)
    farsiding("send")
    check("and goes when the server is up", letter()["state"] == "sent" and len(box.letters) > taken)
    server.stop()

    for security, kind in [("starttls", Starttls), ("tls", Controller)]:
        pem, context = certificate(folder, security)
        box = Box()
        if kind is Starttls:
            server = Starttls(box, hostname="127.0.0.1", port=free_port())
            server.tls = context
            # Its own trial connection at the start speaks no TLS and is content with the greeting.
        else:
            server = Controller(box, hostname="127.0.0.1", port=free_port(), ssl_context=context)
        server.start()
        farsiding("set", text=settings(server.port, security))
        stranger = send("shop@invented.invalid")
        check(f"{security}: a certificate nobody vouches for is not trusted",
              stranger["state"] == "waiting" and not box.letters and "certificate" in stranger["said"].lower())
        farsiding("set", text=settings(server.port, security, root=pem))
        trusted = send("shop@invented.invalid")
        check(f"{security}: with its root named the letter goes by TLS",
              trusted["state"] == "sent" and len(box.letters) == 1
              # aiosmtpd notes TLS in the session for STARTTLS only; the other server speaks nothing else.
              and (box.letters[-1][2] or kind is not Starttls))
        server.stop()


def forwarded_from_the_page():
    """The demonstration's worn plug, forwarded by a clerk: to a shop, to nobody, and to a box that is busy at first."""
    with tempfile.TemporaryDirectory() as folder:
        told = subprocess.run([DEMO, "--once", "--data", f"{folder}/demo", "--port", "0"], check=True,
                              capture_output=True, text=True).stdout
        base, data = re.search(r"http://127\.0\.0\.1:\d+", told)[0], f"{folder}/demo/office"
        clock = {**os.environ, "FARSIDING_CLOCK": f"@{folder}/demo/office-clock"}
        box = Box()
        smtp = Controller(box, hostname="127.0.0.1", port=free_port())
        smtp.start()
        Path(data, "mail.toml").write_text(
            f'host = "127.0.0.1"\nport = {smtp.port}\nsecurity = "plain"\nfrom = "office@invented.invalid"\nseconds = 5\n')
        subprocess.run([FARSIDING, "account", "add", "--data", data, "--name", "Clerk (invented)"], env=clock,
                       input="invented words for a test\n", text=True, check=True, capture_output=True)
        server = subprocess.Popen([FARSIDING, "serve", "--data", data, "--listen", base.removeprefix("http://")],
                                  env=clock, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        try:
            while "listening on" not in server.stdout.readline():
                assert server.poll() is None, "the server ended"
            browser = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(http.cookiejar.CookieJar()))

            def page(path, **form):
                sent = urllib.parse.urlencode(form).encode() if form else None
                with browser.open(base + path, sent, timeout=20) as answer:
                    return html.unescape(answer.read().decode())

            def until(words):
                for _ in range(200):
                    text = page("/office/defects")
                    if words in text:
                        return text
                    time.sleep(0.1)
                return text

            page("/office/sign-in", name="Clerk (invented)", password="invented words for a test")
            first = page("/office/defects")
            token, defect = (re.search(f'name="{name}" value="([^"]+)"', first)[1] for name in ("csrf", "defect"))

            def forward(to):
                page("/office/defects/forward", csrf=token, defect=defect, to=to, words="Please look at this one.")

            forward("shop@invented.invalid")
            text = until("sent 2026-")
            check("a forwarded defect is shown as sent, with the mail server's own words",
                  "E-mail to shop@invented.invalid: sent 2026-" in text and "(250 taken)" in text)
            check("the page says that a photograph goes with it", "1 photograph" in text)
            letter = box.letters[0][1]
            files = {part.get_filename(): part for part in letter.walk() if part.get_filename()}
            pictures = {name: part for name, part in files.items() if name.startswith("photograph-")}
            check("one photograph goes with it, of the right kind",
                  [part.get_content_type() for part in pictures.values()] == ["image/png"])
            name, part = next(iter(pictures.items()), ("", None))
            bytes_of = part.get_payload(decode=True) if part else b""
            digest = hashlib.sha256(bytes_of).hexdigest()
            check("it is the photograph, byte for byte, under its digest", digest in name and
                  Path(data, "photos").joinpath(digest[:2], digest).read_bytes() == bytes_of)
            extract = files["record-extract.txt"].get_payload(decode=True).decode()
            plain = next(p for p in letter.walk() if p.get_content_type() == "text/plain" and not p.get_filename())
            check("the extract says car, site, fitting, defect and record", all(
                word in extract for word in ("ZZQX 7106", "Lantern Spur (invented)", "liquid valve B", "bottoms with",
                                             "Stay ", "does not declare the car safe")))
            check("the extract lists what was recorded, each with the entry's id", extract.count("    entry ") >= 2
                  and "Please look" not in extract)
            check("the clerk's words stand before it", plain.get_payload(decode=True).decode().startswith("Please look"))
            check("the subject names the car and the defect", "ZZQX 7106" in letter["subject"])

            forward("nobody@invented.invalid")
            check("a refused one is shown as failed, with why",
                  "E-mail to nobody@invented.invalid: FAILED: " in until("FAILED") and "no such box" in until("FAILED"))
            forward("later@invented.invalid")
            text = until("tried 1 time, again at")
            check("one that is put off says when it is tried again", "tried 1 time, again at 2026-" in text
                  and "come back later" in text)
            # The box has room now; a clerk need not wait for the next round.
            box.busy = False
            number = re.search(r'later@invented\.invalid.*?name="number" value="(\d+)"', text, re.S)[1]
            page("/office/defects/again", csrf=token, number=number)
            check("tried again from the page it goes",
                  "E-mail to later@invented.invalid: sent 2026-" in until("E-mail to later@invented.invalid: sent"))
            check("what was sent is not sent twice", len(box.letters) == 2)
        finally:
            server.terminate()
            server.wait(20)
            smtp.stop()


forwarded_from_the_page()
print(f"mail: {failures} failures")
sys.exit(1 if failures else 0)
