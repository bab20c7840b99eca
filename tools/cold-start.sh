#!/usr/bin/env bash
# Median wall time of the whole command `fit` on a demo, each run in a fresh process, beside the time of `--help` as a reference.
set -euo pipefail
cd "$(dirname "$0")/.."
out=$(mktemp -d)
dotnet publish -c Release -v quiet --nologo src/Trimwright.Cli -o "$out/bin"
program=$out/bin/trimwright
trap 'rm -r "$out"' EXIT

median() { # command ...: the median of 20 runs in milliseconds
  for _ in $(seq 20); do
    start=$(date +%s%N); "$@" >/dev/null; end=$(date +%s%N)
    echo $(((end - start) / 1000000))
  done | sort -n | sed -n 10p
}

"$program" --help >/dev/null
help=$(median "$program" --help)
fit=$(median "$program" fit layouts/bean-row.json --out "$out/cut")
echo "--help $help ms, fit $fit ms"
