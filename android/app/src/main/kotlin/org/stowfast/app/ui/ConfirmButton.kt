package org.stowfast.app.ui

import androidx.annotation.DrawableRes
import androidx.compose.animation.core.Animatable
import androidx.compose.animation.core.LinearEasing
import androidx.compose.animation.core.tween
import androidx.compose.foundation.background
import androidx.compose.foundation.border
import androidx.compose.foundation.gestures.detectTapGestures
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Box
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.Row
import androidx.compose.foundation.layout.fillMaxHeight
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.heightIn
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.layout.size
import androidx.compose.foundation.shape.RoundedCornerShape
import androidx.compose.material3.Icon
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.LaunchedEffect
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.remember
import androidx.compose.runtime.rememberCoroutineScope
import androidx.compose.runtime.setValue
import androidx.compose.ui.Alignment
import androidx.compose.ui.Modifier
import androidx.compose.ui.draw.clip
import androidx.compose.ui.draw.drawBehind
import androidx.compose.ui.geometry.Size
import androidx.compose.ui.hapticfeedback.HapticFeedbackType
import androidx.compose.ui.input.pointer.pointerInput
import androidx.compose.ui.platform.LocalHapticFeedback
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.painterResource
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.CustomAccessibilityAction
import androidx.compose.ui.semantics.Role
import androidx.compose.ui.semantics.contentDescription
import androidx.compose.ui.semantics.customActions
import androidx.compose.ui.semantics.onClick
import androidx.compose.ui.semantics.role
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.text.style.TextAlign
import androidx.compose.ui.unit.dp
import kotlinx.coroutines.delay
import kotlinx.coroutines.launch
import org.stowfast.app.R

/** A bounce of the thumb that confirmed one step must not confirm the next. Unit: ms. */
const val SETTLE_MS = 350L

/** How long a deliberate press lasts. Unit: ms. */
private const val HOLD_MS = 800

private val Shape = RoundedCornerShape(16.dp)

/** How long the second of two taps may take. Unit: ms. */
private const val AGAIN_MS = 4_000L

/**
 * Confirms the step [id]; [hint] says how. An ordinary one takes a tap. A [deliberate] one takes a long press, or a second tap
 * while the button asks for it; a screen reader offers it as an action of its own. What is no step but an [exception] has its
 * tone, and an edge.
 */
@Composable
fun ConfirmButton(
    id: String,
    text: String,
    hint: String,
    deliberate: Boolean,
    @DrawableRes icon: Int,
    onConfirm: () -> Unit,
    modifier: Modifier = Modifier,
    exception: Tone? = null,
) {
    var settled by remember(id) { mutableStateOf(false) }
    var asked by remember(id) { mutableStateOf(false) }
    val held = remember(id) { Animatable(0f) }
    val scope = rememberCoroutineScope()
    val haptic = LocalHapticFeedback.current
    LaunchedEffect(id, settled) {
        delay(SETTLE_MS)
        settled = true
    }
    LaunchedEffect(id, asked) {
        if (asked) {
            delay(AGAIN_MS)
            asked = false
        }
    }
    fun confirm() {
        settled = false
        asked = false
        haptic.performHapticFeedback(HapticFeedbackType.LongPress)
        onConfirm()
    }
    fun tapped() {
        if (!settled) return
        if (!deliberate || asked) confirm() else asked = true
    }

    val field = exception?.field ?: MaterialTheme.colorScheme.primary
    val ink = exception?.ink ?: MaterialTheme.colorScheme.onPrimary
    val again = stringResource(R.string.routine_again)
    val action = stringResource(R.string.routine_confirm)
    val below = if (asked) again else hint
    Box(
        modifier
            .fillMaxWidth()
            .heightIn(min = 64.dp)
            .clip(Shape)
            .background(field)
            .then(exception?.let { Modifier.border(2.dp, it.mark, Shape) } ?: Modifier)
            .drawBehind { drawRect(ink.copy(alpha = 0.28f), size = Size(size.width * held.value, size.height)) }
            .testTag("confirm")
            .semantics(mergeDescendants = true) {
                role = Role.Button
                contentDescription = "$text. $below"
                onClick { tapped(); true }
                if (deliberate) customActions = listOf(CustomAccessibilityAction(action) { confirm(); true })
            }
            .pointerInput(id, deliberate) {
                detectTapGestures(onPress = {
                    val holding = scope.launch {
                        if (deliberate && settled) {
                            held.animateTo(1f, tween(HOLD_MS, easing = LinearEasing))
                            confirm()
                        }
                    }
                    val released = tryAwaitRelease()
                    val full = held.value >= 1f
                    holding.cancel()
                    if (!full) scope.launch { held.snapTo(0f) }
                    if (released && !full) tapped()
                })
            }
            .padding(horizontal = 16.dp, vertical = 10.dp),
        contentAlignment = Alignment.Center,
    ) {
        Row(verticalAlignment = Alignment.CenterVertically, horizontalArrangement = Arrangement.spacedBy(10.dp)) {
            Icon(painterResource(icon), null, Modifier.size(grown(26.dp)), tint = exception?.mark ?: ink)
            Column(Modifier.weight(1f, fill = false), horizontalAlignment = Alignment.CenterHorizontally) {
                Text(text, color = ink, style = MaterialTheme.typography.labelLarge, textAlign = TextAlign.Center)
                Text(below, color = ink, style = MaterialTheme.typography.bodyMedium, textAlign = TextAlign.Center)
            }
        }
    }
}
