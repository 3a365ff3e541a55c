package org.stowfast.app

import androidx.compose.ui.semantics.Role
import androidx.compose.ui.semantics.SemanticsNode
import androidx.compose.ui.semantics.SemanticsProperties
import androidx.compose.ui.semantics.getOrNull
import org.robolectric.RuntimeEnvironment

/** One text, and whether it stands on something that is there to be tapped, or above or below the page. */
data class Piece(val text: String, val control: Boolean)

/** All texts of a page, in reading order. */
fun pieces(root: SemanticsNode): List<Piece> {
    val pieces = mutableListOf<Piece>()
    fun read(node: SemanticsNode, inside: Boolean) {
        val tag = node.tag
        val control = tag != "page" && inside || tag == "problem" || CONTROL.matches(tag) ||
            node.config.getOrNull(SemanticsProperties.Role) == Role.Button && !tag.startsWith("line-") ||
            SemanticsProperties.EditableText in node.config
        node.config.getOrNull(SemanticsProperties.Text)?.forEach { pieces += Piece(it.text, control) }
        node.children.forEach { read(it, control) }
    }
    read(root, inside = true)
    return pieces
}

/** What stands on a page, is not of the frame, and cannot be shared from there; what failed has its own words. */
fun unshared(root: SemanticsNode): List<String> {
    val nodes = mutableListOf<SemanticsNode>()
    fun read(node: SemanticsNode, inside: Boolean) {
        // What can be set is the same for every vehicle.
        if (node.tag == "problem" || node.tag?.startsWith("remind-") == true) return
        val on = inside || node.tag == "page"
        if (on) nodes += node
        node.children.forEach { read(it, on) }
    }
    read(root, inside = false)
    val texts = nodes.flatMap { it.config.getOrNull(SemanticsProperties.Text).orEmpty() }.map { it.text }
    val ways = setOf(R.string.share_as_text, R.string.crash_share).map(RuntimeEnvironment.getApplication()::getString)
    return if (texts.any(ways::contains)) emptyList() else texts.filterNot { it in frame || it.isBlank() }
}

/** The frame's words that hold nothing of a vehicle: what is not content may be left out. */
val frame: Set<String> by lazy {
    val resources = RuntimeEnvironment.getApplication().resources
    R.string::class.java.fields.map { resources.getString(it.getInt(null)) }.filterNot { "%1$" in it }.toSet() + "–"
}

private val SemanticsNode.tag: String get() = config.getOrNull(SemanticsProperties.TestTag).orEmpty()

/** What is not content: what is there to be tapped, and the numbers below a chart, which its sentence has. */
private val CONTROL = Regex("axis|(say|report|cleared|find|more|reading|type)-?.*|written|undo-bar")
