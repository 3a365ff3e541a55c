package org.stowfast.app.wait

import androidx.compose.runtime.Composable
import androidx.compose.runtime.LaunchedEffect
import androidx.lifecycle.Lifecycle
import androidx.lifecycle.compose.LocalLifecycleOwner
import androidx.lifecycle.repeatOnLifecycle
import kotlinx.coroutines.delay
import org.stowfast.engine.RoutinePage

/** While [page] is shown, it is asked for [again] as soon as it says itself that it will say something else. */
@Composable
fun AskAgain(page: RoutinePage?, again: () -> Unit) {
    val owner = LocalLifecycleOwner.current
    LaunchedEffect(page) {
        val inS = page?.againS ?: return@LaunchedEffect
        owner.repeatOnLifecycle(Lifecycle.State.RESUMED) {
            // The same answer comes with the same moment: once more in as long.
            while (true) {
                delay(inS * SECOND_MS)
                again()
            }
        }
    }
}

private const val SECOND_MS = 1_000L
