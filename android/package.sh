#!/usr/bin/env bash
# Shrinks, packs, aligns and signs what android/build.sh compiled.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"
tools=androidx/target/tools
aars=androidx/target/aar
work=target/package
rm -rf "$work" target/stowfast.apk
mkdir -p "$work/dex" "$work/jars"

# R8 reads jars. Folders of the class path become jars; JNA comes from its Android archive.
program=("$aars"/native/net.java.dev.jna.*/classes.jar)
mapfile -t entries < <(tr ":" "\n" <app/target/classpath.txt)
entries+=("$PWD/app/target/classes")
for entry in "${entries[@]}"; do
    if [[ -d "$entry" ]]; then
        jar=$PWD/$work/jars/$(basename "$(dirname "$(dirname "$entry")")").jar
        (cd "$entry" && zip -q0r "$jar" . -i '*.class' 'META-INF/services/*')
        entry=$jar
    fi
    program+=("$entry")
done
# The platform archive leaves out the part of java.* that a JVM brings; the JDK stands in for it.
jdk=$(dirname "$(dirname "$(readlink -f "$(command -v javac)")")")
rules=(--pg-conf app/shrink.pro)
for file in "$aars"/app/*/proguard.txt; do rules+=(--pg-conf "$file"); done
java -Xmx2g -Dcom.android.tools.r8.disableApiModeling=1 -cp "$tools/r8.jar" com.android.tools.r8.R8 \
    --release --min-api 26 --lib "$tools/platform.jar" --lib "$jdk" --output "$work/dex" --pg-map-output target/mapping.txt \
    "${rules[@]}" "${program[@]}" >"$work/r8.txt" 2>&1 || { cat "$work/r8.txt" >&2; exit 1; }

for abi in arm64-v8a x86_64; do
    mkdir -p "$work/lib/$abi"
    cp target/native/"$abi"/libstowfast.so "$aars"/native/*/jni/"$abi"/*.so "$aars"/app/*/jni/"$abi"/*.so "$work/lib/$abi/"
done

# Dates are fixed, so that the same sources and the same key give the same file. Libraries are stored, not
# compressed: the phone maps them straight from the archive.
cp app/target/base.apk "$work/unaligned.apk"
# META-INF/services stays: through it the coroutines find the main thread.
cp -r "$work"/dex/*.dex "$work/dex/META-INF" "$work/"
(cd "$work" && find lib META-INF classes*.dex -exec touch -d '2020-01-01T00:00:00Z' {} + &&
    zip -q -X unaligned.apk classes*.dex && find META-INF/services -type f | sort | zip -q -X -@ unaligned.apk &&
    find lib -name '*.so' | sort | zip -q -X -0 -@ unaligned.apk)
zipalign -f 16384 "$work/unaligned.apk" "$work/aligned.apk"

if [[ -n "${STOWFAST_KEYSTORE:-}" ]]; then
    keystore=$STOWFAST_KEYSTORE alias=${STOWFAST_KEY_ALIAS:?} password=${STOWFAST_KEYSTORE_PASSWORD:?}
else
    keystore=target/trial.keystore alias=trial password=stowfast
    [[ -f "$keystore" ]] || keytool -genkeypair -keystore "$keystore" -storetype PKCS12 -storepass "$password" \
        -alias "$alias" -keyalg EC -groupname secp256r1 -validity 10000 -dname "CN=Stowfast trial key" >/dev/null 2>&1
fi
KEY_PASSWORD=$password apksigner sign --ks "$keystore" --ks-key-alias "$alias" --ks-pass env:KEY_PASSWORD \
    --v1-signing-enabled false --v2-signing-enabled true --v3-signing-enabled true \
    --min-sdk-version 26 --out target/stowfast.apk "$work/aligned.apk"
rm -f target/stowfast.apk.idsig
