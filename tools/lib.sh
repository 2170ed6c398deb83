# Sourced by every tool here: versions, places, PATH, and a few words for the screen.
# shellcheck shell=bash

set -euo pipefail

# The one place where versions are pinned. Trunk's stands in Trunk.toml too, which refuses
# another; wasm-bindgen must be the one that Cargo.lock names, so it is read from there.
TRUNK_VERSION=0.21.14
BINARYEN_VERSION=132.0.0
ESBUILD_VERSION=0.28.2
GECKODRIVER_VERSION=0.37.1
AXE_VERSION=4.14.1
LIGHTHOUSE_VERSION=12.8.2
FHIR_VERSION=4.12.0
UCUM_VERSION=7.1.10

ROOT=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
TOOLS=${XDG_CACHE_HOME:-$HOME/.cache}/freshet-tools
WASM_TARGET=wasm32-unknown-unknown
WASM_BINDGEN_VERSION=$(awk '/^name = "wasm-bindgen"$/ { getline; gsub(/[^0-9.]/, ""); print }' "$ROOT/Cargo.lock")

TRUNK_HOME=$TOOLS/trunk-$TRUNK_VERSION
BINDGEN_HOME=$TOOLS/wasm-bindgen-$WASM_BINDGEN_VERSION
GECKODRIVER_HOME=$TOOLS/geckodriver-$GECKODRIVER_VERSION
BINARYEN_HOME=$TOOLS/binaryen-$BINARYEN_VERSION
ESBUILD_HOME=$TOOLS/esbuild-$ESBUILD_VERSION
AXE_HOME=$TOOLS/axe-core-$AXE_VERSION
LIGHTHOUSE_HOME=$TOOLS/lighthouse-$LIGHTHOUSE_VERSION
FHIR_HOME=$TOOLS/fhir-$FHIR_VERSION
UCUM_HOME=$TOOLS/ucum-lhc-$UCUM_VERSION
# Python's readers, keyed by the list of their versions.
READERS_HOME=$TOOLS/readers-$(cksum <"$ROOT/tools/outside/requirements.txt" | cut -d ' ' -f 1)

export PATH="$TRUNK_HOME/bin:$BINDGEN_HOME/bin:$BINARYEN_HOME/node_modules/.bin:$ESBUILD_HOME/node_modules/.bin:$GECKODRIVER_HOME/bin:$PATH"
export TRUNK_SKIP_VERSION_CHECK=true

say() { printf '\n== %s\n' "$*"; }
fail() { printf '\n!! %s\n' "$*" >&2; exit 1; }
have() { command -v "$1" >/dev/null 2>&1; }

# Does the compiler that runs by default carry the standard library for wasm32?
default_has_wasm() {
  compgen -G "$(rustc --print sysroot)/lib/rustlib/$WASM_TARGET/lib/libstd-*.rlib" >/dev/null
}

# Which toolchain builds for wasm32: nothing for the default one, `distro` for the one that
# tools/setup makes from the distribution's packages where the target cannot be fetched.
wasm_toolchain() {
  if [ "${FRESHET_TOOLCHAIN:-}" = distro ] || ! default_has_wasm; then echo distro; fi
}

# Runs a command with the toolchain that can build for wasm32.
with_wasm() {
  local toolchain
  toolchain=$(wasm_toolchain)
  if [ -n "$toolchain" ]; then RUSTUP_TOOLCHAIN=$toolchain "$@"; else "$@"; fi
}
