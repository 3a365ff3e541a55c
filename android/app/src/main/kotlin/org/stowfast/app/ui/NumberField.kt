package org.stowfast.app.ui

import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.text.KeyboardActions
import androidx.compose.foundation.text.KeyboardOptions
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.OutlinedTextField
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.saveable.rememberSaveable
import androidx.compose.runtime.setValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.text.input.KeyboardType
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import java.text.NumberFormat
import java.text.ParsePosition

/** A number to be typed and recorded. [range] says what fits; the engine judges it. What is no number is marked as such. */
@Composable
fun NumberField(id: String, label: String, range: String, unit: String?, onRecord: (Double) -> Unit) {
    var text by rememberSaveable(id) { mutableStateOf("") }
    val value = number(text)
    fun record() {
        if (value != null) onRecord(value)
    }
    Column(verticalArrangement = Arrangement.spacedBy(8.dp)) {
        OutlinedTextField(
            text,
            { text = it },
            Modifier.fillMaxWidth().testTag("type-$id"),
            textStyle = MaterialTheme.typography.headlineMedium,
            label = { Text(label) },
            singleLine = true,
            isError = text.isNotBlank() && value == null,
            suffix = unit?.let { { Text(it) } },
            supportingText = { Text(range) },
            keyboardOptions = KeyboardOptions(keyboardType = KeyboardType.Decimal),
            keyboardActions = KeyboardActions(onDone = { record() }),
        )
        MainButton(stringResource(R.string.reading_record), ::record)
    }
}

/** A number as it is written where the phone is used. */
fun written(value: Double): String = NumberFormat.getNumberInstance().format(value)

/** Reads what [written] writes; a point is taken everywhere. */
private fun number(text: String): Double? {
    val trimmed = text.trim()
    if (trimmed.isEmpty()) return null
    trimmed.toDoubleOrNull()?.let { return it }
    val position = ParsePosition(0)
    return NumberFormat.getNumberInstance().parse(trimmed, position)?.toDouble()?.takeIf { position.index == trimmed.length }
}
