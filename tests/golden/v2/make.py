#!/usr/bin/env python3
"""Made what stands in this folder, once, with the program of commit 10ddcce. Not run by any test: a later program
would write something else. Kept so that anybody can see how the data came about.

    cargo build -p farsiding-server -p farsiding-demo -p farsiding-bindings      (in a checkout of 10ddcce)
    python3 tests/golden/v2/make.py TARGET_DEBUG_FOLDER EMPTY_WORK_FOLDER

Everything in it is invented: people, sites, cars, readings, keys.
"""

import base64
import gzip
import hashlib
import json
import os
import pathlib
import re
import shutil
import sqlite3
import struct
import subprocess
import sys
import urllib.parse
import urllib.request
import zlib

DEBUG, WORK = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[2]
FARSIDING = DEBUG / "farsiding"
DATA = WORK / "demo" / "office"
PASSWORD = "invented words for a golden office"


def run(*words, at=None, given=None, may_fail=False):
    """Runs `farsiding` at a time; its JSON where it asked for some, else its text."""
    env = {k: v for k, v in os.environ.items() if not k.startswith("FARSIDING")}
    if at:
        env["FARSIDING_CLOCK"] = at
    done = subprocess.run([FARSIDING, *map(str, words)], env=env, input=given, capture_output=True, text=True)
    if done.returncode and not may_fail:
        sys.exit(f"{words}: {done.stdout} {done.stderr}")
    try:
        return json.loads(done.stdout)
    except ValueError:
        return done.stdout


def device(name, *words, at, by=None, may_fail=False):
    more = ["--operator", by] if by else []
    if words[0] == "sync":  # the demonstration's devices enrolled when the office had another port
        words = (*words, "--server", office.url)
    return run("device", "--dir", WORK / "demo" / name, "--json", *more, *words, at=at, may_fail=may_fail)


def lines(name, visit, text, at):
    """One `add` a line; what is in brackets stays together."""
    for line in filter(None, map(str.strip, text.splitlines())):
        words = [word[1:-1] if word[0] == "[" else word for word in re.findall(r"\[[^\]]*\]|[^ \[]+\[[^\]]*\]|\S+", line)]
        device(name, "add", visit, *words, at=at)


class Office:
    def __init__(self, clock):
        self.clock = WORK / "office-clock"
        self.at(clock)
        env = {k: v for k, v in os.environ.items() if not k.startswith("FARSIDING")}
        env["FARSIDING_CLOCK"] = f"@{self.clock}"
        self.child = subprocess.Popen([FARSIDING, "serve", "--data", DATA, "--listen", "127.0.0.1:0"], env=env,
                                      stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        self.url = self.child.stdout.readline().strip().removeprefix("listening on ")

    def at(self, clock):
        self.clock.write_text(clock)

    def stop(self):
        self.child.terminate()
        assert self.child.wait() == 0

    def ask(self, path, body=None, **headers):
        class Stay(urllib.request.HTTPRedirectHandler):
            def redirect_request(self, *_):
                return None
        request = urllib.request.Request(self.url + path, data=body, headers=headers)
        try:
            return urllib.request.build_opener(Stay).open(request)
        except urllib.error.HTTPError as answer:
            return answer


def png(label):
    """A small grey picture whose bytes depend on the label."""
    def piece(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
    shade = hashlib.sha256(label.encode()).digest()
    rows = b"".join(b"\0" + bytes((shade[y % 32] + x) % 256 for x in range(64)) for y in range(48))
    return (b"\x89PNG\r\n\x1a\n" + piece(b"IHDR", struct.pack(">IIBBBBB", 64, 48, 8, 0, 0, 0, 0))
            + piece(b"IDAT", zlib.compress(rows, 9)) + piece(b"IEND", b""))


def photo(name, visit, of, about, at):
    file = WORK / f"{of}-{len(list(WORK.glob('*.png')))}.png"
    file.write_bytes(png(file.name))
    device(name, "photo", visit, file, "--of", of, "--about", about, at=at)


subprocess.run([DEBUG / "farsiding-demo", "--once", "--port", "0", "--data", WORK / "demo"], check=True,
               stdout=subprocess.DEVNULL)
# The office described this site in the scenario; its devices know it.
SITE = "Thimble Siding (invented)"
office = Office("2026-11-20T15:00:00Z")

# A phone that is revoked while it is out and brings more afterwards; an operator who settles at the office's page.
phone_4 = WORK / "demo" / "phone-4"
device("phone-4", "init", "--name", "phone-4", by="dogwood", at="2026-11-20T08:00:00-07:00")
text = run("enrol", "--data", DATA, "--name", "phone-4", "--json", at="2026-11-20T15:00:00Z")["enrolment"]
text = office.url + text[text.index("/#"):]
device("phone-4", "enrol", text, at="2026-11-20T08:01:00-07:00")
device("phone-4", "sync", at="2026-11-20T08:02:00-07:00")
visit = device("phone-4", "open", "--car", "ZZQX 7718", "--site", SITE, "--spot", "stub",
               at="2026-11-20T08:05:00-07:00")["visit"]
lines("phone-4", visit, """
paper number=INV-5001 [car=ZZQX 7718] un_number=UN1978 product=Propane [billed=29 110 gal] relative_density=0.509 odorised=yes
protection blue_sign set
protection chocks set
car_capacity [33 700 gal]
cover open out 4 4
car_fittings liquid_a,vapour,gauging_device
valve liquid_a shut
reading pressure car arrival [81 psi] PG-21
reading temperature car arrival [49 °F] TW-23
hold [smell of gas at the sample line]
""", "2026-11-20T08:20:00-07:00")
photo("phone-4", visit, "housing", "", "2026-11-20T08:25:00-07:00")
office.at("2026-11-20T15:30:00Z")
device("phone-4", "sync", at="2026-11-20T08:30:00-07:00")
for name in ("phone-3", "phone-1", "office-1"):
    device(name, "sync", at="2026-11-20T08:31:00-07:00")
office.at("2026-11-20T16:00:00Z")
run("revoke", "--data", DATA, "--device", "phone-4", "--json", at="2026-11-20T16:00:00Z")
lines("phone-4", visit, """
remark [written before it was known here that this phone is revoked]
reading pressure car final [12 psi] PG-21
""", "2026-11-20T09:30:00-07:00")
office.at("2026-11-20T17:00:00Z")
device("phone-4", "sync", at="2026-11-20T10:00:00-07:00", may_fail=True)
lines("phone-3", visit, "reading pressure car final [36 psi] LG-22", "2026-11-20T09:40:00-07:00")
device("phone-3", "sync", at="2026-11-20T10:01:00-07:00")
# What was said of one car at two phones, open for ever: a disagreement nobody settled.
lines("phone-1", visit, "reading temperature car final [44 °F] TW-13", "2026-11-20T09:45:00-07:00")
lines("phone-1", visit, "reading pressure car final [12 psi] PG-11", "2026-11-20T09:45:30-07:00")
lines("phone-3", visit, "reading temperature car final [52 °F] TW-23", "2026-11-20T09:46:00-07:00")
for name in ("phone-1", "phone-3"):
    device(name, "sync", at="2026-11-20T10:05:00-07:00")

# At the pages: an account, a settlement signed by the office's own desk, an inspector's link.
run("account", "add", "--data", DATA, "--name", "Clerk", at="2026-11-20T17:05:00Z", given=PASSWORD + "\n")
form = urllib.parse.urlencode({"name": "Clerk", "password": PASSWORD}).encode()
cookie = office.ask("/office/sign-in", form)
assert cookie.status == 303, cookie.read()
cookie = cookie.headers["set-cookie"].split(";")[0]
page = office.ask(f"/office/visits/{visit}", None, cookie=cookie).read().decode()
for _ in range(50):
    if 'name="keeps"' in page:
        break
    page = office.ask(f"/office/visits/{visit}", None, cookie=cookie).read().decode()
csrf = re.search(r'name="csrf" value="([^"]+)"', page)[1]
sentences = {line["said"]["entry"]: line["sentence"] if "sentence" in line else str(line)
             for line in device("phone-3", "show", visit, at="2026-11-20T10:06:00-07:00")["visit"]["history"]}
[pressure] = [block for block in re.findall(r"<form.*?</form>", page, re.S) if 'name="keeps"' in block and "12 psi" in block]
seen = re.search(r'name="seen" value="([^"]+)"', pressure)[1]
keeps = next(entry for entry, said in sentences.items() if "36 psi" in said)
form = urllib.parse.urlencode({"csrf": csrf, "keeps": keeps, "seen": seen,
                               "why": "The other one was read by nobody of ours"}).encode()
done = office.ask(f"/office/visits/{visit}/settle", form, cookie=cookie)
assert done.status == 303, done.read()
form = urllib.parse.urlencode({"csrf": csrf, "label": "An inspector (invented)", "days": "90"}).encode()
page = office.ask(f"/office/visits/{visit}/links", form, cookie=cookie).read().decode()
link = re.search(r"/office/link/[^<\s]+", page)[0]

# Every entry of every record as the office's own device has it: whatever a later program makes of them, they are there.
device("office-1", "sync", at="2026-11-20T10:15:00-07:00")
CARS = ["ZZQX 48213", "ZZQX 30551", "ZZQX 9942", "ZZQX 7718"]
history = {}
for car in CARS:
    view = device("office-1", "show", car, at="2026-11-20T10:16:00-07:00")["visit"]
    history[car] = sorted(line["said"]["entry"] for line in view["history"])

# A device that went out again: entries, a photograph and half-typed lines that only it has.
device("phone-1", "sync", "--fetch-photos", at="2026-11-20T10:20:00-07:00")
out = device("phone-1", "open", "--car", "ZZQX 9031", "--site", "Lantern Spur (invented)", "--spot", "track 2",
             at="2026-11-21T06:40:00-06:00")["visit"]
lines("phone-1", out, """
paper number=INV-5002 [car=ZZQX 9031] un_number=UN1978 product=Propane [billed=29 400 gal] relative_density=0.507 odorised=yes
protection blue_sign set
reading pressure car arrival [77 psi] PG-11
defect [the bolt of the cover is bent] yes
""", "2026-11-21T06:50:00-06:00")
photo("phone-1", out, "housing", "", "2026-11-21T06:55:00-06:00")
device("phone-1", "add", out, "reading", "pressure", "car", at="2026-11-21T06:56:00-06:00", may_fail=True)
assert device("phone-1", "drafts", at="2026-11-21T06:57:00-06:00")["drafts"]
device("phone-1", "carry-out", WORK / "out.carry", out, "ZZQX 48213", at="2026-11-21T06:58:00-06:00")

# A phone's book, made by the calls the phone's worker makes, in the browser's journal mode.
sys.path.insert(0, str(WORK / "python"))
shutil.copytree(ROOT / "bindings/python/farsiding", WORK / "python/farsiding")
shutil.copy(DEBUG / "libfarsiding_bindings.so", WORK / "python/farsiding")
from farsiding import open_book  # noqa: E402

office.at(__import__("datetime").datetime.now(__import__("datetime").timezone.utc).isoformat(timespec="seconds"))
KEY = hashlib.sha256(b"an invented phone").digest()
book = open_book(WORK / "phone", "field", KEY)
told = run("enrol", "--data", DATA, "--name", "phone-5", "--json")
who = json.loads(office.ask("/v1/enrol").read())
asked = bytes(book.enrol_request(told["code"], "phone-5", who["organisation_key"], int(who["server_time"])))
answer = json.loads(office.ask("/v1/enrol", asked, **{"content-type": "application/cbor"}).read())
book.enrolled(answer["organisation_key"], base64.b64decode(answer["certificate"]))


def meet():
    book.sync_start()
    while True:
        reply = office.ask("/v1/sync", book.sync_request(), **{"content-type": "application/octet-stream"})
        if json.loads(book.sync_receive(reply.read()))["done"]:
            break
    while (request := book.log_request()) is not None:
        reply = office.ask("/v1/log", request, **{"content-type": "application/octet-stream"})
        if json.loads(book.log_receive(reply.read()))["done"]:
            break


meet()
sites = json.loads(book.sites())
site = next(id for id, facts in sites.items() if "Lantern" in json.dumps(facts))
opening = {"car": "ZZQX 6120", "site": site, "receiver": "fixed_tank", "spot": "track 1"}
sent = book.open_visit(json.dumps(opening), "birch")
amount = lambda text, unit, value: {"text": text, "unit": unit, "value": value}
reading = {"measured": "pressure", "place": "car", "purpose": "arrival", "amount": amount("90 psi", "psi", 90),
           "instrument": "PG-11"}
book.append(f"visit:{sent}", json.dumps([{"says": {"reading": reading}}]), "birch")
meet()
unsent = book.open_visit(json.dumps({**opening, "car": "ZZQX 6121"}), "birch")
picture = png("a picture only the phone has")
named = json.loads(book.photo_taken(hashlib.sha256(picture).hexdigest(), len(picture), "image/png"))
book.append(f"visit:{unsent}", json.dumps([
    {"says": {"valve": {"fitting": "liquid_a", "position": "shut"}}},
    {"says": {"photo": {"photo": named, "of": "housing", "about": ""}}},
    {"says": {"remark": {"text": "No signal since the bridge."}}},
]), "birch")
book.set_draft("reading/arrival/temperature/car", "5")
phone_status = json.loads(book.status())
del book
office.stop()

# Packets, made while nobody serves, and what is handed out beside them.
(HERE / "packets").mkdir(exist_ok=True)
for name, words in {"ordinary": ["--car", "ZZQX 9942"], "photographs": ["--car", "ZZQX 48213"],
                    "joined_and_passed_over": ["--car", "ZZQX 30551"], "revoked_device": ["--visit", visit]}.items():
    made = run("export", "packet", "--data", DATA, *words, "--out", HERE / f"packets/{name}.pdf", "--json")
    (HERE / "packets/organisation.pub").write_text(made["organisation_key"] + "\n")
    print(name, made["bytes"])


def freeze(file, to):
    """A database without its helpers, in the journal mode it had; everything gzipped the same way each time."""
    for rest in ("-wal", "-journal"):
        left = file.with_name(file.name + rest)
        assert not left.exists() or left.stat().st_size == 0, left
    to.parent.mkdir(parents=True, exist_ok=True)
    to.with_name(to.name + ".gz").write_bytes(gzip.compress(file.read_bytes(), 9, mtime=0))


def freeze_folder(folder, to, leave=()):
    for file in sorted(p for p in folder.rglob("*") if p.is_file() and not p.name.endswith(("-wal", "-shm", "-journal"))):
        if file.name not in leave:
            freeze(file, to / file.relative_to(folder))


for target in ("office", "device", "phone"):
    shutil.rmtree(HERE / target, ignore_errors=True)
freeze_folder(DATA, HERE / "office", leave=("index.db",))
freeze_folder(WORK / "demo/phone-1", HERE / "device", leave=("device.lock",))
phone = WORK / "phone/field"
sqlite3.connect(phone).execute("PRAGMA journal_mode=TRUNCATE").close()
freeze(phone, HERE / "phone/field")
(HERE / "phone/key.hex").write_text(KEY.hex() + "\n")
(HERE / "phone/picture.png").write_bytes(picture)
shutil.copy(WORK / "out.carry", HERE / "out.carry")
seen = {
    "office": run("devices", "--data", DATA, "--json"),
    "device": run("device", "--dir", WORK / "demo/phone-1", "--json", "whoami", at="2026-11-21T07:00:00-06:00"),
    "phone": phone_status,
    "history": history,
    "account": {"name": "Clerk", "password": PASSWORD},
    "link": link,
    "visits": {"revoked": visit, "device_unsent": out, "phone_sent": sent, "phone_unsent": unsent},
}
(HERE / "expected.json").write_text(json.dumps(seen, indent=1, ensure_ascii=False) + "\n")
