#!/bin/sh
# The life of the package in a root of its own: installed, started, upgraded over a running job, removed, purged; the journal is kept.
# Run by `cargo xtask package try` in namespaces of its own: what is mounted and started here ends with them.
# $1: the root, with /one.deb and the later /two.deb in it. Without a service manager: what the unit prepares is prepared by hand,
# and the daemon runs as the unit's user with the unit's command.
set -eu
root="$1"
mount -t proc proc "$root/proc"
mount -t tmpfs tmpfs "$root/run"

inside() { chroot "$root" "$@"; }
step() { echo "-- $*"; }
fail() { echo "life.sh: $*" >&2; exit 1; }
journal() { sha256sum < "$root/var/lib/standpipe/left.journal"; }
field() { inside standpipe status --bay left --json | grep -q "$1"; }

begin() {
    # Not through the function: the number must be the daemon's own.
    chroot "$root" setpriv --reuid standpipe --regid standpipe --clear-groups --no-new-privs \
        env XDG_STATE_HOME=/var/lib standpipe serve --bay left --config /etc/standpipe/left.toml \
        --socket /run/standpipe/left/socket 2>> "$root/log" &
    daemon=$!
    tries=0
    until inside standpipe status --bay left > /dev/null 2>&1; do
        kill -0 "$daemon" 2> /dev/null || fail "the daemon has ended: $(cat "$root/log")"
        tries=$((tries + 1))
        [ "$tries" -lt 600 ] || fail "the daemon does not become healthy: $(cat "$root/log")"
        sleep 0.1
    done
}

end() {
    kill -TERM "$daemon"
    wait "$daemon" || fail "the daemon ended with $?"
}

step installed
inside dpkg --install /one.deb > /dev/null
inside standpipe --version > /dev/null
inside getent passwd standpipe > /dev/null || fail "there is no user standpipe"
[ -s "$root/usr/share/man/man1/standpipe-serve.1.gz" ] || fail "there is no manual page"
inside install -d -o standpipe -g standpipe -m 700 /var/lib/standpipe
inside install -d -m 755 /run/standpipe
inside install -d -o standpipe -g standpipe -m 750 /run/standpipe/left
sed 's/^device = .*/device = "none"/' "$root/etc/standpipe/bay.toml" > "$root/etc/standpipe/left.toml"

step started
begin
inside standpipe tell --bay left start > /dev/null
field '"job":1' || fail "no job runs"

step "upgraded over a running job"
inside dpkg --install /two.deb > /dev/null
kill -0 "$daemon" || fail "the upgrade ended the daemon"
field '"job":1' || fail "the upgrade ended the job"
end
begin
field '"job":1' || fail "the job does not go on with the new version"
end
before="$(journal)"

step removed
inside dpkg --remove standpipe > /dev/null
[ ! -e "$root/usr/bin/standpipe" ] || fail "the program is still there"
[ -e "$root/etc/standpipe/bay.toml" ] || fail "the configuration went with the program"
[ "$(journal)" = "$before" ] || fail "the journal is another one"

step purged
inside dpkg --purge standpipe > /dev/null
[ ! -e "$root/etc/standpipe/bay.toml" ] || fail "the configuration is still there"
[ -e "$root/etc/standpipe/left.toml" ] || fail "what a person wrote is gone"
[ "$(journal)" = "$before" ] || fail "the journal is another one"
step "the journal is kept"
