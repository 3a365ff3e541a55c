#!/usr/bin/env bash
# Compiles and links the resources of the app and of every Android archive that it uses.
# Writes the R classes to target/generated/java and the linked archive to target/base.apk.
# The words of the libraries are packed in the one language that the app speaks.
# usage: resources.sh MAVEN_REPOSITORY
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"
source ../sdk.sh
aars=../androidx/target/aar/app
platform=../androidx/target/tools/platform.jar
mkdir -p target/flat target/generated/java

# The libraries' own resources change only with their version, so they are compiled once.
libraries=()
packages=()
for folder in "$aars"/*/; do
    package=$(sed -n 's/.*package="\([^"]*\)".*/\1/p' "$folder/AndroidManifest.xml" | head -1)
    [[ -s "$folder/R.txt" && -n "$package" ]] && packages+=("$package")
    [[ -d "$folder/res" ]] || continue
    flat=target/flat/$(basename "$folder").zip
    [[ -f "$flat" ]] || aapt2 compile --dir "$folder/res" -o "$flat"
    libraries+=("$flat")
done
rm -f target/app-resources.zip target/licences.zip
aapt2 compile --dir src/main/res -o target/app-resources.zip
../licences.sh "$1" "$PWD/target/generated/res/raw/licences.txt"
aapt2 compile --dir target/generated/res -o target/licences.zip

link=(--auto-add-overlay -I "$platform" --manifest src/main/AndroidManifest.xml
    --min-sdk-version "$min_sdk" --target-sdk-version "$target_sdk" -c en
    --java target/generated/java -o target/base.apk)
if ((${#packages[@]})); then
    link+=(--extra-packages "$(IFS=:; echo "${packages[*]}")")
fi
for flat in "${libraries[@]}" target/app-resources.zip target/licences.zip; do link+=(-R "$flat"); done

# One harmless warning about a chunk of the platform archive that this aapt2 does not know is dropped.
aapt2 link "${link[@]}" 2> >(grep -v 'Unknown chunk' >&2 || true)
