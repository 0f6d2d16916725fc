"""The checks of a packet's pages that need no drawing, written from core/src/evidence/FORMAT.md alone (section 10).

Called by verify_packet.py. Every problem is a sentence; the code word is `altered_pages`.
"""
import io
import re

import pypdf
from pypdf.generic import ContentStream, IndirectObject

NOTICES = (
    "This is what people recorded while a pressurised tank car stood at a siding. The organisation named below keeps the record and sealed this file.",
    "It does not prove that a scene was as claimed, that a photograph shows the car it is said to show, or that a time claimed by a device is true: those are the words of whoever made the entry. What the organisation left out of its record altogether, no file can show.",
    "Farsiding records and computes. It never declares a car safe, empty or fit to move. Local codes, the owner's instructions and licensed practice come first.",
)
STATEMENTS = {
    "car": ("opened", "car_number_again"), "site": ("site",), "paper": ("paper",), "pressure": ("reading",),
    "seal": ("seal",), "release": ("released",), "hold": ("hold",), "passed_over": ("passed_over",),
}
IN_FULL = ("release", "hold", "passed_over")


def without_blanks(text):
    return re.sub(r"[ \n\f]", "", text)


def reduced(text):
    return re.sub(r"[^A-Za-z0-9.]", "", text).lower()


def quotes(text, typed):
    typed = typed.strip()
    plain = all(" " <= one <= "~" for one in typed)
    return not plain or len(typed) > 40 or reduced(typed) in reduced(text)


def resolved(value):
    return value.get_object() if isinstance(value, IndirectObject) else value


def of_the_file(data, pages, photographs):  # 10.1
    """What the file's pages show besides the text sealed for them; `photographs` are the attached ones' bytes."""
    reader = pypdf.PdfReader(io.BytesIO(data), strict=False)
    root = reader.root_object
    for name in ("/AcroForm", "/OpenAction", "/AA", "/OCProperties"):
        if name in root:
            yield f"the file has {name}"
    if "/JavaScript" in resolved(root.get("/Names", {})):
        yield "the file has /JavaScript"
    if len(reader.pages) != len(pages):
        yield f"there are {len(reader.pages)} pages, {len(pages)} were sealed"
    for number, (page, text) in enumerate(zip(reader.pages, pages), 1):
        for name in ("/Annots", "/AA"):
            if name in page:
                yield f"page {number} has {name}"
        shown = re.sub(r"\s", "", page.extract_text())
        if shown != re.sub(r"\s", "", text):
            yield f"page {number} does not show the text sealed for it"
        yield from of_a_page(number, page, reader, photographs)


def of_a_page(number, page, reader, photographs):
    objects = resolved(resolved(page.get("/Resources", {})).get("/XObject", {}))
    for operands, operator in ContentStream(page.get_contents(), reader).operations:
        if operator == b"Tr" and operands[0] != 0:
            yield f"page {number} has text that is not drawn as text is"
        elif operator in (b"BI", b"INLINE IMAGE", b"sh"):
            yield f"page {number} has {operator.decode()}"
        elif operator == b"Do":
            painted = resolved(objects.get(operands[0]))
            if painted is None or painted.get("/Subtype") != "/Image":
                yield f"page {number} paints something that is no image"
            elif resolved(painted.get("/Filter")) in ("/DCTDecode", ["/DCTDecode"]) and painted._data not in photographs:
                yield f"page {number} shows a picture that is not attached"


def of_the_front(front, first_page, key, seal):  # 10.2, 1 and 5
    told = "".join(without_blanks(fact["label"]) + without_blanks(fact["text"]) for fact in front)
    if without_blanks(first_page) != told:
        yield "page 1 says something else than front.cbor"
    for fact in front:
        if fact["kind"] == "organisation" and key.hex() not in reduced(fact["text"]):
            yield "page 1 names another organisation"
        if seal.get("pages") == 2 and fact["kind"] == "notice" and fact["text"] not in NOTICES:
            yield "page 1 has a notice that is none"


class Stay:  # 10.2, 3
    def __init__(self, visit, aside):
        self.aside, self.replacing, self.taken_back = aside, {}, set()
        for entry in visit:
            if entry["id"] in aside:
                continue
            for gone in entry["body"].get("replaces", []):
                if gone != entry["id"]:
                    self.replacing.setdefault(gone, []).append(entry)
                    if "withdrawn" in entry["body"]["says"]:
                        self.taken_back.add(gone)

    def stands(self, entry):
        def leaves(by):
            agreement = by["body"]["says"].get("agreement") if isinstance(by["body"]["says"], dict) else None
            return isinstance(agreement, dict) and (agreement.get("keeps") == entry["id"] or by["id"] in self.taken_back)

        return entry["id"] not in self.aside and all(leaves(by) for by in self.replacing.get(entry["id"], []))


def kind_of(entry):
    says = entry["body"]["says"]
    return next(iter(says)) if isinstance(says, dict) and len(says) == 1 else None


def typed_in(kind, entry):
    content = entry["body"]["says"][kind_of(entry)]
    content = content if isinstance(content, dict) else {}
    billed = content.get("billed") or {}
    return {
        "car": [content.get("car")], "site": [content.get("name")], "paper": [content.get("number"), billed.get("text")],
        "pressure": [(content.get("amount") or {}).get("text")], "seal": [content.get("number")],
    }.get(kind, [])


def of_the_entries(front, visit, besides, not_of_its_devices):  # 10.2, 2 to 4
    numbered = visit + besides
    aside = set(not_of_its_devices)
    for fact in front:
        if fact["kind"] == "aside":
            aside |= {numbered[n - 1]["id"] for n in fact["cites"] if 1 <= n <= len(numbered)}
    stay, cited = Stay(visit, aside), {}
    for fact in front:
        kind, label = fact["kind"], fact["label"]
        for number in fact["cites"]:
            if not 1 <= number <= len(numbered):
                yield f"{label} cites No. {number}, which is not there"
                continue
            entry = numbered[number - 1]
            if kind not in STATEMENTS:
                continue
            if kind_of(entry) not in STATEMENTS[kind]:
                yield f"{label} cites No. {number}, which says something else"
                continue
            cited.setdefault(kind, set()).add(entry["id"])
            if number <= len(visit) and not stay.stands(entry):
                yield f"{label} cites No. {number}, which no longer stands"
            for typed in typed_in(kind, entry):
                if isinstance(typed, str) and not quotes(fact["text"], typed):
                    yield f"{label} does not say what No. {number} says"
        begins = {"release": "Released" if fact["cites"] else "Not released"}.get(kind)
        if kind in ("hold", "passed_over"):
            begins = f"{len(fact['cites'])} " if fact["cites"] else "None"
        if begins and not fact["text"].startswith(begins):
            yield f"{label} does not begin with {begins}"
    for number, entry in enumerate(visit, 1):
        for kind in IN_FULL:
            if kind_of(entry) in STATEMENTS[kind] and stay.stands(entry) and entry["id"] not in cited.get(kind, ()):
                yield f"No. {number} says {kind_of(entry)}, and page 1 does not"
    for kind in IN_FULL:
        if sum(fact["kind"] == kind for fact in front) != 1:
            yield f"page 1 says not once what there is of {kind}"
