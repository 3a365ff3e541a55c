package org.stowfast.app

import androidx.compose.foundation.layout.Box
import androidx.compose.runtime.Composable
import androidx.compose.ui.Alignment
import androidx.compose.ui.Modifier
import org.stowfast.app.about.AboutScreen
import org.stowfast.app.about.Licences
import org.stowfast.app.about.LicencesScreen
import org.stowfast.app.about.Part
import org.stowfast.app.crash.CrashOffer
import org.stowfast.app.crash.CrashScreen
import org.stowfast.app.ui.Ways

/** The pages about the app itself. */
object SystemStates {
    private val ways = Ways(back = {}, emergency = {})
    private val licences = Licences(
        listOf(Part("one 1.0", listOf("Apache-2.0"), ""), Part("another-part-with-a-long-name 12.3.45", listOf("MIT"), "Copyright (c) 2020 its developers")),
        mapOf("Apache-2.0" to "Terms.", "MIT" to "Permission."),
    )
    private const val REPORT = "stowfast: 0.1.0\nandroid: 14, 34, arm64-v8a\nthread: main\npage: ROUTINE\n\njava.lang.IllegalStateException\n    at org.stowfast.app.routine.RoutineScreenKt.RoutineScreen(RoutineScreen.kt:80)\n"

    val all: List<Pair<String, @Composable () -> Unit>> = listOf(
        "about" to { AboutScreen(ways, crashed = true) {} },
        "licences" to { LicencesScreen(licences, ways) },
        "crash" to { CrashScreen(REPORT, unsaved = true, ways) {} },
        "crash-none" to { CrashScreen(null, unsaved = false, ways) {} },
        "crash-offer" to {
            Box {
                AboutScreen(ways, crashed = true) {}
                CrashOffer(Modifier.align(Alignment.BottomCenter)) {}
            }
        },
    )
}
