"""Odd checkpoints: notes, their base64, their signature lines."""
import base64

from handmade import OFFICE, ORIGIN, STRANGER, signature_line


def note_cases():
    def lines(change):
        return {"note.lines": change}
    good = lambda name, change: (f"note/{name}", change, [])
    bad = lambda name, change: (f"note/{name}", change, ["forged_checkpoint"])
    at = lambda n, change: lines(lambda l: l[:n] + [change(l[n])] + l[n + 1:])
    url = lambda raw: base64.urlsafe_b64encode(raw).decode()
    own = lambda text: signature_line(OFFICE, ORIGIN, text)
    yield good("one_more_line", lines(lambda l: l + ["something else"]))
    yield good("eight_more_lines", lines(lambda l: l + [f"x{n}" for n in range(7)]))
    yield bad("nine_more_lines", lines(lambda l: l + [f"x{n}" for n in range(8)]))
    yield good("heads_behind_others", lines(lambda l: l[:3] + ["first"] + l[3:]))
    yield good("no_heads", lines(lambda l: l[:3]))
    yield good("headsless", at(3, lambda h: "heads"))
    yield good("heads_in_capitals", at(3, lambda h: "HEADS" + h[5:]))
    yield good("heads_and_a_tab", at(3, lambda h: "heads:" + h[5:]))
    yield bad("empty_line_within", lines(lambda l: l + ["", "x"]))
    yield bad("two_line_feeds_at_the_end", {"note.text": lambda t: t + "\n"})
    yield bad("heads_twice", lines(lambda l: l + [l[3]]))
    yield bad("heads_leading_zero", at(3, lambda h: h.replace("heads ", "heads 0")))
    yield bad("heads_plus", at(3, lambda h: h.replace("heads ", "heads +")))
    yield bad("heads_two_blanks", at(3, lambda h: h.replace("heads ", "heads  ")))
    yield bad("heads_blank_behind", at(3, lambda h: h + " "))
    yield bad("heads_third_word", at(3, lambda h: h + " x"))
    yield bad("heads_without_root", at(3, lambda h: h.rsplit(" ", 1)[0]))
    yield bad("heads_nothing", at(3, lambda h: "heads "))
    yield bad("heads_unpadded", at(3, lambda h: h.rstrip("=")))
    yield bad("heads_short_root", at(3, lambda h: "heads 2 " + base64.b64encode(bytes(31)).decode()))
    yield bad("heads_url_alphabet", at(3, lambda h: "heads 2 " + url(b"\xff" * 32)))
    yield bad("heads_count_too_large", at(3, lambda h: f"heads {1 << 64} " + h.split()[2]))
    yield ("note/heads_of_none", at(3, lambda h: "heads 0 " + base64.b64encode(bytes(32)).decode()), ["other_head"])
    yield bad("heads_stray_bits", at(3, lambda h: h[:-2] + chr(ord(h[-2]) + 1) + "="))
    for name, change in [("leading_zero", lambda s: "0" + s), ("plus", lambda s: "+" + s), ("blank_behind", lambda s: s + " "), ("blank_before", lambda s: " " + s),
                         ("empty_minus", lambda s: "-1"), ("too_large", lambda s: str(1 << 64)), ("very_long", lambda s: "9" * 5000), ("other_digits", lambda s: "\u0661\u0660"),
                         ("hexadecimal", lambda s: "0xa"), ("float", lambda s: s + ".0"), ("underscore", lambda s: "1_0")]:
        yield bad("size_" + name, at(1, change))
    for name, change in [("unpadded", lambda s: s.rstrip("=")), ("padded_twice", lambda s: s + "="), ("blank_within", lambda s: s[:9] + " " + s[9:]), ("blank_behind", lambda s: s + " "),
                         ("url_alphabet", lambda s: url(b"\xff" * 32)), ("short", lambda s: base64.b64encode(bytes(31)).decode()), ("long", lambda s: base64.b64encode(bytes(33)).decode()),
                         ("stray_bits", lambda s: s[:-2] + chr(ord(s[-2]) + 1) + "="), ("hexadecimal", lambda s: base64.b64decode(s).hex()), ("tab", lambda s: s + "\t")]:
        yield bad("root_" + name, at(2, change))
    for name, change in [("in_capitals", str.upper), ("blank_behind", lambda s: s + " "), ("suffix_too_short", lambda s: s + "/0123"), ("suffix_in_capitals", lambda s: s + "/0123456789ABCDEF"),
                         ("suffix_empty", lambda s: s + "/"), ("of_another", lambda s: s[:-1] + "x")]:
        yield bad("origin_" + name, at(0, change))
    yield ("note/origin_begun_anew", {"note": lambda n: begun_anew(n), "early": lambda n: begun_anew(n)}, [])
    yield ("note/origin_begun_anew_in_one", {"note": lambda n: begun_anew(n)}, ["log_fork"])
    yield bad("carriage_returns", {"note": lambda n: n.replace("\n", "\r\n")})
    yield bad("carriage_returns_signed", {"note.text": lambda t: t.replace("\n", "\r\n")})
    yield bad("control_character_in_a_line", lines(lambda l: l + ["x\x01"]))
    yield bad("carriage_return_in_a_line", lines(lambda l: l + ["x\r"]))
    yield bad("byte_order_mark", {"note": lambda n: "\ufeff" + n})
    yield bad("line_feed_before", {"note": lambda n: "\n" + n})
    yield bad("no_last_line_feed", {"note": lambda n: n[:-1]})
    yield bad("line_feed_behind", {"note": lambda n: n + "\n"})
    yield bad("words_behind", {"note": lambda n: n + "more"})
    yield bad("two_line_feeds_before_signatures", {"note": lambda n: n.replace("\n\n", "\n\n\n")})
    yield bad("empty", {"note": lambda n: ""})
    for name, dash in [("hyphen", "-"), ("two_hyphens", "--"), ("en_dash", "\u2013"), ("horizontal_bar", "\u2015"), ("minus", "\u2212"), ("two_dashes", "\u2014\u2014")]:
        yield bad("dash_" + name, {"note.signatures": lambda s, d=dash: s.replace("\u2014", d)})
    yield bad("signature_two_blanks", {"note.signatures": lambda s: s.replace("\u2014 ", "\u2014  ")})
    yield bad("signature_blank_behind", {"note.signatures": lambda s: s[:-1] + " \n"})
    yield bad("signature_third_word", {"note.signatures": lambda s: s[:-1] + " x\n"})
    yield bad("signature_unpadded", {"note.signatures": lambda s: s.replace("=", "")})
    yield bad("signature_byte_more", {"note.signatures": lambda s: longer(s)})
    yield bad("signature_of_another_key", {"note.signatures": lambda s: signature_line(STRANGER, ORIGIN, "x\n")})
    yield bad("signature_empty", {"note.signatures": lambda s: ""})
    yield bad("name_in_capitals", {"note.signatures": lambda s: s.replace("farsiding", "Farsiding")})
    other = signature_line(STRANGER, "witness.example/w1", "x\n")
    yield good("line_of_another_behind", {"note.signatures": lambda s: s + other})
    yield good("line_of_another_before", {"note.signatures": lambda s: other + s})
    yield good("line_of_another_of_the_same_name", {"note.signatures": lambda s: s + signature_line(STRANGER, ORIGIN, "x\n")})
    yield good("own_line_twice", {"note.signatures": lambda s: s + s})
    yield bad("own_line_that_does_not_hold_behind", {"note.signatures": lambda s: s + own("another")})
    yield bad("own_line_that_does_not_hold_before", {"note.signatures": lambda s: own("another") + s})
    yield bad("line_of_no_form_behind", {"note.signatures": lambda s: s + "something\n"})
    yield bad("line_of_no_base64_behind", {"note.signatures": lambda s: s + "\u2014 other !!!\n"})
    yield bad("line_of_a_short_key_id_behind", {"note.signatures": lambda s: s + "\u2014 other AAAA\n"})
    yield bad("line_of_a_name_with_a_plus", {"note.signatures": lambda s: s + "\u2014 oth+er AAAAAAAA\n"})
    yield good("hundreds_of_lines_of_others", {"note.signatures": lambda s: s + other * 300})


def begun_anew(note):
    text = note.split("\n\n")[0] + "\n"
    origin = ORIGIN + "/0123456789abcdef"
    text = text.replace(ORIGIN, origin)
    return text + "\n" + signature_line(OFFICE, origin, text)


def longer(line):
    dash, name, signed = line[:-1].split(" ")
    return f"{dash} {name} {base64.b64encode(base64.b64decode(signed) + bytes(1)).decode()}\n"
