// The same short story as the other languages' tests: two devices, one car, no server, one disagreement.
package farsiding

import com.fasterxml.jackson.databind.JsonNode
import com.fasterxml.jackson.databind.ObjectMapper
import java.nio.file.Path
import kotlinx.coroutines.runBlocking
import org.junit.jupiter.api.Assertions.assertEquals
import org.junit.jupiter.api.Assertions.assertNull
import org.junit.jupiter.api.Assertions.assertThrows
import org.junit.jupiter.api.Assertions.assertTrue
import org.junit.jupiter.api.Test
import org.junit.jupiter.api.io.TempDir

class BookTest {
    @TempDir
    lateinit var folder: Path

    private val json = ObjectMapper()
    private val story: JsonNode = json.readTree(Path.of("..", "story.json").toFile())

    private fun open(name: String, key: Byte) = runBlocking { openBook(folder, name, ByteArray(32) { key }) }

    private fun begun(book: Book): String {
        val visit = book.openVisit(story["opening"].toString(), "op-1")
        book.append("visit:$visit", story["first"].toString(), "op-1")
        return visit
    }

    @Test
    fun `two devices disagree, settle it, and show the same`() {
        open("a.book", 1).use { a ->
            open("b.book", 2).use { b ->
                val visit = begun(a)
                assertEquals(4, json.readTree(b.carryIn(a.carryOut(listOf(visit))))["received"].asInt())
                a.append("visit:$visit", "[${story["final_on_a"]}]", "op-1")
                val theirs = b.append("visit:$visit", "[${story["final_on_b"]}]", "op-2").single()
                a.carryIn(b.carryOut(listOf(visit)))
                b.carryIn(a.carryOut(listOf(visit)))
                val seen = story["seen"]
                for (book in listOf(a, b)) {
                    val disagreement = json.readTree(book.visit(visit))["disagreements"].single()
                    assertEquals(seen["slot"], disagreement["slot"])
                    assertEquals(
                        seen["claims"].map { it.asText() },
                        disagreement["claims"].map { it["sentence"].asText() }.sorted(),
                    )
                }
                assertThrows(Trouble.Refused::class.java) { a.settle(visit, theirs, " ", "op-1") }
                a.settle(visit, theirs, story["why"].asText(), "op-1")
                b.carryIn(a.carryOut(listOf(visit)))
                val views = listOf(a, b).map { json.readTree(it.visit(visit)) }
                for (view in views) {
                    assertEquals(seen["car"], view["header"]["car"])
                    assertEquals(0, view["disagreements"].size())
                    assertEquals(seen["entries"].asInt(), view["history"].size())
                    val codes = view["blockers"].map { it["code"].asText() }
                    assertTrue(codes.containsAll(seen["some_blockers"].map { it.asText() }), codes.toString())
                    val final = view["readings"].first { it["slot"] == seen["slot"] }
                    assertEquals(seen["final_after"], final["current"]["value"]["amount"]["text"])
                }
                assertEquals(views[0]["history"], views[1]["history"])
                assertEquals(views[0]["blockers"], views[1]["blockers"])
            }
        }
    }

    @Test
    fun `what was recorded is there after closing and opening again`() {
        val visit = open("one.book", 1).use { begun(it) }
        open("one.book", 1).use { book ->
            assertEquals(story["seen"]["car"], json.readTree(book.visits()).single()["car"])
            assertTrue("118 psi" in book.show(visit))
        }
    }

    @Test
    fun `bytes that are no carry file are refused and say so`() {
        open("c.book", 1).use { book ->
            assertThrows(Trouble.Refused::class.java) { book.carryIn("not a carry file".toByteArray()) }
        }
    }

    @Test
    fun `sync before enrolment is said`() {
        open("c.book", 1).use { book -> assertThrows(Trouble.NotEnrolled::class.java) { book.syncStart() } }
    }

    @Test
    fun `a key of the wrong length is the caller's mistake`() {
        val trouble = assertThrows(Trouble.WrongCall::class.java) { Book.open(folder.toString(), "d.book", ByteArray(5)) }
        assertEquals("a key has 32 bytes", trouble.why)
        assertEquals(32, newKey().size)
    }

    @Test
    fun `a typed amount keeps its text and shows what is odd`() {
        assertEquals(ReadAmount("8 bar", "bar", 8.0, listOf("unit_from_text")), readAmount("8 bar", "psig").copy(unit = "bar"))
        assertNull(readAmount("full", "psig").value)
    }

    @Test
    fun `formulas answer as on the command line`() {
        // API MPMS 11.2.4 / GPA TP-27, Table 24E, as on a public results sheet.
        assertEquals(0.96709, json.readTree(calculate("ctl", """{"temp_f":80,"rd60":0.51}"""))["value"].asDouble())
    }
}
