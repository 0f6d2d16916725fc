// The same short story as the other languages' tests: two devices write, hand over, and agree.
package farsiding

import java.nio.file.Path
import kotlinx.coroutines.runBlocking
import org.junit.jupiter.api.Assertions.assertEquals
import org.junit.jupiter.api.Assertions.assertNull
import org.junit.jupiter.api.Assertions.assertThrows
import org.junit.jupiter.api.Test
import org.junit.jupiter.api.io.TempDir

class BookTest {
    @TempDir
    lateinit var folder: Path

    private fun open(name: String, key: Byte) = runBlocking { openBook(folder, name, ByteArray(32) { key }) }

    @Test
    fun `what was written is there after closing and opening again`() {
        val written = open("one.book", 1).use { it.write("liquid valve shut, snug", 1_000) }
        open("one.book", 1).use { book ->
            assertEquals(listOf(written), book.notes())
            assertEquals(1_000, book.notes().single().writtenAt.toEpochMilli())
        }
    }

    @Test
    fun `two devices that hand over their books end with the same notes`() {
        open("a.book", 1).use { a ->
            open("b.book", 2).use { b ->
                a.write("outage 12 in", 1_000)
                b.write("plug tool-tight, 3 threads", 2_000)
                assertEquals(1uL, a.merge(b.document()))
                assertEquals(1uL, b.merge(a.document()))
                assertEquals(0uL, b.merge(a.document()))
                assertEquals(a.notes(), b.notes())
                assertEquals(2uL, a.size().notes)
            }
        }
    }

    @Test
    fun `bytes that are no book are refused and say so`() {
        open("c.book", 1).use { book ->
            assertThrows(Trouble.Refused::class.java) { book.merge("not a book".toByteArray()) }
            assertEquals(0uL, book.size().notes)
        }
    }

    @Test
    fun `a key of the wrong length is the caller's mistake`() {
        val trouble = assertThrows(Trouble.WrongCall::class.java) { Book.open(folder.toString(), "d.book", ByteArray(5)) }
        assertEquals("a key has 32 bytes", trouble.why)
    }

    @Test
    fun `a typed amount keeps its text and shows what is odd`() {
        assertEquals(ReadAmount("8 bar", "bar", 8.0, listOf("unit_from_text")), readAmount("8 bar", "psig").copy(unit = "bar"))
        assertNull(readAmount("full", "psig").value)
    }
}
