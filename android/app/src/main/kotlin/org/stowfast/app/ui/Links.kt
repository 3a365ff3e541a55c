package org.stowfast.app.ui

import androidx.annotation.DrawableRes
import androidx.annotation.StringRes
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import org.stowfast.app.R
import org.stowfast.engine.LinkRow

/** Where a page leads on to, under a heading; nothing where it leads nowhere. */
fun LazyListScope.links(
    rows: List<LinkRow>,
    @StringRes heading: Int,
    @DrawableRes icon: Int,
    tag: String,
    open: (String) -> Unit,
) {
    if (rows.isEmpty()) return
    item { SectionHeading(stringResource(heading)) }
    items(rows, key = { "$tag-${it.id}" }) { row ->
        Panel(Modifier.testTag("$tag-${row.id}"), onClick = { open(row.id) }, end = R.drawable.ic_forward) {
            Marked(icon) { Text(row.title, style = MaterialTheme.typography.titleMedium) }
        }
    }
}
