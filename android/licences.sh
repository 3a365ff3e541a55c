#!/usr/bin/env bash
# Writes the notices of everything that the app is built from, read from the lists that the build itself uses: the
# class path, the unpacked Android archives and Cargo's tree. What has no licence, or one whose text is not in
# android/licences, stops the build.
#
#   licences.sh MAVEN_REPOSITORY OUT     Lines "name<tab>licences<tab>copyright", then "== LICENCE" and its text, each once.
set -euo pipefail
repository=$1 out=$2
cd "$(dirname "${BASH_SOURCE[0]}")"
stop() { echo "licences: $1" >&2; exit 1; }

# Where several are offered, the first of these that is.
choose() { # NAME OFFERED... (one a line)
    local licence
    for licence in Apache-2.0 MIT MPL-2.0 BSD-3-Clause Zlib; do
        grep -qxF "$licence" <<<"$2" && { echo "$licence"; return; }
    done
    stop "$1 has no licence that we know: ${2//$'\n'/, }"
}

offered_by() { # POM: its licences, or those of its parent
    local text group artifact version
    text=$(sed -n '/<licenses>/,/<\/licenses>/p' "$1")
    if [[ -n "$text" ]]; then
        sed -n -e 's|.*apache.org/licenses/LICENSE-2.0.*|Apache-2.0|p' -e 's|.*opensource.org/licenses/MIT.*|MIT|p' \
            -e 's|.*zetetic.net/sqlcipher/license.*|BSD-3-Clause|p' <<<"$text"
        return
    fi
    text=$(sed -n '/<parent>/,/<\/parent>/p' "$1")
    group=$(sed -n 's|.*<groupId>\(.*\)</groupId>.*|\1|p' <<<"$text")
    artifact=$(sed -n 's|.*<artifactId>\(.*\)</artifactId>.*|\1|p' <<<"$text")
    version=$(sed -n 's|.*<version>\(.*\)</version>.*|\1|p' <<<"$text")
    [[ -z "$group" ]] || offered_by "$repository/${group//.//}/$artifact/$version/$artifact-$version.pom"
}

pom_of() { # GROUP.ARTIFACT-VERSION, as the archives are named
    local group="" rest=$1 pom
    while [[ "$rest" == *.* ]]; do
        group+=${rest%%.*}/ rest=${rest#*.}
        for pom in "$repository/$group"*/*/"$rest.pom"; do
            [[ ! -f "$pom" ]] || { echo "$pom"; return; }
        done
    done
    stop "no description of $1 in $repository"
}

archives() {
    local entry pom name copyright
    {
        tr ':' '\n' <app/target/classpath.txt | grep '\.jar$' | sed 's/\.jar$/.pom/'
        for entry in androidx/target/aar/{app,native}/*/; do pom_of "$(basename "$entry")"; done
    } | while read -r pom; do
        name=$(basename "$pom" .pom)
        copyright=""
        case "$name" in sqlcipher-android-*) copyright="Copyright (c) 2025, ZETETIC LLC" ;; esac
        printf '%s\t%s\t%s\n' "$name" "$(choose "$name" "$(offered_by "$pom")")" "$copyright"
    done
}

crates() {
    local name version offered licence source copyright
    cargo tree --locked -p stowfast-bindings -e normal,no-proc-macro --target aarch64-linux-android \
        --prefix none --no-dedupe --format '{p}|{l}' | sort -u | while IFS='|' read -r name offered; do
        [[ "$name" == stowfast-* ]] && continue
        read -r name version _ <<<"$name"
        version=${version#v}
        licence=$(choose "$name" "$(sed 's| OR |\n|g; s|/|\n|g' <<<"$offered")")
        copyright=""
        if [[ "$licence" != Apache-2.0 ]]; then
            source=$(echo "${CARGO_HOME:-$HOME/.cargo}"/registry/src/*/"$name-$version")
            [[ -d "$source" ]] || stop "no source of $name $version"
            copyright=$(sed -n 's/^ *\(Copyright ([cC]).*\)/\1/p' "$source"/LICEN* 2>/dev/null | head -1)
        fi
        printf '%s %s\t%s\t%s\n' "$name" "$version" "$licence" "$copyright"
    done
    printf 'Rust standard library %s\tApache-2.0\t\n' "$(rustc --version | cut -d' ' -f2)"
}

text_of() { # LICENCE
    case "$1" in
        Apache-2.0) cat ../LICENSE-APACHE ;;
        # Whose it is stands beside each part.
        MIT) sed '1,/^Copyright/d' ../LICENSE-MIT ;;
        *) cat "licences/$1.txt" ;;
    esac
}

mkdir -p "$(dirname "$out")"
parts=$(archives; crates; cat licences/within.txt)
{
    echo "$parts"
    for licence in $(cut -f2 <<<"$parts" | sort -u); do
        echo "== $licence"
        text_of "$licence"
    done
} >"$out"
