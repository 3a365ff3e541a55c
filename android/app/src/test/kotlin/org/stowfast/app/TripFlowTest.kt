package org.stowfast.app

import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.assertIsSelected
import androidx.compose.ui.test.onAllNodesWithTag
import androidx.compose.ui.test.onFirst
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.compose.ui.test.performScrollToIndex
import androidx.compose.ui.test.performTextInput
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.stowfast.app.place.PlaceEvent
import org.stowfast.app.place.PlaceViewModel
import org.stowfast.engine.Line
import org.stowfast.engine.Problem
import org.stowfast.engine.VerdictKind

/** Places and the road, parts and variants, two people, and what is said of things outside a routine. */
@RunWith(RobolectricTestRunner::class)
class TripFlowTest : OnScreen() {
    @Test
    fun aClearListOffersTheRoadAndAnArrivalThePlaces() {
        chooseDemo()
        leave()
        screen.onNodeWithTag("next").performClick()
        draw("real-drive")
        settle()
        screen.onNodeWithTag("confirm").performClick()
        assertFalse("one tap is not enough", engine.get { nowPage() }.moving)
        screen.onNodeWithTag("confirm").performClick()
        screen.waitForIdle()
        understood()
        assertTrue(engine.get { nowPage() }.moving)
        draw("real-moving")

        screen.onNodeWithText("Arrived").performClick()
        draw("real-arrive")
        tap("arrive-pitch_16a")
        understood()
        val there = engine.get { nowPage() }
        assertFalse(there.moving)
        assertTrue(there.placeTitle, there.placeTitle.contains("16 A"))
        screen.onNodeWithTag("verdict").assertIsDisplayed()
        tap("where")
        draw("real-where")
        screen.onNodeWithText(there.placeTitle.split(" · ").last()).assertIsDisplayed()
    }

    @Test
    fun whoDrivesOffAllTheSameIsToldAndBelieved() {
        chooseDemo()
        tap("drive-anyway")
        val inTheWay = engine.get { nowPage() }.items.first()
        page("item-" + inTheWay.variable, tag = true)
        settle()
        screen.onNodeWithTag("confirm").performClick()
        screen.onNodeWithTag("confirm").performClick()
        screen.waitForIdle()
        screen.onNodeWithTag("notices").assertIsDisplayed()
        draw("real-drive-anyway")
        understood()
        assertTrue(engine.get { nowPage() }.moving)
        screen.onNodeWithText("Arrived").performClick()
        tap("arrive-elsewhere")
        understood()
        assertFalse(engine.get { nowPage() }.moving)
    }

    @Test
    fun aPlaceFileOfOnesOwnIsReadAndABrokenOneChangesNothing() {
        chooseDemo()
        val before = engine.get { nowPage() }.placeTitle
        val model = PlaceViewModel(engine)
        model.onEvent(PlaceEvent.OpenFile("mine.toml", "stowfast_place = 1\ntitle = 7\n"))
        screen.waitForIdle()
        assertEquals("mine.toml", (model.state.value.problem as Problem.BrokenPack).file)
        assertEquals(before, engine.get { nowPage() }.placeTitle)
        model.onEvent(PlaceEvent.OpenFile("mine.toml", null))
        screen.waitForIdle()
        assertTrue(model.state.value.unreadable)
        model.onEvent(PlaceEvent.OpenFile("mine.toml", demoData("places/pitch_6a.toml")))
        screen.waitForIdle()
        assertTrue(model.state.value.arrived)
        assertTrue(engine.get { nowPage() }.placeTitle.contains("6 A"))
    }

    @Test
    fun aCountryAndACarrierAreToldAndTheirRulesReadWithTheirSource() {
        chooseDemo()
        tap("where")
        screen.onNodeWithTag("rule").assertDoesNotExist()
        tap("tell-de")
        understood()
        val told = engine.get { rules() }.filter { it.told }
        assertEquals(setOf("de"), told.map { it.place }.toSet())
        screen.onNodeWithTag("tell-de").assertIsSelected()
        page("rule", tag = true)
        page("Source: ${told.first().source}. As of ${told.first().date}.")
        draw("real-rules")
        tap("tell-carrier_ferry")
        understood()
        assertTrue(engine.get { rules() }.any { it.told && it.place == "carrier_ferry" })
        tap("other-country")
        page("country-code", tag = true)
        screen.onNodeWithTag("country-code").performTextInput("FRA")
        tap("tell-country")
        screen.onNodeWithTag("problem").assertIsDisplayed()
        screen.onNodeWithText("Understood").performClick()
        assertTrue("a refused code changes nothing", engine.get { rules() }.any { it.told && it.place == "de" })
    }

    @Test
    fun partsOfATargetAreAskedForAlone() {
        chooseDemo()
        screen.onNodeWithText("Get ready for…").performClick()
        tap("target-serviced")
        tap("part-waste")
        draw("real-parts")
        tap("choose")
        draw("real-preview")
        val way = engine.get { preview("serviced/waste") }
        screen.onNodeWithText("Begin: ${way.run.targetTitle}").performClick()
        screen.waitForIdle()
        assertEquals(way.run.targetTitle, routine().run.targetTitle)
        assertEquals(way.steps.map { it.id }, routine().steps.map { it.id })
        page("More")
        screen.onNodeWithText("More").performClick()
        screen.onNodeWithTag("more-share").performClick()
        screen.onNodeWithText(engine.get { shared("serviced/waste") }.headline).assertIsDisplayed()
    }

    @Test
    fun aVariantIsPickedBeforeItIsBegun() {
        chooseLarge()
        screen.onNodeWithText("Get ready for…").performClick()
        tap("target-ready_to_drive")
        val variants = engine.get { preview("ready_to_drive") }.variants
        assertEquals(2, variants.size)
        val other = variants.first { !it.chosen }
        tap("variant-" + other.id)
        screen.onNodeWithTag("variant-" + other.id).assertIsSelected()
        page("impossible", tag = true)
        draw("real-variants")
        screen.onNodeWithText("Begin the rest of it: ", substring = true).performClick()
        screen.waitForIdle()
        assertTrue(routine().run.targetTitle, routine().run.targetTitle.endsWith(other.title))
    }

    @Test
    fun aWayIsSharedInTwoListsWithTheWordsToWaitFor() {
        chooseDemo()
        openLeaving()
        val before = engine.get { log(1) }
        more("share")
        val shared = engine.get { shared("ready_to_drive") }
        screen.onNodeWithText(shared.headline).assertIsDisplayed()
        val second = shared.people[1].steps
        tap("person-1")
        screen.onNodeWithTag("person-1").assertIsSelected()
        draw("real-shared")
        val word = second.firstNotNullOf { it.wordText }
        page(word)
        draw("real-word")
        assertEquals("it is a view", before, engine.get { log(1) })
        back()
        screen.onNodeWithTag("confirm").assertIsDisplayed()
    }

    @Test
    fun aThingIsSaidInTwoTapsAndPutBackLater() {
        chooseDemo()
        tap("things")
        tap("thing-pump.power")
        draw("real-things")
        tap("say-pump.power-off")
        assertEquals(listOf("off"), engine.get { things() }.first { it.variable == "pump.power" }.believed)
        back()
        val entry = engine.get { log(1) }.single().entry
        tap("record")
        tap("row-$entry")
        draw("real-record-open")
        tap("back")
        draw("real-back")
        screen.onAllNodesWithTag("summary").onFirst().assertIsDisplayed()
        val way = engine.get { preview("back/$entry") }
        assertTrue("pump.switch_on" in way.steps.map { it.id })
        screen.onNodeWithText("Begin: ", substring = true).performClick()
        screen.waitForIdle()
        assertEquals("back/$entry", routine().run.targetId)
    }

    @Test
    fun anEntryIsTakenBackFromTheRecord() {
        chooseDemo()
        engine.get { report("pump.power", "off") }
        val entry = engine.get { log(1) }.single().entry
        tap("record")
        tap("row-$entry")
        tap("take-back")
        assertTrue(engine.get { log(5) }.first { it.entry == entry }.voided)
        assertEquals(listOf("on"), engine.get { things() }.first { it.variable == "pump.power" }.believed)
    }

    @Test
    fun anAlarmIsTheFirstThingOnThePageAndEndsBySomebodysWord() {
        chooseLarge()
        screen.onNodeWithTag("emergency").assertDoesNotExist()
        tap("things")
        tap("thing-co_alarm.sound")
        tap("say-co_alarm.sound-sounding")
        understood()
        back()
        screen.onNodeWithTag("page").performScrollToIndex(0)
        screen.onNodeWithTag("emergency").assertIsDisplayed()
        draw("real-emergency")
        screen.onNodeWithTag("say-silent").assertDoesNotExist()
        tap("say")
        tap("say-silent")
        understood()
        assertTrue(engine.get { nowPage() }.emergency.isEmpty())
        screen.onNodeWithTag("emergency").assertDoesNotExist()
    }

    /** The large vehicle, with everything. */
    /** Everything for the road is done, and the list is clear. */
    private fun leave() {
        engine.get { openRun("ready_to_drive") }
        var left = 40
        while (!routine().finished && left-- > 0) {
            val steps = gesture().steps
            bench.pass(10_000)
            engine.get { confirm(steps.map { Line(it, null) }) }
        }
        engine.get { closeRun() }
        screen.waitForIdle()
        assertEquals(VerdictKind.CLEAR, engine.get { nowPage() }.verdict)
    }
}
