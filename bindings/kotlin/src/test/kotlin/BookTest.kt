// The same short story as the other languages' tests: two devices, one car, no server, one disagreement.
package farsiding

import com.fasterxml.jackson.databind.JsonNode
import com.fasterxml.jackson.databind.ObjectMapper
import com.fasterxml.jackson.databind.node.DoubleNode
import com.fasterxml.jackson.databind.node.ObjectNode
import java.math.MathContext
import java.nio.file.Path
import kotlinx.coroutines.runBlocking
import org.junit.jupiter.api.Assertions.assertEquals
import org.junit.jupiter.api.Assertions.assertThrows
import org.junit.jupiter.api.Assertions.assertTrue
import org.junit.jupiter.api.Test
import org.junit.jupiter.api.io.TempDir

class BookTest {
    @TempDir
    lateinit var folder: Path

    private val json = ObjectMapper()
    private val story: JsonNode = json.readTree(Path.of("..", "story.json").toFile())
    private val notTold = story["not_told"]["keys"].map { it.asText() }.toSet()

    private fun open(name: String, key: Byte) = runBlocking { openBook(folder, name, ByteArray(32) { key }) }

    private fun begun(book: Book): String {
        val visit = book.openVisit(story["opening"].toString(), "op-1")
        book.append("site:${story["site"].asText()}", story["site_facts"].toString(), "op-1")
        book.append("visit:$visit", story["first"].toString(), "op-1")
        return visit
    }

    /** What a view says, without what differs each time; numbers to nine digits, as processors differ in the last. */
    private fun told(view: JsonNode): JsonNode = when {
        view.isObject -> json.createObjectNode().apply {
            view.properties().filter { it.key !in notTold }.forEach { (key, inner) -> set<JsonNode>(key, told(inner)) }
        }
        view.isArray -> json.createArrayNode().apply { view.forEach { add(told(it)) } }
        view.isNumber -> DoubleNode(view.decimalValue().round(MathContext(9)).toDouble())
        else -> view
    }

    @Test
    fun `two devices disagree, settle it, and show the same`() {
        open("a.book", 1).use { a ->
            open("b.book", 2).use { b ->
                val visit = begun(a)
                val seen = story["seen"]
                assertEquals(seen["carried"], json.readTree(b.carryIn(a.carryOut(listOf(visit))))["received"])
                a.append("visit:$visit", "[${story["final_on_a"]}]", "op-1")
                Thread.sleep(10) // The second reading is the later one by the clock too.
                val theirs = b.append("visit:$visit", "[${story["final_on_b"]}]", "op-2").single()
                a.carryIn(b.carryOut(listOf(visit)))
                b.carryIn(a.carryOut(listOf(visit)))
                for (book in listOf(a, b)) {
                    val disagreement = json.readTree(book.visit(visit))["disagreements"].single()
                    assertEquals(seen["slot"], disagreement["slot"])
                    assertEquals(seen["claims"].toList(), disagreement["claims"].map { it["sentence"]["args"]["instrument"]["typed"] })
                }
                assertThrows(FarsidingException.Refused::class.java) { a.settle(visit, theirs, " ", "op-1") }
                a.settle(visit, theirs, story["why"].asText(), "op-1")
                b.carryIn(a.carryOut(listOf(visit)))
                // The brief of an open visit reaches to the moment it is looked at.
                val views = listOf(a, b).map { (json.readTree(it.visit(visit)) as ObjectNode).apply { remove("brief") } }
                assertEquals(views[0], views[1])
                val final = views[0]["readings"].single { it["slot"] == seen["slot"] }
                assertEquals(seen["final_after"], final["current"]["value"]["amount"]["text"])
                val expected = told(json.readTree(Path.of("..", "story-view.json").toFile()))
                assertEquals(expected.toPrettyString(), told(views[0]).toPrettyString())
            }
        }
    }

    @Test
    fun `what was recorded is there after closing and opening again`() {
        val visit = open("one.book", 1).use { begun(it) }
        open("one.book", 1).use { book ->
            assertEquals("ZZQX 4417", json.readTree(book.visits()).single()["car"].asText())
            assertTrue("118 psi" in book.show(visit))
        }
    }

    @Test
    fun `bytes that are no carry file are refused and say so`() {
        open("c.book", 1).use { book ->
            assertThrows(FarsidingException.Refused::class.java) { book.carryIn("not a carry file".toByteArray()) }
        }
    }

    @Test
    fun `sync before enrolment is said`() {
        open("c.book", 1).use { book -> assertThrows(FarsidingException.NotEnrolled::class.java) { book.syncStart() } }
    }

    @Test
    fun `a key of the wrong length is the caller's mistake`() {
        val error = assertThrows(FarsidingException.WrongCall::class.java) { Book.open(folder.toString(), "d.book", ByteArray(5)) }
        assertEquals("a key has 32 bytes", error.why)
        assertEquals(32, newKey().size)
    }

    @Test
    fun `a typed amount keeps its text and shows what is odd`() {
        val read = readAmount("8 bar", "psig", null)
        assertEquals(listOf(8.0, "bar", "8 bar"), read.readings.single().let { listOf(it.value, it.unit, read.text) })
        assertEquals(listOf(32.65, 32650.0), readAmount("32,650", "gal", null).readings.map { it.value })
        assertEquals(32.65, readAmount("32,650", "gal", ",").readings.single().value)
        assertEquals("not_a_number", readAmount("full", "psig", null).refused)
    }

    @Test
    fun `formulas answer as on the command line`() {
        // API MPMS 11.2.4 / GPA TP-27, Table 24E, as on a public results sheet.
        assertEquals(0.96709, json.readTree(calculate("ctl", """{"temp_f":80,"rd60":0.51}"""))["value"].asDouble())
    }
}
