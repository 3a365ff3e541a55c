package org.stowfast.app

import android.hardware.Sensor
import android.hardware.SensorManager
import androidx.compose.ui.test.hasTestTag
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onRoot
import androidx.compose.ui.test.performScrollToNode
import androidx.test.core.app.ActivityScenario
import androidx.test.core.app.ApplicationProvider
import org.junit.Assert.assertEquals
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.Shadows.shadowOf
import org.robolectric.annotation.Config
import org.robolectric.shadows.SensorEventBuilder
import org.robolectric.shadows.ShadowSensor
import org.stowfast.app.frame.Place
import java.io.File

/** Every place of the app, as the real engine fills it, can be shared as text where it says anything. */
@RunWith(RobolectricTestRunner::class)
@Config(qualifiers = "en-rGB-w411dp-h9000dp-mdpi")
class ShareFlowTest : OnScreen() {
    private val app: StowfastApp get() = ApplicationProvider.getApplicationContext()
    private val faults = mutableListOf<String>()
    private val shared = mutableSetOf<String>()

    @Test
    fun everyPlaceThatSaysSomethingIsShared() {
        chooseDemo()
        engine.get { openRun("ready_to_drive") }
        for (place in Place.entries) {
            reach(place)
            judge(place.name)
        }
        assertEquals(emptyList<String>(), faults)
        assertEquals("what has nothing of a vehicle on it", setOf("SETTINGS", "CRASH"), Place.entries.map { it.name }.toSet() - shared)
    }

    @Test
    fun everyQuestionOfARoutineIsShared() {
        chooseDemo()
        begin("ready_to_drive")
        confirmUntil { it.steps.size > 1 }
        line(gesture().steps.first())
        judge("line")
        tap("more-cannot")
        judge("line cannot")
        back()
        line(gesture().steps.first())
        tap("more-leave")
        judge("line leave")
        back()
        assertEquals(emptyList<String>(), faults)
        assertEquals(setOf("line", "line cannot", "line leave"), shared)
    }

    private fun judge(name: String) {
        walk()
        if (runCatching { screen.onNodeWithTag("page").performScrollToNode(hasTestTag("share-text")) }.isSuccess) {
            shared += name
            return
        }
        faults += unshared(screen.onRoot(useUnmergedTree = true).fetchSemanticsNode()).take(1).map { "$name: there is no way to share “$it”" }
    }

    private fun reach(place: Place) {
        when (place) {
            Place.PREVIEW -> from(Place.TARGET, "target-laid_up_winter")
            Place.SHARED -> {
                from(Place.ROUTINE)
                more("share")
            }
            Place.RECKON -> from(Place.QUESTIONS, "ask-wind")
            Place.LEVEL -> {
                val sensors = shadowOf(app.getSystemService(SensorManager::class.java))
                val sensor = ShadowSensor.newInstance(Sensor.TYPE_ACCELEROMETER).also(sensors::addSensor)
                from(place)
                sensors.sendSensorEventToListeners(SensorEventBuilder.newBuilder().setSensor(sensor).setValues(floatArrayOf(0f, 0f, 9.8f)).build())
            }
            Place.ALERT -> from(Place.RED, "alert-waste.full")
            Place.FAULT -> from(Place.FAULTS, "fault-pump_never_stops")
            Place.CARD -> from(Place.CARDS, "card-boiler")
            Place.MAY -> from(Place.STEPS, "may-engine.drive_off")
            Place.CRASH -> {
                File(app.filesDir, "crash").apply { mkdirs() }.resolve("report.txt").writeText("Stopped\n")
                from(Place.ABOUT, "crash")
            }
            else -> from(place)
        }
    }

    /** A fresh process that was there last. */
    private fun from(place: Place, vararg then: String) {
        activity.close()
        app.where.keep(listOf(Place.NOW, place))
        activity = ActivityScenario.launch(MainActivity::class.java)
        walk()
        assertEquals(place, app.where.last)
        then.forEach(::tap)
    }
}
