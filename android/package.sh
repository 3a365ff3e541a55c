#!/usr/bin/env bash
# Shrinks, packs, aligns and signs what android/build.sh compiled: one app for each kind of processor.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"
source sdk.sh
aars=androidx/target/aar
work=target/package
rm -rf "$work" target/*.apk
mkdir -p "$work/common"

if [[ -n "${STOWFAST_KEYSTORE:-}" ]]; then
    keystore=$STOWFAST_KEYSTORE alias=${STOWFAST_KEY_ALIAS:?} password=${STOWFAST_KEYSTORE_PASSWORD:?}
else
    keystore=target/trial.keystore alias=trial password=stowfast
    [[ -f "$keystore" ]] || keytool -genkeypair -keystore "$keystore" -storetype PKCS12 -storepass "$password" \
        -alias "$alias" -keyalg EC -groupname secp256r1 -validity 10000 -dname "CN=Stowfast trial key" >/dev/null 2>&1
fi

# META-INF/services stays: through it the coroutines find the main thread.
./shrink.sh --dex "$work/common"
cp app/target/base.apk "$work/base.zip"

# Dates are fixed, so that the same sources and the same key give the same file. Libraries are stored, not
# compressed: the phone maps them straight from the archive.
dated() { find "$@" -exec touch -d '2020-01-01T00:00:00Z' {} +; }
(cd "$work/common" && dated META-INF classes*.dex &&
    zip -q -X ../base.zip classes*.dex && find META-INF/services -type f | sort | zip -q -X -@ ../base.zip)
for abi in "${abis[@]}"; do
    apk=$PWD/$work/$abi.zip
    cp "$work/base.zip" "$apk"
    mkdir -p "$work/$abi/lib/$abi"
    cp target/native/"$abi"/libstowfast.so "$aars"/native/*/jni/"$abi"/*.so "$aars"/app/*/jni/"$abi"/*.so "$work/$abi/lib/$abi/"
    (cd "$work/$abi" && dated lib && find lib -name '*.so' | sort | zip -q -X -0 -@ "$apk")
    zipalign -f 16384 "$apk" "$work/$abi.aligned.apk"
    KEY_PASSWORD=$password apksigner sign --ks "$keystore" --ks-key-alias "$alias" --ks-pass env:KEY_PASSWORD \
        --v1-signing-enabled false --v2-signing-enabled true --v3-signing-enabled true \
        --min-sdk-version "$min_sdk" --out "target/stowfast-$abi.apk" "$work/$abi.aligned.apk"
done
rm -f target/*.idsig
