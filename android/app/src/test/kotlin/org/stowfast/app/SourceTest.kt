package org.stowfast.app

import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import java.io.File

/** What the sources themselves must keep to. */
class SourceTest {
    private val app = sources("src/main/kotlin")
    private val engine = sources("../engine/src/main/kotlin")
    private val tests = sources("src/test/kotlin")

    @Test
    fun onlyTheFenceSeesTheGeneratedCode() {
        none(app) { "org.stowfast.ffi" in it.readText() }
        assertEquals(setOf("org.stowfast.engine"), engine.map { it.packageName() }.toSet())
    }

    @Test
    fun filesKeepToTheirBudgets() = none(app + engine) { it.readLines().size > if (it.name.endsWith("ViewModel.kt")) 150 else 300 }

    @Test
    fun statesHaveNoDefaults() {
        val states = app.filter { it.name.endsWith("State.kt") }
        assertTrue(states.isNotEmpty())
        none(states) { " = " in it.readText() }
    }

    @Test
    fun eventsAreSealedInterfaces() {
        val events = app.filter { it.name.endsWith("Event.kt") }
        assertTrue(events.isNotEmpty())
        none(events) { "sealed interface ${it.nameWithoutExtension} {" !in it.readText() }
    }

    @Test
    fun eachModelHasItsStateAndItsEvents() {
        val names = app.map { it.name }.toSet()
        none(app.filter { it.name.endsWith("ViewModel.kt") && it.name != "PageViewModel.kt" }) {
            val name = it.name.removeSuffix("ViewModel.kt")
            "${name}State.kt" !in names || "${name}Event.kt" !in names
        }
    }

    /** Pages, and what stands on them, are drawn from lists of states, so that no picture and no walk leaves one out. */
    @Test
    fun eachScreenHasItsStatesListed() {
        val listed = tests.filter { it.name.endsWith("States.kt") }.joinToString { it.readText() }
        val screens = app.flatMap { file -> Regex("""fun (\w+(?:Screen|Page))\(""").findAll(file.readText()).map { it.groupValues[1] } }
        assertTrue(screens.size > 10)
        assertEquals(emptyList<String>(), screens.filterNot { "$it(" in listed })
    }

    /** Sums and thresholds are the engine's. Whether there is any of it at all may be asked. */
    @Test
    fun nothingIsReckonedWithTheEnginesNumbers() {
        val generated = sources("../engine/target/generated/kotlin").joinToString { it.readText() }
        val numbers = Regex("""val `(\w+)`: kotlin\.(?:Int|Long|Double)""").findAll(generated).map { it.groupValues[1] }.toSet() - NAMES
        assertTrue("walkS" in numbers)
        val name = numbers.joinToString("|", "(?:", ")")
        val before = Regex("""[\w)] (?:[-+*/%]|[<>]=?) [\w.?]*\.$name\b""")
        val after = Regex("""\.$name\)? (?:[-+*/%]|[<>]=?) (?!0\b)""")
        none(app) { file -> file.readText().let { before.containsMatchIn(it) || after.containsMatchIn(it) } }
    }

    @Test
    fun noScreenShowsAnExceptionsOwnText() = none(app) { ".message" in it.readText() }

    /** What a person reads stands in the resources or comes from the engine: no words between quotes. */
    @Test
    fun allWordsAreInTheResources() = none(app) { file ->
        val quoted = Regex(""""((?:[^"\\]|\\.)*)"""").findAll(file.readText()).map { it.groupValues[1] }
        val words = quoted.map { it.replace(Regex("""\$\{[^}]*}|\$\w+"""), " ") }
        words.any { Regex("""\p{L}{2,} \p{L}{2,}|\b\p{Lu}\p{Ll}+\b""").containsMatchIn(it) }
    }

    /** Back is what the arrow of a page does. */
    @Test
    fun backIsHandledInOnePlace() =
        assertEquals(listOf("Page.kt"), app.filter { Regex("""(?:PredictiveBack|Back)Handler\(""").containsMatchIn(it.readText()) }.map { it.name })

    /** A hold has a second tap beside it, and nothing at all is done by dragging. */
    @Test
    fun nothingIsDoneByASwipeAlone() {
        none(app) { Regex("(?i)swipe|draggable|detect\\w*Drag").containsMatchIn(it.readText()) }
        assertEquals(listOf("ConfirmButton.kt"), app.filter { "pointerInput(" in it.readText() }.map { it.name })
    }

    @Test
    fun theLanguagesOfTheAppAreThoseOfItsTexts() {
        val listed = Regex("""<locale android:name="(\w+)"""").findAll(File("src/main/res/xml/locales.xml").readText()).map { it.groupValues[1] }.toSet()
        assertEquals(folders("../../core/catalogue/text"), listed)
        assertTrue("android:localeConfig=\"@xml/locales\"" in File("src/main/AndroidManifest.xml").readText())
    }

    /** One sheet of states and one of looks for each screen, and what the README shows. */
    @Test
    fun thereIsAReferenceForEachScreenAndNoOther() {
        val wanted = States.pages.flatMap { listOf("$it-states.png", "$it-looks.png") } + README
        val files = references.listFiles().orEmpty()
        assertEquals(wanted.sorted(), files.map { it.name }.sorted())
        assertTrue("too many", files.size <= 120)
        assertTrue("${files.sumOf { it.length() }} bytes", files.sumOf { it.length() } < 11_000_000)
    }

    private fun none(files: List<File>, fault: (File) -> Boolean) = assertEquals(emptyList<String>(), files.filter(fault).map { it.name })

    private fun File.packageName() = readLines().first { it.startsWith("package ") }.removePrefix("package ")

    private fun folders(path: String): Set<String> = File(path).listFiles { it.isDirectory }.orEmpty().map { it.name }.toSet()

    private fun sources(folder: String): List<File> = File(folder).walk().filter { it.extension == "kt" }.toList()

    private companion object {
        /** What tells one row from another is no number to reckon with; a state's `value` has the same name as a gauge's. */
        val NAMES = setOf("id", "entry", "handle", "value")
        val README = listOf("now.png", "routine.png")
    }
}
