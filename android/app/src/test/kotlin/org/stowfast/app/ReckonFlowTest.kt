package org.stowfast.app

import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.compose.ui.test.performTextInput
import androidx.compose.ui.test.performTextReplacement
import org.junit.Assert.assertEquals
import org.junit.Assert.assertNotEquals
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.stowfast.engine.Mark
import org.stowfast.engine.Pick

/** Questions that are answered with numbers, from the door on the reserves to the answer. */
@RunWith(RobolectricTestRunner::class)
class ReckonFlowTest : OnScreen() {
    @Test
    fun theWindOfTheForecastTellsWhatToTakeIn() {
        open()
        sees("Pick the wind in the forecast.")
        tap("pick-beaufort-b7")
        val strong = engine.get { reckon("wind", listOf(Pick("beaufort", "b7"))) }
        assertEquals(Mark.WRONG, strong.mark)
        sees(strong.verdictText)
        page("7, near gale")
        page(strong.verdictText)
        draw("real-reckon")
        tap("entry-gust")
        type("gust", "4")
        record()
        val calm = engine.get { reckon("wind", listOf(Pick("beaufort", "b7"), Pick("gust", "4"))) }
        assertNotEquals(strong.verdictText, calm.verdictText)
        page(calm.verdictText)
        back()
        tap("ask-wind")
        page(calm.verdictText)
    }

    @Test
    fun aNumberThatOnlyPeopleKnowIsToldWhereItIsAskedForAndKept() {
        open()
        tap("entry-awning_m2")
        type("awning_m2", "7.5")
        record()
        understood()
        assertEquals(7.5, engine.get { figures() }.single { it.id == "awning_m2" }.value)
        tap("pick-beaufort-b4")
        page("line-awning_pull", tag = true)
        screen.onNodeWithText("Pull at your awning", substring = true).assertIsDisplayed()
    }

    @Test
    fun aNumberThatDoesNotFitIsRefusedWithWhatWasExpected() {
        open()
        tap("entry-gust")
        type("gust", "900")
        record()
        page("problem", tag = true)
        sees("0 metres a second to 80 metres a second")
    }

    private fun open() {
        chooseLarge()
        tap("reserves")
        tap("questions")
        tap("ask-wind")
    }

    private fun type(id: String, text: String) {
        page("type-$id", tag = true)
        screen.onNodeWithTag("type-$id").performTextInput(text)
    }

    private fun record() {
        page("Record")
        screen.onNodeWithText("Record").performClick()
        walk()
    }

    private fun sees(text: String) = screen.onNodeWithText(text, substring = true).assertIsDisplayed()
}
