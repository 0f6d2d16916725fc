"""Odd files: how attachments are named, stored and found."""
import zlib

import handmade
from handmade import sha256


def file_cases():
    stream = lambda change: {"stream receipts.cbor": change}
    deflated = lambda change: stream(lambda s: (s[0], change(s[1])))
    yield "file/stored", stream(lambda s: (b"", zlib.decompress(s[1]))), []
    yield "file/filter_in_a_list", stream(lambda s: (b"/Filter[/FlateDecode]", s[1])), []
    yield "file/no_filters", stream(lambda s: (b"/Filter[]", zlib.decompress(s[1]))), []
    yield "file/filter_null", stream(lambda s: (b"/Filter null", zlib.decompress(s[1]))), ["unreadable_file"]
    yield "file/deflated_twice", stream(lambda s: (b"/Filter[/FlateDecode/FlateDecode]", zlib.compress(s[1]))), ["unreadable_file"]
    yield "file/hexadecimal", stream(lambda s: (b"/Filter/ASCIIHexDecode", zlib.decompress(s[1]).hex().encode() + b">")), ["unreadable_file"]
    yield "file/short_filter_name", stream(lambda s: (b"/Filter/Fl", s[1])), ["unreadable_file"]
    yield "file/predictor", stream(lambda s: (b"/Filter/FlateDecode/DecodeParms<</Predictor 12/Columns 1>>", s[1])), ["unreadable_file"]
    yield "file/bytes_behind_the_deflated", deflated(lambda raw: raw + b"more"), []
    yield "file/line_feed_behind_the_deflated", deflated(lambda raw: raw + b"\n"), []
    yield "file/deflated_cut_short", deflated(lambda raw: raw[:-6]), ["unreadable_file"]
    yield "file/deflated_checksum_gone", deflated(lambda raw: raw[:-4]), ["unreadable_file"]
    yield "file/deflated_checksum_wrong", deflated(lambda raw: raw[:-1] + bytes([raw[-1] ^ 1])), ["unreadable_file"]
    yield "file/deflated_without_head", deflated(lambda raw: raw[2:-4]), ["unreadable_file"]
    yield "file/deflated_nothing", deflated(lambda raw: b""), ["unreadable_file"]
    names = lambda change: {"names": change}
    yield "file/names_turned", names(lambda n: n[::-1]), []
    yield "file/name_twice", names(lambda n: n + [n[0]]), ["unreadable_file"]
    yield "file/other_keys_in_the_tree", names(lambda n: [(b"%d" % i, number) for i, (_, number) in enumerate(n)]), []
    yield "file/same_key_in_the_tree", names(lambda n: [(b"x", number) for _, number in n]), []
    yield "file/name_of_another_case", {"files": lambda f: {**f, "View.json": b"{}"}}, []
    yield "file/name_empty", {"files": lambda f: {**f, "": b"{}"}}, []
    yield "file/seal_of_another_case", {"files": lambda f: {**f, "Seal.cbor": b"{}"}}, []
    yield "file/photograph_without_ending", {"files": lambda f: {**f, sha256(b"x").hex(): b"y"}}, []
    yield "file/photograph_with_an_empty_ending", {"files": lambda f: {**f, sha256(b"x").hex() + ".": b"y"}}, ["altered_photo"]
    yield "file/photograph_in_capitals", {"files": lambda f: {**f, sha256(b"x").hex().upper() + ".jpg": b"y"}}, []
    yield "file/photograph_nobody_names", {"files": lambda f: {**f, sha256(b"x").hex() + ".jpg": b"x"}}, []
    yield "file/photograph_of_two_endings", {"files": lambda f: {**f, handmade.sha256(handmade.PHOTO).hex() + ".png": handmade.PHOTO}}, []
    yield "file/empty_attachment", {"files": lambda f: {**f, "empty.txt": b""}}, []
    tree = lambda change: {"tree": change}
    yield "file/tree_empty", tree(lambda t: b"<</Names[]>>"), ["removed_attachment", "unreadable_attachment"]
    yield "file/tree_of_nothing", tree(lambda t: b"<<>>"), ["removed_attachment", "unreadable_attachment"]
    yield "file/tree_null", tree(lambda t: b"null"), ["removed_attachment", "unreadable_attachment"]
    yield "file/tree_with_an_odd_number", tree(lambda t: t[:-3] + b"(x)]>>"), ["unreadable_file"]
    yield "file/tree_in_a_circle", tree(lambda t: b"<</Kids[4 0 R]>>"), ["unreadable_file"]
    yield "file/tree_with_a_kid_null", tree(lambda t: t[:-2] + b"/Kids[99 0 R]>>"), ["unreadable_file"]
    held = []

    def deeper(depth):
        def objects(o):
            return {**{200 + n: b"<</Kids[%d 0 R]>>" % (201 + n) for n in range(depth)}, 200 + depth: held.pop()}
        return {"tree": lambda t: (held.append(t), b"<</Kids[200 0 R]>>")[1], "objects": objects}
    for depth in (1, 10, 15, 16, 500):
        yield f"file/tree_{depth}_deep", deeper(depth), [] if depth < 16 else ["unreadable_file"]
    yield "file/names_in_another_object", {"tree": lambda t: (held.append(t[8:-2]), b"<</Names 200 0 R>>")[1], "objects": lambda o: {200: held.pop()}}, []
    pdf = lambda change: {"pdf": change}
    yield "file/older_version", pdf(lambda p: p.replace(b"%PDF-1.7", b"%PDF-1.0")), []
    yield "file/no_version", pdf(lambda p: p.replace(b"%PDF-1.7", b"%PDF-9.9")), []
    yield "file/end_without_blanks", pdf(lambda p: p.replace(b"\n%%EOF", b"%%EOF")), []
    yield "file/end_with_blanks", pdf(lambda p: p.replace(b"\n%%EOF", b" \t\f\r\n%%EOF")), []
    yield "file/end_with_a_vertical_tab", pdf(lambda p: p.replace(b"\n%%EOF", b"\v%%EOF")), ["truncated_file"]
    yield "file/end_with_a_nought", pdf(lambda p: p.replace(b"\n%%EOF", b"\0%%EOF")), ["truncated_file"]
    yield "file/end_twice", pdf(lambda p: p + b"%%EOF\n"), []
    yield "file/bytes_behind_the_end", pdf(lambda p: p + b"\0" * 100), []
    yield "file/bytes_before_the_head", pdf(lambda p: b"\n" + p), ["unreadable_file"]
    yield "file/table_place_wrong", pdf(lambda p: p.replace(b"startxref\n", b"startxref\n1")), ["unreadable_file"]
    yield "file/encrypted", pdf(lambda p: p.replace(b"/Root 1 0 R", b"/Root 1 0 R/Encrypt<</Filter/Standard/V 1/R 2/O(x)/U(x)/P 0>>")), ["unreadable_file"]
