# Read by app/run and tests/run: from a bare checkout on Debian 12 to a release build, doing only what is not done yet.
# Everything is said on standard error, so that what a command prints can be piped.
set -euo pipefail
unset CDPATH

checkout=$(cd -- "$(dirname -- "${BASH_SOURCE[0]}")/.." && pwd -P)
buildFolder=$checkout/.build/release
program=$buildFolder/app/strikeoff
setUpLog=$checkout/.build/set_up.log
packageList=$checkout/.presets/debian_packages
preset=$checkout/.presets/release.cmake
lockPatience=600  # seconds

say() { printf 'strikeoff: %s\n' "$*" >&2; }

fail() {
    say "$@"
    exit 1
}

# One set-up at a time in a checkout: two builds in one folder would spoil each other.
holdBuildFolder() {
    local place
    mkdir -p -- "$checkout/.build" 2>/dev/null || fail "cannot make the folder $checkout/.build; check who owns the checkout and whether the disk is full"
    for place in "$checkout/.build" "$checkout/.build/lock" "$setUpLog" "$buildFolder" "$buildFolder/build.ninja"; do
        [[ ! -e $place || -w $place ]] || fail "cannot write $place; it belongs to $(stat -c %U -- "$place"): run this as that user, or remove $checkout/.build"
    done
    exec 9>"$checkout/.build/lock"
    flock --nonblock 9 && return
    say "another app/run or tests/run is at work in this checkout; waiting for it"
    flock 9
}

releaseBuildFolder() { exec 9>&-; }

# The packages of the list, and those given, that are not installed; one a line.
missingPackages() {
    local wanted installed package
    mapfile -t wanted < <(sed 's/#.*//' -- "$packageList" | tr -s '[:space:]' '\n' | grep .)
    wanted+=("$@")
    installed=" $(dpkg-query --show --showformat='${Package}=${db:Status-Status} ' "${wanted[@]}" 2>/dev/null || true) "
    for package in "${wanted[@]}"; do
        [[ $installed == *" $package=installed "* ]] || printf '%s\n' "$package"
    done
}

# Runs apt-get as root. dpkg's lock is waited for by apt-get itself, those of its lists and downloads are not.
aptGet() {
    local give_up=$((SECONDS + lockPatience)) waiting=
    until "${asRoot[@]}" env LC_ALL=C DEBIAN_FRONTEND=noninteractive apt-get --quiet --yes \
        -o "DPkg::Lock::Timeout=$lockPatience" "$@" >>"$setUpLog" 2>&1 </dev/null 9>&-; do
        tail -n 5 -- "$setUpLog" | grep -qE 'Could not get lock|Unable to lock' || return 1
        ((SECONDS < give_up)) || return 1
        [[ $waiting ]] || say "another program is using apt; waiting for it"
        waiting=yes
        sleep 3
    done
}

installMissing() {
    local missing asRoot=() byHand system
    mapfile -t missing < <(missingPackages "$@")
    ((${#missing[@]})) || return 0
    byHand="apt-get update && apt-get install --no-install-recommends ${missing[*]}"
    system=$(. /etc/os-release 2>/dev/null && printf %s "${PRETTY_NAME:-}") || true

    if ! command -v apt-get >/dev/null || ! command -v dpkg-query >/dev/null; then
        fail "needs Debian 12 and its apt-get and dpkg-query, and this is ${system:-another system}. Needed packages: ${missing[*]}"
    fi
    if (($(id -u) != 0)); then
        command -v sudo >/dev/null || fail "these packages are missing: ${missing[*]}
There is no sudo here to install them with. As root, run
    $byHand
and then this command again."
        asRoot=(sudo)
        # Asks for the password before the output goes to the log.
        sudo -n true 2>/dev/null || sudo -v || fail "these packages are missing: ${missing[*]}
sudo did not let you install them. As root, run
    $byHand
and then this command again."
    fi

    say "installing what is missing: ${missing[*]}"
    : >"$setUpLog"
    # A package source that cannot be read matters only when the packages do not come from another.
    aptGet update || true
    aptGet install --no-install-recommends --no-remove "${missing[@]}" || true
    mapfile -t missing < <(missingPackages "$@")
    ((${#missing[@]})) || return 0
    grep -E '^[EW]:' -- "$setUpLog" | tail -n 4 >&2 || true
    fail "these packages are still missing: ${missing[*]}
apt-get could not install them on ${system:-this system}; all it said is in $setUpLog.
Is the machine connected, do its apt sources lead to a Debian 12 mirror, and is there space on the disk? Then run this command again, or, as root,
    apt-get update && apt-get install --no-install-recommends ${missing[*]}"
}

# Runs a build step silently; when it fails, all that it said is shown.
quietly() {
    local what=$1
    shift
    "$@" >"$setUpLog" 2>&1 </dev/null && return
    cat -- "$setUpLog" >&2
    fail "$what failed; what it said stands above and in $setUpLog"
}

isConfigured() {
    [[ -f $buildFolder/build.ninja && ! $preset -nt $buildFolder/build.ninja ]] &&
        grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$checkout" -- "$buildFolder/CMakeCache.txt" 2>/dev/null
}

# Builds a target, and says so only when there is something to build.
build() {
    local howLong=
    if ! isConfigured; then
        howLong=" (the first time takes some minutes)"
        quietly "configuring the build" cmake --fresh -S "$checkout" -B "$buildFolder" -G Ninja -C "$preset"
    fi
    [[ $(ninja -C "$buildFolder" -n "$1" 2>&1) == *"no work to do"* ]] && return
    say "building$howLong"
    quietly "the build" cmake --build "$buildFolder" --parallel "$(nproc)" --target "$1" -- --quiet
}

# setUp TARGET [PACKAGE...]: everything up to a fresh build of the target; packages beyond the list are for this run only.
setUp() {
    local target=$1
    shift
    holdBuildFolder
    installMissing "$@"
    build "$target"
    releaseBuildFolder
}

# Text is UTF-8 everywhere in the program; a bare machine has no locale that says so.
[[ $(locale charmap 2>/dev/null) == UTF-8 ]] || export LC_ALL=C.UTF-8
