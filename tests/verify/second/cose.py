"""Section 3: signed envelopes."""
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

from .forms import Tag, bstr, decode, head, is_bytes, need


def signed_by(key, signature, message):
    try:
        Ed25519PublicKey.from_public_bytes(key).verify(signature, message)
        return True
    except (InvalidSignature, ValueError):
        return False


def protected_of(kid):
    return b"\xa1\x01\x27" if kid is None else b"\xa2\x01\x27\x04" + bstr(kid)


def to_sign(protected, context, payload):
    text = b"Signature1"
    return b"\x84" + head(3, len(text)) + text + bstr(protected) + bstr(context.encode()) + bstr(payload)


def parts_of(data):
    """Key id (None where there is none), protected part, payload and signature."""
    need(len(data) >= 70, "too short for an envelope")
    value = decode(data)
    need(isinstance(value, Tag) and value.number == 18, "not an envelope")
    parts = value.value
    need(isinstance(parts, tuple) and len(parts) == 4 and parts[1] == {}, "not an envelope")
    protected, _, payload, signature = parts
    need(all(isinstance(part, bytes) for part in (protected, payload)) and is_bytes(signature, 64), "not an envelope")
    header = decode(protected)
    need(isinstance(header, dict), "not an envelope")
    kid = header.get(4)
    need(kid is None or isinstance(kid, bytes), "no key id")
    need(protected == protected_of(kid), "other headers")
    return kid, protected, payload, signature


def envelope(data, context, signer=None, addressed=False):
    """Key id and payload of an envelope whose signature holds: that of `signer`, or of whom its key id names."""
    kid, protected, payload, signature = parts_of(data)
    need((kid is None) == addressed, "no key id where one belongs, or one where none does")
    need(signer is None or addressed or kid == signer, "signed by another key")
    by = signer if signer is not None else kid
    need(is_bytes(by, 32), "no key")
    need(signed_by(by, signature, to_sign(protected, context, payload)), "the signature does not hold")
    return kid, payload
