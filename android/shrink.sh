#!/usr/bin/env bash
# Shrinks what android/build.sh compiled: to dex for the phone, or to a jar for this machine. One set of rules
# serves both, so the jar lacks what the phone would lack.
#
#   shrink.sh --dex FOLDER      and the map of names to target/mapping.txt
#   shrink.sh --classfile JAR
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"
source sdk.sh
kind=$1 out=$2
tools=androidx/target/tools
aars=androidx/target/aar
work=target/shrink/${kind#--}
rm -rf "$work"
mkdir -p "$work"

# R8 reads jars. Folders of the class path become jars; JNA comes from its Android archive.
program=("$aars"/native/net.java.dev.jna.*/classes.jar)
mapfile -t entries < <(tr ":" "\n" <app/target/classpath.txt)
entries+=("$PWD/app/target/classes")
for entry in "${entries[@]}"; do
    if [[ -d "$entry" ]]; then
        jar=$PWD/$work/$(basename "$(dirname "$(dirname "$entry")")").jar
        (cd "$entry" && zip -q0r "$jar" . -i '*.class' 'META-INF/services/*')
        entry=$jar
    fi
    program+=("$entry")
done
rules=(--pg-conf app/shrink.pro)
for file in "$aars"/app/*/proguard.txt; do rules+=(--pg-conf "$file"); done
case "$kind" in
    --dex) options=(--min-api "$min_sdk" --pg-map-output target/mapping.txt) ;;
    --classfile) options=(--classfile) ;;
    *) echo "usage: shrink.sh --dex FOLDER | --classfile JAR" >&2; exit 2 ;;
esac
# The platform archive leaves out the part of java.* that a JVM brings; the JDK stands in for it.
jdk=$(dirname "$(dirname "$(readlink -f "$(command -v javac)")")")
java -Xmx2g -Dcom.android.tools.r8.disableApiModeling=1 -cp "$tools/r8.jar" com.android.tools.r8.R8 \
    --release --lib "$tools/platform.jar" --lib "$jdk" --output "$out" "${options[@]}" \
    "${rules[@]}" "${program[@]}" >"$work/r8.txt" 2>&1 || { cat "$work/r8.txt" >&2; exit 1; }
