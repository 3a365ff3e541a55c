#!/usr/bin/env bash
# Builds the app, for each kind of processor: android/target/stowfast-*.apk. One command, from a bare Debian 12 with rustup, JDK 17 and Maven.
#
#   android/build.sh [--yes]
#
# Signing: with STOWFAST_KEYSTORE (a file), STOWFAST_KEYSTORE_PASSWORD and STOWFAST_KEY_ALIAS set, that key signs.
# With none of them, keytool makes a key for trying the app out, kept under android/target. An update must be
# signed by the same key as the app that it updates, so give your own key for anything that you hand to others.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
started=$SECONDS
tests/setup.sh "$@"
maven() { mvn -B -q -ntp -f android/pom.xml "$@"; }

echo "== archives" && maven -pl androidx process-resources
echo "== native library" && android/native.sh
echo "== Kotlin for it" && android/bindgen.sh
echo "== app classes" && maven test-compile
echo "== package" && android/package.sh
echo "== shrunk classes on this machine" && android/smoke.sh
echo "== check" && android/check.sh
echo "android/target: $(cd android/target && du -k stowfast-*.apk | awk '{printf "%s %d KiB, ", $2, $1}')in $((SECONDS - started)) s"
