"""Section 5: the entries."""
import math
import re

from .cose import envelope, protected_of, signed_by, to_sign
from .forms import (Refused, decode, fields, is_bytes, is_digest, is_list, is_number, is_time, is_uint, listed_fields,
                    map_without, need, sha256)

FORMAT = "farsiding packet 1"
LISTS = ("visit", "car", "site", "roster")
LETTERS = {"visit": b"v", "car": b"cv", "site": b"s", "roster": b"r"}
LARGEST_ENTRY = 32768
LARGEST_PROCEDURE = 262144
PHOTO_OF = {"car_number", "seal", "threads", "defect", "instrument", "housing", "paper", "other"}
PLACE = ("latitude", "longitude", "accuracy_m")


def read_entries(value):
    fields(value, ("format", "stay") + LISTS)
    need(value["format"] == FORMAT, "another format")
    need(is_list(value["stay"], lambda visit: is_bytes(visit, 16)))
    for name in LISTS:
        need(is_list(value[name], lambda entry: isinstance(entry, bytes)))
    return value


def says_of(entry, kind):
    """The content of a statement of this kind, nulls and all; None if it is of another, or no map."""
    says = entry["body"]["says"]
    content = says.get(kind) if isinstance(says, dict) and len(says) == 1 else None
    return content if isinstance(content, dict) else None


def photo_of(entry):
    """Digest and length of a photograph an entry of kind `photo` names."""
    says = says_of(entry, "photo") or {}
    photo = says.get("photo")
    if not (isinstance(photo, dict) and isinstance(says.get("of"), str) and says["of"] in PHOTO_OF
            and isinstance(says.get("about", ""), str) and is_digest(photo.get("sha256")) and is_uint(photo.get("length")) and isinstance(photo.get("media"), str)):
        return None
    return photo["sha256"], photo["length"]


def site_opened(entry):
    """The id of the site an entry of kind `opened` names."""
    says = says_of(entry, "opened") or {}
    if not (isinstance(says.get("car"), str) and is_bytes(says.get("site"), 16) and is_digest(says.get("procedure"))
            and isinstance(says.get("receiver"), str) and says["receiver"] in ("fixed_tank", "truck")):
        return None
    return says["site"]


def claimed(entry):  # 8
    when = entry["body"]["when"]
    return when["at"] - when.get("ahead_millis", 0)


def seen_of(body):
    """Size and root of the checkpoint the device had seen, if the entry says so in the right form."""
    seen = body.get("seen")
    if not (isinstance(seen, dict) and is_uint(seen.get("size")) and seen["size"] >= 1 and is_digest(seen.get("root"))):
        return None
    return seen["size"], seen["root"]


def check_place(place):
    fields(place, PLACE)
    need(all(isinstance(place[name], float) and math.isfinite(place[name]) for name in PLACE), "no place")


def hand_holds(hand, payload, device):
    if not (isinstance(hand, dict) and set(hand) == {"key", "signature"} and is_digest(hand["key"])
            and is_bytes(hand["signature"], 64)):
        return False
    without = map_without(payload, "hand")
    message = to_sign(protected_of(hand["key"]), "farsiding person 1", device + without)
    return signed_by(hand["key"], hand["signature"], message)


def open_entry(raw, fold):
    need(len(raw) <= LARGEST_ENTRY + LARGEST_PROCEDURE, "too large")
    device, payload = envelope(raw, "farsiding entry 1")
    body = decode(payload)
    need(isinstance(body, dict) and all(isinstance(name, str) for name in body), "a name that is no text")
    body = listed_fields(body, ("about", "slot", "says", "by", "seq", "when"))
    need(is_bytes(body["about"], 17) and body["about"][0] in b"vcsr" and is_uint(body["seq"]))
    says = body["says"]
    need(isinstance(says, str) or isinstance(says, dict) and len(says) == 1 and all(isinstance(name, str) for name in says))
    publishes = isinstance(says, dict) and "procedure_published" in says
    need(len(raw) <= LARGEST_ENTRY or publishes, "too large")
    need(isinstance(body["slot"], str) and isinstance(body["by"], str) and isinstance(body.get("why", ""), str))
    when = body["when"] = listed_fields(body["when"], ("at", "offset_minutes"))
    need(is_time(when["at"]) and is_number(when["offset_minutes"]) and -32768 <= when["offset_minutes"] < 32768
         and is_time(when.get("ahead_millis", 0)))
    need(is_list(body.get("follows", ()), is_digest) and is_list(body.get("replaces", ()), is_digest))
    need(is_digest(body.get("prev", bytes(32))))
    if "place" in body:
        check_place(body["place"])
    need(not body.get("replaces") or body.get("why", "").strip(), "replaces without a reason")
    if fold >= 2 and "hand" in body:
        need(hand_holds(body["hand"], payload, device), "the person's signature does not hold")
    return {"id": sha256(raw), "device": device, "body": body}


class Entries:
    """The part of the verifier that opens entries."""

    def open_entries(self):
        self.visit, self.all, self.order, self.altered = [], [], {}, 0
        self.stay = set(self.entries["stay"])
        for name in LISTS:
            self.order[name] = []
            for number, raw in enumerate(self.entries[name], 1):
                try:
                    entry = open_entry(raw, self.fold)
                except Refused as why:
                    self.altered += 1
                    self.broken("altered_entry", f"entry {number} of {name}: {why}")
                    continue
                entry["list"] = name
                self.order[name].append(entry["id"])
                self.all.append(entry)
                if name == "visit":
                    self.visit.append(entry)
        sites = {b"s" + site for site in map(site_opened, self.visit) if site is not None}
        besides = {"site": sites, "roster": {b"r" + sha256(self.key)[:16]}}
        for entry in self.all:
            if not self.belongs(entry, besides):
                self.broken("foreign_entry", f"entry {entry['id'].hex()} is about something else than {entry['list']}")
        if not self.altered:
            self.holds("entries", f"{len(self.all)} entries bear the signatures of their devices")

    def belongs(self, entry, besides):
        """Whether an entry is about what its list is; `besides` has what `site` and `roster` must be about in fold 3."""
        about, name = entry["body"]["about"], entry["list"]
        if self.fold >= 3 and name in besides:
            return about in besides[name]
        if name != "visit":
            return about[0] in LETTERS[name]
        if about[:1] != b"v" or about[1:] in self.stay:
            return about[:1] == b"v"
        return self.fold >= 3 and self.joins(entry)

    def joins(self, entry):
        """Whether an entry of another visit speaks of that one's being of this stay."""
        slot = re.fullmatch("joined/([0-9a-f]{32})", entry["body"]["slot"])
        other = bytes.fromhex(slot[1]) if slot else None
        if other not in self.stay:
            return False
        said = [(says_of(entry, kind) or {}).get("other") for kind in ("joined", "not_joined")]
        agreed = (says_of(entry, "agreement") or {}).get("keeps")
        return other in said or is_digest(agreed) or says_of(entry, "withdrawn") is not None

    def named_photos(self):
        """The digests of the photographs entries name."""
        named = set()
        for entry in self.all:
            for kind in ("seal", "defect"):
                photo = (says_of(entry, kind) or {}).get("photo")
                if is_digest(photo):
                    named.add(photo)
            photo = photo_of(entry)
            if photo is not None:
                named.add(photo[0])
        return named

    def photos(self, files, seal):  # 9
        signed, named = {}, self.named_photos()
        for entry in self.all:
            photo = photo_of(entry)
            if photo is not None:
                lengths = signed.setdefault(photo[0], set())
                if self.fold < 2:
                    lengths.clear()
                lengths.add(photo[1])
        sound, there = True, set()
        for name, file in sorted(files.items()):
            digest = digest_in(name)
            if digest is None:
                continue
            there.add(digest)
            if file.sha256 == digest:
                if signed.get(digest, set()) - {file.length}:
                    if self.fold < 2:
                        sound = False
                        self.broken("altered_photo", f"{name} has another length than signed for")
                    else:
                        self.mark("other_length", f"an entry gives another length than {name} has")
            elif file.sha256 in named:
                sound = False
                self.broken("swapped_photo", f"under the name {name} stands another photograph")
            else:
                sound = False
                self.broken("altered_photo", f"{name} is not the photograph signed for")
        sealed = {digest_in(listed["name"]) for listed in seal["attachments"]} if seal else set()
        absent = [digest for digest in signed if digest not in there and digest not in sealed]
        if absent:
            self.mark("absent_photo", f"{len(absent)} photographs were not at the office")
        if sound:
            self.holds("photos", "the photographs are those signed for")


def digest_in(name):
    return bytes.fromhex(name[:64]) if re.fullmatch(r"[0-9a-f]{64}\..*", name) else None
