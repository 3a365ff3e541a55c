#!/usr/bin/env bash
# Unpacks the archives that Maven copied, and puts their classes where Maven looks for this module's own.
# usage: unpack.sh TARGET_DIRECTORY
set -euo pipefail
cd "$1"
mkdir -p aar classes test-classes

# Archives are named group.artifact-version, because two of them may share an artifact name.
unpack() {
    local archives=$1 classes=$2 archive folder
    for archive in archives/"$archives"/*.aar; do
        folder=aar/$archives/$(basename "$archive" .aar)
        [[ -f "$folder/.done" ]] && continue
        mkdir -p "$folder"
        unzip -qo "$archive" -d "$folder"
        if [[ -n "$classes" ]]; then unzip -qo "$folder/classes.jar" -d "$classes" -x 'META-INF/*.version' 'META-INF/com/*' 2>/dev/null || [[ $? == 11 ]]; fi
        touch "$folder/.done"
    done
}
unpack app classes
unpack test test-classes
unpack native ""
