"""Section 2: the attachments of the file, taken out within bounds of time and memory."""
import hashlib
import io
import logging
import re
import resource
import signal
import zlib

import pypdf
from pypdf.generic import ByteStringObject, IndirectObject, NullObject, StreamObject

from .forms import LARGEST_RECORD, Refused, need

DEEPEST_TREE = 16
LARGEST_ATTACHMENT, LARGEST_TOGETHER, MOST_ATTACHMENTS = 64 << 20, 1 << 30, 10_000
SECONDS, MEMORY = 12, 400 << 20


# The attachments that are named, but photographs and this format's text.
NAMED = {"entries.cbor", "certificates.cbor", "log.cbor", "receipts.cbor", "keys.cbor", "names.cbor", "last-entry.tlog-proof", "pages.txt",
         "front.cbor", "view.json", "procedure.toml", "procedure.ftl", "seal.cbor"}
logging.getLogger("pypdf").setLevel(logging.CRITICAL)


class Attachment:
    """What stands under one name: its digest and length, and its bytes where they are few."""

    def __init__(self, raw, deflated, left):
        digest, self.length, self.kept = hashlib.sha256(), 0, []
        for part in inflated(raw) if deflated else (raw,):
            self.length += len(part)
            need(self.length <= LARGEST_ATTACHMENT, "an attachment is too large")
            need(self.length <= left, "the attachments are too large together")
            digest.update(part)
            if self.kept is not None:
                self.kept.append(part)
                if self.length > LARGEST_RECORD:
                    self.kept = None
        self.sha256 = digest.digest()

    def bytes(self):
        need(self.kept is not None, "too large")
        return b"".join(self.kept)


def inflated(raw):
    inflater = zlib.decompressobj()
    left = raw
    while not inflater.eof:
        part = inflater.decompress(left, 1 << 20)
        left = inflater.unconsumed_tail
        need(part or left or inflater.eof, "a deflated attachment is cut off")
        yield part


class Within:
    """Stops what takes too long or too much, as an error of its own."""

    def __enter__(self):
        def over(_signal, _frame):
            raise Refused("reading it takes too long")
        self.before = signal.signal(signal.SIGALRM, over)
        signal.setitimer(signal.ITIMER_REAL, SECONDS)
        self.limits = resource.getrlimit(resource.RLIMIT_AS)
        with open("/proc/self/statm", encoding="ascii") as file:
            used = int(file.read().split()[0]) * resource.getpagesize()
        resource.setrlimit(resource.RLIMIT_AS, (used + MEMORY, self.limits[1]))

    def __exit__(self, *_):
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, self.before)
        resource.setrlimit(resource.RLIMIT_AS, self.limits)


def is_cut_off(data):
    return data.startswith(b"%PDF-") and not re.search(rb"startxref[\t\n\f\r ]+\d+[\t\n\f\r ]*%%EOF", data)


def leads_to_a_table(data):
    """Whether the number behind the last `startxref` is the place of a cross-reference table, or of a stream for one."""
    last = data.rfind(b"startxref")
    number = re.match(rb"startxref[\t\n\f\r ]+(\d{1,18})", data[last:last + 100]) if last >= 0 else None
    return number is not None and re.match(rb"[\t\n\f\r ]*(xref\b|\d+[\t\n\f\r ]+\d+[\t\n\f\r ]+obj\b)",
                                           data[int(number[1]):int(number[1]) + 100]) is not None


def attachments(data):
    """Every attachment by its name."""
    need(data.startswith(b"%PDF-"), "not a PDF")
    return within(lambda: take_out(data))


def within(read):
    """What this reads, within bounds; whatever goes wrong is refused."""
    with Within():
        try:
            return read()
        except Refused:
            raise
        except MemoryError:
            why = "reading it takes too much memory"
        except Exception as error:  # whatever the library stumbles over
            why = str(error)[:200] or type(error).__name__
    raise Refused(why)


def take_out(data):
    need(leads_to_a_table(data), "the place of its cross-reference table is wrong")
    reader = pypdf.PdfReader(io.BytesIO(data), strict=False)
    need(not reader.is_encrypted, "it is encrypted")
    files, seen, total, named = {}, set(), 0, 0
    listed = reader.root_object["/Names"].get("/EmbeddedFiles")
    listed = listed.get_object() if listed is not None else None
    waiting = [] if listed is None or isinstance(listed, NullObject) else [(listed, 0)]
    while waiting:
        node, depth = waiting.pop()
        need(depth <= DEEPEST_TREE, "the name tree is too deep")
        if isinstance(node, IndirectObject):
            need(node.idnum not in seen, "the name tree runs in a circle")
            seen.add(node.idnum)
            need(len(seen) <= MOST_ATTACHMENTS, "too many attachments")
            node = node.get_object()
        if "/Kids" in node:
            waiting.extend((kid, depth + 1) for kid in reversed(node["/Kids"]))
        names = node["/Names"] if "/Names" in node else []
        need(len(names) % 2 == 0, "a name without a file")
        for specification in names[1::2]:
            specification = specification.get_object()
            name = specification["/F"]
            if isinstance(name, ByteStringObject):
                name = bytes(name).decode()
            need(isinstance(name, str), "an attachment without a name")
            need(name not in files, "two attachments have one name")
            need(len(files) < MOST_ATTACHMENTS, "too many attachments")
            stream = specification["/EF"]["/F"]
            need(isinstance(stream, StreamObject), "an attachment without bytes")
            files[name] = Attachment(stream._data, is_deflated(stream), LARGEST_TOGETHER - total)
            total += files[name].length
            named += files[name].length if name in NAMED else 0
            need(named <= LARGEST_ATTACHMENT, "the records are too large together")
    return files


def is_deflated(stream):
    filters = stream.get("/Filter")
    filters = filters.get_object() if filters is not None else []
    need(not {"/DecodeParms", "/DP", "/F", "/FFilter"} & set(stream), "another filter")
    filters = filters if isinstance(filters, list) else [filters]
    need(len(filters) <= 1 and all(one == "/FlateDecode" for one in filters), "another filter")
    return bool(filters)
