package org.stowfast.app

import android.graphics.Bitmap
import android.graphics.Canvas
import android.graphics.Color
import android.graphics.Paint
import java.io.ByteArrayOutputStream

/** Pictures that a test draws: a locker door on a wall, its upper left corner red, so that one sees which way up it is. Nothing real is on them. */
object Photographs {
    fun drawn(width: Int, height: Int): Bitmap = Bitmap.createBitmap(width, height, Bitmap.Config.ARGB_8888).also { bitmap ->
        val (w, h) = width.toFloat() to height.toFloat()
        val canvas = Canvas(bitmap)
        fun fill(colour: Int, left: Float, top: Float, right: Float, bottom: Float) =
            canvas.drawRect(left * w, top * h, right * w, bottom * h, Paint().apply { color = colour })
        fill(Color.rgb(0xc8, 0xd2, 0xd8), 0f, 0f, 1f, 1f)
        fill(Color.rgb(0x8a, 0x97, 0xa0), 0.3f, 0.35f, 0.75f, 0.9f)
        fill(Color.rgb(0xe0, 0xa0, 0x30), 0.66f, 0.55f, 0.71f, 0.7f)
        fill(Color.RED, 0f, 0f, 0.2f, 0.2f)
    }

    fun file(bitmap: Bitmap, format: Bitmap.CompressFormat = Bitmap.CompressFormat.JPEG, quality: Int = 90): ByteArray =
        ByteArrayOutputStream().also { bitmap.compress(format, quality, it) }.toByteArray()

    val door: ByteArray by lazy { file(drawn(640, 480)) }

    /** Its frame is whole, and nothing in it can be drawn. */
    val broken: ByteArray
        get() = "RIFF".toByteArray() + little(4 + 8 + 8) + "WEBPVP8 ".toByteArray() + little(8) + ByteArray(8) { 0x55 }

    /** The file with EXIF that says how to turn it, and where it was taken: a place that is made up. */
    fun withExif(jpeg: ByteArray, orientation: Int): ByteArray {
        val place = "SECRET PLACE".toByteArray()
        val tiff = byteArrayOf('M'.code.toByte(), 'M'.code.toByte(), 0, 42, 0, 0, 0, 8, 0, 1) +
            byteArrayOf(1, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation.toByte(), 0, 0) + byteArrayOf(0, 0, 0, 0) + place
        val body = "Exif".toByteArray() + byteArrayOf(0, 0) + tiff
        val length = body.size + 2
        return jpeg.copyOf(2) + byteArrayOf(0xff.toByte(), 0xe1.toByte(), (length shr 8).toByte(), length.toByte()) + body + jpeg.drop(2)
    }

    /** What no compression makes small. */
    fun noise(edge: Int): Bitmap = Bitmap.createBitmap(edge, edge, Bitmap.Config.ARGB_8888).also { bitmap ->
        var seed = 12_345
        val pixels = IntArray(edge * edge) {
            seed = seed * 1_103_515_245 + 12_345
            Color.rgb(seed ushr 24, seed shr 16 and 0xff, seed shr 8 and 0xff)
        }
        bitmap.setPixels(pixels, 0, edge, 0, 0, edge, edge)
    }

    private fun little(number: Int) = byteArrayOf(number.toByte(), 0, 0, 0)
}
