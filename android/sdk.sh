# Read by the scripts beside it: for which phones the app is. Every other version stands in pom.xml and Cargo.lock.
min_sdk=26                    # Android 8.0; android/native/*.symbols name what it has
target_sdk=34
abis=(arm64-v8a x86_64)       # one app for each
