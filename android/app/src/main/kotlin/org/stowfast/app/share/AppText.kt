package org.stowfast.app.share

import org.stowfast.app.R
import org.stowfast.app.about.Licences

fun Told.about(version: String) {
    say(R.string.about_version, version)
    say(R.string.about_advises)
    say(R.string.about_private)
}

/** Which part is under which licence. Their texts are read on the page, or where the parts come from. */
fun Told.licences(all: Licences) {
    say(R.string.licences_intro)
    for (licence in all.texts.keys) {
        part()
        say(licence)
        for (one in all.parts.filter { licence in it.licences }) {
            say(one.name)
            say(one.copyright)
        }
    }
}
