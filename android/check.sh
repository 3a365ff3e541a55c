#!/usr/bin/env bash
# Holds the built apps to what they promise, and prints their sizes. Every line printed was looked at in the
# finished file.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"
source sdk.sh
top=$(mktemp -d)
trap 'rm -rf "$top"' EXIT
failed=0
# An app for one kind of processor stays below this. That for emulators carries a SQLite and code that are
# larger by 0.6 and 0.8 MB each, and goes to no phone.
declare -A apk_mib_max=([arm64-v8a]=12 [x86_64]=13)
ok() { echo "ok    $1"; }
bad() { echo "FAIL  $1"; failed=1; }
expect() { if eval "$2"; then ok "$1"; else bad "$1"; fi; }
size() { printf 'size  %9d  %s\n' "$(stat -c %s "$1")" "$2"; }
# Every component that another app may start: the launcher's activity, and nothing else of ours.
exported() { awk '/E: (activity|receiver|service|provider)/{name=""} /android:name\(/ && !name {name=$2}
                  /android:exported.*0xffffffff/{print name}' "$1"; }

app() { # ABI
    local abi=$1 apk=target/stowfast-$1.apk
    work=$top/$abi
    mkdir -p "$work"
    apksigner verify --verbose --min-sdk-version "$min_sdk" "$apk" >"$work/signature" 2>&1 || true
    aapt dump badging "$apk" >"$work/badging" 2>/dev/null || true
    aapt dump xmltree "$apk" AndroidManifest.xml >"$work/manifest" 2>/dev/null || true
    unzip -qo "$apk" 'lib/*' 'classes*.dex' -d "$work"
    sed -n "s/^uses-permission: name='\(.*\)'/\1/p" "$work/badging" | sort >"$work/permissions"
    printf 'android.permission.%s\n' POST_NOTIFICATIONS RECEIVE_BOOT_COMPLETED >"$work/permitted"

    echo "== $abi"
    size "$apk" "$(basename "$apk")"
    for file in "$work"/classes*.dex "$work/lib/$abi"/*.so; do size "$file" "  $(basename "$file")"; done
    expect "below ${apk_mib_max[$abi]} MiB" "(( $(stat -c %s "$apk") < ${apk_mib_max[$abi]} * 1024 * 1024 ))"
    expect "signature scheme v2 verifies" "grep -q 'v2 scheme.*true' $work/signature"
    expect "signature scheme v3 verifies" "grep -q 'v3 scheme.*true' $work/signature"
    expect "no permission but to notify and to hear of a restart; no internet" "diff $work/permissions $work/permitted"
    expect "package org.stowfast.app" "grep -q \"^package: name='org.stowfast.app'\" $work/badging"
    expect "Android 8.0 (API $min_sdk) or newer" "grep -q \"^sdkVersion:'$min_sdk'\" $work/badging"
    expect "made for API $target_sdk" "grep -q \"^targetSdkVersion:'$target_sdk'\" $work/badging"
    expect "launcher activity and icon" "grep -q 'launchable-activity' $work/badging && grep -q \"icon='res\" $work/badging"
    expect "other apps start the activity alone" "[[ \"\$(exported $work/manifest)\" == *MainActivity* && \$(exported $work/manifest | wc -l) == 1 ]]"
    expect "system backup off" "grep -q 'allowBackup.*0x0\$' $work/manifest"
    expect "not debuggable" "! grep -q 'debuggable.*0xffffffff' $work/manifest"
    expect "libraries stored at 16 KiB" "zipalign -c 16384 $apk"
    expect "libraries for $abi alone" "[[ \$(ls $work/lib) == $abi ]]"
    expect "licences packed" "unzip -p $apk res/raw/licences.txt | grep -q '^== Apache-2.0'"
    for word in org/stowfast/app/MainActivity org/stowfast/app/wait/WaitReceiver org/stowfast/ffi com/sun/jna/Native; do
        expect "dex has $word" "grep -qa $word $work/classes*.dex"
    done
    # The coroutines look for the main thread by this service; without it no screen would ever change.
    local service=META-INF/services/kotlinx.coroutines.internal.MainDispatcherFactory
    expect "main thread found by the coroutines" \
        "unzip -p $apk $service | grep -qxF kotlinx.coroutines.android.AndroidDispatcherFactory"
    libraries "$abi"
}

names() { sed 's/#.*//; s/ //g; /^$/d' "$@" | sort -u; } # FILE…
declare -A machine=([arm64-v8a]=AArch64 [x86_64]=X86-64)
libraries() { # ABI
    local abi=$1 library name needed unresolved provided
    for library in "$work/lib/$abi"/*.so; do
        name=$(basename "$library")
        expect "$name is for ${machine[$abi]}" "readelf -hW $library 2>/dev/null | grep -q 'Machine:.*${machine[$abi]}'"
        expect "$name is aligned to 16 KiB" \
            "! readelf -lW $library 2>/dev/null | awk '\$1 == \"LOAD\" {print \$NF}' | grep -qvxE '0x(4|8|10)000'"
        # What it needs is either packed beside it or one of the phone's own.
        readelf -dW "$library" 2>/dev/null | sed -n 's/.*NEEDED.*\[\(.*\)\]/\1/p' | while read -r needed; do
            case "$needed" in
                libc.so | libm.so | libdl.so | liblog.so) ;;
                *) [[ -f "$work/lib/$abi/$needed" ]] || echo "$needed" ;;
            esac
        done >"$work/missing"
        expect "$name has all that it needs $(tr '\n' ' ' <"$work/missing")" "[[ ! -s $work/missing ]]"
    done
    library=$work/lib/$abi/libstowfast.so
    for needed in libc.so libm.so libdl.so liblog.so libsqlcipher.so; do
        readelf -dW "$library" | grep -q "NEEDED.*\[$needed\]" || bad "libstowfast.so names $needed"
    done
    # Every name that a library imports is in Android 8.0; what ours does, in a narrower list or in the SQLite
    # beside it.
    local own=$work/provided prebuilt=$work/prebuilt
    names native/*.symbols >"$own"
    names native/*.symbols native/prebuilt.names >"$prebuilt"
    readelf -W --dyn-syms "$work/lib/$abi/libsqlcipher.so" | awk '$7 != "UND" {print $8}' | sed 's/@.*//' |
        sort -u - "$own" -o "$own"
    for library in "$work/lib/$abi"/*.so; do
        name=$(basename "$library")
        [[ $name == libstowfast.so ]] && provided=$own || provided=$prebuilt
        readelf -W --dyn-syms "$library" | awk '$7 == "UND" && $5 == "GLOBAL" {print $8}' | sed 's/@.*//' | sort -u >"$work/wanted"
        unresolved=$(comm -23 "$work/wanted" "$provided" | tr '\n' ' ')
        expect "$name: all $(wc -l <"$work/wanted") imported names resolve $unresolved" "[[ -z '$unresolved' ]]"
    done
    library=$work/lib/$abi/libstowfast.so
    expect "libstowfast.so: unwind table" "readelf -lW $library | grep -q GNU_EH_FRAME"
}

for abi in "${abis[@]}"; do app "$abi"; done
((failed == 0)) || { echo "The app failed its check." >&2; exit 1; }
