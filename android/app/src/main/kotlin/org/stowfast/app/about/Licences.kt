package org.stowfast.app.about

/** A part that the app is built from: what it is called, under which licences, and whose it is where they ask that to be said. */
data class Part(val name: String, val licences: List<String>, val copyright: String)

/** What `android/licences.sh` wrote: every part, and the text of every licence once. */
data class Licences(val parts: List<Part>, val texts: Map<String, String>)

/**
 * Reads that file. A line of tabs is a part; a line `== NAME` begins a text.
 */
fun licences(file: String): Licences {
    val sections = file.split(Regex("(?m)^== "))
    val parts = sections.first().lines().filter { it.isNotBlank() }.map { line ->
        val (name, licences, copyright) = line.split("\t")
        Part(name, licences.split(", ").filter { it.isNotBlank() }, copyright)
    }
    return Licences(parts, sections.drop(1).associate { it.substringBefore("\n") to it.substringAfter("\n").trim('\n') })
}
