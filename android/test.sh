#!/usr/bin/env bash
# Runs the Kotlin tests offline, on this machine: Robolectric, with the real Rust library and real SQLite files.
#
#   android/test.sh                     all tests
#   android/test.sh -Dtest=RoutineTest  some; further words go to Maven
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
tests/setup.sh
android/native.sh --host
android/bindgen.sh --host
mvn -B -ntp -f android/pom.xml test -Dsurefire.failIfNoSpecifiedTests=false "$@"
