package org.stowfast.app

import kotlinx.coroutines.runBlocking
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config
import org.stowfast.engine.Line
import org.stowfast.engine.OddCannot
import org.stowfast.engine.OddSeen
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine
import java.lang.reflect.Method
import kotlin.coroutines.intrinsics.suspendCoroutineUninterceptedOrReturn

/** Half of an emoji in any text that crosses to the engine is said to be that, and nothing is written. */
@RunWith(RobolectricTestRunner::class)
@Config(sdk = [34], application = android.app.Application::class)
class HalfLetterTest {
    @Test
    fun halfALetterInAnyTextIsAProblemWithAName() = Bench().engine().use { engine ->
        engine.get { addDemo("a") }
        val before = engine.get { exportText() }
        val calls = VehicleEngine::class.java.methods.sortedBy { it.name }.flatMap(::broken)
        assertTrue("$calls", calls.size > 30)
        for ((method, arguments) in calls) {
            val outcome = runBlocking { engine.call(method, arguments) }
            if (method.name == "find") {
                assertTrue("$outcome", outcome is Outcome.Done<*>)
            } else {
                assertEquals("${method.name} ${arguments.size}", Outcome.Failed(Problem.HalfLetter), outcome)
            }
        }
        assertEquals(before, engine.get { exportText() })
    }

    /** The call once for each text that it takes, with that one broken. */
    private fun broken(method: Method): List<Pair<Method, List<Any>>> {
        val types = method.parameterTypes.dropLast(1)
        return types.indices.flatMap { at ->
            val texts: List<Any> = when {
                types[at] == String::class.java -> listOf(HALF, "pump $HALF", "$OTHER_HALF!")
                method.name == "confirm" -> listOf(listOf(Line(HALF, null)), listOf(Line("pump.look", OddSeen(HALF))), listOf(Line("pump.look", OddCannot(HALF))))
                else -> emptyList()
            }
            texts.map { text -> method to types.mapIndexed { other, type -> if (other == at) text else any(type) } }
        }
    }

    private fun any(type: Class<*>): Any = when {
        type == String::class.java -> "words"
        type == Long::class.java -> 1L
        type == Double::class.java || type == java.lang.Double::class.java -> 1.0
        type == ByteArray::class.java -> ByteArray(1)
        type == List::class.java -> emptyList<Any>()
        type.isEnum -> type.enumConstants.first()
        else -> throw AssertionError("no argument of $type")
    }

    private suspend fun VehicleEngine.call(method: Method, arguments: List<Any>): Any? =
        suspendCoroutineUninterceptedOrReturn { method.invoke(this, *arguments.toTypedArray(), it) }

    private companion object {
        /** What is left of an emoji whose other half was cut off. */
        const val HALF = "\uD83D"
        const val OTHER_HALF = "\uDE90"
    }
}
