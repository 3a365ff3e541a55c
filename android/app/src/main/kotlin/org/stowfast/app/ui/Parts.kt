package org.stowfast.app.ui

import androidx.annotation.DrawableRes
import androidx.annotation.StringRes
import androidx.compose.foundation.BorderStroke
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.ColumnScope
import androidx.compose.foundation.layout.Row
import androidx.compose.foundation.layout.RowScope
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.heightIn
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.layout.size
import androidx.compose.foundation.shape.RoundedCornerShape
import androidx.compose.material3.Button
import androidx.compose.material3.ButtonDefaults
import androidx.compose.material3.Icon
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.OutlinedButton
import androidx.compose.material3.Surface
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Alignment
import androidx.compose.ui.Modifier
import androidx.compose.ui.graphics.Color
import androidx.compose.ui.platform.LocalDensity
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.painterResource
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.Role
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.role
import androidx.compose.ui.semantics.selected
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.semantics.stateDescription
import androidx.compose.ui.text.SpanStyle
import androidx.compose.ui.text.buildAnnotatedString
import androidx.compose.ui.text.font.FontWeight
import androidx.compose.ui.text.style.TextAlign
import androidx.compose.ui.text.withStyle
import androidx.compose.ui.unit.Dp
import androidx.compose.ui.unit.dp
import org.stowfast.app.R

val PanelShape = RoundedCornerShape(20.dp)
private val ButtonShape = RoundedCornerShape(16.dp)

/** A sheet of content. With [onClick] all of it is one target, and [end] is the mark of what a tap does. */
@Composable
fun Panel(
    modifier: Modifier = Modifier,
    tone: Tone? = null,
    onClick: (() -> Unit)? = null,
    @DrawableRes end: Int? = null,
    content: @Composable ColumnScope.() -> Unit,
) {
    val field = tone?.field ?: MaterialTheme.colorScheme.surface
    val ink = tone?.ink ?: MaterialTheme.colorScheme.onSurface
    val edge = if (tone == null) BorderStroke(1.dp, MaterialTheme.colorScheme.outlineVariant) else tone.edge?.let { BorderStroke(2.dp, it) }
    val inside: @Composable () -> Unit = {
        Row(Modifier.padding(16.dp), Arrangement.spacedBy(8.dp), Alignment.CenterVertically) {
            Column(Modifier.weight(1f), Arrangement.spacedBy(8.dp), content = content)
            if (end != null) Icon(painterResource(end), null, Modifier.size(20.dp), MaterialTheme.colorScheme.outline)
        }
    }
    if (onClick == null) {
        Surface(modifier.fillMaxWidth(), PanelShape, field, ink, border = edge, content = inside)
    } else {
        Surface(onClick, modifier.fillMaxWidth().heightIn(min = 48.dp).semantics { role = Role.Button }, shape = PanelShape, color = field, contentColor = ink, border = edge, content = inside)
    }
}

/** A sheet that a tap opens and shuts: its mark shows which, and its state says it. */
@Composable
fun Folding(open: Boolean, onTurn: () -> Unit, modifier: Modifier = Modifier, tone: Tone? = null, content: @Composable ColumnScope.() -> Unit) {
    val said = stringResource(if (open) R.string.routine_opened else R.string.routine_shut)
    Panel(modifier.semantics { stateDescription = said }, tone, onTurn, if (open) R.drawable.ic_up else R.drawable.ic_down, content)
}

/** A mark with words beside it: the shape says it, the words say it, the colour only helps. */
@Composable
fun Marked(
    @DrawableRes mark: Int,
    modifier: Modifier = Modifier,
    tint: Color = Color.Unspecified,
    size: Dp = 24.dp,
    gap: Dp = 12.dp,
    align: Alignment.Vertical = Alignment.CenterVertically,
    content: @Composable ColumnScope.() -> Unit,
) {
    Row(modifier, horizontalArrangement = Arrangement.spacedBy(gap), verticalAlignment = align) {
        Icon(painterResource(mark), null, Modifier.size(grown(size)), tint = if (tint == Color.Unspecified) MaterialTheme.colorScheme.primary else tint)
        Column(Modifier.weight(1f), verticalArrangement = Arrangement.spacedBy(2.dp), content = content)
    }
}

/** A mark grows with the letters beside it, up to a point. */
@Composable
fun grown(size: Dp): Dp = size * LocalDensity.current.fontScale.coerceIn(1f, 1.5f)

@Composable
fun SectionHeading(text: String, modifier: Modifier = Modifier) {
    Text(
        text,
        modifier.padding(top = 12.dp, start = 4.dp).semantics { heading() },
        style = MaterialTheme.typography.titleMedium,
        color = MaterialTheme.colorScheme.onSurfaceVariant,
    )
}

/** A value under its name, in one line where it fits. */
@Composable
fun Named(name: String, value: String) {
    Text(
        buildAnnotatedString {
            withStyle(SpanStyle(fontWeight = FontWeight.SemiBold)) { append("$name: ") }
            append(value)
        },
        style = MaterialTheme.typography.bodyLarge,
    )
}

/** Lines that belong together, each with its own stop. */
@Composable
fun Lines(lines: List<String>, modifier: Modifier = Modifier, color: Color = Color.Unspecified) {
    Column(modifier, verticalArrangement = Arrangement.spacedBy(6.dp)) {
        for (line in lines) {
            Row(horizontalArrangement = Arrangement.spacedBy(10.dp)) {
                Text("–", color = color, style = MaterialTheme.typography.bodyLarge)
                Text(line, color = color, style = MaterialTheme.typography.bodyLarge)
            }
        }
    }
}

/** A caution: always with the triangle. */
@Composable
fun Caution(text: String, modifier: Modifier = Modifier) {
    Panel(modifier, tone = roles.unknown) {
        Marked(R.drawable.ic_danger, tint = roles.unknown.mark) {
            Text(text, style = MaterialTheme.typography.bodyLarge)
        }
    }
}

/** The one thing to do on a page. 64 dp, for a cold thumb. */
@Composable
fun MainButton(
    text: String,
    onClick: () -> Unit,
    modifier: Modifier = Modifier,
    @DrawableRes icon: Int? = null,
    enabled: Boolean = true,
    tone: Tone? = null,
) {
    val colours = tone?.let { ButtonDefaults.buttonColors(it.field, it.ink) } ?: ButtonDefaults.buttonColors()
    Button(onClick, modifier.fillMaxWidth().heightIn(min = 64.dp), enabled, ButtonShape, colours) { Label(text, icon) }
}

@Composable
fun QuietButton(text: String, onClick: () -> Unit, modifier: Modifier = Modifier, @DrawableRes icon: Int? = null) {
    OutlinedButton(
        onClick,
        modifier.heightIn(min = 52.dp),
        shape = ButtonShape,
        border = BorderStroke(1.dp, MaterialTheme.colorScheme.outline),
    ) { Label(text, icon) }
}

/** One of a few. What is chosen has a mark, and says so. */
@Composable
fun ChoiceButton(text: String, chosen: Boolean, onClick: () -> Unit, modifier: Modifier = Modifier) =
    QuietButton(text, onClick, modifier.semantics { selected = chosen }, if (chosen) R.drawable.ic_do else null)

@Composable
private fun RowScope.Label(text: String, @DrawableRes icon: Int?) {
    if (icon != null) {
        Icon(painterResource(icon), null, Modifier.padding(end = 8.dp).size(grown(22.dp)))
    }
    Text(text, Modifier.weight(1f, fill = false), textAlign = TextAlign.Center, style = MaterialTheme.typography.labelLarge)
}

/** Leads to a page: what it is, and what stands there. One that is an exception has a [tone]. */
@Composable
fun Door(@DrawableRes icon: Int, @StringRes title: Int, about: String?, tag: String, tone: Tone? = null, onClick: () -> Unit) {
    Panel(Modifier.testTag(tag), tone, onClick, R.drawable.ic_forward) {
        Marked(icon, tint = tone?.mark ?: Color.Unspecified, size = 28.dp) {
            Text(stringResource(title), style = MaterialTheme.typography.titleMedium)
            if (about != null) {
                Text(about, style = MaterialTheme.typography.bodyMedium, color = tone?.ink ?: MaterialTheme.colorScheme.onSurfaceVariant)
            }
        }
    }
}

/** Stands where the engine has not answered yet. That takes no time worth a movement. */
@Composable
fun Working() = Panel(Modifier.semantics(mergeDescendants = true) { }) {
    Marked(R.drawable.ic_wait, size = 28.dp) { Text(stringResource(R.string.loading), style = MaterialTheme.typography.bodyLarge) }
}
