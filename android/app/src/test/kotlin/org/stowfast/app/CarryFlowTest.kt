package org.stowfast.app

import android.app.Activity
import android.content.Intent
import android.net.Uri
import android.provider.Settings
import androidx.compose.ui.test.SemanticsMatcher
import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.hasTestTag
import androidx.compose.ui.test.hasText
import androidx.compose.ui.test.onAllNodesWithTag
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.test.core.app.ActivityScenario
import androidx.test.core.app.ApplicationProvider
import org.junit.Assert.assertEquals
import org.junit.Assert.assertNotEquals
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.Shadows.shadowOf
import org.stowfast.engine.VehicleEngine
import java.io.ByteArrayInputStream
import java.io.ByteArrayOutputStream
import java.io.IOException
import java.io.OutputStream

/** Everything into one file and back through the system's pickers, and packs that do not read. */
@RunWith(RobolectricTestRunner::class)
class CarryFlowTest : OnScreen() {
    @Test
    fun everythingGoesIntoAFileAndTheSamePagesComeOutOnAnotherPhone() {
        chooseDemo()
        begin("ready_to_drive")
        confirm()
        val text = save()
        val before = pages(engine)
        assertEquals(engine.get { exportText() }, text)

        anotherPhone(Bench(nowMs = bench.nowMs))
        draw("real-import-first")
        read("import", "kept.json", text.toByteArray())
        told("Added: ")
        draw("real-imported")
        understood()
        screen.onNodeWithTag("verdict").assertIsDisplayed()
        assertEquals(before, pages(engine))
        assertEquals(text, engine.get { exportText() })
    }

    @Test
    fun onAPhoneThatCannotKnowItIsToldThatAgesAreUnknown() {
        chooseDemo()
        val text = save()
        anotherPhone(Bench(device = "of another phone", nowMs = bench.nowMs))
        read("import", "kept.json", text.toByteArray())
        told("cannot be known on this device")
    }

    @Test
    fun whatIsHereAlreadyIsLeftAndSaidToBeSo() {
        chooseDemo()
        val text = save()
        val before = engine.get { exportText() }
        read("import", "kept.json", text.toByteArray())
        told("Nothing new: ")
        understood()
        assertEquals(before, engine.get { exportText() })
    }

    @Test
    fun aFileThatDoesNotReadChangesNothingAndSaysWhere() {
        chooseDemo()
        val text = save()
        val before = engine.get { exportText() }
        val broken = text.replaceFirst("\"act\"", "\"deed\"")
        val line = broken.substringBefore("\"deed\"").count { it == '\n' } + 1
        read("import", "broken.json", broken.toByteArray())
        problem("broken.json", "line $line: expected", "nothing was changed", "to whoever made it")
        draw("real-import-broken")
        assertEquals(before, engine.get { exportText() })
        screen.onNodeWithText("Understood").performClick()
        read("import", "film.json", ByteArray(100_000))
        comes(hasText("could not be opened", substring = true))
        assertEquals(before, engine.get { exportText() })
    }

    @Test
    fun aFileThatCannotBeWrittenIsSaidToBeSo() {
        chooseDemo()
        tap("vehicles")
        answer("export", Uri.parse("content://files/full.json")) { it, uri ->
            shadowOf(it.contentResolver).registerOutputStream(uri, object : OutputStream() {
                override fun write(byte: Int) = throw IOException("no room")
            })
        }
        comes(hasText("full.json could not be written", substring = true))
        draw("real-not-written")
    }

    @Test
    fun aBrokenPackIsNamedAndTheGoodOnesGoOn() {
        chooseDemo()
        tap("vehicles")
        val before = engine.get { vehicles() }
        val lines = DEMO_PACK.lines()
        val wrong = lines.indexOfFirst { it.startsWith("title") }
        val broken = (lines.take(wrong) + "colour = \"green\"" + lines.drop(wrong)).joinToString("\n")
        read("Open a pack file", "van.toml", broken.toByteArray(), tag = false)
        problem("van.toml", "line ${wrong + 1}: expected", "nothing was changed", "to whoever made it")
        draw("real-pack-broken")
        assertEquals(before, engine.get { vehicles() })
        screen.onNodeWithText("Understood").performClick()
        back()
        screen.onNodeWithTag("verdict").assertIsDisplayed()

        tap("vehicles")
        val own = DEMO_PACK.replace("invented = true", "invented = false").replaceFirst(Regex("(?m)^title = .*$"), "title = \"Our van\"")
        read("Open a pack file", "ours.toml", own.toByteArray(), tag = false)
        comes(hasTestTag("verdict"))
        assertEquals(listOf(before.first().title, "Our van"), engine.get { vehicles() }.map { it.title })
    }

    @Test
    fun anInventedVehicleThatIsHereIsNotOfferedAgain() {
        chooseDemo()
        tap("vehicles")
        val (here, others) = engine.get { demos() }.partition { it.here }
        assertEquals(listOf(engine.get { vehicles() }.single().title), here.map { it.title })
        for (demo in others) page(demo.title)
        assertEquals(0, screen.onAllNodes(hasTestTag("demo").and(hasText(here.single().title))).fetchSemanticsNodes().size)
    }

    @Test
    fun aStartOfThisPhoneIsNoStartOfAnother() {
        val app = ApplicationProvider.getApplicationContext<StowfastApp>()
        val starts = listOf("one", "two").map { phone ->
            Settings.Global.putString(app.contentResolver, Settings.Global.BOOT_COUNT, "7")
            Settings.Secure.putString(app.contentResolver, Settings.Secure.ANDROID_ID, phone)
            app.moment().bootId
        }
        assertNotEquals(starts[0], starts[1])
        assertEquals("the same start is known again", starts[1], app.moment().bootId)
    }

    private fun pages(engine: VehicleEngine): List<Any?> = listOf(
        engine.get { vehicles() }, engine.get { nowPage() }, engine.get { routine() }, engine.get { things() },
        engine.get { gauges() }, engine.get { alerts() }, engine.get { log(1_000) },
    )

    private fun anotherPhone(other: Bench) {
        activity.close()
        engine.close()
        bench = other
        engine = bench.install()
        activity = ActivityScenario.launch(MainActivity::class.java)
        screen.onNodeWithText("Welcome aboard").assertIsDisplayed()
    }

    /** Saves everything from the page of vehicles, and gives what went into the file. */
    private fun save(): String {
        while (screen.onAllNodesWithTag("vehicles").fetchSemanticsNodes().isEmpty() && screen.onAllNodesWithTag("verdict").fetchSemanticsNodes().isEmpty()) back()
        tap("vehicles")
        val file = ByteArrayOutputStream()
        answer("export", Uri.parse("content://files/stowfast.json")) { it, uri -> shadowOf(it.contentResolver).registerOutputStream(uri, file) }
        comes(hasText("Everything was saved in stowfast.json."))
        draw("real-written")
        return file.toString("UTF-8")
    }

    private fun read(what: String, name: String, bytes: ByteArray, tag: Boolean = true) =
        answer(what, Uri.parse("content://files/$name"), tag) { it, uri -> shadowOf(it.contentResolver).registerInputStream(uri, ByteArrayInputStream(bytes)) }

    /** Asks for a file, and answers as the system's picker would. */
    private fun answer(what: String, uri: Uri, tag: Boolean = true, file: (Activity, Uri) -> Unit) {
        page(what, tag)
        if (tag) screen.onNodeWithTag(what).performClick() else screen.onNodeWithText(what).performClick()
        screen.waitForIdle()
        activity.onActivity {
            file(it, uri)
            val asked = shadowOf(it).nextStartedActivityForResult
            shadowOf(it).receiveResult(asked.intent, Activity.RESULT_OK, Intent().setData(uri))
        }
        screen.waitForIdle()
    }

    /** Files are read and written beside the screen: waits for what comes of it. */
    private fun comes(what: SemanticsMatcher) {
        screen.waitUntil(WAIT_MS) { screen.onAllNodes(what).fetchSemanticsNodes().isNotEmpty() }
        screen.waitForIdle()
        screen.onNode(what).assertIsDisplayed()
    }

    private fun told(text: String) {
        comes(hasTestTag("notices"))
        screen.onNodeWithText(text, substring = true).assertIsDisplayed()
    }

    private fun problem(vararg words: String) {
        comes(hasTestTag("problem"))
        for (word in words) screen.onNodeWithText(word, substring = true).assertIsDisplayed()
    }

    private companion object {
        const val WAIT_MS = 10_000L
    }
}
