package org.stowfast.app

import org.junit.Assert.assertEquals
import org.junit.Test
import java.io.File

/** What the sources themselves must keep to. */
class SourceTest {
    private val app = sources("src/main/kotlin")
    private val engine = sources("../engine/src/main/kotlin")

    @Test
    fun onlyTheFenceSeesTheGeneratedCode() =
        assertEquals(emptyList<String>(), app.filter { "org.stowfast.ffi" in it.readText() }.map { it.name })

    @Test
    fun filesKeepToTheirBudgets() {
        val over = (app + engine).filter { file ->
            val lines = file.readLines().size
            lines > if (file.name.endsWith("ViewModel.kt")) 150 else 300
        }
        assertEquals(emptyList<String>(), over.map { it.name })
    }

    @Test
    fun statesHaveNoDefaults() {
        val states = app.filter { it.name.endsWith("State.kt") }
        assertEquals(18, states.size)
        assertEquals(emptyList<String>(), states.filter { " = " in it.readText() }.map { it.name })
    }

    @Test
    fun noScreenShowsAnExceptionsOwnText() =
        assertEquals(emptyList<String>(), app.filter { ".message" in it.readText() }.map { it.name })

    private fun sources(folder: String): List<File> = File(folder).walk().filter { it.extension == "kt" }.toList()
}
