# Sourced by deploy/chat, deploy/serve and deploy/test with $root (the checkout) and $kind (chat, serve or test) set.
# Leaves $venv, an environment that holds what the lock names, or prints one line and exits 1.
# A new environment is built beside .venv and renamed into place, so .venv is whole or it is not there,
# and of two first runs at once the slower drops its own. When .venv is up to date only the last lines run.

lock_of() { case $1 in chat) echo "$root/deploy/requirements.lock" ;; *) echo "$root/deploy/$1-requirements.lock" ;; esac; }

kinds_in() { case $1 in test) echo chat serve test ;; serve) echo chat serve ;; *) echo chat ;; esac; } # what an environment also is

up_to_date() { # up_to_date KIND
    [ -x "$venv/bin/python" ] && [ -r "$venv/ready-$1" ] &&
        IFS= read -r made_from <"$venv/ready-$1" && [ "$made_from" = "$(cksum <"$(lock_of "$1")")" ]
}

fail() {
    rm -rf "$new" "$old" 2>/dev/null || { sleep 1 && rm -rf "$new" "$old"; }
    printf 'shiftmaths: %s\n' "$1" >&2
    exit 1
}

interrupted() {
    trap '' HUP INT TERM
    if [ -n "$busy" ] && [ -n "${!:-}" ]; then # $! and no variable of ours: the signal may come right after the fork
        kill -- "-$!" 2>/dev/null || kill "$!" 2>/dev/null || :
        wait 2>/dev/null || :
    fi
    fail 'the set-up was interrupted; nothing was kept'
}

quietly() { # run in a session of its own and wait: a signal is acted on at once, and reaches all it started
    busy=yes
    "$py" -c 'import os, sys; os.setsid(); os.execvp(sys.argv[1], sys.argv[1:])' "$@" </dev/null >"$new/log" 2>&1 &
    result=0
    wait "$!" || result=$?
    busy=
    return "$result"
}

find_python() { # sets py to the interpreter itself (not a link that a system upgrade turns) and py_version
    py=${PYTHON:-python3}
    about=$("$py" -c '
import os, sys
try:
    import ensurepip, venv
except ImportError:
    venv = None
print(sys.version_info >= (3, 11), venv is not None, "%d.%d" % sys.version_info[:2], os.path.realpath(sys.executable))
' 2>/dev/null) || about=
    case $about in
        'True True '*) ;;
        'True False '*) fail "$py has no venv or pip; install them (Debian, Ubuntu: apt install python3-venv) and try again" ;;
        'False '*) fail "$py is older than 3.11; install Python 3.11 or newer (or name one: PYTHON=python3.12)" ;;
        *) fail "$py does not run; install Python 3.11 or newer with venv and pip" ;;
    esac
    about=${about#True True }
    py_version=${about%% *}
    py=${about#* }
}

why_pip_failed() { # one line out of pip's many
    if grep -qE 'from versions: none|Retrying|[Cc]onnection|[Tt]imed? ?out|Temporary failure' "$new/log"; then
        echo 'the package index cannot be reached; connect to the network (or set PIP_INDEX_URL) and try again'
    else
        echo "pip could not install the packages: $(grep -E '^ERROR' "$new/log" | tail -n 1)"
    fi
}

settle() { # point scripts at the final place, make the checkout importable, stamp, rename into place
    "$py" - "$root" "$new" "$venv" "$old" "$py_version" "$kind" <<'PYTHON'
import os, pathlib, sys

root, new, venv, old = map(pathlib.Path, sys.argv[1:5])
site = new / "lib" / f"python{sys.argv[5]}" / "site-packages"
(site / "shiftmaths.pth").write_text(os.path.relpath(root, site) + "\n")
for script in (new / "pyvenv.cfg", *(new / "bin").iterdir()):
    text = script.read_bytes() if script.is_file() and not script.is_symlink() else b""
    if text and not text.startswith(b"\x7fELF") and os.fsencode(new) in text:
        script.write_bytes(text.replace(os.fsencode(new), os.fsencode(venv)))
(new / "log").unlink()
try:
    os.rename(new, venv)  # an empty or missing place only: never over another environment
except OSError:
    stamp = f"ready-{sys.argv[6]}"
    if (venv / stamp).is_file() and (venv / stamp).read_bytes() == (new / stamp).read_bytes():
        raise SystemExit from None  # another first run was quicker
    os.rename(venv, old)
    os.rename(new, venv)
PYTHON
}

set_up() {
    trap interrupted HUP INT TERM
    busy=
    new=$root/.venv-new-$$
    old=$root/.venv-old-$$
    for left in "$root"/.venv-new-* "$root"/.venv-old-*; do # of a set-up that was killed outright
        [ ! -d "$left" ] || kill -0 "${left##*-}" 2>/dev/null || rm -rf "$left"
    done
    find_python
    if [ -e "$venv/bin/pytest" ]; then kind=test; fi # a developer's environment stays one, and so does a server's
    if [ "$kind" = chat ] && [ -e "$venv/ready-serve" ]; then kind=serve; fi
    lock=$(lock_of "$kind")
    mkdir "$new" 2>/dev/null || fail "cannot write to $root; make that folder writable and try again"
    quietly "$py" -m venv --prompt shiftmaths "$new" ||
        fail "$py cannot make a virtual environment; install venv and pip (Debian, Ubuntu: apt install python$py_version-venv)"
    quietly env TMPDIR="$new" "$new/bin/python" -m pip install -q --disable-pip-version-check --no-compile --retries "${PIP_RETRIES:-2}" \
        --require-hashes -r "$lock" || fail "$(why_pip_failed)"
    for made in $(kinds_in "$kind"); do cksum <"$(lock_of "$made")" >"$new/ready-$made"; done
    settle || fail "cannot move the new environment to $venv; remove that folder and try again"
    rm -rf "$new" "$old"
    trap - HUP INT TERM
}

venv=$root/.venv
up_to_date "$kind" || set_up
unset PYTHONDONTWRITEBYTECODE PYTHONHOME PYTHONPATH
export PYTHONPYCACHEPREFIX="$venv/bytecode"
