"""Sections 7.3 (time stamps, RFC 3161 with RFC 5652 and RFC 5816), 7.2 (witnesses) and 7.8 (strictly)."""
import hashlib
import re
from collections import namedtuple
from datetime import timedelta, timezone

from asn1crypto import cms, tsp
from cryptography import x509
from cryptography.exceptions import InvalidSignature, UnsupportedAlgorithm
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec, ed25519, padding, rsa
from cryptography.x509.oid import ExtendedKeyUsageOID, ExtensionOID

from .cose import signed_by
from .forms import Refused, base64_of, need, sha256
from .notes import parts_of

PLAY = 10 * 60 * 1000
DEEPEST_PATH, MOST_CERTIFICATES = 8, 64
DIGESTS = {"sha256": hashes.SHA256, "sha384": hashes.SHA384, "sha512": hashes.SHA512}
KNOWN_EXTENSIONS = {ExtensionOID.BASIC_CONSTRAINTS, ExtensionOID.KEY_USAGE, ExtensionOID.EXTENDED_KEY_USAGE}
Stamp = namedtuple("Stamp", "imprint at accuracy signer others unknown")


class Unknown(Exception):
    """An algorithm or a critical extension that is not known here."""


def single(attributes, name):
    """The one value of an attribute that may be there once; None where it is not."""
    found = [one for one in attributes if one["type"].native == name]
    need(len(found) <= 1 and all(len(one["values"]) == 1 for one in found), f"{name} is there twice")
    return found[0]["values"][0] if found else None


def digest_of(name, data):
    if name not in DIGESTS:
        raise Unknown(f"the digest {name}")
    return hashlib.new(name, data).digest()


def is_named(certificate, named, version_two):
    """Whether a certificate is the one that signing-certificate (or its version two) names first."""
    first = named["certs"][0]
    name = first["hash_algorithm"]["algorithm"].native if version_two else "sha1"
    raw = certificate.dump()
    if hashlib.new("sha1", raw).digest() != first["cert_hash"].native if name == "sha1" \
            else digest_of(name, raw) != first["cert_hash"].native:
        return False
    serial = first["issuer_serial"]
    return not serial.native or serial["serial_number"].native == certificate.serial_number


def is_signer(certificate, sid):
    if sid.name == "issuer_and_serial_number":
        return (sid.chosen["issuer"].dump(), sid.chosen["serial_number"].native) == (certificate.issuer.dump(), certificate.serial_number)
    return sid.native == certificate.key_identifier


def check_signature(signer, certificate, message):
    algorithm, name = signer["signature_algorithm"], signer["digest_algorithm"]["algorithm"].native
    try:
        kind = algorithm.signature_algo
        own = algorithm.hash_algo if kind != "rsassa_pkcs1v15" or algorithm["algorithm"].native != "rsassa_pkcs1v15" else name
    except ValueError:
        kind, own = algorithm["algorithm"].native, name
    key, signature = certificate.public_key(), signer["signature"].native
    if kind != "ed25519" and own not in DIGESTS:
        raise Unknown(f"the signature {algorithm['algorithm'].native} with {own}")
    try:
        if kind == "rsassa_pkcs1v15" and isinstance(key, rsa.RSAPublicKey):
            key.verify(signature, message, padding.PKCS1v15(), DIGESTS[own]())
        elif kind == "rsassa_pss" and isinstance(key, rsa.RSAPublicKey):
            mask = algorithm["parameters"]["mask_gen_algorithm"]["parameters"]["algorithm"].native
            if mask not in DIGESTS:
                raise Unknown(f"the mask {mask}")
            key.verify(signature, message, padding.PSS(padding.MGF1(DIGESTS[mask]()), algorithm.salt_length
                       if hasattr(algorithm, "salt_length") else algorithm["parameters"]["salt_length"].native), DIGESTS[own]())
        elif kind == "ecdsa" and isinstance(key, ec.EllipticCurvePublicKey):
            key.verify(signature, message, ec.ECDSA(DIGESTS[own]()))
        elif kind == "ed25519" and isinstance(key, ed25519.Ed25519PublicKey):
            key.verify(signature, message)
        else:
            raise Unknown(f"the signature {kind}")
    except InvalidSignature as error:
        raise Refused("the signature does not hold") from error


def open_token(raw):
    """What a time stamp token says, whose signature and form hold."""
    try:
        return opened_token(raw)
    except (Refused, Unknown):
        raise
    except UnsupportedAlgorithm as error:
        raise Unknown(str(error)) from error
    except (ValueError, TypeError, KeyError, IndexError, AttributeError, OverflowError, RecursionError) as error:
        raise Refused(f"not a time stamp token: {str(error)[:100]}") from error


def opened_token(raw):
    content = cms.ContentInfo.load(raw, strict=True)
    need(content["content_type"].native == "signed_data", "not signed data")
    signed = content["content"]
    inner = signed["encap_content_info"]
    need(inner["content_type"].native == "tst_info" and len(signed["signer_infos"]) == 1, "not over one TSTInfo by one signer")
    body = inner["content"].contents
    info = tsp.TSTInfo.load(body, strict=True)
    imprint = info["message_imprint"]
    need(info["version"].native == "v1" and imprint["hash_algorithm"]["algorithm"].native == "sha256", "another imprint")
    signer = signed["signer_infos"][0]
    attributes = signer["signed_attrs"]
    need(len(attributes), "no signed attributes")
    kind, digest = single(attributes, "content_type"), single(attributes, "message_digest")
    need(kind is not None and kind.native == "tst_info" and digest is not None, "no content type or digest is signed")
    need(digest_of(signer["digest_algorithm"]["algorithm"].native, body) == digest.native, "another digest is signed")
    named = [(single(attributes, name), two) for name, two in (("signing_certificate", False), ("signing_certificate_v2", True))]
    named = [one for one in named if one[0] is not None]
    need(named, "no certificate is named")
    need(len(signed["certificates"]) <= MOST_CERTIFICATES, "too many certificates")
    certificates = [one.chosen for one in signed["certificates"] if one.name == "certificate"]
    own = [one for one in certificates if is_signer(one, signer["sid"]) and all(is_named(one, *names) for names in named)]
    need(own, "the signer's certificate is not in it, or is not the one named")
    certificate = x509.load_der_x509_certificate(own[0].dump())
    check_signature(signer, certificate, attributes.untag().dump())
    at = info["gen_time"].native
    accuracy = info["accuracy"].native or {}
    accuracy = timedelta(seconds=accuracy.get("seconds") or 0, milliseconds=accuracy.get("millis") or 0, microseconds=accuracy.get("micros") or 0)
    check_signer(certificate, at)
    unknown = any(one["critical"].native for one in info["extensions"])
    return Stamp(imprint["hashed_message"].native, at, accuracy, certificate,
                 [x509.load_der_x509_certificate(one.dump()) for one in certificates], unknown)


def valid_at(certificate, at):
    return certificate.not_valid_before_utc <= at <= certificate.not_valid_after_utc


def check_signer(certificate, at):
    try:
        usage = certificate.extensions.get_extension_for_class(x509.ExtendedKeyUsage)
    except x509.ExtensionNotFound as error:
        raise Refused("its certificate is not for time stamping") from error
    need(usage.critical and list(usage.value) == [ExtendedKeyUsageOID.TIME_STAMPING], "its certificate is not for time stamping alone")
    need(valid_at(certificate, at), "its certificate was not valid then")
    known_extensions(certificate)


def known_extensions(certificate):
    for one in certificate.extensions:
        if one.critical and one.oid not in KNOWN_EXTENSIONS:
            raise Unknown(f"the critical extension {one.oid.dotted_string}")


def may_certify(certificate, below):
    """Whether this is an authority that may have so many others between it and the signer."""
    try:
        basic = certificate.extensions.get_extension_for_class(x509.BasicConstraints).value
        usage = certificate.extensions.get_extension_for_class(x509.KeyUsage).value
    except x509.ExtensionNotFound as error:
        if error.oid != ExtensionOID.KEY_USAGE:
            return False
        usage = None
    if not basic.ca or (basic.path_length is not None and below > basic.path_length):
        return False
    return usage is None or usage.key_cert_sign


def leads_to(certificate, stamp, roots, above=()):
    """Whether a path leads from this certificate to a root, through those in the token."""
    if certificate in roots:
        return True
    if len(above) >= DEEPEST_PATH:
        return False
    below = sum(one.subject != one.issuer for one in above[1:] + (certificate,)) if above else 0
    for issuer in dict.fromkeys([*roots, *stamp.others]):
        if issuer in above or issuer == certificate or issuer.subject != certificate.issuer:
            continue
        if not valid_at(issuer, stamp.at) or not may_certify(issuer, below):
            continue
        try:
            certificate.verify_directly_issued_by(issuer)
        except (InvalidSignature, ValueError, TypeError):
            continue
        except UnsupportedAlgorithm as error:
            raise Unknown(str(error)) from error
        known_extensions(issuer)
        if leads_to(issuer, stamp, roots, above + (certificate,)):
            return True
    return False


def millis(at):
    return int(at.astimezone(timezone.utc).timestamp() * 1000)


def read_witness(text):
    """Name and key of a witness, from `NAME+ID+KEY`."""
    match = re.fullmatch(r"([^\s+]+)\+([0-9a-f]{8})\+([^ ]+)", text.strip())
    need(match, "not a witness's key")
    key = base64_of(match[3])
    need(len(key) == 33 and key[0] == 4, "not a witness's key")
    own = sha256(match[1].encode() + b"\n" + key)[:4]
    need(own.hex() == match[2], "the witness's key id is another one")
    return match[1], own, key[1:]


class Stamps:
    """The part of the verifier that reads what others than the organisation signed."""

    def covered_before(self, size, at):
        """Whether a checkpoint of this size covers an entry here that the log received ten minutes after this time."""
        received = self.latest_here(size)
        return received is not None and at + PLAY < received

    def tokens(self):
        digests, self.stamps, unchecked = {}, [], []
        for note, opened in zip(self.log["checkpoints"], self.checkpoints):
            if opened:
                digests.setdefault(opened.size, set()).add(sha256(note.encode()))
        for token in self.log["tokens"]:
            size = token["size"]
            try:
                need(any(digest in token["token"] for digest in digests.get(size, ())), "it is not of that checkpoint")
                stamp = open_token(token["token"])
                need(stamp.imprint in digests.get(size, ()), "it is not of that checkpoint")
                if stamp.unknown:
                    raise Unknown("a critical extension")
                if not self.roots:
                    raise Unknown("no root was given")
                need(leads_to(stamp.signer, stamp, self.roots), "no path leads to a root given")
            except Unknown as why:
                unchecked.append(f"the time stamp of the checkpoint of size {size} is not checked in full: {why}")
                continue
            except Refused as why:
                self.broken("forged_time_stamp", f"the time stamp of the checkpoint of size {size} does not hold: {why}")
                continue
            until = stamp.at + stamp.accuracy
            self.stamps.append(f"{stamp.signer.subject.rfc4514_string()} stamped the checkpoint of size {size}: not after {until.isoformat()}")
            self.holds("time_stamp", self.stamps[-1])
            if self.covered_before(size, millis(stamp.at)):
                self.mark("time_stamp", f"the checkpoint of size {size} was stamped before the log received an entry it covers")
        if self.strict and not self.stamps:
            self.broken("unchecked_time_stamp", "no time stamp leads to a root that was given")
        for why in unchecked:
            self.mark("unchecked_time_stamp", why)

    def witnessed(self):
        self.cosigned = []
        for name, own, key in self.witnesses:
            found = {}
            for note, opened in zip(self.log["checkpoints"], self.checkpoints):
                if not opened:
                    continue
                text, lines = parts_of(note)
                for said, given, rest in lines:
                    if (said, given, len(rest)) != (name, own, 72):
                        continue
                    seconds = int.from_bytes(rest[:8], "big")
                    if signed_by(key, rest[8:], f"cosignature/v1\ntime {seconds}\n{text}".encode()):
                        found[opened.size] = min(seconds, found.get(opened.size, seconds))
            if found:
                size = max(found)
                self.cosigned.append(f"{name} signed the checkpoint of size {size} at {found[size]} s")
                self.holds("witness", self.cosigned[-1])
                if self.covered_before(size, found[size] * 1000):
                    self.mark("witness", f"{name} signed before the log received an entry the checkpoint covers")
        if not self.cosigned and self.witnesses:
            self.mark("no_witness", "no witness that was given has signed")
        if not self.cosigned and self.strict:
            self.broken("no_witness", "no witness that was given has signed")

    def rests_on(self):
        """The last words of a verdict: what lies outside the organisation's word, and what never does."""
        told = "Times and completeness rest on the organisation's word alone."
        if self.stamps or self.cosigned:
            told = "Outside the organisation's word: " + "; ".join(self.stamps + self.cosigned) + "."
        return told + " Which devices are its own, and what they may do, rests on the organisation's word alone."

    def on_its_word(self):
        """What rests on the organisation's word alone, in words for programs."""
        one_log = not self.cosigned and not self.agreed
        return ["devices", "besides"] + ["times"] * (not self.stamps) + ["one_log"] * one_log \
            + ["whole"] * bool(one_log or self.said.get("no_head"))

    def outside(self):
        return {"strict": bool(self.stamps and self.cosigned), "verdict": self.rests_on(), "word": self.on_its_word()}
