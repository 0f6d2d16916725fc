"""README.md as a stranger follows it: its example runs as printed, and it names every kind of error there is."""

import os
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

import farsiding

README = (pathlib.Path(__file__).parents[1] / "README.md").read_text()
KINDS = {name for name, kind in vars(farsiding.FarsidingError).items() if isinstance(kind, type) and issubclass(kind, Exception)}


class ReadmeTest(unittest.TestCase):
    def test_the_example_runs_as_it_is_printed(self):
        [example] = re.findall(r"^```python\n(.*?)^```$", README, re.DOTALL | re.MULTILINE)
        with tempfile.TemporaryDirectory() as folder:
            script = pathlib.Path(folder, "example.py")
            script.write_text(example)
            run = subprocess.run(
                [sys.executable, script.name],
                cwd=folder,
                env={**os.environ, "TMPDIR": folder},
                capture_output=True,
                text=True,
                timeout=60,
            )
        self.assertEqual(run.returncode, 0, run.stderr)
        self.assertIn("not released: still open", run.stdout)
        self.assertIn("ZZQX 4417", run.stdout)
        self.assertIn("118 psi", run.stdout)

    def test_every_kind_of_error_has_its_row_and_no_other_has(self):
        self.assertGreater(len(KINDS), 10)
        self.assertEqual(set(re.findall(r"^\| `(\w+)` \|", README, re.MULTILINE)), KINDS)


class DocstringTest(unittest.TestCase):
    """The Rust comments come through as docstrings: they are all that a caller sees of the API."""

    def calls(self):
        functions = [getattr(farsiding, name) for name in farsiding.__all__]
        functions = [call for call in functions if callable(call) and not isinstance(call, type)]
        methods = [call for name, call in vars(farsiding.Book).items() if not name.startswith("_")]
        return [getattr(call, "__func__", call) for call in functions + methods]

    def test_every_call_says_how_it_fails_in_kinds_that_exist(self):
        calls = self.calls()
        self.assertGreater(len(calls), 45)
        for call in calls:
            with self.subTest(call.__name__):
                said = call.__doc__ or ""
                self.assertRegex(said, r"# Errors|Never fails|Raises what")
                for kind in re.findall(r"^\s*- `(\w+)`:", said.partition("# Errors")[2], re.MULTILINE):
                    self.assertIn(kind, KINDS)


if __name__ == "__main__":
    unittest.main()
