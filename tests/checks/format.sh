#!/usr/bin/env bash
# Fails where clang-format would change a source file.  Usage: tests/checks/format.sh [ROOT]
set -euo pipefail
cd "${1:-$(dirname "$0")/../..}"
mapfile -t files < <(git ls-files --cached --others --exclude-standard -- '*.h' '*.cpp' | sort -u)
existing=()
for file in "${files[@]}"; do [ -f "$file" ] && existing+=("$file"); done
[ ${#existing[@]} -gt 0 ] || { echo "format: no source file here" >&2; exit 1; }
printf '%s\0' "${existing[@]}" | xargs -0 -n 40 -P 2 clang-format --dry-run -Werror
