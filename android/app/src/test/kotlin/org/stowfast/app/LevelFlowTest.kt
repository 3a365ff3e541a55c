package org.stowfast.app

import android.hardware.Sensor
import android.hardware.SensorManager
import android.os.Looper
import androidx.compose.ui.semantics.SemanticsNode
import androidx.compose.ui.semantics.SemanticsProperties
import androidx.compose.ui.semantics.getOrNull
import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.assertIsEnabled
import androidx.compose.ui.test.assertIsNotEnabled
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.lifecycle.Lifecycle
import androidx.test.core.app.ApplicationProvider
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.Shadows.shadowOf
import org.robolectric.shadows.SensorEventBuilder
import org.robolectric.shadows.ShadowSensor
import java.time.Duration

/** The level by the phone's own sensor, from the question to the answer and back. */
@RunWith(RobolectricTestRunner::class)
class LevelFlowTest : OnScreen() {
    private val sensors = shadowOf(ApplicationProvider.getApplicationContext<StowfastApp>().getSystemService(SensorManager::class.java))
    private val sensor = ShadowSensor.newInstance(Sensor.TYPE_ACCELEROMETER)

    @Test
    fun aPhoneIsSetTellsWhichWheelsToRaiseAndItsAnglesAreUsed() {
        open()
        feel(0.1f, -0.1f, 9.8f)
        says("It may stand level.")
        tap("set")
        understood()
        assertEquals(2, engine.get { log(2) }.count { "Phone set as level" in it.text })
        feel(0.1f, -0.1f, 9.8f)
        says("Level enough.")
        feel(0.1f, 0.15f, 9.8f)
        says("Drive up: rear left on 80 mm, rear right on 80 mm.")
        page("plan", tag = true)
        screen.onNodeWithTag("wheel-rear_left").assertIsDisplayed()
        draw("real-level")
        screen.onNodeWithTag("use").performClick()
        walk()
        page("verdict", tag = true)
        screen.onNodeWithText("Drive up: rear left on 80 mm, rear right on 80 mm.", substring = true).assertIsDisplayed()
        page("entry-by", tag = true)
        screen.onNodeWithText("Phone, set to its spot", substring = true).assertIsDisplayed()
        assertEquals("nothing listens where nothing is shown", 0, sensors.listeners.size)
        back()
        page("ask-level", tag = true)
    }

    @Test
    fun whatIsHeldStaysAndWhatIsSetIsKeptAndForgotten() {
        open()
        feel(0.4f, -0.4f, 9.8f)
        tap("set")
        understood()
        feel(0.4f, -0.4f, 9.8f)
        says("Level enough.")
        screen.onNodeWithTag("hold").performClick()
        walk()
        assertEquals(0, sensors.listeners.size)
        activity.recreate()
        walk()
        says("Level enough.")
        screen.onNodeWithText("Held.", substring = true).assertIsDisplayed()
        back()
        tap("live")
        feel(0f, 0.5f, 9.8f)
        assertTrue("nothing is held of another time", verdict() != "Level enough.")
        kill()
        goThere()
        feel(0.4f, -0.4f, 9.8f)
        says("Level enough.")
        tap("forget")
        understood()
        feel(0.4f, -0.4f, 9.8f)
        assertTrue(verdict() != "Level enough.")
    }

    @Test
    fun itListensOnlyWhileItIsShownAndSpeaksOnlyWhereTheVerdictChanges() {
        open()
        assertEquals(1, sensors.listeners.size)
        activity.moveToState(Lifecycle.State.STARTED)
        assertEquals(0, sensors.listeners.size)
        activity.moveToState(Lifecycle.State.RESUMED)
        assertEquals(1, sensors.listeners.size)
        feel(0f, 0.5f, 9.8f)
        val (said, plan) = verdict() to plan()
        feel(0f, 0.58f, 9.8f)
        assertEquals("the words that are read aloud hold no number that moves", said, verdict())
        assertTrue("but what is drawn follows", plan != plan())
        feel(3f, 0.5f, 9.8f, looks = 1)
        says("Hold still.")
        screen.onNodeWithTag("use").assertIsNotEnabled()
        feel(0f, 0.5f, 9.8f)
        screen.onNodeWithTag("use").assertIsEnabled()
        back()
        assertEquals(0, sensors.listeners.size)
    }

    @Test
    fun wordsChangeAFewTimesASecondAtMost() {
        open()
        feel(0f, 0f, 9.8f)
        says("It may stand level.")
        look(3f, 0f, 9.8f)
        screen.waitForIdle()
        says("Hold still.")
        repeat(20) { look(0f, 0f, 9.8f) }
        screen.waitForIdle()
        says("Hold still.")
        feel(0f, 0f, 9.8f)
        says("It may stand level.")
    }

    @Test
    fun aPhoneWithoutTheSensorOffersTyping() {
        chooseLarge()
        goThere()
        screen.onNodeWithText("no sensor", substring = true).assertIsDisplayed()
        tap("type-it")
        page("entry-pitch", tag = true)
    }

    /** With ramps, on the page of the level. */
    private fun open() {
        sensors.addSensor(sensor)
        chooseLarge()
        for ((figure, value) in mapOf("ramps_count" to 2.0, "ramp_low_mm" to 40.0, "ramp_middle_mm" to 80.0)) engine.get { tellFigure(figure, value) }
        goThere()
    }

    private fun goThere() = listOf("reserves", "questions", "ask-level", "live").forEach(::tap)

    private fun look(x: Float, y: Float, z: Float) =
        sensors.sendSensorEventToListeners(SensorEventBuilder.newBuilder().setSensor(sensor).setValues(floatArrayOf(x, y, z)).build())

    /** The phone lies so for a while. */
    private fun feel(x: Float, y: Float, z: Float, looks: Int = 60) {
        repeat(looks) { look(x, y, z) }
        shadowOf(Looper.getMainLooper()).idleFor(Duration.ofSeconds(1))
        walk()
    }

    private fun says(words: String) {
        page("verdict", tag = true)
        assertEquals(words, verdict())
    }

    /** What is read aloud. */
    private fun verdict(): String = texts("verdict").first()

    private fun plan(): List<String> = listOf("wheel-front_left", "wheel-rear_left").flatMap(::texts)

    private fun texts(tag: String): List<String> {
        page(tag, tag = true)
        val node = screen.onNodeWithTag(tag, useUnmergedTree = true).fetchSemanticsNode()
        fun all(node: SemanticsNode): List<String> =
            node.config.getOrNull(SemanticsProperties.Text).orEmpty().map { it.text } + node.children.flatMap(::all)
        return all(node)
    }
}
