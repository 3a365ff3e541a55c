package org.stowfast.app

import android.app.Activity
import android.graphics.Bitmap
import android.graphics.Canvas
import android.view.View
import org.robolectric.shadows.ShadowDialog
import java.io.File

/** Where pictures are drawn to. */
val drawn = File(System.getProperty("stowfast.screenshots") ?: "target/screenshots").apply { mkdirs() }

/** The activity's own window, and the sheets over it. */
fun windows(activity: Activity): List<View> =
    listOf(activity.window.decorView) + ShadowDialog.getShownDialogs().filter { it.isShowing }.mapNotNull { it.window?.decorView }

/** Draws what [activity] shows now to target/screenshots. */
fun picture(name: String, activity: Activity): Bitmap {
    val views = windows(activity)
    val bitmap = Bitmap.createBitmap(views.first().width, views.first().height, Bitmap.Config.ARGB_8888)
    views.forEach { it.draw(Canvas(bitmap)) }
    write(bitmap, File(drawn, "$name.png"))
    return bitmap
}

fun write(bitmap: Bitmap, file: File) {
    file.parentFile?.mkdirs()
    file.outputStream().use { bitmap.compress(Bitmap.CompressFormat.PNG, 100, it) }
}
