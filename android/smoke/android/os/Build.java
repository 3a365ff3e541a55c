package android.os;

/** The one thing of the platform that the bindings ask: how new it is. The oldest that the app runs on takes the JVM's ways. */
public final class Build {
    public static final class VERSION {
        public static final int SDK_INT = Integer.getInteger("smoke.sdk");
    }
}
