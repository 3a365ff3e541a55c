package org.stowfast.app.level

import android.content.Context
import android.hardware.Sensor
import android.hardware.SensorEvent
import android.hardware.SensorEventListener
import android.hardware.SensorManager

/** The phone's motion sensor. At the rate of a page it asks for no permission. */
class Motion(context: Context) {
    private val sensors: SensorManager? = context.applicationContext.getSystemService(SensorManager::class.java)
    private val sensor: Sensor? = sensors?.getDefaultSensor(Sensor.TYPE_ACCELEROMETER)

    val there: Boolean
        get() = sensor != null

    /** Gives each look to [felt], along the axes of the phone in m/s², until what it returns is called. */
    fun listen(felt: (Float, Float, Float) -> Unit): () -> Unit {
        val listener = object : SensorEventListener {
            override fun onSensorChanged(event: SensorEvent) = felt(event.values[0], event.values[1], event.values[2])

            override fun onAccuracyChanged(sensor: Sensor, accuracy: Int) = Unit
        }
        sensor?.let { sensors?.registerListener(listener, it, SensorManager.SENSOR_DELAY_UI) }
        return { sensors?.unregisterListener(listener) }
    }
}
