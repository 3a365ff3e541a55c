package org.stowfast.app.life

import androidx.annotation.ArrayRes
import androidx.annotation.StringRes
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.res.stringArrayResource
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import org.stowfast.app.R
import org.stowfast.app.share.life
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.roles

enum class Peril(@StringRes val title: Int, @ArrayRes val lines: Int) {
    CARBON_MONOXIDE(R.string.life_co, R.array.life_co_lines),
    GAS(R.string.life_gas, R.array.life_gas_lines),
    SMOKE(R.string.life_smoke, R.array.life_smoke_lines),
    FIRE(R.string.life_fire, R.array.life_fire_lines),
}

/** What to do when people are in danger. Plain resources: no engine, no vehicle, no record is needed. */
@Composable
fun LifeScreen(ways: Ways) {
    Page(stringResource(R.string.emergency), ways, told = { life() }) {
        item { Text(stringResource(R.string.life_intro), style = MaterialTheme.typography.headlineMedium) }
        for (peril in Peril.entries) {
            item {
                Panel {
                    Marked(R.drawable.ic_danger, tint = roles.blocked.mark) {
                        Text(
                            stringResource(peril.title),
                            Modifier.semantics { heading() },
                            style = MaterialTheme.typography.titleLarge,
                        )
                    }
                    Lines(stringArrayResource(peril.lines).toList())
                }
            }
        }
        item { Text(stringResource(R.string.life_foot), style = MaterialTheme.typography.bodyMedium) }
    }
}
