package org.stowfast.app

import androidx.compose.ui.semantics.SemanticsProperties
import androidx.compose.ui.semantics.getOrNull
import androidx.compose.ui.test.SemanticsMatcher
import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.test.core.app.ActivityScenario
import androidx.test.core.app.ApplicationProvider
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.stowfast.engine.DoneRow
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine
import java.io.File

/** What a phone may do to the app: a damaged file, a clock set back, a restart, a long history. */
@RunWith(RobolectricTestRunner::class)
class OddStartTest : OnScreen() {
    @Test
    fun aDamagedRecordIsMovedAsideSaidInWordsAndTheAppGoesOn() {
        chooseDemo()
        again { bench.cut() }
        screen.onNodeWithTag("notices").assertIsDisplayed()
        val said = engine.get { notices() }
        for (line in said) screen.onNodeWithText(line).assertExists()
        assertTrue("$said", said.any { "damaged" in it })
        draw("real-damaged")
        assertTrue(File(bench.file().parentFile, "damaged").walk().any { it.name == bench.file().name })
        understood()
        if (engine.get { vehicles() }.isEmpty()) chooseDemo()
        screen.onNodeWithTag("verdict").assertIsDisplayed()
        openLeaving()
        confirm()
    }

    @Test
    fun aDamagedRecordWithABackupIsPutRightAndThatIsSaid() {
        chooseDemo()
        again { }
        val before = engine.get { nowPage() }
        again { bench.cut() }
        screen.onNodeWithTag("notices").assertIsDisplayed()
        understood()
        assertEquals(before, engine.get { nowPage() })
        screen.onNodeWithTag("verdict").assertIsDisplayed()
    }

    @Test
    fun aClockSetBackChangesNothingWhileThePhoneRuns() {
        chooseDemo()
        openLeaving()
        repeat(2) { confirm() }
        val known = engine.get { nowPage() }
        bench.setClock(-3 * HOUR_MS)
        again { }
        assertEquals("the steady clock counts", known, engine.get { nowPage() })
        screen.onNodeWithText(CLOCK, substring = true).assertDoesNotExist()
    }

    @Test
    fun aClockSetBackOverARestartIsSaidAndAgesAreUnknown() {
        chooseDemo()
        openLeaving()
        repeat(2) { confirm() }
        val known = engine.get { nowPage() }
        again {
            bench.setClock(-3 * HOUR_MS)
            bench.restart()
        }
        page(CLOCK)
        draw("real-clock")
        val now = engine.get { nowPage() }
        assertTrue(now.clockChanged)
        assertTrue("what was seen counts no longer: ${now.itemCount} of ${known.itemCount}", now.items.count { !it.knownBad } > known.items.count { !it.knownBad })
        screen.onNodeWithText("Continue: ", substring = true).performClick()
        screen.waitForIdle()
        val said = routine().warnings.first { "clock" in it }
        screen.onNodeWithText(said).assertIsDisplayed()
    }

    @Test
    fun thePhoneRestartsDuringTheFridgesCountdown() {
        chooseDemo()
        for ((variable, setting) in listOf("fridge.selector" to "auto", "gas_left.valve" to "open", "lead.post_end" to "out", "engine.running" to "on")) {
            engine.get { report(variable, setting) }
        }
        bench.pass(HOUR_MS)
        engine.get { report("engine.running", "off") }
        bench.pass(2 * MINUTE_MS)
        tap("fridge")
        screen.onNodeWithTag("next").assertIsDisplayed()
        val before = checkNotNull(checkNotNull(engine.get { fridge() }).nextChangeUtcMs)
        bench.restart()
        again { }
        tap("fridge")
        val after = checkNotNull(engine.get { fridge() })
        page(checkNotNull(after.nextText))
        screen.onNodeWithTag("next").assertIsDisplayed()
        draw("real-fridge-restarted")
        assertEquals("never sooner than before", maxOf(before, checkNotNull(after.nextChangeUtcMs)), after.nextChangeUtcMs)
        bench.pass(checkNotNull(after.nextChangeUtcMs) - before + 20 * MINUTE_MS)
        again { }
        tap("fridge")
        screen.onNodeWithTag("next").assertDoesNotExist()
    }

    @Test
    fun aHistoryOfThreeHundredRunsOpensAndPages() {
        chooseDemo()
        repeat(300) {
            engine.get { openRun("parked_only") }
            val closed = engine.get { closeRun() }
            assertEquals(1, closed.entries.size)
        }
        val all = engine.get { log(10_000) }
        assertTrue("${all.size}", all.size >= 600)
        val counted = Counted(engine)
        activity.close()
        ApplicationProvider.getApplicationContext<StowfastApp>().engine = counted
        activity = ActivityScenario.launch(MainActivity::class.java)
        tap("record")
        assertEquals("no more than a page of it is read", setOf(200), counted.limits.toSet())
        assertTrue("${counted.limits}", counted.limits.size <= 2)
        assertTrue("only what is on the screen is built: ${shown()}", shown() in 3..40)
        page("row-${all[199].entry}", tag = true)
        tap("older")
        assertEquals(400, counted.limits.last())
        page("row-${all[399].entry}", tag = true)
        tap("older")
        tap("older")
        page("row-${all.last().entry}", tag = true)
        screen.onNodeWithTag("older").assertDoesNotExist()
        assertTrue("${shown()}", shown() in 3..40)
        draw("real-record-end")
    }

    /** The app is ended, [meanwhile] happens, and it starts again. */
    private fun again(meanwhile: () -> Unit) {
        activity.close()
        engine.close()
        meanwhile()
        engine = bench.install()
        activity = ActivityScenario.launch(MainActivity::class.java)
        screen.waitForIdle()
    }

    private fun shown(): Int =
        screen.onAllNodes(SemanticsMatcher("a row") { it.config.getOrNull(SemanticsProperties.TestTag)?.startsWith("row-") == true }).fetchSemanticsNodes().size

    private class Counted(private val real: VehicleEngine) : VehicleEngine by real {
        val limits = mutableListOf<Int>()

        override suspend fun log(limit: Int): Outcome<List<DoneRow>> {
            limits += limit
            return real.log(limit)
        }
    }

    private companion object {
        const val MINUTE_MS = 60_000L
        const val HOUR_MS = 60 * MINUTE_MS
        const val CLOCK = "The phone was restarted, its clock was set, or the record came from another phone. How long ago things were seen is not known."
    }
}
