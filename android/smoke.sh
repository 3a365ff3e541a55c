#!/usr/bin/env bash
# Runs what the phone would run, as far as a JVM can: the shrunk classes, by the phone's own keep rules, with the
# library of this machine behind them. A rule that is missing shows here as a class, field or method that is gone.
# Needs the app's classes (Maven's compile) and android/native.sh --host.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"
source sdk.sh
work=target/smoke
rm -rf "$work"
mkdir -p "$work/jna"
./shrink.sh --classfile "$work/shrunk.jar"

# JNA's Android archive has no library for this machine; its JVM jar of the same version does.
version=$(sed -n 's|.*<jna.version>\(.*\)</jna.version>.*|\1|p' pom.xml)
repository=$(tr ':' '\n' <app/target/classpath.txt | sed -n 's|/org/jetbrains/kotlin/kotlin-stdlib/.*||p')
jna=$repository/net/java/dev/jna/jna/$version/jna-$version.jar
host=$(rustc -vV | sed -n 's/^host: //p')
case "$host" in
    x86_64-*) folder=linux-x86-64 ;;
    aarch64-*) folder=linux-aarch64 ;;
    *) echo "No JNA library for $host." >&2; exit 1 ;;
esac
unzip -qoj "$jna" "com/sun/jna/$folder/libjnidispatch.so" -d "$work/jna"
javac -d "$work/classes" -cp "$work/shrunk.jar" smoke/Smoke.java smoke/android/os/Build.java
java -Xmx512m -Dsmoke.sdk="$min_sdk" -Djna.boot.library.path="$work/jna" -Djna.library.path=target/native/host \
    -cp "$work/shrunk.jar:$work/classes" Smoke "$work/smoke.db"
