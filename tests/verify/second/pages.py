"""Sections 10.1 and 10.2: what can be said of the pages without drawing them."""
import io
import re

import pypdf
from pypdf.generic import ContentStream, IndirectObject, StreamObject

from .entries import LISTS, digest_in
from .forms import Refused, decode, fields, is_digest, is_list, is_uint, need, sha256
from .pdf import within

NOTICES = (
    "This is what people recorded while a pressurised tank car stood at a siding. The organisation named below keeps the record "
    "and sealed this file.",
    "It does not prove that a scene was as claimed, that a photograph shows the car it is said to show, or that a time claimed by "
    "a device is true: those are the words of whoever made the entry. What the organisation left out of its record altogether, no "
    "file can show.",
    "Farsiding records and computes. It never declares a car safe, empty or fit to move. Local codes, the owner's instructions and "
    "licensed practice come first.",
)
# By language: the SHA-256 of each notice of layout 3, and how the facts on release and on what there is none of begin.
OWN_WORDS = {
    "en-US": ((
        "bd50f11b98f75b035b3efbf2d326493d82080318ea423b54d9e85870b537773f",
        "ef16fbf34c35a12fe3fa254935ef71ba8e8e91c7f1fece88ca6299e7d9eafd56",
        "19f2a84c6a9fcedd3b7be210aef68f9ffd630c3ca0310d57afda8caa1c95a841",
    ), ("Released", "Not released", "None")),
    "es-MX": ((
        "5c286a5b42a0aa23c115ec517a60b4d315e91bc89d346680069fd29c43311acd",
        "0435dd64cf350d3df3e4e3b0e674dcaede8a4f6b292dcfd783ae64cd352b839b",
        "18d81bc78c37329a681bd216c382728d7a8d76be9ae3c18ec0b9d9c83054fcf3",
    ), ("Liberado", "No liberado", "Ninguna")),
    "fr-CA": ((
        "16e903a8e51a23ed9d7f82c48b4a49f7c862ae3285e34d2beaf2bd05ae3c230a",
        "ac8d240416406f8f49734f86b49a26235f57cd4ba997c30e6680b970828eb34c",
        "db268814e2aa682dad623d35a6731837702df68483868c177c51a0b8fd538cdf",
    ), ("Libéré", "Non libéré", "Aucune")),
}
SAID = {"organisation": {"site"}, "car": {"opened", "car_number_again"}, "site": {"site"}, "paper": {"paper"}, "pressure": {"reading"}, "seal": {"seal"},
        "release": {"released"}, "hold": {"hold"}, "passed_over": {"passed_over", "overridden"}}
WHOLE = ("release", "hold", "passed_over")
MOST_PROBLEMS = 50


def bare(text):
    """Without the blanks that a page has between its words."""
    return re.sub(r"\s", "", text)


def reduced(text):
    return re.sub(r"[^A-Za-z0-9.]", "", text).lower()


def quotes(said, typed):
    typed = typed.strip()
    return re.search(r"[^ -~]", typed) is not None or len(typed.encode()) > 40 or reduced(typed) in reduced(said)


def read_front(raw):
    front = fields(decode(raw), ("facts",))["facts"]
    need(isinstance(front, tuple))
    for fact in front:
        fields(fact, ("kind", "label", "text", "cites"), ("said",))  # "said" is for who shows the facts in another language
        need(all(isinstance(fact[name], str) for name in ("kind", "label", "text")) and is_list(fact["cites"], is_uint))
        need(isinstance(fact.get("said", ""), str))
    return front


def resolved(value):
    return value.get_object() if isinstance(value, IndirectObject) else value


# 10.1 ------------------------------------------------------------------------------------------------------------------
def to_unicode(font):
    """What each glyph of a font says, and how many bytes a glyph has."""
    text, said = resolved(font["/ToUnicode"]).get_data().decode("latin-1"), {}
    word = lambda hexadecimal: bytes.fromhex(re.sub(r"\s", "", hexadecimal)).decode("utf-16-be")
    widths = {len(one) // 2 for block in re.findall(r"begincodespacerange(.*?)endcodespacerange", text, re.S)
              for one in re.findall(r"<([0-9A-Fa-f]+)>", block)}
    need(len(widths) == 1, "glyphs of several lengths")
    for block in re.findall(r"beginbfchar(.*?)endbfchar", text, re.S):
        for code, means in re.findall(r"<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f\s]*)>", block):
            said[int(code, 16)] = word(means)
    for block in re.findall(r"beginbfrange(.*?)endbfrange", text, re.S):
        for first, last, single, several in re.findall(r"<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>\s*(?:<([0-9A-Fa-f\s]*)>|\[(.*?)\])", block, re.S):
            first, last = int(first, 16), int(last, 16)
            need(last - first < 1 << 16, "a range without end")
            means = [word(one) for one in re.findall(r"<([0-9A-Fa-f\s]*)>", several)] if several else None
            for number, code in enumerate(range(first, last + 1)):
                said[code] = means[number] if means else word(single)[:-1] + chr(ord(word(single)[-1]) + number)
    return said, widths.pop()


class Page:
    """What one page's content streams show."""

    def __init__(self, page, reader, fonts):
        self.resources, self.fonts = resolved(page.get("/Resources", {})), fonts
        self.shown, self.problems, self.pictures, font = [], [], [], None
        contents = page.get_contents()
        for operands, operator in ContentStream(contents, reader).operations if contents is not None else ():
            if operator == b"Tf":
                font = self.font(operands[0])
            elif operator in (b"Tj", b"'", b'"'):
                self.show(font, operands[-1])
            elif operator == b"TJ":
                for one in operands[0]:
                    if isinstance(one, (str, bytes)):
                        self.show(font, one)
            elif operator == b"Tr" and operands[0] != 0:
                self.problems.append("has text that is not drawn as text is")
            elif operator in (b"BI", b"INLINE IMAGE", b"sh"):
                self.problems.append(f"has {operator.decode()}")
            elif operator == b"Do":
                self.paint(operands[0])

    def font(self, name):
        font = resolved(resolved(self.resources["/Font"])[name])
        if id(font) not in self.fonts:
            self.fonts[id(font)] = (font, *to_unicode(font))
        return self.fonts[id(font)]

    def show(self, font, text):
        need(font is not None, "text without a font")
        raw = text if isinstance(text, bytes) else text.original_bytes
        _, said, width = font
        need(len(raw) % width == 0, "a glyph cut in two")
        for at in range(0, len(raw), width):
            code = int.from_bytes(raw[at:at + width], "big")
            self.shown.append(said[code] if code in said else "\ufffd")

    def paint(self, name):
        painted = resolved(resolved(self.resources.get("/XObject", {})).get(name))
        if not isinstance(painted, StreamObject) or painted.get("/Subtype") != "/Image":
            self.problems.append("paints something that is no image")
        elif resolved(painted.get("/Filter")) in ("/DCTDecode", ["/DCTDecode"]):
            self.pictures.append(sha256(painted._data))


def of_the_file(data, texts, photographs):
    reader, out, fonts = pypdf.PdfReader(io.BytesIO(data), strict=False), [], {}
    root = reader.root_object
    out += [f"the file has {name}" for name in ("/AcroForm", "/OpenAction", "/AA", "/OCProperties") if name in root]
    if "/JavaScript" in resolved(root.get("/Names", {})):
        out.append("the file has /JavaScript")
    if len(reader.pages) != len(texts):
        out.append(f"there are {len(reader.pages)} pages, {len(texts)} were sealed")
    for number, (page, text) in enumerate(zip(reader.pages, texts), 1):
        out += [f"page {number} has {name}" for name in ("/Annots", "/AA") if name in page]
        read = Page(page, reader, fonts)
        out += [f"page {number} {problem}" for problem in read.problems]
        if bare("".join(read.shown)) != bare(text):
            out.append(f"page {number} does not show the text sealed for it")
        if not set(read.pictures) <= photographs:
            out.append(f"page {number} shows a picture that is not attached")
        if len(out) > MOST_PROBLEMS:
            break
    return out


# 10.2 ------------------------------------------------------------------------------------------------------------------
def kind_of(entry):
    says = entry["body"]["says"]
    return says if isinstance(says, str) else next(iter(says))


def content_of(entry):
    says = entry["body"]["says"]
    content = says[kind_of(entry)] if isinstance(says, dict) else {}
    return content if isinstance(content, dict) else {}


def typed_in(kind, entry):
    """The texts somebody typed that a fact of this kind must quote."""
    content = content_of(entry)
    inner = lambda name: (content.get(name) if isinstance(content.get(name), dict) else {}).get("text")
    texts = {"car": [content.get("car")], "site": [content.get("name"), content.get("address")],
             "organisation": [content.get("organisation")], "paper": [content.get("number"), inner("billed")],
             "pressure": [inner("amount")], "seal": [content.get("number")]}.get(kind, [])
    return [text for text in texts if isinstance(text, str)]


def standing(visit, aside):
    """The ids of the entries of the visit that stand."""
    counting = [entry for entry in visit if entry["id"] not in aside]
    by, taken_back = {}, {}
    for entry in counting:
        for gone in set(entry["body"].get("replaces", ())):
            by.setdefault(gone, []).append(entry)
            if kind_of(entry) == "withdrawn" and gone != entry["id"]:
                taken_back[gone] = True

    def leaves(other, entry):
        if other["id"] == entry["id"]:
            return True
        keeps = content_of(other).get("keeps") if kind_of(other) == "agreement" else None
        return is_digest(keeps) and (keeps == entry["id"] or other["id"] in taken_back)
    return {entry["id"] for entry in counting if all(leaves(other, entry) for other in by.get(entry["id"], ()))}


class Pages:
    """The part of the verifier that reads the pages' text and the first page's facts."""

    def pages(self, data, files, seal):
        if seal is None:
            return
        self.mark("pages_not_drawn", "beyond what was checked here, the pages rest on the organisation's word")
        if "pages" not in seal:
            return
        try:
            need("front.cbor" in files and "pages.txt" in files, "it is not there")
            front = read_front(files["front.cbor"].bytes())
            texts = files["pages.txt"].bytes().decode("utf-8").split("\f")
        except (Refused, UnicodeDecodeError) as why:
            self.broken("unreadable_attachment", f"front.cbor or pages.txt: {why}")
            return
        problems = self.of_the_front(front, texts[0], seal)
        # Where the file is not the one sealed, that has been said already (10.1); what page 1 says is held to the entries all the same.
        if self.intact and not self.said.get("edited_pages"):
            photographs = {file.sha256 for name, file in files.items() if digest_in(name) is not None}
            try:
                problems += within(lambda: of_the_file(data, texts, photographs))
            except Refused as why:
                problems.append(f"the pages cannot be read: {why}")
        if not any(self.said.get(code) for code in ("altered_entry", "removed_entry", "reordered_entries", "foreign_entry")):
            problems += self.of_the_entries(front, seal.get("language", "en-US"))
        for problem in problems[:MOST_PROBLEMS]:
            self.broken("altered_pages", problem)

    def of_the_front(self, front, first, seal):
        out = []
        if bare(first) != "".join(bare(fact["label"] + fact["text"]) for fact in front):
            out.append("page 1 says something else than front.cbor")
        for fact in front:
            if fact["kind"] == "organisation" and self.key.hex() not in reduced(fact["text"]):
                out.append("page 1 names another organisation")
            own = OWN_WORDS.get(seal.get("language", "en-US"))
            strange = (seal["pages"] == 2 and fact["text"] not in NOTICES) or \
                (seal["pages"] == 3 and own is not None and sha256(fact["text"].encode()).hex() not in own[0])
            if fact["kind"] == "notice" and strange:
                out.append("page 1 has a notice that is none")
        if seal["pages"] == 3 and seal.get("language", "en-US") not in OWN_WORDS:
            out.append("page 1 is in a language that its layout does not have")
        return out

    def of_the_entries(self, front, language):
        numbered = [entry for name in LISTS for entry in self.all if entry["list"] == name]
        there = lambda fact: [numbered[number - 1] for number in fact["cites"] if 1 <= number <= len(numbered)]
        aside = set(getattr(self, "not_counting", ())) | {entry["id"] for fact in front if fact["kind"] == "aside" for entry in there(fact)}
        stands, cited, out = standing(self.visit, aside), {}, []
        for fact in front:
            kind, label, cites = fact["kind"], fact["label"][:60], there(fact)
            if len(cites) < len(fact["cites"]):
                out.append(f"{label} cites what is not there")
            if kind not in SAID:
                continue
            for entry in cites:
                cited.setdefault(kind, set()).add(entry["id"])
                if kind_of(entry) not in SAID[kind]:
                    out.append(f"{label} cites an entry that says something else")
                    continue
                if entry["list"] == "visit" and entry["id"] not in stands:
                    out.append(f"{label} cites an entry that does not stand")
                if not all(quotes(fact["text"], typed) for typed in typed_in(kind, entry)):
                    out.append(f"{label} does not say what an entry it cites says")
            if language not in OWN_WORDS:
                continue
            released, not_released, none = OWN_WORDS[language][1]
            begins = {"release": released if fact["cites"] else not_released}.get(
                kind, f"{len(fact['cites'])} " if fact["cites"] else none)
            if kind in WHOLE and not fact["text"].startswith(begins):
                out.append(f"{label} does not begin with {begins}")
        for kind in WHOLE:
            if sum(fact["kind"] == kind for fact in front) != 1:
                out.append(f"page 1 does not say once what there is of {kind}")
            if any(kind_of(entry) in SAID[kind] and entry["id"] in stands and entry["id"] not in cited.get(kind, ()) for entry in self.visit):
                out.append(f"page 1 leaves out an entry of {kind}")
        return out
