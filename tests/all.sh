#!/usr/bin/env bash
# The one test command: everything that a change must pass, from a bare Debian 12 with rustup, JDK 17 and Maven.
#
#   tests/all.sh [--yes]     --yes installs what is missing without asking, as CI=true does
#
# Every stage is timed. The first that fails ends the run, and the last line says so.
set -uo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
log=$(mktemp)
trap 'rm -f "$log"' EXIT
started=$SECONDS
rows=()

stage() { # NAME COMMAND...
    local name=$1 from=$SECONDS
    shift
    echo
    echo "=== $name"
    if "$@"; then
        rows+=("$(printf '%5d s  %s' $((SECONDS - from)) "$name")")
    else
        rows+=("$(printf '%5d s  %s: FAILED' $((SECONDS - from)) "$name")")
        finish "$name"
    fi
}

finish() { # [FAILED_STAGE]
    echo
    printf '%s\n' "${rows[@]}"
    printf '%5d s  in all\n' $((SECONDS - started))
    local passed failed
    # Counted from what the test runners printed, not assumed.
    passed=$(awk '/^test result: /{for (i = 1; i < NF; i++) if ($(i + 1) ~ /^passed/) n += $i}
                  /Tests run: .* -- in /{gsub(",", ""); for (i = 1; i < NF; i++) {
                      if ($i == "run:") r = $(i + 1); if ($i == "Failures:") f = $(i + 1)
                      if ($i == "Errors:") e = $(i + 1); if ($i == "Skipped:") s = $(i + 1)} n += r - f - e - s}
                  END {print n + 0}' "$log")
    failed=$(awk '/^test result: /{for (i = 1; i < NF; i++) if ($(i + 1) ~ /^failed/) n += $i}
                  /Tests run: .* -- in /{gsub(",", ""); for (i = 1; i < NF; i++) {
                      if ($i == "Failures:" || $i == "Errors:") n += $(i + 1)}}
                  END {print n + 0}' "$log")
    if [[ -n "${1:-}" ]]; then
        echo "FAILED at: $1 (tests up to there: $passed passed, $failed failed)"
        exit 1
    fi
    echo "tests: $passed passed, $failed failed"
    exit 0
}

logged() { "$@" 2>&1 | tee -a "$log"; }
docs() { RUSTDOCFLAGS=-Dwarnings cargo doc --workspace --no-deps --quiet; }
host_library() { android/native.sh --host && android/bindgen.sh --host; }
maven_tests() {
    local attempt from died=android/app/target/vm-died.log
    for attempt in 1 2; do
        rm -f $died
        from=$(wc -l < "$log")
        logged mvn -B -ntp -f android/pom.xml test && return
        why "$from" $died
        # What draws in the tests is not ours, and may end the process that runs them. Once more, unless our own
        # library did it; a test that failed is never run again.
        if ((attempt == 2)) || ! grep -q "forked VM terminated" <(since "$from") || grep -qsE '^(# )?C +\[libstowfast' $died; then
            return 1
        fi
        echo "=== The process that runs the tests ended. Once more."
        sed -i "$((from + 1)),\$d" "$log"
    done
}

since() { tail -n +"$(($1 + 1))" "$log"; } # LINES

why() { # LINES VM_DIED: last, in short, so that the end of a long log says it
    echo "=== What failed:"
    since "$1" | grep -E "^\[ERROR\]  +[A-Z]|<<< (FAILURE|ERROR)!|Process Exit Code" | cut -c1-300 | sort -u | head -40
    since "$1" | grep -m1 -A3 "Crashed tests"
    [[ ! -e $2 ]] || sed '/^siginfo/q' "$2" | grep -vE "^#?$"
}

stage "setup" tests/setup.sh "$@"
stage "format" cargo fmt --all --check
stage "clippy" cargo clippy --workspace --all-targets --quiet -- -D warnings
stage "Rust tests" logged cargo test --workspace
stage "documentation" docs
stage "Kotlin generation" host_library
stage "Kotlin tests and pictures" maven_tests
stage "app built and checked" android/build.sh "$@"
finish
