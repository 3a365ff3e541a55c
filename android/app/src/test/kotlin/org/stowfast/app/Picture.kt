package org.stowfast.app

import android.graphics.Bitmap
import android.graphics.Canvas
import android.view.View
import java.io.File

private val folder = File(System.getProperty("stowfast.screenshots") ?: "target/screenshots").apply { mkdirs() }

/** Draws what [view] shows now to target/screenshots. */
fun picture(name: String, view: View) {
    val bitmap = Bitmap.createBitmap(view.width, view.height, Bitmap.Config.ARGB_8888)
    view.draw(Canvas(bitmap))
    File(folder, "$name.png").outputStream().use { bitmap.compress(Bitmap.CompressFormat.PNG, 100, it) }
}
