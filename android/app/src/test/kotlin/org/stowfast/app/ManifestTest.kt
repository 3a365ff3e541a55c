package org.stowfast.app

import android.content.pm.ActivityInfo
import android.content.pm.ApplicationInfo
import android.content.pm.ComponentInfo
import android.content.pm.PackageManager
import androidx.test.core.app.ApplicationProvider
import org.junit.Assert.assertEquals
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config

/** What the app asks of the phone, and what it lets others do. android/check.sh holds the finished app to the same. */
@RunWith(RobolectricTestRunner::class)
@Config(sdk = [34])
class ManifestTest {
    private val app: StowfastApp = ApplicationProvider.getApplicationContext()
    private val info = app.packageManager.getPackageInfo(
        app.packageName,
        PackageManager.GET_PERMISSIONS or PackageManager.GET_ACTIVITIES or PackageManager.GET_RECEIVERS or
            PackageManager.GET_SERVICES or PackageManager.GET_PROVIDERS,
    )

    @Test
    fun itAsksToNotifyAndToHearOfARestartAndForNoInternet() = assertEquals(
        setOf("android.permission.POST_NOTIFICATIONS", "android.permission.RECEIVE_BOOT_COMPLETED"),
        info.requestedPermissions.orEmpty().toSet(),
    )

    @Test
    fun onlyTheLaunchersActivityIsOpenToOthers() {
        val ours = listOf<Array<out ComponentInfo>?>(info.activities, info.receivers, info.services, info.providers)
            .flatMap { it.orEmpty().toList() }.filter { it.name.startsWith(app.packageName) }
        assertEquals(listOf(MainActivity::class.java.name), ours.filter { it.exported }.map { it.name })
        assertEquals(ActivityInfo.LAUNCH_SINGLE_TOP, info.activities.orEmpty().first { it.name == MainActivity::class.java.name }.launchMode)
    }

    @Test
    fun nothingIsBackedUpByThePhone() = assertEquals(0, app.applicationInfo.flags and ApplicationInfo.FLAG_ALLOW_BACKUP)
}
