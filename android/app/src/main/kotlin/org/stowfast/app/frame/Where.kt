package org.stowfast.app.frame

import android.content.Context

/** Where somebody is in the app, kept on the phone: a start after the process died goes on there. */
class Where(context: Context) {
    private val kept = context.getSharedPreferences("where", Context.MODE_PRIVATE)

    /** The page on show now; it stands in a crash report. */
    @Volatile
    var last: Place = Place.NOW
        private set

    /** Which search is on show, or was last. */
    var fault: String
        get() = kept.getString(FAULT, "").orEmpty()
        set(id) = kept.edit().putString(FAULT, id).apply()

    /** Which question of numbers is on show, or was last. */
    var question: String
        get() = kept.getString(QUESTION, "").orEmpty()
        set(id) = kept.edit().putString(QUESTION, id).apply()

    /** *Now*, and what lay on top of it. What a newer app no longer has is passed over. */
    fun read(): List<Place> {
        val names = kept.getString(STACK, "").orEmpty().split(",")
        return listOf(Place.NOW) + names.mapNotNull { name -> KEPT.find { it.name == name } }
    }

    fun keep(stack: List<Place>) {
        last = stack.last()
        kept.edit().putString(STACK, stack.filter(KEPT::contains).joinToString(",") { it.name }).apply()
    }

    /** The next start begins at home. Written at once: the process may be about to end. */
    fun forget() {
        kept.edit().clear().commit()
    }

    private companion object {
        const val STACK = "stack"
        const val FAULT = "fault"
        const val QUESTION = "question"

        /** Places that show the same whichever way one came; a search with the one that is kept. */
        val KEPT = listOf(
            Place.VEHICLE, Place.TARGET, Place.ROUTINE, Place.WHERE, Place.ARRIVE, Place.THINGS, Place.FRIDGE,
            Place.READING, Place.RECORD, Place.RED, Place.LIFE, Place.CARDS, Place.RESERVES, Place.SETTINGS,
            Place.DRIVE_CARD, Place.ABOUT, Place.LICENCES, Place.STEPS,
            Place.FAULTS, Place.FAULT, Place.FIGURES, Place.STAY, Place.QUESTIONS, Place.RECKON, Place.LEVEL,
        )
    }
}
