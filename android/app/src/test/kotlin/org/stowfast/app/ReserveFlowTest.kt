package org.stowfast.app

import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.assertIsSelected
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.stowfast.engine.ReserveRow

/** Reserves: what two readings tell, what starts anew, what does not count and why, and in which units. */
@RunWith(RobolectricTestRunner::class)
class ReserveFlowTest : OnScreen() {
    @Test
    fun twoReadingsADayApartGiveARange() {
        open()
        sees("What runs out first is not known yet")
        aDayApart()
        val row = row("fresh")
        assertTrue("${row.usedText} ${row.leftText}", row.usedText?.endsWith("litres a day") == true && row.leftText != null)
        page("reserve-fresh", tag = true)
        sees("Until empty: " + row.leftText)
        sees(row.usedText.orEmpty())
        page("first", tag = true)
        sees("This comes first.")
        sees("Fresh tank empty")
        draw("real-reserves")
    }

    @Test
    fun aReadingFromReservesTakesTwoTaps() {
        open()
        val before = engine.get { log(1) }
        tap("read-fresh")
        assertEquals("one tap is not enough", before, engine.get { log(1) })
        tap("reading-fresh-4.0")
        assertEquals("4 lit", row("fresh").seenText)
        draw("real-reserve-reading")
    }

    @Test
    fun aFillStartsAnew() {
        open()
        aDayApart()
        val used = row("fresh").usedText
        bench.pass(HOUR_MS)
        read("fresh", 4)
        assertEquals("nothing is counted across the fill", used, row("fresh").usedText)
        assertEquals("4 lit", row("fresh").seenText)
        page("reserve-fresh", tag = true)
        sees("Until empty: " + row("fresh").leftText)
    }

    @Test
    fun whatFillsSaysOnWhatItsUseRestsAndHowMuchMoreGoesIn() {
        open()
        read("waste", 0)
        bench.pass(DAY_MS)
        read("waste", 1)
        back()
        bench.pass(HOUR_MS)
        engine.get { report("waste.level", "empty") }
        tap("reserves")
        page("reserve-waste", tag = true)
        val row = row("waste")
        sees(requireNotNull(row.restsText))
        sees(requireNotNull(row.roomText))
        draw("real-reserve-room")
    }

    @Test
    fun aReadingThatDoesNotCountSaysWhy() {
        open()
        engine.get { report("pitch.ground", "sloping") }
        read("fresh", 1)
        assertFalse(row("fresh").seenCounts)
        page("reserve-fresh", tag = true)
        sees("does not stand level")
        draw("real-reserve-not-counted")
    }

    @Test
    fun quantitiesAreImperialOnceThatIsChosen() {
        open()
        aDayApart()
        back()
        tap("vehicles")
        tap("settings")
        screen.onNodeWithTag("units-metric").assertIsSelected()
        tap("units-imperial")
        screen.onNodeWithTag("units-imperial").assertIsSelected()
        draw("real-settings")
        back()
        back()
        tap("reserves")
        page("reserve-fresh", tag = true)
        assertTrue("${row("fresh").usedText}", row("fresh").usedText?.endsWith("gallons a day") == true)
        sees(row("fresh").usedText.orEmpty())
        kill()
        assertEquals("imperial", engine.get { units() })
    }

    private fun open() {
        chooseDemo()
        tap("reserves")
    }

    private fun aDayApart() {
        read("fresh", 4)
        bench.pass(DAY_MS)
        read("fresh", 2)
    }

    /** The two taps of a reading, and back to the reserves. */
    private fun read(gauge: String, lamps: Int) {
        tap("read-$gauge")
        tap("reading-$gauge-$lamps.0")
        understood()
        back()
    }

    private fun row(gauge: String): ReserveRow = engine.get { reserves() }.rows.first { it.id == gauge }

    private fun sees(text: String) = screen.onNodeWithText(text, substring = true).assertIsDisplayed()

    private companion object {
        const val HOUR_MS = 3_600_000L
        const val DAY_MS = 24 * HOUR_MS
    }
}
