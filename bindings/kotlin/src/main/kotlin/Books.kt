// Kotlin's manner of opening a book. Generated calls are in the package `farsiding`; nothing is decided here.
package farsiding

import java.nio.file.Path

/** Makes [folder] ready and opens the book [name] in it. Close it with `use` or [Book.close]. */
@Throws(FarsidingException::class)
suspend fun openBook(folder: Path, name: String, key: ByteArray): Book {
    prepareStorage(folder.toString())
    return Book.open(folder.toString(), name, key)
}
