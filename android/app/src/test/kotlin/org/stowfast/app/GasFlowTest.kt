package org.stowfast.app

import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.compose.ui.test.performTextInput
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.stowfast.engine.ReserveRow

/** Gas cylinders: weighed on (a), read off a gauge on (c), what was typed wrong, and what all hold together. */
@RunWith(RobolectricTestRunner::class)
class GasFlowTest : OnScreen() {
    @Test
    fun aCylinderIsWeighedInTwoTapsAndTwoWeighingsGiveARange() {
        open()
        val before = engine.get { log(1) }
        tap("read-gas_left")
        sees("Empty it weighs 12.4 kg, and it holds 11 kg")
        assertEquals("one tap is not enough", before, engine.get { log(1) })
        type("gas_left", "23.4")
        draw("real-gas-reading")
        record()
        assertEquals("23.4 kg, cylinder and gas", row("gas_left").seenText)
        understood()
        back()
        bench.pass(DAY_MS)
        read("gas_left", "20.4")
        read("gas_right", "22.9")
        page("reserve-gas_left", tag = true)
        sees("about 2 to 3.5 kg a day")
        sees("between 7.5 and 8.5 kg")
        page("gas", tag = true)
        screen.onNodeWithText("Gas in 2 cylinders together, as last said: between 18 and 19.5 kg", substring = true).assertExists()
        draw("real-gas-reserves")
    }

    @Test
    fun aWeightBelowTheTareIsRefusedWithWhatWasExpected() {
        open()
        val before = engine.get { log(1) }
        tap("read-gas_left")
        type("gas_left", "9")
        record()
        page("problem", tag = true)
        sees("at least 11.9 kg. Empty it weighs 12.4 kg")
        draw("real-gas-refused")
        assertEquals("nothing was written", before, engine.get { log(1) })
    }

    @Test
    fun aGaugeOfTheWholeVolumeIsReadInPerCent() {
        chooseDemo()
        engine.get { addDemo("c") }
        tap("reserves")
        engine.get { report("pitch.ground", "level") }
        tap("read-gas_left")
        draw("real-gas-gauge")
        sees("Per cent of its whole volume: 80 is full.")
        type("gas_left", "40")
        record()
        understood()
        back()
        assertEquals("between 9 and 12 litres", row("gas_left").betweenText)
        page("reserve-gas_left", tag = true)
        sees("between 9 and 12 litres")
        assertTrue("both are not known", engine.get { reserves() }.gasText == null)
    }

    private fun open() {
        chooseDemo()
        tap("reserves")
    }

    private fun read(gauge: String, shown: String) {
        tap("read-$gauge")
        type(gauge, shown)
        record()
        understood()
        back()
    }

    private fun type(gauge: String, shown: String) = screen.onNodeWithTag("type-$gauge").performTextInput(shown)

    private fun record() {
        page("Record")
        screen.onNodeWithText("Record").performClick()
        walk()
    }

    private fun row(gauge: String): ReserveRow = engine.get { reserves() }.rows.first { it.id == gauge }

    private fun sees(text: String) = screen.onNodeWithText(text, substring = true).assertIsDisplayed()

    private companion object {
        const val DAY_MS = 24 * 3_600_000L
    }
}
