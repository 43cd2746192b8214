# Shared by cmd/run, cmd/test and the scripts beside them: source it, don't run it.
# It goes to the project's root, checks Go, sets what every build shares, and
# brings `need`, which installs Debian packages that are missing.
# shellcheck shell=bash

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd) || exit 1
cd "$root" || exit 1

# The one set of build flags: any other set compiles the window's C again, which
# takes five minutes on two cores.
export GOFLAGS=-buildvcs=false

# The window library complains about the locale C and about none at all.
case ${LC_ALL:-${LANG:-}} in
'' | C | POSIX)
    unset LC_ALL
    export LANG=en_US.UTF-8
    ;;
esac

# What a bare Debian 12 with Go and git lacks, by purpose.
compiler_packages=(gcc libc6-dev)
window_packages=("${compiler_packages[@]}" pkg-config libgl-dev libx11-dev libxrandr-dev
    libxxf86vm-dev libxi-dev libxcursor-dev libxinerama-dev)
window_test_packages=(xvfb libgl1-mesa-dri xdotool imagemagick x11-utils)
paper_test_packages=(poppler-utils qpdf zbar-tools)
outside_packages=(ngspice python3-scikit-rf coinor-cbc)

# say SENTENCE… speaks to the person at the keyboard.
say() { printf 'stageloom: %s\n' "$*" >&2; }

# check_go fails with one sentence when Go is missing or older than go.mod asks.
check_go() {
    local wanted have
    wanted=$(sed -n 's/^go \([0-9.]*\)$/\1/p' go.mod)
    if ! command -v go >/dev/null; then
        say "Go is missing; install Go $wanted or newer and put its bin folder on the PATH."
        return 1
    fi
    have=$(go env GOVERSION 2>/dev/null | sed 's/^go\([0-9.]*\).*/\1/')
    if [ -z "$have" ] || [ "$(printf '%s\n' "$wanted" "$have" | sort -V | head -n 1)" != "$wanted" ]; then
        have=$(cd / && GOTOOLCHAIN=local go env GOVERSION)
        say "Go $wanted or newer is needed and $have is here; install a newer Go, or set GOTOOLCHAIN=auto, with which Go 1.21 and later fetch the one that go.mod names."
        return 1
    fi
}

# missing_of PACKAGE… prints the Debian packages that are not installed.
missing_of() {
    local package
    for package in "$@"; do
        [ "$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || echo "$package"
    done
}

# need PACKAGE… installs the Debian packages that are missing, as root or with
# sudo; where it can't, it says in one sentence what to install and fails. On a
# system without dpkg it can't look: it says what is wanted and goes on.
need() {
    if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
        say "this is no Debian; what these Debian packages hold has to be installed by hand: $*."
        return 0
    fi
    local missing as_root=()
    mapfile -t missing < <(missing_of "$@")
    [ ${#missing[@]} -eq 0 ] && return 0
    if [ "$(id -u)" -ne 0 ]; then
        as_root=(sudo)
        [ -t 0 ] || as_root=(sudo -n)
        if ! "${as_root[@]}" true 2>/dev/null; then
            say "please install these Debian packages and try again: apt-get install --no-install-recommends ${missing[*]}"
            return 1
        fi
    fi
    say "installing ${missing[*]}"
    local apt=("${as_root[@]}" env DEBIAN_FRONTEND=noninteractive LC_ALL=C.UTF-8 apt-get -q -o DPkg::Lock::Timeout=300)
    "${apt[@]}" update </dev/null >&2 &&
        "${apt[@]}" install -y --no-install-recommends "${missing[@]}" </dev/null >&2 && return 0
    say "these Debian packages could not be installed: ${missing[*]}; install them by hand and try again."
    return 1
}
