package org.stowfast.app

import org.stowfast.engine.Pick

/**
 * With what each question of numbers is answered on the vehicle that has everything: figures that were [told], and what is
 * then [said] on its page, by name: an option, or a number as it is typed.
 */
class Answer(val told: Map<String, Double>, vararg val said: Pair<String, String>) {
    /** Of what is said, what is picked. */
    fun picks(figures: Set<String>): List<Pick> = said.filter { it.first !in figures }.map { Pick(it.first, it.second) }

    companion object {
        val all: Map<String, Answer> = mapOf(
            "supply" to Answer(mapOf("boiler_mains_min" to 60.0, "heater_mains_min" to 120.0, "kettle_w" to 1800.0, "kettle_min" to 10.0), "post" to "a6", "by" to "600"),
            "level" to Answer(mapOf("ramps_count" to 2.0, "ramp_low_mm" to 40.0, "ramp_middle_mm" to 80.0, "ramp_high_mm" to 120.0), "pitch" to "1.5", "roll" to "-0.8"),
            "first" to Answer(mapOf("showers_a_day" to 1.0, "shower_l" to 12.0, "flushes_a_day" to 5.0, "flush_l" to 0.5), "people" to "2"),
            "power" to Answer(LOADS, "nights" to "3", "charge" to "85", "latitude" to "48", "sky" to "broken"),
            "gas" to Answer(mapOf("boiler_gas_kw" to 4.0, "boiler_gas_h_a_day" to 1.0, "cooking_gas_kw" to 1.8, "cooking_gas_h_a_day" to 0.8), "mix" to "mix60", "low" to "-5"),
            "boiler" to Answer(mapOf("shower_l" to 12.0), "cold" to "12", "room" to "16", "source" to "gas"),
            "frost" to Answer(emptyMap(), "low" to "-6", "outside" to "3", "inside" to "18", "heating" to "off"),
            "wind" to Answer(mapOf("awning_m2" to 7.5), "beaufort" to "b5", "gust" to "12"),
            "fuel" to Answer(mapOf("heating_diesel_kw" to 2.0, "heating_diesel_h_a_night" to 8.0), "gauge" to "60", "trip" to "200", "fuel_l_100km" to "11"),
            "urea" to Answer(mapOf("fuel_l_100km" to 11.0), "dash" to "counts", "countdown" to "600", "gauge" to "30", "trip" to "550", "low" to "-14"),
            "tyres" to Answer(emptyMap(), "axle_1" to "4.2", "axle_2" to "3.4", "warmth" to "cold", "dot" to "2321"),
            "load" to Answer(mapOf("people_rear" to 0.0, "lockers_kg" to 120.0, "garage_kg" to 150.0, "rack_kg" to 55.0), "fuel" to "80", "people_front" to "2"),
        )
    }
}

/** What draws on the battery. */
private val LOADS = mapOf(
    "lights_w" to 12.0, "lights_h_a_day" to 4.0, "pump_min_a_day" to 15.0, "heater_fan_h_a_day" to 0.0, "boiler_fan_h_a_day" to 1.0,
    "tv_h_a_day" to 2.0, "router_w" to 0.0, "phones_w" to 20.0, "phones_h_a_day" to 3.0, "breathing_aid_w" to 0.0,
    "inverter_w" to 60.0, "inverter_h_a_day" to 1.0, "other_w" to 0.0,
)
