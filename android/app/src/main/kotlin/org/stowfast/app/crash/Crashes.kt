package org.stowfast.app.crash

import android.content.Context
import android.os.Build
import org.stowfast.app.frame.Place
import java.io.File
import java.io.IOException

/**
 * The report of the last time that the app stopped by itself, as plain text in a file that no other app can read. It
 * names classes and places in the program. What an exception says in words is left out: it may quote the vehicle's file.
 */
class Crashes(private val context: Context, private val shown: () -> Place) {
    private val file = File(context.filesDir, "crash/report.txt")
    private val mark = File(context.filesDir, "crash/unseen")

    val report: String? get() = if (file.isFile) file.readText() else null

    /** True until somebody was offered to see the report. */
    val unseen: Boolean get() = mark.isFile && file.isFile

    /** From now on an exception that nobody catches is written down, [stopping] is called, and the phone ends the app as ever. */
    fun watch(stopping: () -> Unit) {
        val found = Thread.getDefaultUncaughtExceptionHandler()
        val platform = if (found is Watch) found.platform else found
        Thread.setDefaultUncaughtExceptionHandler(Watch(platform) { thread, fault ->
            write(thread, fault)
            stopping()
        })
    }

    private class Watch(val platform: Thread.UncaughtExceptionHandler?, private val first: (Thread, Throwable) -> Unit) : Thread.UncaughtExceptionHandler {
        override fun uncaughtException(thread: Thread, fault: Throwable) = try {
            first(thread, fault)
        } finally {
            platform?.uncaughtException(thread, fault)
        }
    }

    fun seen() {
        mark.delete()
    }

    fun delete() {
        file.delete()
        seen()
    }

    private fun write(thread: Thread, fault: Throwable) = try {
        file.parentFile?.mkdirs()
        file.writeText(lines(thread, fault).joinToString("\n", postfix = "\n"))
        mark.createNewFile()
    } catch (_: IOException) {
        // A full phone: there is no report then.
        false
    }

    private fun lines(thread: Thread, fault: Throwable): List<String> =
        listOf(
            "stowfast: ${version(context)}",
            "android: ${Build.VERSION.RELEASE}, ${Build.VERSION.SDK_INT}, ${Build.SUPPORTED_ABIS.firstOrNull()}",
            "thread: ${thread.name}",
            "page: ${shown()}",
            "",
        ) + traces(fault)

    /** Each cause in turn. A ring of causes ends at [CAUSES_MAX]. */
    private fun traces(fault: Throwable): List<String> =
        generateSequence(fault) { it.cause }.take(CAUSES_MAX).flatMap { cause ->
            listOf(cause.javaClass.name) + cause.stackTrace.take(FRAMES_MAX).map { "    at $it" }
        }.toList()

    companion object {
        private const val CAUSES_MAX = 8
        private const val FRAMES_MAX = 200

        /** The version of the app, as its manifest has it. */
        fun version(context: Context): String =
            context.packageManager.getPackageInfo(context.packageName, 0).versionName.orEmpty()
    }
}
