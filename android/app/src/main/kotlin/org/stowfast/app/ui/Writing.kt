package org.stowfast.app.ui

import androidx.annotation.StringRes
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.lazy.LazyListScope
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
import androidx.compose.ui.text.input.KeyboardCapitalization
import org.stowfast.app.R
import org.stowfast.app.share.Told

/** What a page to write on asks for. */
data class Question(@StringRes val title: Int, @StringRes val label: Int, @StringRes val go: Int, val mayBeEmpty: Boolean)

/** A page to write a few words on, below what they are [about], which [told] says as text. */
@Composable
fun Writing(
    question: Question,
    ways: Ways,
    onWritten: (String) -> Unit,
    onClose: () -> Unit,
    told: (Told.() -> Unit)? = null,
    about: LazyListScope.() -> Unit = {},
) {
    var text by rememberSaveable { mutableStateOf("") }
    Page(
        stringResource(question.title),
        ways.copy(back = onClose),
        bottom = {
            MainButton(stringResource(question.go), { onWritten(text.trim()) }, enabled = question.mayBeEmpty || text.isNotBlank())
        },
        told = told,
    ) {
        about()
        item {
            OutlinedTextField(
                text,
                { text = it },
                Modifier.fillMaxWidth().testTag("words"),
                textStyle = MaterialTheme.typography.bodyLarge,
                label = { Text(stringResource(question.label)) },
                keyboardOptions = KeyboardOptions(capitalization = KeyboardCapitalization.Sentences),
            )
        }
    }
}

/** The words of a note, wherever it is written. */
val NoteQuestion = Question(R.string.note_heading, R.string.note_label, R.string.note_go, mayBeEmpty = false)
