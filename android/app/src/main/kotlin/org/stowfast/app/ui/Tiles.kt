package org.stowfast.app.ui

import androidx.annotation.DrawableRes
import androidx.annotation.StringRes
import androidx.compose.foundation.BorderStroke
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.BoxWithConstraints
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.IntrinsicSize
import androidx.compose.foundation.layout.Row
import androidx.compose.foundation.layout.Spacer
import androidx.compose.foundation.layout.fillMaxHeight
import androidx.compose.foundation.layout.height
import androidx.compose.foundation.layout.heightIn
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.layout.size
import androidx.compose.foundation.shape.RoundedCornerShape
import androidx.compose.material3.Icon
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Surface
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Alignment
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalDensity
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.painterResource
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.Role
import androidx.compose.ui.semantics.role
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.text.style.LineBreak
import androidx.compose.ui.text.style.TextAlign
import androidx.compose.ui.unit.dp

/** A door of a grid: a mark, and a word or two. */
class Tile(@DrawableRes val icon: Int, @StringRes val word: Int, val tag: String, val onClick: () -> Unit)

/** What a word of ordinary size needs. Unit: dp. */
private const val TILE_DP = 84

private const val TILES_IN_A_ROW = 4
private val Gap = 8.dp

/** Doors side by side: as many in a row as their words leave room for, and no more than four. */
@Composable
fun Tiles(tiles: List<Tile>) {
    BoxWithConstraints {
        val each = TILE_DP.dp * LocalDensity.current.fontScale
        val columns = ((maxWidth + Gap) / (each + Gap)).toInt().coerceIn(1, TILES_IN_A_ROW)
        Column(verticalArrangement = Arrangement.spacedBy(Gap)) {
            for (row in tiles.chunked(columns)) {
                Row(Modifier.height(IntrinsicSize.Min), Arrangement.spacedBy(Gap)) {
                    for (tile in row) TileButton(tile, Modifier.weight(1f).fillMaxHeight())
                    repeat(columns - row.size) { Spacer(Modifier.weight(1f)) }
                }
            }
        }
    }
}

@Composable
private fun TileButton(tile: Tile, modifier: Modifier) {
    Surface(
        tile.onClick,
        modifier.heightIn(min = 64.dp).testTag(tile.tag).semantics { role = Role.Button },
        shape = RoundedCornerShape(16.dp),
        color = MaterialTheme.colorScheme.surface,
        border = BorderStroke(1.dp, MaterialTheme.colorScheme.outlineVariant),
    ) {
        Column(
            Modifier.padding(horizontal = 4.dp, vertical = if (short()) 6.dp else 10.dp),
            Arrangement.spacedBy(4.dp),
            Alignment.CenterHorizontally,
        ) {
            Icon(painterResource(tile.icon), null, Modifier.size(grown(24.dp)), tint = MaterialTheme.colorScheme.primary)
            Text(stringResource(tile.word), textAlign = TextAlign.Center, style = MaterialTheme.typography.labelMedium.copy(lineBreak = LineBreak.Heading))
        }
    }
}
