package org.stowfast.app.red

import androidx.annotation.DrawableRes
import androidx.annotation.StringRes
import org.stowfast.app.R
import org.stowfast.engine.Seen
import org.stowfast.engine.Symbol

/** What an indication is drawn as: a sign of ours for its subject, and nobody's panel. */
@DrawableRes
fun Symbol.drawn(): Int = when (this) {
    Symbol.FLAME -> R.drawable.ic_flame
    Symbol.FAN -> R.drawable.sign_fan
    Symbol.WATER -> R.drawable.sign_water
    Symbol.WASTE -> R.drawable.sign_waste
    Symbol.CASSETTE -> R.drawable.sign_cassette
    Symbol.BATTERY -> R.drawable.ic_battery
    Symbol.BOLT -> R.drawable.sign_bolt
    Symbol.PLUG -> R.drawable.ic_plug
    Symbol.GAS -> R.drawable.sign_gas
    Symbol.MONOXIDE -> R.drawable.sign_monoxide
    Symbol.SMOKE -> R.drawable.sign_smoke
    Symbol.EXTINGUISHER -> R.drawable.sign_extinguisher
    Symbol.CHIRP -> R.drawable.sign_chirp
    Symbol.FRIDGE -> R.drawable.ic_fridge
    Symbol.SNOW -> R.drawable.ic_winter
    Symbol.OIL -> R.drawable.sign_oil
    Symbol.THERMOMETER -> R.drawable.sign_thermometer
    Symbol.TYRE -> R.drawable.sign_tyre
    Symbol.BRAKE -> R.drawable.sign_brake
    Symbol.ENGINE -> R.drawable.sign_engine
    Symbol.FUEL -> R.drawable.sign_fuel
    Symbol.UREA -> R.drawable.sign_urea
    Symbol.DOOR -> R.drawable.sign_door
    Symbol.ROOF -> R.drawable.sign_roof
    Symbol.LAMP -> R.drawable.sign_lamp
}

/** The heading of all that is met there. */
@StringRes
fun Seen.heading(): Int = when (this) {
    Seen.DASH -> R.string.red_dash
    Seen.INSIDE -> R.string.red_inside
    Seen.HEARD -> R.string.red_heard
}
