#!/usr/bin/env bash
# Holds the built app to what it promises. Every line printed was looked at in the finished file.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"
apk=target/stowfast.apk
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
failed=0
ok() { echo "ok    $1"; }
bad() { echo "FAIL  $1"; failed=1; }
expect() { if eval "$2"; then ok "$1"; else bad "$1"; fi; }

apksigner verify --verbose --min-sdk-version 26 "$apk" >"$work/signature" 2>&1 || true
aapt dump badging "$apk" >"$work/badging" 2>/dev/null || true
aapt dump xmltree "$apk" AndroidManifest.xml >"$work/manifest" 2>/dev/null || true
unzip -qo "$apk" 'lib/*' 'classes*.dex' -d "$work"

expect "signature scheme v2 verifies" "grep -q 'v2 scheme.*true' $work/signature"
expect "signature scheme v3 verifies" "grep -q 'v3 scheme.*true' $work/signature"
expect "no permission asked for" "! grep -q 'uses-permission' $work/badging"
expect "package org.stowfast.app" "grep -q \"^package: name='org.stowfast.app'\" $work/badging"
expect "Android 8.0 (API 26) or newer" "grep -q \"^sdkVersion:'26'\" $work/badging"
expect "launcher activity and icon" "grep -q 'launchable-activity' $work/badging && grep -q \"icon='res\" $work/badging"
expect "system backup off" "grep -q 'allowBackup.*0x0\$' $work/manifest"
expect "not debuggable" "! grep -q 'debuggable.*0xffffffff' $work/manifest"
expect "libraries stored at 16 KiB" "zipalign -c 16384 $apk"
for word in org/stowfast/app/MainActivity org/stowfast/ffi com/sun/jna/Native; do
    expect "dex has $word" "grep -qa $word $work/classes*.dex"
done

# The coroutines look for the main thread by this service; without it no screen would ever change.
service=META-INF/services/kotlinx.coroutines.internal.MainDispatcherFactory
expect "main thread found by the coroutines" \
    "unzip -p $apk $service | grep -qxF kotlinx.coroutines.android.AndroidDispatcherFactory"

declare -A machine=([arm64-v8a]=AArch64 [x86_64]=X86-64)
for abi in arm64-v8a x86_64; do
    for library in "$work/lib/$abi"/*.so; do
        name=$abi/$(basename "$library")
        readelf -hW "$library" 2>/dev/null | grep -q "Machine:.*${machine[$abi]}" || bad "$name is for ${machine[$abi]}"
        readelf -lW "$library" 2>/dev/null | awk '$1 == "LOAD" {print $NF}' | grep -qvxE '0x(4|8|10)000' &&
            bad "$name is aligned to 16 KiB"
        # What it needs is either packed beside it or one of the phone's own.
        readelf -dW "$library" 2>/dev/null | sed -n 's/.*NEEDED.*\[\(.*\)\]/\1/p' | while read -r needed; do
            case "$needed" in
                libc.so | libm.so | libdl.so | liblog.so) ;;
                *) [[ -f "$work/lib/$abi/$needed" ]] || echo "$needed" ;;
            esac
        done >"$work/missing"
        [[ -s "$work/missing" ]] && bad "$name needs $(tr '\n' ' ' <"$work/missing")"
        ok "$name: machine, alignment, needed libraries"
    done
    library=$work/lib/$abi/libstowfast.so
    for needed in libc.so libm.so libdl.so liblog.so libsqlcipher.so; do
        readelf -dW "$library" | grep -q "NEEDED.*\[$needed\]" || bad "$abi/libstowfast.so names $needed"
    done
    # Every name that it imports is in Android 8.0 or in the SQLite beside it.
    {
        sed 's/#.*//; s/ //g; /^$/d' native/*.symbols
        readelf -W --dyn-syms "$work/lib/$abi/libsqlcipher.so" | awk '$7 != "UND" {print $8}' | sed 's/@.*//'
    } | sort -u >"$work/provided"
    readelf -W --dyn-syms "$library" | awk '$7 == "UND" && $5 == "GLOBAL" {print $8}' | sed 's/@.*//' | sort -u >"$work/wanted"
    unresolved=$(comm -23 "$work/wanted" "$work/provided" | tr '\n' ' ')
    expect "$abi/libstowfast.so: all $(wc -l <"$work/wanted") imported names resolve $unresolved" "[[ -z '$unresolved' ]]"
    expect "$abi/libstowfast.so: unwind table" "readelf -lW $library | grep -q GNU_EH_FRAME"
done
((failed == 0)) || { echo "The app failed its check." >&2; exit 1; }
