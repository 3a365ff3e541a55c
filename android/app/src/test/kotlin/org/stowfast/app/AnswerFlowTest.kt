package org.stowfast.app

import androidx.compose.ui.semantics.SemanticsActions
import androidx.compose.ui.semantics.SemanticsProperties
import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.hasTestTag
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.compose.ui.test.performScrollToNode
import androidx.compose.ui.test.performSemanticsAction
import androidx.compose.ui.test.performTextInput
import org.junit.Assert.assertEquals
import org.junit.Assert.assertNotEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.ParameterizedRobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.stowfast.app.reckon.answered
import org.stowfast.engine.Pick
import org.stowfast.engine.Reckoning

/** Every question of numbers, from its row to the end of its answer, with letters of ordinary and of double size. */
@RunWith(ParameterizedRobolectricTestRunner::class)
class AnswerFlowTest(private val question: String, private val letters: Float) : OnScreen() {
    private val answer = Answer.all.getValue(question)

    @Test
    fun itIsAnsweredWithNumbersThatCanAllBeRead() {
        RuntimeEnvironment.setFontScale(letters)
        chooseLarge()
        assertEquals("a question without an answer here", Answer.all.keys, engine.get { reckonings() }.map { it.id }.toSet())
        for ((figure, value) in answer.told) engine.get { tellFigure(figure, value) }
        tap("reserves")
        tap("questions")
        tap("ask-$question")
        val before = asked(emptyList())
        shows(before)
        val figures = before.asks.map { it.id }.toSet()
        for ((what, value) in answer.said) say(what, value, before)
        val after = asked(answer.picks(figures))
        assertNotEquals(before.verdictText, after.verdictText)
        assertTrue("it is not answered: ${after.verdictText}", after.answered())
        shows(after)
        assertEquals("charts", after.parts.count { it.chart != null }, readToTheEnd(after).size)
        leadsToWhatItWasAskedWith()
    }

    private fun asked(picks: List<Pick>): Reckoning = engine.get { reckon(question, picks) }

    private fun shows(page: Reckoning) {
        page("verdict", tag = true)
        screen.onNodeWithText(page.verdictText).assertIsDisplayed()
    }

    private fun say(what: String, value: String, before: Reckoning) {
        val picked = before.choices.any { it.id == what && it.number == null }
        val into = if (picked) "pick-$what-$value" else "type-$what"
        if (!has(into)) tap("entry-$what")
        if (picked) return tap(into)
        page(into, tag = true)
        screen.onNodeWithTag(into).performTextInput(value)
        page("Record")
        screen.onNodeWithText("Record").performClick()
        walk()
        understood()
    }

    private fun has(tag: String): Boolean = runCatching { page(tag, tag = true) }.isSuccess

    /** From the top to the bottom, walking each stretch. Comes back with the charts on the way. */
    private fun readToTheEnd(page: Reckoning): Set<String> {
        page("verdict", tag = true)
        val charts = mutableSetOf<String>()
        do {
            charts += page.parts.mapNotNull { it.chart?.title }.filter(::inSight)
            walk()
        } while (onwards())
        screen.onNodeWithTag("share-text").assertIsDisplayed()
        return charts
    }

    private fun inSight(text: String): Boolean = runCatching { screen.onNodeWithText(text).assertIsDisplayed() }.isSuccess

    /** Scrolls on by most of what is in sight; whether there was any more. */
    private fun onwards(): Boolean {
        val page = screen.onNodeWithTag("page")
        val range = page.fetchSemanticsNode().config[SemanticsProperties.VerticalScrollAxisRange]
        if (range.value() >= range.maxValue()) return false
        val height = page.fetchSemanticsNode().size.height
        page.performSemanticsAction(SemanticsActions.ScrollBy) { it(0f, height * 0.8f) }
        screen.waitForIdle()
        return true
    }

    private fun leadsToWhatItWasAskedWith() {
        page("verdict", tag = true)
        tap("to-asked")
        screen.onNodeWithText("Asked with").assertIsDisplayed()
        val first = answer.said.first().first
        screen.onNodeWithTag("page").performScrollToNode(hasTestTag("entry-$first"))
        screen.onNodeWithTag("entry-$first").assertIsDisplayed()
    }

    companion object {
        @JvmStatic
        @ParameterizedRobolectricTestRunner.Parameters(name = "{0} {1}")
        fun questions(): List<Array<Any>> = Answer.all.keys.flatMap { question -> listOf(1f, 2f).map { arrayOf(question, it) } }
    }
}
