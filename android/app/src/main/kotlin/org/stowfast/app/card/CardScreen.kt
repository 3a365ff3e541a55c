package org.stowfast.app.card

import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.may.Move
import org.stowfast.app.share.card
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.links
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.engine.CardPage
import org.stowfast.engine.Outcome
import org.stowfast.engine.SectionRow
import org.stowfast.engine.VehicleEngine

/** Where a card leads on to. */
data class CardWays(val alert: (String) -> Unit, val fault: (String) -> Unit, val preview: (String) -> Unit, val may: (String) -> Unit)

@Composable
fun CardRoute(engine: VehicleEngine, ways: Ways, fittingId: String, on: CardWays) {
    val model = viewModel(key = "card-$fittingId") { CardViewModel(engine, fittingId) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(CardEvent.Shown) }
    val choose = photoPicker({ (engine.photoLimits() as? Outcome.Done)?.value }) { model.onEvent(CardEvent.Choose(it)) }
    CardScreen(state, ways, on, choose, model::onEvent)
}

/** How to use one fitting here. Its cautions come first. */
@Composable
fun CardScreen(state: CardState, ways: Ways, on: CardWays, onChoosePhoto: () -> Unit, onEvent: (CardEvent) -> Unit) {
    val page = state.page
    val photo = page?.photo
    val picture = state.picture
    if (state.enlarged && photo != null && picture is Picture.Drawn) {
        return PhotoPage(photo.title, picture.image, ways) { onEvent(CardEvent.Reduce) }
    }
    Page(page?.card?.title ?: stringResource(R.string.card_heading), ways, trouble(state.problem) { onEvent(CardEvent.Dismiss) }, told = telling(page != null) { card(state) }) {
        when {
            page != null -> card(page, on) { Photo(photo, state, onChoosePhoto, onEvent) }
            state.problem == null -> item { Working() }
        }
    }
}

/** What the engine calls the section of cautions. */
const val CAUTION = "caution"

/** The sections of a card as they are read: cautions before anything that one might do. */
fun CardPage.inOrder(): List<SectionRow> = sections.sortedByDescending { it.id == CAUTION }

private fun LazyListScope.card(page: CardPage, on: CardWays, photo: @Composable () -> Unit) {
    item {
        Panel(Modifier.testTag("where"), tone = roles.quiet) {
            Marked(R.drawable.ic_place, tint = roles.quiet.mark) {
                Text(stringResource(R.string.card_where), style = MaterialTheme.typography.bodyMedium)
                Text(page.card.zoneTitle, style = MaterialTheme.typography.titleMedium)
            }
        }
    }
    if (page.note.isNotEmpty()) {
        item {
            Panel(Modifier.testTag("note")) {
                Marked(R.drawable.ic_note) {
                    Text(stringResource(R.string.card_note), style = MaterialTheme.typography.bodyMedium)
                    Text(page.note, style = MaterialTheme.typography.bodyLarge)
                }
            }
        }
    }
    item { photo() }
    items(page.inOrder(), key = { it.id }) { Section(it) }
    if (page.steps.isNotEmpty()) item { SectionHeading(stringResource(R.string.card_moves)) }
    items(page.steps, key = { "may-" + it.id }) { Move(it.id, it.kind, it.text, row = it, on.may) }
    links(page.alerts, R.string.card_alerts, R.drawable.ic_red, "alert", on.alert)
    links(page.faults, R.string.card_faults, R.drawable.ic_fault, "fault", on.fault)
    links(page.routines, R.string.card_routines, R.drawable.ic_route, "routine", on.preview)
}

/** A section under its name; of cautions the mark says it too. */
@Composable
private fun Section(section: SectionRow) {
    val caution = section.id == CAUTION
    Panel(Modifier.testTag("section-" + section.id), tone = if (caution) roles.unknown else null) {
        if (caution) {
            Marked(R.drawable.ic_danger, tint = roles.unknown.mark) { Title(section.title) }
        } else {
            Title(section.title)
        }
        Lines(section.lines)
    }
}

@Composable
private fun Title(text: String) = Text(text, Modifier.semantics { heading() }, style = MaterialTheme.typography.titleMedium)
