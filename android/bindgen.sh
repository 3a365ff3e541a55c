#!/usr/bin/env bash
# Writes the Kotlin that calls the Rust library. Needs android/native.sh to have run.
# The library for the phone and the one for this machine must ask for the very same Kotlin.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
bindgen=${CARGO_TARGET_DIR:-target}/debug/uniffi-bindgen
native=android/target/native
out=android/engine/target/generated/kotlin
fresh=$(mktemp -d)
trap 'rm -rf "$fresh"' EXIT

generate() { "$bindgen" generate --language kotlin --no-format --out-dir "$fresh/$1" "$2"; }

generate host "$native/host/libstowfast.so"
for library in "$native"/*/libstowfast.unstripped.so; do
    [[ -f "$library" && "${1:-}" != --host ]] || continue
    abi=$(basename "$(dirname "$library")")
    generate "$abi" "$library"
    if ! diff -rq "$fresh/host" "$fresh/$abi"; then
        echo "The $abi library and the host library describe different bindings." >&2
        exit 1
    fi
done

# Files that did not change keep their date, so that nothing is compiled twice.
mkdir -p "$out"
if ! diff -rq "$fresh/host" "$out" >/dev/null; then
    rm -rf "$out"
    mkdir -p "$(dirname "$out")"
    cp -r "$fresh/host" "$out"
fi
