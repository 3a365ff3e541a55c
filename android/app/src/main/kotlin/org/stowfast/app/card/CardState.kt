package org.stowfast.app.card

import org.stowfast.engine.CardPage
import org.stowfast.engine.Problem

/** [page] is null until the engine has answered. */
data class CardState(val page: CardPage?, val problem: Problem?)
