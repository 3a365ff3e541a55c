package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.card.CardScreen
import org.stowfast.app.card.CardState
import org.stowfast.app.card.CardWays
import org.stowfast.app.card.PhotoPage
import org.stowfast.app.card.Picture
import org.stowfast.app.card.drawn
import org.stowfast.app.cards.CardsScreen
import org.stowfast.app.cards.CardsState
import org.stowfast.app.cards.CardsWays
import org.stowfast.app.ui.Ways
import org.stowfast.engine.CardPage

/** How to use what is fitted. */
object CardStates {
    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "cards" to { cards(ways, "") },
        "cards-found" to { cards(ways, "hot water") },
        "cards-life" to { cards(ways, "smell of gas", coach) },
        "cards-nothing" to { cards(ways, "xylophone") },
        "cards-none" to { CardsScreen(CardsState(emptyList(), asked = "", found = null, problem = null), ways, anywhere) {} },
        "card" to { card(morning.get { card("gas_left") }, ways) },
        "card-moves" to { card(morning.get { card("boiler") }.copy(note = "", sections = emptyList()), ways) },
        "card-wait" to { CardScreen(state(page = null), ways, nowhere, {}) {} },
        "card-gone" to { CardScreen(state(page = null).copy(problem = morning.problem { card("hob") }), ways, nowhere, {}) {} },
        "card-photo" to { photo(ways) { it } },
        "card-photo-sure" to { photo(ways) { it.copy(removing = true) } },
        "card-photo-broken" to { photo(ways) { it.copy(picture = drawn(Photographs.broken), unreadable = true) } },
        "photo" to { PhotoPage(photographed.get { card("gas_left") }.photo?.title.orEmpty(), door(), ways) {} },
    )

    private val photographed = Scene { get { setPhoto("gas_left", Photographs.door) } }

    private fun state(page: CardPage?) =
        CardState(page, picture = null, enlarged = false, removing = false, unreadable = false, problem = null)

    private fun door() = (drawn(Photographs.door) as Picture.Drawn).image

    /** The card of a fitting that has a photo, with little else on it. */
    @Composable
    private fun photo(ways: Ways, changed: (CardState) -> CardState) {
        val page = photographed.get { card("gas_left") }.let { it.copy(sections = it.sections.take(1), steps = emptyList()) }
        CardScreen(changed(state(page).copy(picture = Picture.Drawn(door()))), ways, nowhere, {}) {}
    }

    private val nowhere = CardWays({}, {}, {}, {})
    private val anywhere = CardsWays({}, {}, {}, {}, {}, {})
    private val morning = Scene()
    private val coach = Scene("c")

    @Composable
    private fun cards(ways: Ways, asked: String, scene: Scene = morning) {
        val found = asked.takeIf { it.isNotEmpty() }?.let { scene.get { find(it) } }
        CardsScreen(CardsState(scene.get { cards() }, asked, found, problem = null), ways, anywhere) {}
    }

    @Composable
    private fun card(page: CardPage, ways: Ways) = CardScreen(state(page), ways, nowhere, {}) {}
}
