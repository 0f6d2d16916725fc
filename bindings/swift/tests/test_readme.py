"""README.md's example held against the generated sources, since no Swift compiler runs here.

Every call must exist with these argument labels, and every other name must be the example's own, generated, or one
of the few of Apple's that are listed here. That the example compiles is not claimed.
"""

import pathlib
import re
import unittest

SWIFT = pathlib.Path(__file__).parents[1]
README = (SWIFT / "README.md").read_text()
GENERATED = (SWIFT / "Sources/Farsiding/Farsiding.swift").read_text()

WORDS = set("as await catch do else false for guard if import in let nil return throw true try var while _".split())
APPLES = {"FileManager", "Foundation", "count", "default", "fatalError", "path", "print", "temporaryDirectory"}
NAME = r"[A-Za-z_]\w*"


def labels(parameters):
    """The argument labels of a declaration's parameters, or of a call's arguments, in order; `_` where there is none."""
    found, depth, part = [], 0, ""
    for letter in parameters + ",":
        depth += (letter in "([{") - (letter in ")]}")
        if letter == "," and depth == 0:
            if part.strip():
                label = re.match(rf"\s*`?({NAME})`?\s*:", part)
                found.append(label.group(1) if label else "_")
            part = ""
        else:
            part += letter
    return tuple(found)


def inside(code, at):
    """What stands between the parenthesis that opens at `at` and the one that closes it."""
    depth = 0
    for end in range(at, len(code)):
        depth += (code[end] == "(") - (code[end] == ")")
        if depth == 0:
            return code[at + 1 : end]
    raise AssertionError(f"a parenthesis is never closed: {code[at : at + 60]}")


def declared(source):
    """Every public function, case and property of the generated source: calls with their labels, and names."""
    calls, names = {}, {"Farsiding"}
    source = re.sub(r"/\*.*?\*/|//[^\n]*", "", source, flags=re.DOTALL)
    for found in re.finditer(rf"^\s*(?:open|public|public static|public convenience)\s+func\s+`?({NAME})`?\(", source, re.M):
        calls.setdefault(found.group(1), set()).add(labels(inside(source, found.end() - 1)))
    for found in re.finditer(rf"^\s*case ({NAME})\(", source, re.M):
        calls.setdefault(found.group(1), set()).add(labels(inside(source, found.end() - 1)))
    for found in re.finditer(rf"^\s*(?:open|public)\s+(?:final )?(?:class|struct|enum|indirect enum|var|let)\s+({NAME})", source, re.M):
        names.add(found.group(1))
    return calls, names


def as_code(example):
    """The example without comments and texts; what a text has inserted stays, as code of its own."""
    code, inserted = "", []
    for line in example.splitlines():
        for text in re.findall(r'#"(?:[^"]|"(?!#))*"#|"(?:[^"\\]|\\.)*"', line):
            for found in re.finditer(r"\\#?\(", text):
                inserted.append(inside(text, found.end() - 1))
            line = line.replace(text, "0")
        code += line.partition("//")[0] + "\n"
    return code + "\n".join(inserted)


def complaints(example, source):
    """What the example uses and the generated source has not."""
    calls, names = declared(source)
    code = as_code(example)
    own = set(re.findall(rf"\blet ({NAME})", code))
    found, said = [], set()
    for call in re.finditer(rf"({NAME})\(", code):
        name, given = call.group(1), labels(inside(code, call.end() - 1))
        said.update(given)
        if name in APPLES or name in WORDS:
            continue
        if name not in calls:
            found.append(f"there is no {name}")
        elif re.match(r"\s*let ", inside(code, call.end() - 1)):
            bound = re.findall(rf"let ({NAME})", inside(code, call.end() - 1))
            if tuple(bound) not in calls[name]:
                found.append(f"{name} holds {sorted(calls[name])}, not {bound}")
        elif given not in calls[name]:
            found.append(f"{name} takes {sorted(calls[name])}, not {given}")
    known = WORDS | APPLES | own | said | names | set(calls)
    found += [f"there is no {name}" for name in sorted(set(re.findall(rf"\b{NAME}", code)) - known)]
    return found


class ReadmeTest(unittest.TestCase):
    def setUp(self):
        [self.example] = re.findall(r"^```swift\n(.*?)^```$", README, re.DOTALL | re.MULTILINE)

    def test_every_name_in_the_example_is_in_the_generated_sources(self):
        self.assertEqual(complaints(self.example, GENERATED), [])
        used = [f"{name}(" for name in ("prepareStorage", "open", "openVisit", "append", "release", "Refused")]
        self.assertTrue(all(name in as_code(self.example) for name in used), "the example was not read")

    def test_a_call_label_case_or_property_that_is_not_there_is_noticed(self):
        for right, wrong in [
            ("book.openVisit(", "book.beginVisit("),
            ("asResidue:", "residue:"),
            ("FarsidingError.Refused(", "FarsidingError.Denied("),
            ("Refused(let why, let says)", "Refused(let reason, let says)"),
            (".readings[0]", ".values[0]"),
            ("book.newSite()", "book.freshSite()"),
            (", decimalMark: nil", ""),
        ]:
            with self.subTest(wrong):
                self.assertIn(right, self.example)
                self.assertNotEqual(complaints(self.example.replace(right, wrong), GENERATED), [])

    def test_every_kind_of_error_has_its_row_and_no_other_has(self):
        error = GENERATED[GENERATED.index("enum FarsidingError") :]
        kinds = set(re.findall(rf"^    case ({NAME})\(", error[: error.index("\n}")], re.MULTILINE))
        self.assertGreater(len(kinds), 10)
        self.assertEqual(set(re.findall(r"^\| `(\w+)` \|", README, re.MULTILINE)), kinds)

    def test_it_says_that_nothing_here_was_compiled(self):
        self.assertIn("have never been compiled by this project", README)


if __name__ == "__main__":
    unittest.main()
