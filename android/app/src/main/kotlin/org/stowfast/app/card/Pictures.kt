package org.stowfast.app.card

import android.content.ActivityNotFoundException
import android.content.ContentResolver
import android.graphics.Bitmap
import android.graphics.BitmapFactory
import android.graphics.Canvas
import android.graphics.Color
import android.graphics.Matrix
import android.graphics.Paint
import android.graphics.RectF
import android.media.ExifInterface
import android.net.Uri
import androidx.activity.compose.rememberLauncherForActivityResult
import androidx.activity.result.PickVisualMediaRequest
import androidx.activity.result.contract.ActivityResultContracts
import androidx.compose.runtime.Composable
import androidx.compose.runtime.rememberCoroutineScope
import androidx.compose.ui.graphics.asImageBitmap
import androidx.compose.ui.platform.LocalContext
import kotlinx.coroutines.Dispatchers
import kotlinx.coroutines.launch
import kotlinx.coroutines.withContext
import org.stowfast.engine.PhotoLimits
import java.io.ByteArrayOutputStream
import java.io.IOException
import kotlin.math.max

/** A photo of the record, to be drawn. */
fun drawn(image: ByteArray): Picture =
    BitmapFactory.decodeByteArray(image, 0, image.size)?.let { Picture.Drawn(it.asImageBitmap()) } ?: Picture.Broken

/**
 * Lets a person choose a photo by the phone's own picker, which shows the app nothing else; where there is none, by its
 * picker of files. [picked] is given it as small as [limits] say, null where the phone cannot read it.
 */
@Composable
fun photoPicker(limits: suspend () -> PhotoLimits?, picked: (ByteArray?) -> Unit): () -> Unit {
    val files = LocalContext.current.contentResolver
    val scope = rememberCoroutineScope()
    val picker = rememberLauncherForActivityResult(ActivityResultContracts.PickVisualMedia()) { uri ->
        if (uri != null) {
            scope.launch {
                val small = limits()?.let { withContext(Dispatchers.IO) { reduced(files, uri, it) } }
                picked(small)
            }
        }
    }
    return {
        try {
            picker.launch(PickVisualMediaRequest(ActivityResultContracts.PickVisualMedia.ImageOnly))
        } catch (_: ActivityNotFoundException) {
            picked(null)
        }
    }
}

/**
 * The picture of a file as a JPEG that keeps to [limits]: upright, on white, with nothing beside it, so that it says neither
 * where nor when it was taken. Null where there is no picture in it.
 */
fun reduced(files: ContentResolver, uri: Uri, limits: PhotoLimits): ByteArray? = try {
    val (edge, most) = limits
    val orientation = files.openInputStream(uri)?.use { ExifInterface(it).getAttributeInt(ExifInterface.TAG_ORIENTATION, 0) }
    decoded(files, uri, edge)?.let { fitting(it, upright(orientation), edge, most) }
} catch (_: IOException) {
    null
} catch (_: SecurityException) {
    null
} catch (_: OutOfMemoryError) {
    null
}

/** The picture, no more than twice as large as it is to be. */
private fun decoded(files: ContentResolver, uri: Uri, edge: Int): Bitmap? {
    fun read(options: BitmapFactory.Options) = files.openInputStream(uri)?.use { BitmapFactory.decodeStream(it, null, options) }
    val size = BitmapFactory.Options().apply { inJustDecodeBounds = true }
    read(size)
    if (size.outWidth <= 0 || size.outHeight <= 0) return null
    val longer = max(size.outWidth, size.outHeight)
    var sample = 1
    while (longer / (sample * 2) >= edge) sample *= 2
    return read(BitmapFactory.Options().apply { inSampleSize = sample })
}

/** Made smaller until it fits: first by its quality, then by its size. */
private fun fitting(picture: Bitmap, upright: Matrix, edge: Int, most: Int): ByteArray? {
    var longer = edge
    while (longer > 0) {
        val drawn = redrawn(picture, upright, longer)
        for (quality in QUALITIES) {
            val bytes = ByteArrayOutputStream().also { drawn.compress(Bitmap.CompressFormat.JPEG, quality, it) }.toByteArray()
            if (bytes.size <= most) return bytes
        }
        longer /= 2
    }
    return null
}

private val QUALITIES = listOf(90, 80, 70, 60, 50)

/** Turned and flipped as it says, its longer edge no longer than [longer]. */
private fun redrawn(picture: Bitmap, upright: Matrix, longer: Int): Bitmap {
    val scale = minOf(1f, longer.toFloat() / max(picture.width, picture.height))
    val matrix = Matrix(upright).apply { preScale(scale, scale) }
    val turned = RectF(0f, 0f, picture.width.toFloat(), picture.height.toFloat())
    matrix.mapRect(turned)
    matrix.postTranslate(-turned.left, -turned.top)
    val (width, height) = listOf(turned.width(), turned.height()).map { max(1, Math.round(it)) }
    return Bitmap.createBitmap(width, height, Bitmap.Config.ARGB_8888).also {
        it.eraseColor(Color.WHITE)
        Canvas(it).drawBitmap(picture, matrix, Paint(Paint.FILTER_BITMAP_FLAG or Paint.ANTI_ALIAS_FLAG))
    }
}

/** What makes a picture upright, by the orientation that its EXIF tells (CIPA DC-008, tag 0x0112). */
private fun upright(orientation: Int?): Matrix = Matrix().apply {
    when (orientation) {
        ExifInterface.ORIENTATION_FLIP_HORIZONTAL -> setScale(-1f, 1f)
        ExifInterface.ORIENTATION_ROTATE_180 -> setRotate(HALF)
        ExifInterface.ORIENTATION_FLIP_VERTICAL -> setScale(1f, -1f)
        ExifInterface.ORIENTATION_TRANSPOSE -> {
            setRotate(QUARTER)
            postScale(-1f, 1f)
        }
        ExifInterface.ORIENTATION_ROTATE_90 -> setRotate(QUARTER)
        ExifInterface.ORIENTATION_TRANSVERSE -> {
            setRotate(-QUARTER)
            postScale(-1f, 1f)
        }
        ExifInterface.ORIENTATION_ROTATE_270 -> setRotate(-QUARTER)
    }
}

private const val QUARTER = 90f
private const val HALF = 180f
