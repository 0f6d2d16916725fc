"""The wheel as it is handed on: what runs here comes out of it, with the licence texts and the module that is committed."""

import importlib.metadata
import pathlib
import sys
import unittest

import farsiding
import farsiding.farsiding_bindings as package
from farsiding.farsiding_bindings import farsiding_bindings as generated

PYTHON = pathlib.Path(__file__).parents[1]


def without_heading(text):
    """A generated module without the comments it begins with, and without blanks at the ends of lines."""
    lines = [line.rstrip() for line in text.splitlines()]
    while lines and lines[0].startswith("#"):
        del lines[0]
    return "\n".join(lines).strip()


class WheelTest(unittest.TestCase):
    def test_what_is_tested_is_the_installed_wheel(self):
        for module in (farsiding, package, generated):
            self.assertTrue(pathlib.Path(module.__file__).is_relative_to(sys.prefix), module.__file__)

    def test_the_licence_texts_are_in_it(self):
        wheel = importlib.metadata.distribution("farsiding")
        self.assertEqual(wheel.metadata["License-Expression"], "Apache-2.0 OR MIT")
        inside = {file.name: file.read_text() for file in wheel.files if "licenses" in file.parts}
        for name in ("LICENSE-APACHE", "LICENSE-MIT", "NOTICE.txt"):
            self.assertEqual(inside[name], (PYTHON / name).read_text(), name)
            self.assertIn(name, wheel.metadata.get_all("License-File"))

    def test_its_generated_module_is_the_committed_one(self):
        committed = (PYTHON / "farsiding/farsiding_bindings.py").read_text()
        built = pathlib.Path(generated.__file__).read_text()
        self.assertEqual(without_heading(built), without_heading(committed), "run bindings/generate")


if __name__ == "__main__":
    unittest.main()
