package org.stowfast.app

import android.content.Context
import android.graphics.Bitmap
import android.graphics.Canvas
import android.graphics.Color
import android.graphics.Rect
import androidx.annotation.DrawableRes
import androidx.test.core.app.ApplicationProvider
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config
import org.stowfast.app.questions.drawn
import org.stowfast.app.red.drawn
import org.stowfast.app.red.heading
import org.stowfast.app.routine.icon
import org.stowfast.engine.Seen
import org.stowfast.engine.StepKind
import org.stowfast.engine.Symbol

/** The signs themselves: each subject has one, no two are alike, and they are as large as each other. */
@RunWith(RobolectricTestRunner::class)
@Config(sdk = [34], qualifiers = "mdpi")
class SignTest {
    private val context = ApplicationProvider.getApplicationContext<Context>()

    @Test
    fun eachSubjectHasASignOfItsOwn() = differ(Symbol.entries.associate { it.name to it.drawn() })

    @Test
    fun eachQuestionOfNumbersHasASignOfItsOwn() {
        val questions = Scene("c").get { reckonings() }
        differ(questions.associate { it.id to it.drawn() } + ("a gauge" to R.drawable.ic_gauge))
    }

    @Test
    fun eachPlaceHasItsHeading() = assertEquals(Seen.entries.size, Seen.entries.map { context.getString(it.heading()) }.toSet().size)

    @Test
    fun noSignIsSmallBesideAnother() {
        val signs = Symbol.entries.associate { it.name to it.drawn() } + StepKind.entries.associate { it.name to it.icon() }
        for ((name, sign) in signs) {
            val box = box(ink(sign))
            val size = maxOf(box.width(), box.height())
            assertTrue("$name is $size of $SIZE_PX", size >= SIZE_PX * 0.7)
        }
    }

    private fun differ(signs: Map<String, Int>) {
        val drawn = signs.mapValues { ink(it.value).toList() }
        for ((name, ink) in drawn) assertTrue("$name is hardly drawn", ink.count { it } > SIZE_PX)
        assertEquals("two are alike", signs.size, drawn.values.toSet().size)
    }

    /** Where [sign] is drawn, dot by dot. */
    private fun ink(@DrawableRes sign: Int): BooleanArray {
        val bitmap = Bitmap.createBitmap(SIZE_PX, SIZE_PX, Bitmap.Config.ARGB_8888)
        val drawable = context.getDrawable(sign) ?: throw AssertionError("no such sign")
        drawable.setBounds(0, 0, SIZE_PX, SIZE_PX)
        drawable.draw(Canvas(bitmap))
        return BooleanArray(SIZE_PX * SIZE_PX) { Color.alpha(bitmap.getPixel(it % SIZE_PX, it / SIZE_PX)) > 127 }
    }

    private fun box(ink: BooleanArray): Rect = ink.indices.filter { ink[it] }.fold(Rect()) { box, at ->
        box.apply { union(Rect(at % SIZE_PX, at / SIZE_PX, at % SIZE_PX + 1, at / SIZE_PX + 1)) }
    }

    private companion object {
        const val SIZE_PX = 48
    }
}
