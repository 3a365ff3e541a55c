package org.stowfast.app

import android.graphics.Bitmap
import android.graphics.Color
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config
import java.io.File
import java.nio.file.Files

/** The references themselves: they let through what they hold, and find what is not as it was. */
@RunWith(RobolectricTestRunner::class)
@Config(sdk = [34])
class ReferenceTest {
    private val folder = Files.createTempDirectory("references").toFile()

    @Test
    fun whatIsAsItWasPassesAlsoWithManyColours() {
        record("one" to shades(), "two" to plain(0))
        assertEquals(emptyList<String>(), hold("one" to shades(), "two" to plain(0)))
    }

    @Test
    fun onePixelInAThousandMayDiffer() {
        record("one" to plain(0))
        assertEquals(emptyList<String>(), hold("one" to plain(10)))
        assertTrue(hold("one" to plain(11)).single().startsWith("one differs"))
        assertTrue(File(drawn, "difference/one.png").delete())
    }

    @Test
    fun anotherStateAsksForARecordingAnew() {
        record("one" to plain(0))
        assertTrue("record it anew" in hold("one" to plain(0), "two" to plain(0)).single())
    }

    private fun record(vararg pictures: Pair<String, Bitmap>) = holdToReference("sheet", pictures.toMap(), folder, record = true)

    private fun hold(vararg pictures: Pair<String, Bitmap>) = holdToReference("sheet", pictures.toMap(), folder, record = false)

    /** A hundred by a hundred pixels of white, [black] of them black. */
    private fun plain(black: Int): Bitmap = bitmap { if (it < black) Color.BLACK else Color.WHITE }

    /** More colours than a reference has. */
    private fun shades(): Bitmap = bitmap { Color.rgb(it % 100, it / 100, 200) }

    private fun bitmap(colour: (Int) -> Int): Bitmap = Bitmap.createBitmap(IntArray(100 * 100, colour), 100, 100, Bitmap.Config.ARGB_8888)
}
