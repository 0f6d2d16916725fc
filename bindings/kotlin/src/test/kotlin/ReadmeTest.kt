// README.md as a stranger follows it: its example is Example.kt and runs, it names every kind of error, and what is
// built holds the licence texts.
package farsiding

import java.io.ByteArrayOutputStream
import java.io.PrintStream
import java.nio.file.Path
import kotlin.io.path.readText
import org.junit.jupiter.api.Assertions.assertEquals
import org.junit.jupiter.api.Assertions.assertTrue
import org.junit.jupiter.api.Test

class ReadmeTest {
    private val readme = Path.of("README.md").readText()

    @Test
    fun `the example is the file that is compiled here, and runs`() {
        val file = Path.of("src", "test", "kotlin", "Example.kt").readText()
        assertTrue("```kotlin\n$file```\n" in readme, "README.md prints another example than Example.kt")
        val (screen, printed) = System.out to ByteArrayOutputStream()
        System.setOut(PrintStream(printed, true, Charsets.UTF_8))
        try {
            example.main()
        } finally {
            System.setOut(screen)
        }
        val said = printed.toString(Charsets.UTF_8)
        for (part in listOf("not released: still open", "ZZQX 4417", "118 psi")) assertTrue(part in said, said)
    }

    @Test
    fun `every kind of error has its row, and no other has`() {
        val kinds = FarsidingException::class.java.declaredClasses.filter { FarsidingException::class.java.isAssignableFrom(it) }
        val rows = Regex("^\\| `(\\w+)` \\|", RegexOption.MULTILINE).findAll(readme).map { it.groupValues[1] }
        assertEquals(kinds.map { it.simpleName }.toSortedSet(), rows.toSortedSet())
        assertTrue(kinds.size > 10)
    }

    @Test
    fun `the licence texts are on the class path as in the jar`() {
        for (name in listOf("LICENSE-APACHE", "LICENSE-MIT")) {
            val inside = FarsidingException::class.java.getResource("/META-INF/$name")!!.readText()
            assertEquals(Path.of("..", "..", "core", "licences", name).readText(), inside)
        }
        assertTrue("uniffi" in FarsidingException::class.java.getResource("/META-INF/NOTICE.txt")!!.readText())
    }
}
