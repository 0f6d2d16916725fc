// Records a reading of an invented car and shows what it means.
package example

import farsiding.FarsidingException
import farsiding.newKey
import farsiding.openBook
import farsiding.readAmount
import java.nio.file.Files
import kotlinx.coroutines.runBlocking

fun main() = runBlocking {
    val folder = Files.createTempDirectory("farsiding") // For trying: an app takes a folder that stays.
    val key = newKey() // 32 secret bytes. Keep them: they are this device.
    openBook(folder, "example.book", key).use { book ->
        val opening = """{"car": "ZZQX 4417", "site": "${book.newSite()}", "receiver": "fixed_tank"}"""
        val visit = book.openVisit(opening, "op-1")

        val typed = readAmount("118 psi", "psi", null)
        val amount = typed.readings.singleOrNull()?.amount ?: error(typed.why) // Ask: no reading, or two.
        val reading = """{"measured": "pressure", "place": "car", "purpose": "arrival", "amount": $amount}"""
        book.append("visit:$visit", """[{"says": {"reading": $reading}}]""", "op-1")

        try {
            book.release(visit, true, "op-1")
        } catch (refused: FarsidingException.Refused) {
            println("not released: ${refused.why}")
        }
        println(book.show(visit))
    }
}
