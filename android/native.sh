#!/usr/bin/env bash
# Builds libstowfast.so: for this machine (tests, Kotlin generation) and, unless told otherwise, for the phone.
#
#   android/native.sh           host, arm64-v8a, x86_64
#   android/native.sh --host    host alone
#
# No NDK: rustup's own rust-lld links against stand-ins for the four system libraries. A stand-in exports
# exactly the names in android/native/*.symbols, all of them in Android 8.0 (API 26), so a name that the
# phone may not have is a link error here rather than a crash there.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
android=$PWD/android
out=$android/target/native
target_dir=${CARGO_TARGET_DIR:-$PWD/target}
host=$(rustc -vV | sed -n 's/^host: //p')
tools=$(rustc --print sysroot)/lib/rustlib/$host/bin

# The same build makes the host library and the program that reads it to write Kotlin.
cargo build -p stowfast-bindings --features bindgen
mkdir -p "$out/host"
cp -u "$target_dir/debug/libstowfast.so" "$out/host/"
[[ "${1:-}" == --host ]] && exit 0

aar=$(echo "$android"/androidx/target/aar/native/net.zetetic.sqlcipher-android-*/jni)
if [[ ! -d "$aar" ]]; then
    echo "The SQLite archive is not unpacked yet: run android/build.sh." >&2
    exit 1
fi

stand_ins() { # TRIPLE EMULATION
    local folder=$out/$1/stand-ins list library names
    mkdir -p "$folder"
    for list in "$android"/native/*.symbols; do
        library=$(basename "$list" .symbols)
        mapfile -t names < <(sed 's/#.*//; s/ //g; /^$/d; s/.*/--defsym=&=0/' "$list")
        "$tools/rust-lld" -flavor gnu -m "$2" -shared -soname "$library.so" ${names[@]+"${names[@]}"} \
            --format=binary "$list" -o "$folder/$library.so"
    done
    # Rust asks for the unwinder as a static library; the unwinding crate supplies it.
    printf '!<arch>\n' >"$folder/libunwind.a"
}

build() { # TRIPLE EMULATION ABI
    stand_ins "$1" "$2"
    local upper=${1^^} flags
    upper=${upper//-/_}
    flags="-Clinker-flavor=ld.lld -L native=$out/$1/stand-ins"
    flags+=" -Clink-arg=--no-undefined -Clink-arg=--no-as-needed -Clink-arg=-lc -Clink-arg=-ldl -Clink-arg=-lm -Clink-arg=-llog"
    # Less is inlined than by default (225): a twelfth smaller, a plan 4 % slower.
    flags+=" -Cllvm-args=-inline-threshold=60"
    flags+=" -Clink-arg=-zmax-page-size=16384 -Clink-arg=-soname=libstowfast.so"
    # On the phone a smaller library counts for more than the time that it takes to build.
    env "CARGO_TARGET_${upper}_LINKER=$tools/rust-lld" "CARGO_TARGET_${upper}_RUSTFLAGS=$flags" \
        CARGO_PROFILE_RELEASE_LTO=fat CARGO_PROFILE_RELEASE_CODEGEN_UNITS=1 CARGO_PROFILE_RELEASE_OPT_LEVEL=2 \
        SQLCIPHER_LIB_DIR="$aar/$3" SQLCIPHER_INCLUDE_DIR="$aar/$3" \
        cargo build -p stowfast-bindings --lib --release --target "$1"
    mkdir -p "$out/$3"
    cp -u "$target_dir/$1/release/libstowfast.so" "$out/$3/libstowfast.unstripped.so"
    # Kotlin is generated from the unstripped copy: stripping loses what uniffi reads.
    LD_LIBRARY_PATH=$(rustc --print sysroot)/lib "$tools/rust-objcopy" --strip-all "$out/$3/libstowfast.unstripped.so" "$out/$3/libstowfast.so"
}
build aarch64-linux-android aarch64linux arm64-v8a
build x86_64-linux-android elf_x86_64 x86_64
