#!/usr/bin/env python3
"""Packets with the words of others: time stamps of an authority made here, witnesses, the last entry's open proof; each good one,
and each way in which it may not hold, for agree.py.

    others_words.py FOLDER
"""
import base64
import datetime
import hashlib
import json
import pathlib
import sys

from asn1crypto import algos, cms, core, tsp
from asn1crypto import x509 as asn1_x509
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec, padding, rsa
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

import handmade
from damage import Key
from handmade import OFFICE, ORIGIN, sha256, signature_line

UTC = datetime.timezone.utc
STAMPED = datetime.datetime.fromtimestamp(handmade.BEGIN / 1000, UTC) + datetime.timedelta(hours=1)
WITNESS, OTHER_WITNESS = Key(bytes([77] * 32)), Key(bytes([78] * 32))
DAY = datetime.timedelta(days=1)


class Authority:
    """A certificate and its key, certified by another or by itself."""

    def __init__(self, name, by=None, ca=True, key=None, begins=STAMPED - 100 * DAY, ends=STAMPED + 1000 * DAY, usage=None, critical=True,
                 basic=True, length=None, signs=True, more=(), salted=False):
        self.key = key or ec.generate_private_key(ec.SECP256R1())
        self.name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name)])
        builder = x509.CertificateBuilder(self.name if by is None else by.name, self.name, self.key.public_key(),
                                          x509.random_serial_number(), begins, ends)
        if ca and basic:
            builder = builder.add_extension(x509.BasicConstraints(True, length), True)
        if ca:
            builder = builder.add_extension(x509.KeyUsage(not signs, False, False, False, False, signs, signs, False, False), True)
        else:
            usage = [ExtendedKeyUsageOID.TIME_STAMPING] if usage is None else usage
            if usage:
                builder = builder.add_extension(x509.ExtendedKeyUsage(usage), critical)
        for extension in more:
            builder = builder.add_extension(x509.UnrecognizedExtension(x509.ObjectIdentifier("1.2.3.4.5"), b"\x05\0"), extension)
        above = (by or self).key
        salted = padding.PSS(padding.MGF1(hashes.SHA256()), 32) if salted else None
        larger = isinstance(above, ec.EllipticCurvePrivateKey) and above.curve.key_size > 256
        self.certificate = builder.sign(above, hashes.SHA384() if larger else hashes.SHA256(), rsa_padding=salted)
        self.der = self.certificate.public_bytes(serialization.Encoding.DER)
        self.pem = self.certificate.public_bytes(serialization.Encoding.PEM)


ROOT, OTHER_ROOT = Authority("Invented root"), Authority("Another root")
MIDDLE = Authority("Invented middle", ROOT)
SIGNER = Authority("Invented stamp", MIDDLE, ca=False)


def token(data, signer=SIGNER, others=(MIDDLE,), at=STAMPED, digest="sha256", imprint=None, named="v2", names=None, kind="tst_info",
          said=None, signers=1, bare=False, with_signer=True, accuracy=None, critical=False, broken=False, salt=None, mask=None):
    info = {"version": "v1", "policy": "1.2.3.4", "serial_number": 7, "gen_time": at,
            "message_imprint": {"hash_algorithm": {"algorithm": "sha256"}, "hashed_message": sha256(data) if imprint is None else imprint}}
    if accuracy:
        info["accuracy"] = {"seconds": accuracy}
    if critical:
        info["extensions"] = [{"extn_id": "1.2.3.4.5", "critical": True, "extn_value": b"\x05\0"}]
    body = tsp.TSTInfo(info).dump()
    attribute = lambda name, value: cms.CMSAttribute({"type": name, "values": [value]})
    attributes = [attribute("content_type", kind), attribute("message_digest", said or hashlib.new(digest, body).digest())]
    cert = (names or signer).der
    if named == "v1":
        attributes.append(attribute("signing_certificate", tsp.SigningCertificate({"certs": [{"cert_hash": hashlib.sha1(cert).digest()}]})))
    elif named == "v2":
        attributes.append(attribute("signing_certificate_v2", tsp.SigningCertificateV2(
            {"certs": [{"hash_algorithm": {"algorithm": "sha256"}, "cert_hash": sha256(cert)}]})))
    attributes = cms.CMSAttributes(attributes)
    own = asn1_x509.Certificate.load(signer.der)
    message = attributes.dump()
    known = {"sha256": hashes.SHA256(), "sha384": hashes.SHA384(), "sha512": hashes.SHA512(), "sha1": hashes.SHA1()}
    hashed, salted = known[digest], None
    if salt is not None:
        salted = {"hash_algorithm": {"algorithm": digest}, "salt_length": salt,
                  "mask_gen_algorithm": {"algorithm": "mgf1", "parameters": {"algorithm": mask or digest}}}
        signed = signer.key.sign(message, padding.PSS(padding.MGF1(known[mask or digest]), salt), hashed)
        algorithm = "rsassa_pss"
    elif isinstance(signer.key, rsa.RSAPrivateKey):
        signed, algorithm = signer.key.sign(message, padding.PKCS1v15(), hashed), "rsassa_pkcs1v15"
    else:
        signed, algorithm = signer.key.sign(message, ec.ECDSA(hashed)), f"{digest}_ecdsa"
    if broken:
        signed = signer.key.sign(b"else", ec.ECDSA(hashed)) if salt is None else \
            signer.key.sign(b"else", padding.PSS(padding.MGF1(hashed), salt), hashed)
    one = {"version": "v1", "sid": cms.SignerIdentifier("issuer_and_serial_number", {"issuer": own.issuer, "serial_number": own.serial_number}),
           "digest_algorithm": algos.DigestAlgorithm({"algorithm": digest}), "signature_algorithm": {"algorithm": algorithm, **({"parameters": salted} if salted else {})}, "signature": signed}
    if not bare:
        one["signed_attrs"] = attributes
    certificates = [asn1_x509.Certificate.load(each.der) for each in ([signer] if with_signer else []) + list(others)]
    signed_data = cms.SignedData({
        "version": "v3", "digest_algorithms": [{"algorithm": digest}], "certificates": certificates, "signer_infos": [one] * signers,
        "encap_content_info": {"content_type": "tst_info", "content": core.ParsableOctetString(body)}})
    return cms.ContentInfo({"content_type": "signed_data", "content": signed_data}).dump()


def stamped(change=lambda raw: raw, size=10, **more):
    def at(log):
        note = log["checkpoints"][-1].encode()
        return {**log, "tokens": [{"size": size, "token": change(token(note, **more))}]}
    return {"log.map": at}


def cosigned(text, key=WITNESS, name="witness.example/w1", at=handmade.BEGIN // 1000 + 3600, word=None, cut=None, kind=b"\x04"):
    key_id = sha256(name.encode() + b"\n" + kind + key.public)[:4]
    signed = key.private.sign((word or f"cosignature/v1\ntime {at}\n{text}").encode())
    return f"\u2014 {name} {base64.b64encode((key_id + at.to_bytes(8, 'big') + signed)[:cut]).decode()}\n"


def witnessed(place="note", **more):
    return {place: lambda note: note + cosigned(note.split("\n\n")[0] + "\n", **more)}


def witness_key(key=WITNESS, name="witness.example/w1"):
    return f"{name}+{sha256(name.encode() + bytes([10, 4]) + key.public)[:4].hex()}+{base64.b64encode(bytes([4]) + key.public).decode()}"


def proof(change=lambda text: text, lines=lambda l: l):
    """Adds the last entry's place in an open form, made of the log beside it."""
    import cbor2

    def at(files):
        log, entries = cbor2.loads(files["log.cbor"]), cbor2.loads(files["entries.cbor"])
        here = {sha256(raw) for raw in entries["visit"]}
        leaf = [one for one in log["leaves"] if one["entry"] in here][-1]
        data = leaf["entry"] + leaf["received_at"].to_bytes(8, "big") + leaf["about"]
        text = ["c2sp.org/tlog-proof@v1", "extra " + base64.b64encode(data).decode(), f"index {leaf['number']}"]
        text += [base64.b64encode(one).decode() for one in leaf["path"]]
        return {**files, "last-entry.tlog-proof": change("\n".join(lines(text)) + "\n\n" + log["checkpoints"][-1]).encode()}
    return {"files": at}


RSA, P384 = rsa.generate_private_key(65537, 2048), ec.generate_private_key(ec.SECP384R1())
LARGER = Authority("Larger middle", ROOT, key=P384)
ROOTS, WITNESSES = ["--tsa-root", "root.pem"], ["--witness", witness_key()]
LATE = Authority("Late stamp", MIDDLE, ca=False, begins=STAMPED + DAY)
SHORT = Authority("Short root", length=0)
BELOW_SHORT = Authority("Below", SHORT)
FORGED, UNCHECKED = ["forged_time_stamp"], []


def by(signer, *others, **more):
    return stamped(signer=signer, others=others, **more)


SALTING = Authority("Salting middle", ROOT, key=RSA)


def leaf_of(parent, **more):
    return Authority("Odd stamp", parent, ca=False, **more)


def cases():
    short = leaf_of(BELOW_SHORT)
    no_basic, no_sign = Authority("No basic", ROOT, basic=False), Authority("No sign", ROOT, signs=False)
    past = Authority("Past", ROOT, ends=STAMPED - DAY)
    for name, changes, expect in [
        ("stamp", stamped(), []), ("stamp_by_the_root_itself", by(leaf_of(ROOT)), []), ("stamp_by_rsa", by(leaf_of(MIDDLE, key=RSA), MIDDLE), []),
        ("stamp_named_the_old_way", stamped(named="v1"), []), ("stamp_by_rsa_and_sha512", by(leaf_of(MIDDLE, key=RSA), MIDDLE, digest="sha512"), []), ("stamp_with_accuracy", stamped(accuracy=90), []),
        ("stamp_of_another_size", stamped(size=4), FORGED), ("stamp_of_no_size", stamped(size=99), FORGED),
        ("stamp_of_another_imprint", stamped(imprint=sha256(b"x")), FORGED), ("stamp_signature_broken", stamped(broken=True), FORGED),
        ("stamp_digest_wrong", stamped(said=bytes(32)), FORGED), ("stamp_kind_wrong", stamped(kind="data"), FORGED),
        ("stamp_names_another", stamped(names=MIDDLE), FORGED), ("stamp_names_nobody", stamped(named=None), FORGED),
        ("stamp_without_its_certificate", stamped(with_signer=False), FORGED), ("stamp_without_attributes", stamped(bare=True), FORGED),
        ("stamp_of_two_signers", stamped(signers=2), FORGED), ("stamp_with_bytes_behind", stamped(lambda raw: raw + b"\0"), FORGED),
        ("stamp_cut_short", stamped(lambda raw: raw[:-9]), FORGED), ("stamp_of_the_digest_alone", {"log.map": lambda log: {**log, "tokens": [
            {"size": 10, "token": sha256(log["checkpoints"][-1].encode())}]}}, FORGED),
        ("stamp_usage_not_critical", by(leaf_of(MIDDLE, critical=False), MIDDLE), FORGED),
        ("stamp_usage_of_more", by(leaf_of(MIDDLE, usage=[ExtendedKeyUsageOID.TIME_STAMPING, ExtendedKeyUsageOID.CODE_SIGNING]), MIDDLE), FORGED),
        ("stamp_usage_of_another", by(leaf_of(MIDDLE, usage=[ExtendedKeyUsageOID.CODE_SIGNING]), MIDDLE), FORGED),
        ("stamp_without_usage", by(leaf_of(MIDDLE, usage=[]), MIDDLE), FORGED), ("stamp_before_it_was_valid", by(LATE, MIDDLE), FORGED),
        ("stamp_without_the_middle", stamped(others=()), FORGED), ("stamp_of_another_root", by(leaf_of(OTHER_ROOT)), FORGED),
        ("stamp_of_its_own_root", by(leaf_of(OTHER_ROOT), OTHER_ROOT), FORGED),
        ("stamp_by_a_middle_without_basic_constraints", by(leaf_of(no_basic), no_basic), FORGED), ("stamp_by_a_middle_that_may_not_sign", by(leaf_of(no_sign), no_sign), FORGED),
        ("stamp_by_a_middle_of_the_past", by(leaf_of(past), past), FORGED), ("stamp_by_a_signer_as_a_middle", by(leaf_of(SIGNER), SIGNER, MIDDLE), FORGED),
        ("stamp_of_an_unknown_critical_extension", stamped(critical=True), UNCHECKED),
        ("stamp_certificate_of_an_unknown_critical_extension", by(leaf_of(MIDDLE, more=[True]), MIDDLE), UNCHECKED),
        ("stamp_certificate_of_an_unknown_extension", by(leaf_of(MIDDLE, more=[False]), MIDDLE), []),
        ("stamp_on_p384", by(leaf_of(LARGER, key=P384), LARGER, digest="sha384"), []),
        ("stamp_on_p384_with_sha256", by(leaf_of(MIDDLE, key=P384), MIDDLE), []),
        ("stamp_on_p384_broken", by(leaf_of(LARGER, key=P384), LARGER, digest="sha384", broken=True), FORGED),
        ("stamp_by_pss", by(leaf_of(MIDDLE, key=RSA), MIDDLE, salt=32), []),
        ("stamp_by_pss_and_sha512", by(leaf_of(MIDDLE, key=RSA), MIDDLE, digest="sha512", salt=20), []),
        ("stamp_by_pss_broken", by(leaf_of(MIDDLE, key=RSA), MIDDLE, salt=32, broken=True), FORGED),
        ("stamp_under_an_authority_of_pss", by(leaf_of(SALTING, salted=True), SALTING), []),
        ("stamp_digest_sha1", stamped(digest="sha1"), UNCHECKED), ("stamp_before_the_entries", stamped(at=STAMPED - DAY), []),
        ("stamp_of_long_ago", stamped(at=STAMPED - 99 * DAY), []),
    ]:
        yield name, changes, expect, ROOTS
        yield name + "_strictly", changes, None, ROOTS + ["--strict"]
        yield name + "_without_a_root", changes, None, []
    yield "stamp_of_too_long_a_path", by(short, BELOW_SHORT), FORGED, ["--tsa-root", "short.pem"]
    both = {**stamped(), **witnessed()}
    yield "strictly", both, [], ROOTS + WITNESSES + ["--strict"]
    yield "strictly_without_a_witness", both, ["no_witness"], ROOTS + ["--strict"]
    yield "strictly_without_a_root", both, ["unchecked_time_stamp"], WITNESSES + ["--strict"]
    yield "strictly_of_nobody", {}, ["no_witness", "unchecked_time_stamp"], ROOTS + WITNESSES + ["--strict"]
    yield "two_roots", stamped(), [], ["--tsa-root", "other.pem"] + ROOTS
    yield "another_root", stamped(), FORGED, ["--tsa-root", "other.pem"]
    other = ["--witness", witness_key(OTHER_WITNESS, "witness.example/w2")]
    for name, changes in [
        ("witness", witnessed()), ("witness_of_the_first", witnessed("early")), ("witness_another_time_signed", witnessed(word="cosignature/v1\ntime 5\nx\n")),
        ("witness_of_another_key", witnessed(key=OTHER_WITNESS)), ("witness_too_short", witnessed(cut=60)), ("witness_too_long", {"note": lambda n: n + cosigned(n, cut=None)[:-1] + "\n"}),
        ("witness_as_an_ordinary_line", {"note": lambda n: n + signature_line(WITNESS, "witness.example/w1", n.split("\n\n")[0] + "\n")}),
        ("witness_of_another_name", witnessed(name="witness.example/w3")), ("witness_of_another_kind", witnessed(kind=b"\x01")), ("witness_before_the_entries", witnessed(at=handmade.BEGIN // 1000 - 9999)),
        ("witness_of_time_nought", witnessed(at=0)), ("witness_none", {})]:
        yield name, changes, [], WITNESSES
        yield name + "_or_another", changes, [], other + WITNESSES
    at = lambda n, change: proof(lines=lambda l: l[:n] + [change(l[n])] + l[n + 1:])
    unreadable, unlogged = ["unreadable_attachment"], ["unlogged_entry"]
    for name, changes, expect in [
        ("proof", proof(), []), ("proof_without_extra", proof(lines=lambda l: l[:1] + l[2:]), []), ("proof_of_another_kind", at(0, lambda _: "c2sp.org/tlog-proof@v2"), unreadable),
        ("proof_of_another_leaf", at(1, lambda _: "extra AAAA"), unlogged), ("proof_extra_unpadded", at(1, lambda l: l.rstrip("=") + "A"), unreadable), ("proof_extra_empty", at(1, lambda _: "extra "), unlogged),
        ("proof_of_another_place", at(2, lambda _: "index 3"), unlogged), ("proof_index_leading_zero", at(2, lambda l: l.replace(" ", " 0")), unreadable), ("proof_index_negative", at(2, lambda _: "index -1"), unreadable),
        ("proof_index_largest", at(2, lambda _: f"index {(1 << 64) - 1}"), unlogged), ("proof_index_gone", proof(lines=lambda l: l[:2] + l[3:]), unreadable), ("proof_index_first", proof(lines=lambda l: [l[0], l[2], l[1], *l[3:]]), unreadable),
        ("proof_of_a_shorter_path", proof(lines=lambda l: l[:-1]), unlogged), ("proof_of_a_longer_path", proof(lines=lambda l: l + [base64.b64encode(bytes(32)).decode()]), unlogged),
        ("proof_of_64_hashes", proof(lines=lambda l: l[:3] + [base64.b64encode(bytes(32)).decode()] * 64), unlogged), ("proof_of_65_hashes", proof(lines=lambda l: l[:3] + [base64.b64encode(bytes(32)).decode()] * 65), unreadable),
        ("proof_hash_of_31_bytes", at(3, lambda _: base64.b64encode(bytes(31)).decode()), unreadable), ("proof_hash_of_hexadecimal", at(3, lambda l: base64.b64decode(l).hex()), unreadable),
        ("proof_without_a_note", proof(lambda t: t.split("\n\n")[0] + "\n"), unreadable), ("proof_with_an_empty_note", proof(lambda t: t.split("\n\n")[0] + "\n\n"), unreadable),
        ("proof_with_carriage_returns", proof(lambda t: t.replace("\n", "\r\n")), unreadable), ("proof_with_a_line_feed_behind", proof(lambda t: t + "\n"), unreadable),
        ("proof_not_utf8", {"files": lambda f: {**proof()["files"](f), "last-entry.tlog-proof": b"\xff"}}, unreadable), ("proof_empty", {"files": lambda f: {**f, "last-entry.tlog-proof": b""}}, unreadable),
        ("proof_of_another_note", proof(lambda t: t.split("\n\n")[0] + "\n\n" + OFFICE.note(ORIGIN, 10, bytes(32))), ["log_fork"]),
        ("proof_of_a_note_of_a_stranger", proof(lambda t: t.split("\n\n")[0] + "\n\n" + handmade.STRANGER.note(ORIGIN, 10, bytes(32))), ["forged_checkpoint"]),
    ]:
        yield name, changes, expect, []


def main():
    folder = pathlib.Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    for name, authority in (("root", ROOT), ("other", OTHER_ROOT), ("short", SHORT)):
        (folder / f"{name}.pem").write_bytes(authority.pem)
    listed = []
    for name, changes, expect, given in cases():
        (folder / f"{name}.pdf").write_bytes(handmade.packet(changes))
        given = [str(folder / word) if word.endswith(".pem") else word for word in given]
        listed.append({"file": f"{name}.pdf", "key": OFFICE.public.hex(), "expect": expect, "marked": None, "only": None, "against": None,
                       "arguments": given})
    (folder / "cases.json").write_text(json.dumps(listed, indent=1))
    print(f"{len(listed)} files")


if __name__ == "__main__":
    main()
