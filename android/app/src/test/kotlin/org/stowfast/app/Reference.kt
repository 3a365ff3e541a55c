package org.stowfast.app

import android.graphics.Bitmap
import android.graphics.BitmapFactory
import android.graphics.Canvas
import android.graphics.Color
import java.awt.image.BufferedImage
import java.awt.image.DataBuffer
import java.awt.image.IndexColorModel
import java.io.File
import javax.imageio.IIOImage
import javax.imageio.ImageIO
import javax.imageio.ImageWriteParam
import kotlin.math.abs

/** The pictures that the app is held to, a sheet of them in each file of src/test/screenshots. */
val references = File("src/test/screenshots")

/** With `-Dstowfast.record=true` what is drawn becomes the reference. */
private val recording = System.getProperty("stowfast.record") == "true"

/** How much of a picture may differ. */
private const val DIFFERENT_SHARE = 0.001

private const val COLUMNS = 6
private const val GAP_PX = 8

/** How many colours a reference has at most. */
private const val COLOURS = 255

/** A place on a sheet. */
private class Tile(val x: Int, val y: Int)

/** Holds [pictures], by name, to the sheet [name], or with [record] records it anew. Says what differs. */
fun holdToReference(name: String, pictures: Map<String, Bitmap>, folder: File = references, record: Boolean = recording): List<String> {
    val file = File(folder, "$name.png")
    val sheet = sheet(pictures.values.toList())
    if (record) Colours.of(sheet).write(sheet, file)
    val known = if (file.exists()) BitmapFactory.decodeFile(file.path) else null
    if (known == null || known.width != sheet.width || known.height != sheet.height) {
        return listOf("$name.png does not have these ${pictures.size} pictures: record it anew, see DEVELOPERS.md")
    }
    val colours = Colours(pixels(known).distinct())
    return pictures.entries.zip(tiles(pictures.values.toList())).mapNotNull { (entry, tile) ->
        val (state, now) = entry
        val before = Bitmap.createBitmap(known, tile.x, tile.y, now.width, now.height)
        val share = difference(state, before, now, colours)
        "$state differs from its reference in %.2f %% of its pixels: see target/screenshots/difference".format(share * 100).takeIf { share > DIFFERENT_SHARE }
    }
}

/** The share of pixels that differ. Where that is too much, draws both side by side, and what differs in red. */
private fun difference(name: String, before: Bitmap, now: Bitmap, colours: Colours): Double {
    val (old, new) = pixels(before) to pixels(now)
    val differs = BooleanArray(new.size) { old[it] != colours.nearest(new[it]) }
    val share = differs.count { it } / differs.size.toDouble()
    if (share > DIFFERENT_SHARE) {
        val marked = IntArray(new.size) { if (differs[it]) Color.RED else Color.WHITE }
        val red = Bitmap.createBitmap(marked, now.width, now.height, Bitmap.Config.ARGB_8888)
        write(sheet(listOf(before, now, red)), File(drawn, "difference/$name.png"))
    }
    return share
}

private fun pixels(bitmap: Bitmap) = IntArray(bitmap.width * bitmap.height).also { bitmap.getPixels(it, 0, bitmap.width, 0, 0, bitmap.width, bitmap.height) }

/** The greatest difference of a channel. */
private fun distance(one: Int, other: Int): Int = listOf(0, 8, 16).maxOf { abs((one shr it and 0xFF) - (other shr it and 0xFF)) }

/** The few colours of a reference, in an order of their own, so that of two that are as near always the same is taken. */
private class Colours(colours: List<Int>) {
    private val all = colours.sorted()
    private val known = all.associateWith { it }.toMutableMap()

    /** The colour itself where nothing had to be left out: a new one is then a difference. */
    fun nearest(colour: Int): Int = known.getOrPut(colour) { if (all.size < COLOURS) colour else all.minBy { distance(it, colour) } }

    fun write(bitmap: Bitmap, file: File) {
        val index = all.withIndex().associate { (index, colour) -> colour to index }
        val few = IndexColorModel(8, all.size, all.toIntArray(), 0, false, -1, DataBuffer.TYPE_BYTE)
        val image = BufferedImage(bitmap.width, bitmap.height, BufferedImage.TYPE_BYTE_INDEXED, few)
        image.raster.setPixels(0, 0, bitmap.width, bitmap.height, pixels(bitmap).map { index.getValue(nearest(it)) }.toIntArray())
        file.parentFile?.mkdirs()
        val writer = ImageIO.getImageWritersByFormatName("png").next()
        // No quality is lost: it is how long to look for a shorter file.
        val short = writer.defaultWriteParam.apply { compressionMode = ImageWriteParam.MODE_EXPLICIT }.apply { compressionQuality = 0f }
        file.outputStream().use { bytes ->
            ImageIO.createImageOutputStream(bytes).use { out ->
                writer.output = out
                writer.write(null, IIOImage(image, null, null), short)
            }
        }
        writer.dispose()
    }

    companion object {
        /** The most frequent ones of [bitmap]; where two are as frequent, the darker one first. */
        fun of(bitmap: Bitmap): Colours {
            val count = pixels(bitmap).toList().groupingBy { it }.eachCount()
            return Colours(count.entries.sortedWith(compareBy({ -it.value }, { it.key })).take(COLOURS).map { it.key })
        }
    }
}

/** All [pictures] on one sheet, row by row. */
fun sheet(pictures: List<Bitmap>, columns: Int = COLUMNS): Bitmap {
    val tiles = tiles(pictures, columns)
    val width = tiles.zip(pictures).maxOf { (tile, picture) -> tile.x + picture.width }
    val height = tiles.zip(pictures).maxOf { (tile, picture) -> tile.y + picture.height }
    val sheet = Bitmap.createBitmap(width, height, Bitmap.Config.ARGB_8888).apply { eraseColor(Color.GRAY) }
    val canvas = Canvas(sheet)
    tiles.zip(pictures).forEach { (tile, picture) -> canvas.drawBitmap(picture, tile.x.toFloat(), tile.y.toFloat(), null) }
    return sheet
}

private fun tiles(pictures: List<Bitmap>, columns: Int = COLUMNS): List<Tile> {
    var y = 0
    return pictures.chunked(columns).flatMap { row ->
        var x = 0
        row.map { Tile(x, y).also { _ -> x += it.width + GAP_PX } }.also { y += row.maxOf { it.height } + GAP_PX }
    }
}

/** One sheet of everything that the last run drew in light, small: to look over. */
fun contactSheet() {
    val small = drawn.listFiles { file -> file.name.endsWith("-${Look.LIGHT.suffix}.png") }.orEmpty().sortedBy { it.name }.map { file ->
        val picture = BitmapFactory.decodeFile(file.path)
        Bitmap.createScaledBitmap(picture, picture.width / 2, picture.height / 2, true)
    }
    write(sheet(small, columns = 14), File(drawn, "contact.png"))
}
