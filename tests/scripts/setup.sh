# shellcheck shell=bash
# Sets up what the checks need; sourced by tests/run and tests/run-nightly, in the root of the project.
#
# What cannot be set up is gathered in `missing`, each with the command that would; nothing is skipped silently.

missing=()

have() { command -v "$1" >/dev/null 2>&1; }

# One line of rust-toolchain.toml as words: channel, components or targets.
pinned() {
    sed -n "s/^$1 *= *//p" rust-toolchain.toml | tr -d '[],"'
}

# apt-get, when this user may; quietly, since the steps that follow tell what is still missing.
apt_install() {
    have apt-get || return 1
    local root=()
    if [ "$(id -u)" -ne 0 ]; then
        have sudo && sudo -n true 2>/dev/null || return 1
        root=(sudo -n)
    fi
    echo "installing $* by apt-get"
    "${root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "$@" >/dev/null 2>&1 && return
    "${root[@]}" apt-get update >/dev/null 2>&1
    "${root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "$@" >/dev/null 2>&1
}

setup_rust() {
    if ! have cargo; then
        missing+=("cargo: install rustup, then: rustup toolchain install $(pinned channel)")
        return
    fi
    have rustup || return 0
    local channel components targets
    channel=$(pinned channel)
    read -ra components <<<"$(pinned components)"
    read -ra targets <<<"$(pinned targets)"
    if ! rustup run "$channel" rustc --version >/dev/null 2>&1; then
        echo "installing Rust $channel by rustup"
        rustup toolchain install "$channel" --profile minimal >/dev/null 2>&1
    fi
    local installed name
    installed=$(rustup component list --installed --toolchain "$channel" 2>/dev/null)
    for name in "${components[@]}"; do
        grep -q "^$name" <<<"$installed" && continue
        echo "adding $name by rustup"
        rustup component add --toolchain "$channel" "$name" >/dev/null 2>&1 ||
            missing+=("Rust's $name: rustup component add --toolchain $channel $name")
    done
    for name in "${targets[@]}"; do
        grep -qx "rust-std-$name" <<<"$installed" && continue
        echo "adding the target $name by rustup"
        rustup target add --toolchain "$channel" "$name" >/dev/null 2>&1
    done
}

# Where the targets' standard library cannot be had, Debian's own compiler builds it from source.
setup_thumb() {
    have rustc || return 0
    local library name absent=()
    library=$(rustc --print sysroot)/lib/rustlib
    for name in $(pinned targets); do
        [ -d "$library/$name/lib" ] || absent+=("$name")
    done
    [ ${#absent[@]} -eq 0 ] && return
    if apt_install rustc-web cargo-web rust-web-src lld && [ -x /usr/bin/cargo ] && have ld.lld; then
        echo "no ${absent[*]} by rustup: the distribution's compiler builds for the boards instead"
        export THUMB_CARGO="env PATH=/usr/bin:$PATH RUSTC_BOOTSTRAP=1 /usr/bin/cargo"
        export THUMB_FLAGS="-Zbuild-std=core"
        export CARGO_TARGET_THUMBV7M_NONE_EABI_RUSTFLAGS="-C linker=ld.lld -C linker-flavor=ld.lld"
        export CARGO_TARGET_THUMBV6M_NONE_EABI_RUSTFLAGS=$CARGO_TARGET_THUMBV7M_NONE_EABI_RUSTFLAGS
        return
    fi
    missing+=("the targets ${absent[*]}: rustup target add ${absent[*]} (or: apt-get install rustc-web cargo-web rust-web-src lld)")
}

setup_emulator() {
    have qemu-system-arm || apt_install qemu-system-arm || true
    have qemu-system-arm || missing+=("qemu-system-arm: apt-get install qemu-system-arm")
}

setup_python() {
    local wanted=tests/outside/requirements.txt
    if ! python3 -c 'import tomllib' 2>/dev/null; then
        missing+=("Python 3.11 or later: apt-get install python3 python3-venv")
        return
    fi
    cmp -s "$wanted" .venv/installed.txt && return
    echo "making .venv for the outside checks"
    if ! { [ -x .venv/bin/pip ] || python3 -m venv .venv; } >/dev/null 2>&1; then
        rm -rf .venv
        apt_install python3-venv && python3 -m venv .venv >/dev/null 2>&1
    fi
    if [ -x .venv/bin/pip ] && .venv/bin/pip install -q --disable-pip-version-check -r "$wanted"; then
        cp "$wanted" .venv/installed.txt
    else
        missing+=("the packages of $wanted: python3 -m venv .venv && .venv/bin/pip install -r $wanted")
    fi
}

# Ends the run when something could not be set up.
require_all() {
    [ ${#missing[@]} -eq 0 ] && return
    echo "Cannot set up:"
    printf '  %s\n' "${missing[@]}"
    exit 1
}
