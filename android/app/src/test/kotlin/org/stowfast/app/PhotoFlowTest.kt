package org.stowfast.app

import android.app.Activity
import android.content.Intent
import android.graphics.Bitmap
import android.graphics.BitmapFactory
import android.graphics.Color
import android.net.Uri
import androidx.compose.ui.test.SemanticsMatcher
import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.hasStateDescription
import androidx.compose.ui.test.hasTestTag
import androidx.compose.ui.test.onNodeWithContentDescription
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import org.junit.Assert.assertArrayEquals
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNull
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.Shadows.shadowOf
import org.stowfast.app.card.reduced
import org.stowfast.engine.PhotoLimits
import java.io.ByteArrayInputStream

/** A photo on a card: chosen, enlarged, replaced and removed, and what of a file is kept. */
@RunWith(RobolectricTestRunner::class)
class PhotoFlowTest : OnScreen() {
    @Test
    fun aPhotoIsChosenEnlargedReplacedAndOnceAskedRemoved() {
        open()
        screen.onNodeWithText("None yet.", substring = true).assertExists()
        choose(Photographs.door)
        comes(hasTestTag("photo-enlarge"))
        assertEquals("Added by you", engine.get { card(FITTING) }.photo?.byText)
        screen.onNodeWithContentDescription("Photo of left gas cylinder, where it is").assertExists()
        draw("real-card-photo")

        tap("photo-enlarge")
        screen.onNodeWithTag("photo-large").assertIsDisplayed()
        val smallest = hasTestTag("photo-large") and hasStateDescription("100 per cent")
        screen.onNode(smallest).assertExists()
        screen.onNodeWithTag("photo-larger").performClick()
        screen.onNode(hasTestTag("photo-large") and hasStateDescription("150 per cent")).assertExists()
        draw("real-photo")
        repeat(2) { screen.onNodeWithTag("photo-smaller").performClick() }
        screen.onNode(smallest).assertExists()
        back()

        val before = engine.get { photo(FITTING) }
        choose(Photographs.file(Photographs.drawn(480, 640), Bitmap.CompressFormat.PNG))
        screen.waitUntil(WAIT_MS) {
            screen.waitForIdle()
            !engine.get { photo(FITTING) }.contentEquals(before)
        }

        tap("photo-remove")
        assertTrue("it is gone before it was asked", engine.get { photo(FITTING) } != null)
        tap("photo-keep")
        tap("photo-remove")
        tap("photo-remove-sure")
        assertNull(engine.get { photo(FITTING) })
        screen.onNodeWithTag("photo-enlarge").assertDoesNotExist()
        assertTrue("a photo is no entry of the record", engine.get { log(1_000) }.none { "hoto" in it.text })
    }

    @Test
    fun whatIsNoPictureIsSaidAndChangesNothing() {
        open()
        choose("words, not a picture".toByteArray())
        comes(hasTestTag("photo-unreadable"))
        assertNull(engine.get { photo(FITTING) })
        draw("real-card-photo-unreadable")
        choose(Photographs.door)
        comes(hasTestTag("photo-enlarge"))
        screen.onNodeWithTag("photo-unreadable").assertDoesNotExist()
    }

    @Test
    fun aPhotoThatCannotBeShownIsSaidToBeSoAndTheCardWorks() {
        engine.get { addDemo("a") }
        engine.get { setPhoto(FITTING, Photographs.broken) }
        kill()
        tap("cards")
        tap("card-$FITTING")
        comes(hasTestTag("photo-broken"))
        page("photo-broken", tag = true)
        screen.onNodeWithTag("photo-enlarge").assertDoesNotExist()
        page("section-use", tag = true)
        choose(Photographs.door)
        comes(hasTestTag("photo-enlarge"))
    }

    @Test
    fun anotherAnswerOfThePickerChangesNothing() {
        open()
        tap("photo-choose")
        activity.onActivity {
            val asked = shadowOf(it).nextStartedActivityForResult
            shadowOf(it).receiveResult(asked.intent, Activity.RESULT_CANCELED, null)
        }
        walk()
        screen.onNodeWithTag("photo-unreadable").assertDoesNotExist()
        assertNull(engine.get { photo(FITTING) })
    }

    /** The picker of the phone asks for no permission: the app has none but those of its alarms (see ManifestTest). */
    @Test
    fun thePickerOfThePhoneIsAskedForPictures() {
        open()
        tap("photo-choose")
        activity.onActivity {
            val asked = shadowOf(it).nextStartedActivityForResult.intent
            assertTrue("${asked.action}", asked.action in listOf("android.provider.action.PICK_IMAGES", Intent.ACTION_OPEN_DOCUMENT))
            assertEquals("image/*", asked.type)
        }
    }

    @Test
    fun aLargePictureIsMadeSmallUprightAndSaysNothingOfItsPlace() {
        val lying = Photographs.withExif(Photographs.file(Photographs.drawn(3_000, 2_000)), orientation = 6)
        assertTrue("the test gives a place", "SECRET" in lying.toString(Charsets.ISO_8859_1))
        val kept = reduced(lying)
        assertTrue("${kept.size} bytes", kept.size <= LIMITS.bytes)
        for (word in listOf("SECRET", "Exif")) assertFalse(word, word in kept.toString(Charsets.ISO_8859_1))
        val shown = BitmapFactory.decodeByteArray(kept, 0, kept.size)
        assertEquals("turned by a quarter", 853 to 1_280, shown.width to shown.height)
        assertTrue("what was up on the left is up on the right", isRed(shown, 0.95f, 0.05f))
        assertFalse(isRed(shown, 0.05f, 0.05f))
        engine.get { addDemo("a") }
        engine.get { setPhoto(FITTING, kept) }
        assertArrayEquals("the engine leaves nothing out of it", kept, engine.get { photo(FITTING) })
    }

    @Test
    fun everyWayUpIsPutUpright() {
        // Where each orientation of EXIF has the corner that belongs up on the left.
        val corners = mapOf(1 to (0f to 0f), 2 to (1f to 0f), 3 to (1f to 1f), 4 to (0f to 1f), 5 to (0f to 0f), 6 to (1f to 0f), 7 to (1f to 1f), 8 to (0f to 1f))
        for ((orientation, corner) in corners) {
            val kept = reduced(Photographs.withExif(Photographs.file(Photographs.drawn(200, 100)), orientation))
            val shown = BitmapFactory.decodeByteArray(kept, 0, kept.size)
            assertEquals("$orientation", if (orientation < 5) 200 to 100 else 100 to 200, shown.width to shown.height)
            val (x, y) = corner
            assertTrue("$orientation", isRed(shown, 0.05f + 0.9f * x, 0.05f + 0.9f * y))
        }
    }

    @Test
    fun noiseAndWhatShinesThroughFitToo() {
        val noise = reduced(Photographs.file(Photographs.noise(1_400), quality = 100))
        assertTrue("${noise.size} bytes", noise.size <= LIMITS.bytes)
        val clear = Bitmap.createBitmap(40, 30, Bitmap.Config.ARGB_8888)
        val kept = reduced(Photographs.file(clear, Bitmap.CompressFormat.PNG))
        val shown = BitmapFactory.decodeByteArray(kept, 0, kept.size)
        assertEquals("a small one is not made larger", 40 to 30, shown.width to shown.height)
        assertEquals("on white", Color.WHITE, shown.getPixel(20, 15))
    }

    @Test
    fun pictureFormatsOfOtherProgramsCrossAndCanBeDrawn() {
        engine.get { addDemo("a") }
        for (format in listOf(Bitmap.CompressFormat.JPEG, Bitmap.CompressFormat.PNG, Bitmap.CompressFormat.WEBP_LOSSY, Bitmap.CompressFormat.WEBP_LOSSLESS)) {
            engine.get { setPhoto(FITTING, Photographs.file(Photographs.drawn(64, 48), format)) }
            val kept = engine.get { photo(FITTING) } ?: throw AssertionError("$format is gone")
            val shown = BitmapFactory.decodeByteArray(kept, 0, kept.size)
            assertEquals("$format", 64 to 48, shown.width to shown.height)
            assertTrue("$format", isRed(shown, 0.05f, 0.05f))
        }
        assertEquals(LIMITS, engine.get { photoLimits() })
    }

    private fun isRed(bitmap: Bitmap, x: Float, y: Float): Boolean {
        val pixel = bitmap.getPixel((x * bitmap.width).toInt(), (y * bitmap.height).toInt())
        return Color.red(pixel) > 200 && Color.green(pixel) < 80
    }

    private fun reduced(file: ByteArray): ByteArray {
        var kept: ByteArray? = null
        activity.onActivity {
            val uri = Uri.parse("content://pictures/one")
            shadowOf(it.contentResolver).registerInputStreamSupplier(uri) { ByteArrayInputStream(file) }
            kept = reduced(it.contentResolver, uri, LIMITS)
        }
        return kept ?: throw AssertionError("it could not be read")
    }

    private fun open() {
        chooseDemo()
        tap("cards")
        tap("card-$FITTING")
    }

    /** Answers as the phone's picker would. */
    private fun choose(file: ByteArray) {
        tap("photo-choose")
        activity.onActivity {
            val uri = Uri.parse("content://pictures/${file.size}")
            shadowOf(it.contentResolver).registerInputStreamSupplier(uri) { ByteArrayInputStream(file) }
            val asked = shadowOf(it).nextStartedActivityForResult
            shadowOf(it).receiveResult(asked.intent, Activity.RESULT_OK, Intent().setData(uri))
        }
        screen.waitForIdle()
    }

    /** Files are read beside the screen: waits for what comes of it. */
    private fun comes(what: SemanticsMatcher) {
        screen.waitUntil(WAIT_MS) { screen.onAllNodes(what).fetchSemanticsNodes().isNotEmpty() }
        walk()
    }

    private companion object {
        const val FITTING = "gas_left"
        const val WAIT_MS = 20_000L
        val LIMITS = PhotoLimits(edgePx = 1_280, bytes = 400_000)
    }
}
