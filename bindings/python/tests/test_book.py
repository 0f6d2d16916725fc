"""The same short story as the other languages' tests: two devices write, hand over, and agree."""

import pathlib
import tempfile
import unittest

from farsiding import Book, Trouble, open_book, read_amount


class BookTest(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name) / "not yet there"

    def open(self, name, key):
        return open_book(self.folder, name, bytes([key]) * 32)

    def test_what_was_written_is_there_after_opening_again(self):
        written = self.open("one.book", 1).write("liquid valve shut, snug", 1_000)
        self.assertEqual(self.open("one.book", 1).notes(), [written])

    def test_two_devices_that_hand_over_their_books_end_with_the_same_notes(self):
        a, b = self.open("a.book", 1), self.open("b.book", 2)
        a.write("outage 12 in", 1_000)
        b.write("plug tool-tight, 3 threads", 2_000)
        self.assertEqual(a.merge(b.document()), 1)
        self.assertEqual(b.merge(a.document()), 1)
        self.assertEqual(b.merge(a.document()), 0)
        self.assertEqual(a.notes(), b.notes())
        self.assertEqual(a.size().notes, 2)

    def test_bytes_that_are_no_book_are_refused(self):
        book = self.open("c.book", 1)
        with self.assertRaises(Trouble.Refused):
            book.merge(b"not a book")
        self.assertEqual(book.size().notes, 0)

    def test_a_tampered_note_is_refused_and_nothing_is_taken_in(self):
        a, b = self.open("a.book", 1), self.open("b.book", 2)
        a.write("four threads engaged", 1_000)
        document = a.document()
        self.assertIn(b"four threads", document)
        with self.assertRaises(Trouble.Refused):
            b.merge(document.replace(b"four threads", b"nine threads"))
        self.assertEqual(b.notes(), [])

    def test_a_key_of_the_wrong_length_is_the_callers_mistake(self):
        with self.assertRaises(Trouble.WrongCall) as caught:
            Book.open(str(self.folder), "d.book", b"short")
        self.assertEqual(caught.exception.why, "a key has 32 bytes")

    def test_a_typed_amount_keeps_its_text_and_shows_what_is_odd(self):
        amount = read_amount("8 bar", "psig")
        self.assertEqual((amount.text, amount.value, amount.findings), ("8 bar", 8.0, ["unit_from_text"]))
        self.assertIsNone(read_amount("full", "psig").value)


if __name__ == "__main__":
    unittest.main()
