# Tools of the bindings: found, or installed when missing. Sourced by `generate` and `build-web`; sets
# variables and defines functions, runs nothing by itself.
#
# Each need_… function says what it does, skips what is present, and ends with what to do when it cannot.
# Caches live in $FARSIDING_CACHE (default ~/.cache/farsiding), never in the repository.

BINDINGS=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
ROOT=$(dirname "$BINDINGS")
CACHE=${FARSIDING_CACHE:-${XDG_CACHE_HOME:-$HOME/.cache}/farsiding}
TARGET=${CARGO_TARGET_DIR:-$ROOT/target}
WASM=wasm32-unknown-unknown

# What of SQLite the store does not use: extensions, statistics, JSON and dates in SQL, hooks, UTF-16, partial
# blobs, shortcuts in copying, and the write-ahead log, which the browser's file system cannot share.
export SQLITE_WASM_RS_FLAGS="-USQLITE_ENABLE_FTS5 -USQLITE_ENABLE_RTREE -USQLITE_ENABLE_SESSION \
-USQLITE_ENABLE_PREUPDATE_HOOK -USQLITE_ENABLE_BYTECODE_VTAB -USQLITE_ENABLE_DBPAGE_VTAB \
-USQLITE_ENABLE_DBSTAT_VTAB -USQLITE_ENABLE_STMTVTAB -USQLITE_ENABLE_MATH_FUNCTIONS \
-USQLITE_ENABLE_OFFSET_SQL_FUNC -USQLITE_ENABLE_UNLOCK_NOTIFY -USQLITE_ENABLE_UNKNOWN_SQL_FUNCTION \
-USQLITE_ENABLE_COLUMN_METADATA -DSQLITE_OMIT_DECLTYPE -DSQLITE_OMIT_PROGRESS_CALLBACK \
-DSQLITE_OMIT_JSON -DSQLITE_OMIT_DATETIME_FUNCS -DSQLITE_OMIT_WAL -DSQLITE_DEFAULT_MEMSTATUS=0 \
-USQLITE_ENABLE_API_ARMOR -DSQLITE_UNTESTABLE -DSQLITE_OMIT_AUTHORIZATION -DSQLITE_OMIT_TRACE \
-DSQLITE_OMIT_UTF16 -DSQLITE_OMIT_INCRBLOB -DSQLITE_OMIT_COMPILEOPTION_DIAGS -DSQLITE_OMIT_COMPLETE \
-DSQLITE_OMIT_DESERIALIZE -DSQLITE_OMIT_GET_TABLE -DSQLITE_OMIT_LOCALTIME -DSQLITE_OMIT_TCL_VARIABLE \
-DSQLITE_OMIT_XFER_OPT -DSQLITE_OMIT_TRUNCATE_OPTIMIZATION -DSQLITE_OMIT_LOOKASIDE"

say() { printf '%s: %s\n' "${0##*/}" "$*" >&2; }
stop() { say "$*"; exit 1; }

# Seconds since the script began, for the closing line.
elapsed() { printf '%d s' "$SECONDS"; }

# Installs Debian packages that are missing. $@: package names.
need_debian() {
  local package missing=()
  for package in "$@"; do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing+=("$package")
  done
  [ ${#missing[@]} -eq 0 ] && return
  command -v apt-get >/dev/null || stop "needs these, by your system's own means: ${missing[*]}"
  local as_root=()
  [ "$(id -u)" = 0 ] || as_root=(sudo)
  say "installing ${missing[*]} (Debian packages)"
  "${as_root[@]}" apt-get update -qq >&2 || true
  DEBIAN_FRONTEND=noninteractive "${as_root[@]}" apt-get install -o DPkg::Lock::Timeout=300 -y -qq --no-install-recommends "${missing[@]}" >&2 ||
    stop "apt-get could not install ${missing[*]}"
}

# The standard library is built with the module: for size, and without the texts of panics. As rustup hands it out it
# brings along a fast sort for every type that is sorted, and every place that can panic.
has_std_source() { [ -e "$(rustc --print sysroot)/lib/rustlib/src/rust/library/std/Cargo.toml" ]; }

# Panics that end the module without a text are a flag of Rust 1.91 that is not stable yet.
WASM_FLAGS="-Zunstable-options -Cpanic=immediate-abort"
takes_wasm_flags() { RUSTC_BOOTSTRAP=1 rustc $WASM_FLAGS --print cfg >/dev/null 2>&1; }

# A compiler for the browser, with the source of its standard library: sets WASM_ROUTE to `rustup` or `debian`.
# FARSIDING_WASM=debian takes Debian's compiler although rustup's would do (to try that way).
need_wasm_std() {
  command -v cargo >/dev/null || stop "needs Rust: https://rustup.rs"
  command -v cc >/dev/null || need_debian gcc libc6-dev
  command -v clang >/dev/null || need_debian clang
  if [ "${FARSIDING_WASM:-}" != debian ]; then
    if ! has_std_source && takes_wasm_flags && command -v rustup >/dev/null; then
      say "adding the source of Rust's standard library"
      timeout 300 rustup component add rust-src >&2 || say "rustup could not fetch it; using Debian's compiler instead"
    fi
    if has_std_source && takes_wasm_flags; then WASM_ROUTE=rustup; return; fi
  fi
  # The compiler that Debian builds its browsers with, and the standard library's source for it.
  need_debian rustc-web cargo-web rust-web-src lld
  WASM_ROUTE=debian
}

# The browser's module knows the time zones of the Americas and UTC alone: those of the whole world are 100 kB of a download
# over a poor line. At a site elsewhere a phone shows times in UTC, and says so; the office knows every zone.
WEB_ZONES='^(UTC|GMT|Etc/.*|America/.*|US/.*|Canada/.*|Mexico/.*|Atlantic/.*|Pacific/Honolulu)$'

# Compiles the bindings for the browser; sets RAW to the module as the linker left it.
#
# A panic ends the module at once, and the worker starts anew, as before; what is left out is its sentence on the
# console. `build/functions.txt` names the functions that the trace of a panic numbers.
compile_wasm() {
  # Its own folder for each compiler: two in one undo each other's work.
  local linker folder=$TARGET path=$PATH
  if [ "$WASM_ROUTE" = debian ]; then folder=$TARGET/debian-web path=/usr/bin:$PATH; fi
  linker=$(PATH=$path rustc --print sysroot)/lib/rustlib/$(PATH=$path rustc -vV | sed -n 's/^host: //p')/bin/rust-lld
  [ -x "$linker" ] || linker=/usr/bin/wasm-ld
  say "compiling for the browser with the compiler of $WASM_ROUTE, standard library included"
  (cd "$ROOT" && PATH=$path RUSTC_BOOTSTRAP=1 CARGO_TARGET_DIR=$folder CHRONO_TZ_TIMEZONE_FILTER=$WEB_ZONES \
    CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER=$linker \
    CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS=$WASM_FLAGS \
    cargo rustc -p farsiding-bindings --lib --crate-type cdylib --profile web --target $WASM --locked \
    -Zbuild-std=std,panic_abort -Zbuild-std-features=optimize_for_size) >&2 || exit 1
  RAW=$folder/$WASM/web/farsiding_bindings.wasm
}

# wasm-bindgen of exactly the locked crate's version; sets WASM_BINDGEN.
need_wasm_bindgen() {
  local version
  version=$(sed -n '/^name = "wasm-bindgen"$/{n;s/^version = "\(.*\)"$/\1/p}' "$ROOT/Cargo.lock")
  [ -n "$version" ] || stop "Cargo.lock names no wasm-bindgen"
  local place=$CACHE/wasm-bindgen-$version
  WASM_BINDGEN=$place/bin/wasm-bindgen
  [ -x "$WASM_BINDGEN" ] && return
  say "installing wasm-bindgen-cli $version (about a minute, once)"
  # Unoptimised: it compiles three times as fast, and running takes two seconds instead of one.
  CARGO_PROFILE_RELEASE_OPT_LEVEL=0 cargo install -q wasm-bindgen-cli --version "$version" --root "$place" --target-dir "$CACHE/build" >&2 ||
    stop "wasm-bindgen-cli $version did not install"
  rm -rf "$CACHE/build"
}

# npm packages of bindings/web exactly as locked.
need_web_packages() {
  command -v npm >/dev/null || stop "needs Node.js 20 or newer with npm"
  local web=$BINDINGS/web
  [ "$web/node_modules/.package-lock.json" -nt "$web/package-lock.json" ] && return
  say "installing npm packages of bindings/web"
  (cd "$web" && npm ci --ignore-scripts --no-audit --no-fund --loglevel=error) >&2 || stop "npm ci failed"
  touch "$web/node_modules/.package-lock.json"
}

# A browser for the tests; sets CHROMIUM.
need_chromium() {
  CHROMIUM=${CHROMIUM:-$(command -v chromium || command -v chromium-browser || command -v google-chrome || true)}
  if [ -z "$CHROMIUM" ]; then
    need_debian chromium
    CHROMIUM=/usr/bin/chromium
  fi
  export CHROMIUM
}

# The TypeScript generator, built from its npm package; sets UBRN. Only `generate` needs it.
need_typescript_generator() {
  local version place
  version=$(node -p "require('$BINDINGS/web/node_modules/uniffi-bindgen-react-native/package.json').version")
  place=$CACHE/ubrn-$version
  UBRN=$place/uniffi-bindgen-react-native
  [ -x "$UBRN" ] && return
  say "building the TypeScript generator $version (6 to 17 minutes, once)"
  cargo build -q --release --target-dir "$CACHE/build" \
    --manifest-path "$BINDINGS/web/node_modules/uniffi-bindgen-react-native/crates/ubrn_cli/Cargo.toml" >&2 ||
    stop "the TypeScript generator did not build"
  mkdir -p "$place"
  cp "$CACHE/build/release/uniffi-bindgen-react-native" "$UBRN"
  rm -rf "$CACHE/build"
}
