package org.stowfast.app

import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.test.core.app.ApplicationProvider
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.stowfast.app.about.licences
import java.io.File

/** Everything that the app is built from is named, with its licence. */
@RunWith(RobolectricTestRunner::class)
class LicenceTest : OnScreen() {
    private val all by lazy {
        val resources = ApplicationProvider.getApplicationContext<StowfastApp>().resources
        licences(resources.openRawResource(R.raw.licences).use { it.readBytes().decodeToString() })
    }

    @Test
    fun everyJarOnTheClassPathAndEveryArchiveIsNamed() {
        val jars = File("target/classpath.txt").readText().split(File.pathSeparator).map(::File).filter { it.extension == "jar" }
        val archives = listOf("app", "native").flatMap { File("../androidx/target/aar/$it").listFiles().orEmpty().toList() }
        assertTrue("${jars.size} ${archives.size}", jars.size > 5 && archives.size > 30)
        val named = all.parts.map { it.name }
        assertEquals(emptyList<String>(), jars.map { it.nameWithoutExtension } - named.toSet())
        // An archive's name begins with its group.
        assertEquals(emptyList<String>(), archives.map { it.name }.filterNot { archive -> named.any { archive.endsWith(".$it") } })
    }

    @Test
    fun everyCrateThatTheBindingsUseDirectlyIsNamedInItsLockedVersion() {
        val locked = File("../../Cargo.lock").readText().split("[[package]]").mapNotNull { entry ->
            Regex("name = \"(.*)\"\nversion = \"(.*)\"").find(entry)?.destructured?.let { (name, version) -> name to version }
        }.groupBy({ it.first }, { it.second })
        val used = listOf("../../core/Cargo.toml", "../../bindings/Cargo.toml").flatMap { crates(File(it).readText()) }.toSet()
        assertTrue("$used", "rusqlite" in used && "uniffi" in used)
        val named = all.parts.map { it.name }.toSet()
        assertEquals(emptyList<String>(), used.filter { crate -> locked[crate].orEmpty().none { "$crate $it" in named } })
    }

    @Test
    fun eachHasALicenceWhoseTextIsThere() {
        assertEquals(emptyList<String>(), all.parts.filter { it.licences.isEmpty() || it.licences.any { licence -> licence !in all.texts } }.map { it.name })
        assertEquals(emptyList<String>(), all.texts.filter { it.value.length < 500 }.map { it.key })
        assertEquals("a text that nothing is under", emptySet<String>(), all.texts.keys - all.parts.flatMap { it.licences }.toSet())
    }

    @Test
    fun theyAreReadFromTheSettings() {
        tap("settings")
        tap("about")
        tap("licences")
        page("licence-MIT", tag = true)
        draw("real-licences")
        tap("licence-MIT")
        screen.onNodeWithText("Permission is hereby granted", substring = true).assertExists()
        screen.onNodeWithTag("licence-MIT").performClick()
        screen.onNodeWithText("Permission is hereby granted", substring = true).assertDoesNotExist()
    }

    /** The names under `[dependencies]`, those of the phone alone included. */
    private fun crates(toml: String): List<String> =
        toml.split(Regex("(?m)^\\[")).filter { it.substringBefore("]").let { head -> head == "dependencies" || head.endsWith("android\")'.dependencies") } }
            .flatMap { it.lines().drop(1) }.filterNot { "optional = true" in it }.mapNotNull { Regex("^([a-z0-9_-]+)[ .]").find(it)?.groupValues?.get(1) }.filterNot { it.startsWith("stowfast") }
}
