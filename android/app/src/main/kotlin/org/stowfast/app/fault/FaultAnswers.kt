package org.stowfast.app.fault

import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.IntrinsicSize
import androidx.compose.foundation.layout.Row
import androidx.compose.foundation.layout.Spacer
import androidx.compose.foundation.layout.fillMaxHeight
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.height
import androidx.compose.foundation.layout.heightIn
import androidx.compose.foundation.rememberScrollState
import androidx.compose.foundation.verticalScroll
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.LaunchedEffect
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.remember
import androidx.compose.runtime.setValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalConfiguration
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.unit.dp
import kotlinx.coroutines.delay
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.SETTLE_MS
import org.stowfast.app.ui.wide
import org.stowfast.engine.AnswerRow
import org.stowfast.engine.FaultPage

/** What is asked now, by its name to the engine and in words, and what may be said. [first] of these are what may be seen. */
data class Asked(val id: String, val text: String, val answers: List<AnswerRow>, val first: Int)

/** A question, or else whether what was found is mended. */
fun FaultPage.asks(): Asked? = question?.let { Asked(it.id, it.text, it.answers, it.answers.size - 1) }
    ?: found?.takeIf { it.answers.isNotEmpty() }?.let { Asked(it.id, it.text, it.answers, 1) }

/** From here on letters are too large for two answers side by side on a phone. */
private const val LARGE_LETTERS = 1.3f

/** How many answers fit below each other before they take two columns. */
private const val IN_A_COLUMN = 3

/** How many answers stand side by side in a wide window at most. */
private const val IN_A_ROW = 3

/** How much of the window the answers take at most; beyond it they scroll. */
private const val SHARE = 0.45f

/**
 * All that may be said, under the thumb: 64 dp each, and none of them by a thumb that still bounces. What it answers
 * stands above it, wherever the page is scrolled to.
 */
@Composable
fun Answers(asked: Asked, onEvent: (FaultEvent) -> Unit) {
    var settled by remember(asked) { mutableStateOf(false) }
    LaunchedEffect(asked) {
        delay(SETTLE_MS)
        settled = true
    }
    val window = LocalConfiguration.current
    val columns = when {
        wide() -> asked.answers.size.coerceIn(1, IN_A_ROW)
        window.fontScale < LARGE_LETTERS && asked.answers.size > IN_A_COLUMN -> 2
        else -> 1
    }
    Column(
        Modifier.fillMaxWidth().heightIn(max = (window.screenHeightDp * SHARE).dp).verticalScroll(rememberScrollState()),
        Arrangement.spacedBy(8.dp),
    ) {
        Text(asked.text, Modifier.testTag("asks"), style = MaterialTheme.typography.titleMedium)
        for (row in asked.answers.withIndex().chunked(columns)) {
            Row(Modifier.height(IntrinsicSize.Min), Arrangement.spacedBy(8.dp)) {
                for ((index, answer) in row) {
                    val say = { if (settled) onEvent(FaultEvent.Answer(asked.id, answer.id)) }
                    val place = Modifier.weight(1f).fillMaxHeight().heightIn(min = 64.dp).testTag("answer-" + answer.id)
                    if (index < asked.first) MainButton(answer.text, say, place) else QuietButton(answer.text, say, place)
                }
                repeat(columns - row.size) { Spacer(Modifier.weight(1f)) }
            }
        }
    }
}
