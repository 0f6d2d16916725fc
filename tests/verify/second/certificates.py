"""Section 6: certificates, and which entries do not count for their device's sake."""
from .cose import envelope, parts_of
from .entries import claimed, says_of
from .forms import Refused, decode, is_bytes, is_digest, is_list, is_time, is_uint, listed_fields, need, sha256

RIGHTS = {"record", "settle", "lift_hold", "override", "release", "withdraw_others", "keep_site", "issue_seals",
          "keep_people", "publish_procedures", "admit", "enrol", "read"}
LATER = {"sites", "rights", "renewed_at", "valid_until", "last", "earlier"}


def last_of(value):
    value = listed_fields(value, ("seq", "entry"))
    need(is_uint(value["seq"]) and is_digest(value["entry"]), "no last entry")
    return value


def check_grant(grant):
    need(grant["role"] in ("operator", "office", "inspector"), "no role")
    need(is_list(grant.get("sites", ()), lambda site: is_bytes(site, 16)), "no sites")
    need(is_list(grant.get("rights", ()), lambda word: isinstance(word, str) and word in RIGHTS), "no rights")


def open_certificate(raw, first, keys):
    """A certificate and who signed it, one of `keys`; `first` is the organisation's first root."""
    key, _, payload, _ = parts_of(raw)
    need(key in keys, "signed by another key")
    form = ("organisation", "device", "name", "role", "issued_at")
    certificate = listed_fields(decode(payload), form)
    two = "issuer" in certificate
    envelope(raw, "farsiding certificate 2" if two else "farsiding certificate 1", key)
    need(is_bytes(certificate["organisation"], 16) and is_digest(certificate["device"]))
    need(isinstance(certificate["name"], str))
    for name in ("issued_at", "revoked_at", "renewed_at", "valid_until"):
        need(name not in certificate or is_time(certificate[name]), "no time")
    check_grant(certificate)
    need(key == first or (two and certificate["organisation"] == sha256(first)[:16]), "of another organisation")
    if two:
        need(certificate["issuer"] == key, "another issuer")
    else:
        need(not LATER & set(certificate), "a certificate of version one has no sites or rights")
    if "last" in certificate:
        need("revoked_at" in certificate, "a last entry without a revocation")
        certificate["last"] = last_of(certificate["last"])
    need(isinstance(certificate.get("earlier", ()), tuple))
    earlier = []
    for grant in certificate.get("earlier", ()):
        grant = listed_fields(grant, ("role", "last"))
        check_grant(grant)
        grant["last"] = last_of(grant["last"])
        earlier.append(grant)
    certificate["earlier"] = earlier
    return certificate, key


class Devices:
    """The part of the verifier that knows devices."""

    def open_certificates(self, certificates):
        self.certified, self.forged = {}, False
        for raw in certificates:
            try:
                certificate, by = open_certificate(raw, self.key, self.keys)
                self.by(by, "certificate", max(certificate[name] for name in ("issued_at", "renewed_at", "revoked_at") if name in certificate))
                self.certified[certificate["device"]] = certificate
            except Refused as why:
                self.forged = True
                self.broken("forged_device", f"a certificate does not hold: {why}")

    def devices(self):
        if self.fold >= 2:
            self.judge()
            if not self.forged:
                self.holds("devices", "every certificate holds")
            return
        late = {}
        for device in sorted({entry["device"] for entry in self.all}):
            if device not in self.certified:
                self.forged = True
                self.broken("forged_device", f"device {device.hex()} is not certified")
        for entry in self.all:
            revoked = self.certified.get(entry["device"], {}).get("revoked_at")
            if revoked is not None and self.received.get(entry["id"], revoked) >= revoked:
                late[entry["device"]] = late.get(entry["device"], 0) + 1
        for device, count in sorted(late.items()):
            self.mark("revoked_device", f"{count} entries of {self.certified[device]['name']} came in after it was revoked")
        if not self.forged:
            self.holds("devices", "every device is certified")

    def mark_of(self, entry):
        """Why an entry does not count for its device's sake (fold 2, the first that applies)."""
        certificate = self.certified.get(entry["device"])
        if certificate is None:
            return "uncertified_device"
        revoked = certificate.get("revoked_at")
        if revoked is not None and self.received.get(entry["id"], revoked) >= revoked:
            return "revoked_device"
        return "expired_device" if claimed(entry) > certificate.get("valid_until", 1 << 63) else None

    def may_admit(self, entry):
        if self.mark_of(entry) is not None:
            return False
        certificate = self.certified[entry["device"]]
        grants = [certificate] + [one for one in certificate["earlier"] if entry["body"]["seq"] <= one["last"]["seq"]]
        return any("admit" in one["rights"] if "rights" in one else one["role"] == "office" for one in grants)

    def judge(self):
        marked, lists = {}, {}
        self.not_counting = set()
        for entry in self.all:
            lists.setdefault(entry["list"], []).append(entry)
        for entries in lists.values():
            words, taken_back = {}, set()
            for entry in entries:
                admitted = says_of(entry, "admitted")
                is_word = admitted is not None and is_digest(admitted.get("entry"))
                if (is_word or says_of(entry, "withdrawn") is not None) and self.may_admit(entry):
                    taken_back |= set(entry["body"].get("replaces", ()))
                    if is_word:
                        words[entry["id"]] = admitted["entry"]
            admitted = {late for word, late in words.items() if word not in taken_back}
            for entry in entries:
                code = self.mark_of(entry)
                if code and (code == "uncertified_device" or entry["id"] not in admitted):
                    self.not_counting.add(entry["id"])
                    marked.setdefault((code, entry["device"]), []).append(entry)
        for (code, device), entries in sorted(marked.items(), key=lambda item: item[0]):
            self.mark(code, f"{len(entries)} entries of {device.hex()} do not count")
