package org.stowfast.app.questions

import androidx.annotation.DrawableRes
import org.stowfast.app.R
import org.stowfast.engine.ReckoningRow

/** What a question of numbers is drawn as; one that is new here has the gauge. */
@DrawableRes
fun ReckoningRow.drawn(): Int = when (id) {
    "supply" -> R.drawable.ic_plug
    "level" -> R.drawable.ic_level
    "first" -> R.drawable.ic_clock
    "power" -> R.drawable.ic_battery
    "gas" -> R.drawable.sign_gas
    "boiler" -> R.drawable.ic_flame
    "frost" -> R.drawable.ic_winter
    "wind" -> R.drawable.ic_wind
    "fuel" -> R.drawable.sign_fuel
    "urea" -> R.drawable.sign_urea
    "tyres" -> R.drawable.sign_tyre
    "load" -> R.drawable.ic_load
    else -> R.drawable.ic_gauge
}
