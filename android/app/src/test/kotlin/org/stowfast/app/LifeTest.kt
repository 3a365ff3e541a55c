package org.stowfast.app

import android.content.ComponentName
import android.content.Context
import android.content.Intent
import android.content.pm.PackageManager
import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.junit4.createEmptyComposeRule
import androidx.compose.ui.test.onNodeWithContentDescription
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.test.core.app.ActivityScenario
import androidx.test.core.app.ApplicationProvider
import kotlinx.coroutines.runBlocking
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.annotation.Config
import org.stowfast.app.frame.Place
import org.stowfast.app.frame.Where
import org.stowfast.app.life.Peril
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.xmlpull.v1.XmlPullParser
import java.io.File
import java.nio.file.Files

/** What to do in an emergency is there whatever else is not. */
abstract class Life {
    @get:Rule
    val screen = createEmptyComposeRule()
    protected val app: StowfastApp get() = ApplicationProvider.getApplicationContext()

    /** From every page it is one tap away, and the way back leads to that page. */
    protected fun everywhere() {
        for (place in Place.entries) {
            app.getSharedPreferences("where", Context.MODE_PRIVATE).edit().clear().commit()
            Where(app).keep(listOf(Place.NOW, place))
            ActivityScenario.launch(MainActivity::class.java).use {
                if (place != Place.LIFE) screen.onNodeWithContentDescription("Emergency").performClick()
                isThere()
            }
        }
    }

    /** It shows 112 in the phone's dialler, and calls nobody. */
    protected fun dials() {
        val intent = Intent(MainActivity.LIFE).setClassName(app.packageName, MainActivity::class.java.name)
        ActivityScenario.launch<MainActivity>(intent).use {
            isThere()
            while (shadowOf(app).nextStartedActivity != null) continue
            screen.onNodeWithTag("dial").performClick()
            val started = shadowOf(app).nextStartedActivity
            assertEquals(Intent.ACTION_DIAL to "tel:112", started.action to started.dataString)
            screen.onNodeWithText("Dial 112").assertIsDisplayed()
            assertFalse("android.permission.CALL_PHONE" in File("src/main/AndroidManifest.xml").readText())
        }
    }

    protected fun bounds(tag: String) = screen.onNodeWithTag(tag).fetchSemanticsNode().boundsInRoot

    protected fun isThere() {
        screen.waitForIdle()
        for (peril in listOf("Carbon monoxide", "Smell of gas")) screen.onNodeWithText(peril).assertIsDisplayed()
        screen.onNodeWithTag("page").assertIsDisplayed()
    }
}

@RunWith(RobolectricTestRunner::class)
@Config(sdk = [34], qualifiers = "en-rGB-w411dp-h891dp-xhdpi")
class LifeTest : Life() {
    @Test
    fun theLaunchersShortcutLeadsStraightToIt() {
        val found = mutableMapOf<String, String>()
        val xml = app.resources.getXml(R.xml.shortcuts)
        while (xml.next() != XmlPullParser.END_DOCUMENT) {
            if (xml.eventType == XmlPullParser.START_TAG && xml.name == "intent") {
                for (i in 0 until xml.attributeCount) found[xml.getAttributeName(i)] = xml.getAttributeValue(i)
            }
        }
        val activity = app.packageManager.getActivityInfo(
            ComponentName(checkNotNull(found["targetPackage"]), checkNotNull(found["targetClass"])),
            PackageManager.GET_META_DATA,
        )
        assertEquals(R.xml.shortcuts, activity.metaData.getInt("android.app.shortcuts"))
        val intent = Intent(found["action"]).setClassName(app.packageName, checkNotNull(found["targetClass"]))
        ActivityScenario.launch<MainActivity>(intent).use { isThere() }
    }

    @Test
    fun withLettersOfDoubleSizeAllPerilsStandOnTheFirstScreenBeforeAnyText() {
        RuntimeEnvironment.setFontScale(2f)
        val intent = Intent(MainActivity.LIFE).setClassName(app.packageName, MainActivity::class.java.name)
        ActivityScenario.launch<MainActivity>(intent).use {
            val foot = bounds("dial").top
            val rows = Peril.entries.map { bounds("peril-$it") }
            assertTrue("$rows", rows.all { it.bottom <= foot && it.height >= 48 })
            assertEquals("they stand first, in order", rows.sortedBy { it.top }, rows)
            screen.onNodeWithText("Get people out first. Call from outside.").assertIsDisplayed()
            val smoke = "Stay low, under the smoke."
            screen.onNodeWithText(smoke).assertDoesNotExist()
            screen.onNodeWithTag("peril-${Peril.SMOKE}").performClick()
            screen.onNodeWithText(smoke).assertIsDisplayed()
            it.onActivity { activity -> assertEquals(emptyList<String>(), barriers(activity)) }
        }
    }

    @Test
    fun itIsThereWhereTheRecordDoesNotOpen() {
        val folder = Files.createTempDirectory("stowfast").toFile()
        File(folder, "trip.db").mkdir()
        Bench(File(folder, "trip.db")).install().use { engine ->
            assertTrue(runBlocking { engine.nowPage() } is Outcome.Failed)
            everywhere()
            dials()
        }
    }

    @Test
    fun whereThereIsNoDiallerTheButtonSaysSo() {
        shadowOf(app).checkActivities(true)
        val intent = Intent(MainActivity.LIFE).setClassName(app.packageName, MainActivity::class.java.name)
        ActivityScenario.launch<MainActivity>(intent).use {
            screen.onNodeWithTag("dial").performClick()
            screen.onNodeWithText("No dialler here. Use any phone.").assertIsDisplayed()
            isThere()
        }
    }
}

/** In a process of its own: in that of the others the library is loaded already. */
@RunWith(RobolectricTestRunner::class)
@Config(sdk = [34], qualifiers = "en-rGB-w411dp-h891dp-xhdpi")
class LibraryMissingTest : Life() {
    @Test
    fun itIsThereWithTheLibraryMissing() {
        System.setProperty(LIBRARY, "nowhere")
        try {
            val failed = runBlocking { app.engine().nowPage() } as Outcome.Failed
            assertTrue("$failed", (failed.problem as Problem.Internal).detail.contains("nowhere"))
            everywhere()
            dials()
        } finally {
            System.clearProperty(LIBRARY)
        }
    }
}

/** Which library the generated Kotlin loads instead of ours. */
private const val LIBRARY = "uniffi.component.stowfast.libraryOverride"
