#!/usr/bin/env bash
# Names what this machine lacks for building and testing Stowfast, then installs it.
#
#   tests/setup.sh          asks once before it installs anything
#   tests/setup.sh --yes    does not ask (nor does it when CI=true)
#
# Starts from Debian 12 with rustup, a JDK 17 and Maven. Does nothing, quickly, when nothing is missing.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

yes=${CI:-}
for word in "$@"; do
    case "$word" in
        --yes) yes=true ;;
        *) echo "usage: tests/setup.sh [--yes]" >&2; exit 2 ;;
    esac
done

have() { command -v "$1" >/dev/null 2>&1; }

if ! have rustup || ! have cargo; then
    echo "rustup is missing. Install it from rustup.rs, then run this again." >&2
    exit 1
fi

# Each command that the build calls, and the Debian package that has it.
packages=()
need() { have "$1" || packages+=("$2"); }
need cc gcc
need readelf binutils
need zip zip
need unzip unzip
need aapt aapt
need aapt2 aapt
need zipalign zipalign
need apksigner apksigner
need mvn maven
need javac openjdk-17-jdk-headless
need keytool openjdk-17-jdk-headless
if have cc && ! echo '#include <stdlib.h>' | cc -E -xc - >/dev/null 2>&1; then packages+=(libc6-dev); fi
mapfile -t packages < <(printf '%s\n' ${packages[@]+"${packages[@]}"} | sort -u | sed '/^$/d')

targets=()
installed_targets=$(rustup target list --installed)
for target in aarch64-linux-android x86_64-linux-android; do
    grep -qx "$target" <<<"$installed_targets" || targets+=("$target")
done

components=()
installed_components=$(rustup component list --installed)
for component in rustfmt clippy; do
    grep -q "^$component" <<<"$installed_components" || components+=("$component")
done

if ((${#packages[@]} + ${#targets[@]} + ${#components[@]} == 0)); then
    exit 0
fi

echo "Missing:"
if ((${#packages[@]})); then printf '  Debian package   %s\n' "${packages[@]}"; fi
if ((${#targets[@]})); then printf '  Rust target      %s\n' "${targets[@]}"; fi
if ((${#components[@]})); then printf '  Rust component   %s\n' "${components[@]}"; fi

if [[ "$yes" != true ]]; then
    answer=no
    read -r -p "Install these now? [y/N] " answer || true
    case "$answer" in
        y | Y | yes) ;;
        *) echo "Nothing was installed."; exit 1 ;;
    esac
fi

as_root() {
    if [[ $(id -u) == 0 ]]; then "$@"
    elif have sudo; then sudo "$@"
    else echo "Not root, and no sudo: run as root: $*" >&2; exit 1
    fi
}

if ((${#packages[@]})); then
    as_root env DEBIAN_FRONTEND=noninteractive apt-get update -q
    as_root env DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends "${packages[@]}"
fi
if ((${#targets[@]})); then rustup target add "${targets[@]}"; fi
if ((${#components[@]})); then rustup component add "${components[@]}"; fi
echo "Everything needed is installed."
