# What both commands need: installs on Debian what is missing, and says what it installs.
# Read by `tests/all` and `tests/show`; does nothing by itself.

# Says one line that stands out from the tools' own output.
say() { printf '\n== %s\n' "$*"; }

# Says why it cannot go on, and stops.
stop() {
  printf '\nerror: %s\n' "$*" >&2
  exit 2
}

as_root() {
  if [ "$(id -u)" = 0 ]; then "$@"; else sudo "$@"; fi
}

# apt_packages PACKAGE...: installs those given; the list of packages is fetched once.
apt_packages() {
  command -v apt-get >/dev/null || stop "this is not Debian; please install: $*"
  if [ "$(id -u)" != 0 ] && ! command -v sudo >/dev/null; then
    stop "please install as root: apt-get install $*"
  fi
  say "installing from Debian: $*"
  if [ -z "${lists_are_fresh:-}" ]; then
    as_root apt-get update -q || stop "the list of Debian packages cannot be fetched; is there a connection?"
    lists_are_fresh=yes
  fi
  as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends "$@" ||
    stop "Debian could not install: $*"
}

# The version of Rust that Cargo.toml asks for.
wanted_rust() { sed -n 's/^rust-version = "\(.*\)"/\1/p' Cargo.toml; }

# at_least HAVE WANTED: compares versions such as 1.95.0 and 1.88.
at_least() { [ "$(printf '%s\n%s\n' "$1" "$2" | sort -V | head -n 1)" = "$2" ]; }

rust_is_good() {
  command -v cargo >/dev/null && command -v rustc >/dev/null &&
    at_least "$(rustc --version | cut -d ' ' -f 2)" "$(wanted_rust)"
}

# A compiler and linker, and a Rust that is new enough, from rustup where Debian's is older.
need_rust() {
  export PATH="$PATH:$HOME/.cargo/bin"
  command -v cc >/dev/null || apt_packages gcc libc6-dev
  rust_is_good && return
  if ! command -v rustup >/dev/null; then
    command -v curl >/dev/null || apt_packages curl ca-certificates
    say "installing Rust with rustup (its own folders in your home; nothing else is changed)"
    curl --proto '=https' --tlsv1.2 -sSf https://sh.rustup.rs |
      sh -s -- -y -q --profile minimal --no-modify-path ||
      stop "Rust $(wanted_rust) or newer is needed and rustup cannot be had; install Rust, then run this again"
  else
    say "installing a newer Rust with rustup"
    rustup toolchain install stable --profile minimal && rustup default stable
  fi
  export PATH="$HOME/.cargo/bin:$PATH"
  rust_is_good || stop "Rust $(wanted_rust) or newer is needed; found: $(rustc --version 2>&1)"
}

# The formatter and the adviser, which a minimal Rust lacks.
need_rust_checkers() {
  cargo fmt --version >/dev/null 2>&1 && cargo clippy --version >/dev/null 2>&1 && return
  command -v rustup >/dev/null || stop "cargo fmt and cargo clippy are needed; install rustfmt and clippy"
  say "installing rustfmt and clippy with rustup"
  rustup component add rustfmt clippy || stop "rustfmt and clippy cannot be had"
}

# Parsers of others for the calendar and the feed, and another solver for still bodies, in a Python
# folder of their own below target/.
need_readers() {
  python3 -m venv --help >/dev/null 2>&1 || apt_packages python3 python3-venv
  python3 -c 'import ensurepip' 2>/dev/null || apt_packages python3-venv
  # By its Python: the pip there names its folder, which may have been moved since.
  target/readers/bin/python -m pip --version >/dev/null 2>&1 || python3 -m venv --clear target/readers ||
    stop "a Python folder cannot be made in target/readers"
  say "packages of tests/readers.txt, in target/readers"
  target/readers/bin/python -m pip install -q --disable-pip-version-check -r tests/readers.txt ||
    stop "the packages of tests/readers.txt cannot be had; is there a connection?"
}

# Debian's browser and what reads its output.
need_browser_checkers() {
  local lacking=()
  command -v chromium >/dev/null || lacking+=(chromium fonts-dejavu-core)
  command -v java >/dev/null || lacking+=(default-jre-headless)
  command -v node >/dev/null || lacking+=(nodejs)
  command -v npm >/dev/null || lacking+=(npm)
  command -v pdfinfo >/dev/null || lacking+=(poppler-utils)
  [ ${#lacking[@]} = 0 ] || apt_packages "${lacking[@]}"
  at_least "$(node --version | tr -d v)" 20 ||
    stop "Node 20 or newer is needed for the browser checks; found $(node --version). Debian 13 has it"
}
