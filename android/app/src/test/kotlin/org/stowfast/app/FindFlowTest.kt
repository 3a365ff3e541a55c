package org.stowfast.app

import android.os.Looper
import android.view.inputmethod.InputMethodManager
import androidx.compose.ui.semantics.SemanticsActions
import androidx.compose.ui.test.SemanticsMatcher
import androidx.compose.ui.test.assert
import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.assertTextContains
import androidx.compose.ui.test.hasTestTag
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.compose.ui.test.performImeAction
import androidx.compose.ui.test.performTextReplacement
import androidx.lifecycle.SavedStateHandle
import kotlinx.coroutines.CompletableDeferred
import kotlinx.coroutines.NonCancellable
import kotlinx.coroutines.withContext
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.Shadows.shadowOf
import org.stowfast.app.cards.CardsEvent
import org.stowfast.app.cards.CardsViewModel
import org.stowfast.engine.HitKind
import org.stowfast.engine.HitRow
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine

/** What an owner's own words lead to, on the page of all cards. */
@RunWith(RobolectricTestRunner::class)
class FindFlowTest : OnScreen() {
    @Test
    fun fromTheFirstLetterOnTheLikeliestComesFirst() {
        open("c")
        val words = "hot water"
        for (end in 1..words.length) {
            ask(words.take(end))
            shows(engine.get { find(words.take(end)) })
        }
        screen.onNodeWithTag("hit-boiler").assertIsDisplayed()
        draw("real-found")
    }

    @Test
    fun everySortOfPageIsReachedAndLeftAgain() {
        open("c")
        ask("hot water")
        tap("hit-boiler")
        screen.onNodeWithTag("section-caution").assertExists()
        back()
        tap("hit-boiler.locked_out")
        screen.onNodeWithTag("sign").assertIsDisplayed()
        back()
        ask("put the van away for the winter")
        tap("hit-laid_up_winter")
        screen.onNodeWithTag("summary").assertIsDisplayed()
        back()
        screen.onNodeWithTag("seek").assertTextContains("put the van away for the winter")
        ask("payload")
        tap("hit-question-load")
        screen.onNodeWithTag("verdict").assertIsDisplayed()
        back()
        ask("pump never stops")
        assertEquals(HitKind.FAULT, engine.get { find("pump never stops") }.first().kind)
        screen.onNodeWithTag("hit-pump_never_stops").assertIsDisplayed()
    }

    @Test
    fun anAlarmOfLifeLeadsStraightToWhatToDoAtOnce() {
        open("c")
        ask("smell of gas")
        assertTrue(engine.get { find("smell of gas") }.first().emergency)
        draw("real-found-life")
        tap("hit-gas_alarm.sounds")
        screen.onNodeWithText(text(R.string.life_intro)).assertIsDisplayed()
        back()
        screen.onNodeWithTag("hit-gas_alarm.sounds").assertIsDisplayed()
    }

    @Test
    fun nothingFoundSaysWhatToTryAndTheWordsAreClearedWithOneTap() {
        open("a")
        ask("xylophone")
        screen.onNodeWithText(text(R.string.cards_try)).assertIsDisplayed()
        screen.onNodeWithTag("clear").assert(SemanticsMatcher.keyIsDefined(SemanticsActions.OnClick))
        tap("clear")
        screen.onNodeWithTag("clear").assertDoesNotExist()
        screen.onNodeWithTag("steps").assertIsDisplayed()
        screen.onNodeWithTag("page").assertExists()
        for (row in engine.get { cards() }) page("card-" + row.id, tag = true)
    }

    @Test
    fun theKeyboardsSearchKeyMakesRoomForWhatWasFound() {
        open("a")
        screen.onNodeWithTag("seek").performClick()
        ask("boiler")
        assertTrue("the keyboard is there", keyboard())
        screen.onNodeWithTag("seek").performImeAction()
        walk()
        assertFalse("the keyboard has gone", keyboard())
        screen.onNodeWithTag("seek").assertTextContains("boiler")
        screen.onNodeWithTag("hit-boiler").assertIsDisplayed()
    }

    @Test
    fun whateverIsPastedIsOnlyWords() {
        open("a")
        for (odd in listOf("\uD83D\uDEBD\uD83D\uDD25 boiler", "boiler " + "x".repeat(10_000), "'; DROP TABLE line; -- boiler", "\uD83D boiler", "boiler\u0000")) {
            ask(odd)
            screen.onNodeWithTag("hit-boiler").assertIsDisplayed()
        }
        ask("\uD83D\uDEBD")
        screen.onNodeWithTag("nothing").assertIsDisplayed()
        ask("boiler ".repeat(1_500))
        shows(engine.get { find("boiler") })
        activity.recreate()
        walk()
        screen.onNodeWithTag("hit-boiler").assertIsDisplayed()
    }

    @Test
    fun anotherVehicleAnswersAnew() {
        open("c")
        ask("satellite dish")
        screen.onNodeWithTag("hit-dish").assertIsDisplayed()
        engine.get { addDemo("b") }
        walk()
        screen.onNodeWithTag("hit-dish").assertDoesNotExist()
    }

    @Test
    fun aCardAndAnAlertListWhatMayNotWork() {
        open("a")
        tap("card-boiler")
        for (fault in engine.get { card("boiler") }.faults) page("fault-" + fault.id, tag = true)
        page("alert-boiler.locked_out", tag = true)
        tap("alert-boiler.locked_out")
        val faults = engine.get { alert("boiler.locked_out") }.faults
        assertEquals(setOf("boiler_locks_out", "no_hot_water"), faults.map { it.id }.toSet())
        for (fault in faults) page("fault-" + fault.id, tag = true)
    }

    @Test
    fun anAnswerThatComesLateIsNotShownForWhatIsAskedNow() {
        engine.get { addDemo("c") }
        val late = LateEngine(engine, asked = "hot")
        val model = CardsViewModel(late, SavedStateHandle())
        val idle = { shadowOf(Looper.getMainLooper()).idle() }
        idle()
        model.onEvent(CardsEvent.Seek("hot"))
        idle()
        assertEquals(null, model.state.value.found)
        model.onEvent(CardsEvent.Seek("hob"))
        idle()
        late.answers.complete(Unit)
        idle()
        assertEquals("hob", model.state.value.asked)
        assertEquals(engine.get { find("hob") }, model.state.value.found)
        assertEquals("the page has everything read before anybody types", "", late.heard.first())
    }

    /** Answers one question only when it is let, whoever still waits for it. */
    private class LateEngine(private val engine: VehicleEngine, private val asked: String) : VehicleEngine by engine {
        val answers = CompletableDeferred<Unit>()
        val heard = mutableListOf<String>()

        override suspend fun find(asked: String): Outcome<List<HitRow>> {
            heard += asked
            if (asked == this.asked) withContext(NonCancellable) { answers.await() }
            return engine.find(asked)
        }
    }

    private fun open(vehicle: String) {
        chooseDemo()
        if (vehicle != "a") engine.get { addDemo(vehicle) }
        walk()
        tap("cards")
    }

    private fun ask(words: String) {
        screen.onNodeWithTag("seek").performTextReplacement(words)
        walk()
    }

    private fun shows(hits: List<HitRow>) {
        assertTrue(hits.isNotEmpty())
        screen.onNodeWithTag("page").assertExists()
        screen.onNode(hasTestTag("hit-" + hits.first().id)).assertIsDisplayed()
        screen.onNode(hasTestTag("hit-" + hits.first().id)).assertTextContains(hits.first().title)
    }

    private fun keyboard(): Boolean {
        var shown = false
        activity.onActivity { shown = shadowOf(it.getSystemService(InputMethodManager::class.java)).isSoftInputVisible }
        return shown
    }

    private fun text(id: Int): String = org.robolectric.RuntimeEnvironment.getApplication().getString(id)
}
