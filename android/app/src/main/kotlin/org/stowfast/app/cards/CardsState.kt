package org.stowfast.app.cards

import org.stowfast.engine.CardRow
import org.stowfast.engine.Problem

/** [rows] is null until the engine has answered; by title. */
data class CardsState(val rows: List<CardRow>?, val problem: Problem?)
