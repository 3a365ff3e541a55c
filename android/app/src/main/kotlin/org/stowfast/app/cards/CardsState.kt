package org.stowfast.app.cards

import org.stowfast.engine.CardRow
import org.stowfast.engine.HitRow
import org.stowfast.engine.Problem

/**
 * [rows] is null until the engine has answered; by title. [asked] is what stands in the field; [found] answers it, the
 * likeliest first, or what stood there just before, and is null where nothing is asked.
 */
data class CardsState(val rows: List<CardRow>?, val asked: String, val found: List<HitRow>?, val problem: Problem?)
