#!/usr/bin/env python3
"""Sets up .venv from the locks when needed, then does what you ask. Needs Python 3.11 or newer and nothing else.

    python3 dev.py demo           answer the demo brief: pictures and papers go to out/demo/
    python3 dev.py test           style, types and tests; with words after it (paths, -k ...) only those tests
    python3 dev.py run ARGS       underpour itself, with ARGS
    python3 dev.py proof          the long sets of tests (minutes to hours)
    python3 dev.py cover          which lines no test walks through (up to three times as long as the tests)
    python3 dev.py bench          how long things take on this machine, beside general-purpose libraries
    python3 dev.py lock           write the locks anew from pyproject.toml; with --upgrade take newer versions
    python3 dev.py bundle         put every locked file into wheelhouse/, for a machine without a network

On Windows write "py" for "python3". To begin again from nothing, delete the folder .venv.
"""

# Old Pythons read this file too, so that they can say what is wanted: no newer syntax than 3.6 has.

import contextlib
import hashlib
import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
WINDOWS = os.name == "nt"
PYTHON = VENV / ("Scripts/python.exe" if WINDOWS else "bin/python")
WHEELS = ROOT / "wheelhouse"
BUILD, UV = "boot-build.lock", "boot-uv.lock"
USER, DEVELOPER = "requirements.lock", "requirements-dev.lock"
DEMO = "examples/daylight-basement/brief.toml"

# Settings of the shell that would lead an installer or the tool out of .venv.
ASIDE = ("PYTHONHOME", "PYTHONPATH", "VIRTUAL_ENV", "PIP_USER", "PIP_TARGET", "PIP_PREFIX", "PIP_REQUIRE_VIRTUALENV")


def surroundings():
    kept = {name: value for name, value in os.environ.items() if name not in ASIDE}
    return dict(kept, PYTHONNOUSERSITE="1", PIP_DISABLE_PIP_VERSION_CHECK="1", PIP_RETRIES="2")


def call(*command):
    """Exit status of a command that speaks to the user itself."""
    sys.stdout.flush()
    return subprocess.call([str(word) for word in command], cwd=str(ROOT), env=surroundings())


def quietly(*command):
    """What a command prints, or None where it cannot be started or does not end well."""
    try:
        done = subprocess.run(
            [str(word) for word in command],
            cwd=str(ROOT),
            env=surroundings(),
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
        )
    except OSError:
        return None
    return done.stdout.decode("utf-8", "replace") if done.returncode == 0 else None


def say(words):
    print(words, file=sys.stderr, flush=True)


def venv_with_its_own_pip():
    if quietly(sys.executable, "-m", "venv", "--clear", VENV) is not None and quietly(PYTHON, "-m", "pip", "--version"):
        return [PYTHON, "-m", "pip"]
    return None


def venv_served_by_the_pip_outside():
    """Where the system keeps pip out of new environments but has one itself."""
    if not quietly(sys.executable, "-m", "pip", "--version"):
        return None
    if quietly(sys.executable, "-m", "venv", "--clear", "--without-pip", VENV) is None:
        return None
    outside = [sys.executable, "-m", "pip", "--python", PYTHON]
    return outside if quietly(*outside, "--version") else None


def venv_by_virtualenv():
    for maker in ([sys.executable, "-m", "virtualenv"], ["virtualenv", "-p", sys.executable]):
        if quietly(*maker, "--clear", VENV) is not None and quietly(PYTHON, "-m", "pip", "--version"):
            return [PYTHON, "-m", "pip"]
    return None


def venv_by_uv():
    if quietly("uv", "venv", "--clear", "--seed", "--python", sys.executable, VENV) is not None:
        return [PYTHON, "-m", "pip"]
    return None


NO_WAY = """This Python can make no environment of its own, so nothing was set up.
  Debian, Ubuntu: sudo apt install python3-venv
  Elsewhere: install Python 3.11 or newer with its standard parts (venv and pip).
Then say the same command again."""


NOTHING_CAME = """Not set up: the packages could not be had; the lines above say why. Is there a network?
Without one, say "python3 dev.py bundle" on a machine of this kind that has, and bring its folder wheelhouse/ here."""


def pip_of_a_new_venv():
    for way in (venv_with_its_own_pip, venv_served_by_the_pip_outside, venv_by_virtualenv, venv_by_uv):
        pip = way()
        if pip:
            return pip
    return sys.exit(NO_WAY)


def pip_of_the_venv():
    """The pip that serves a standing .venv; a new .venv where it does not stand, or stood in another folder."""
    came_from = [stamp.read_text(encoding="utf-8").splitlines()[:1] for stamp in VENV.glob("*.stamp")]
    if all(first == [str(ROOT)] for first in came_from) and quietly(PYTHON, "-c", "") is not None:
        for pip in ([PYTHON, "-m", "pip"], [sys.executable, "-m", "pip", "--python", PYTHON]):
            if quietly(*pip, "--version"):
                return pip
    return pip_of_a_new_venv()


def found_in():
    return ["--no-index", "--find-links", WHEELS] if WHEELS.is_dir() else []


def filled_by_uv(lock, pip):
    """Exactly what the locks say and nothing else; quick. False where uv is not to be had or cannot."""
    uv = [PYTHON, "-m", "uv"]
    careful = ["--require-hashes", "--only-binary", ":all:", *found_in()]
    if not quietly(*uv, "--version") and quietly(*pip, "install", "-q", *careful, "-r", ROOT / UV) is None:
        return False
    wanted = (ROOT / lock, ROOT / BUILD, ROOT / UV)
    return call(*uv, "pip", "sync", "-q", "--python", PYTHON, *careful, *wanted) == 0 and itself([*uv, "pip"]) == 0


def filled_by_pip(lock, pip):
    """The same by pip: slower, and what the locks no longer name stays."""
    careful = ["--require-hashes", "--only-binary", ":all:", *found_in()]
    for each in (BUILD, lock):
        if call(*pip, "install", "-q", *careful, "-r", ROOT / each) != 0:
            return False
    return itself(pip) == 0


def itself(installer):
    target = ["--python", PYTHON] if "uv" in installer else []
    return call(*installer, "install", "-q", *target, "--no-deps", "--no-build-isolation", "--no-index", "-e", ROOT)


@contextlib.contextmanager
def one_at_a_time():
    """Two set-ups at once would tread on each other: the second waits for the first."""
    try:
        gate = open(str(ROOT / ".setup.lock"), "a+")  # noqa: SIM115
    except OSError as refused:
        sys.exit("This folder cannot be written to, so nothing can be set up in it: %s" % refused)
    with gate:
        lock_file(gate)
        yield  # closing the file, or the end of this process, lets the next one in


def lock_file(gate):
    if WINDOWS:
        import msvcrt

        while True:
            with contextlib.suppress(OSError):
                gate.seek(0)
                return msvcrt.locking(gate.fileno(), msvcrt.LK_LOCK, 1)
    import fcntl

    with contextlib.suppress(OSError):  # some network drives know no locks; a single set-up is fine there
        fcntl.flock(gate, fcntl.LOCK_EX)
    return None


def stamp_of(lock):
    """What .venv must have been made from: this folder, its Python, the locks, the package's own settings."""
    files = b"".join((ROOT / name).read_bytes() for name in (lock, BUILD, "pyproject.toml"))
    version = quietly(PYTHON, "-c", "import sys; print(sys.version)") or "none"
    return "\n".join([str(ROOT), version.strip(), hashlib.sha256(files).hexdigest(), ""])


def stands(lock):
    stamp = VENV / (lock + ".stamp")
    return stamp.is_file() and stamp.read_text(encoding="utf-8") == stamp_of(lock)


def set_up(lock):
    """Bring .venv to what the lock says, unless it is there already (the developers' set holds the users')."""
    with one_at_a_time():
        if stands(DEVELOPER) or stands(lock):
            return
        say("Setting up .venv from %s; this happens once." % lock)
        began = time.time()
        pip = pip_of_the_venv()
        for stamp in VENV.glob("*.stamp"):
            stamp.unlink()
        if not filled_by_uv(lock, pip):
            say("The quick installer is not to be had here; going on with pip, which takes longer.")
            if not filled_by_pip(lock, pip):
                sys.exit(NOTHING_CAME)
        compile_what_is_loaded()
        (VENV / (lock + ".stamp")).write_text(stamp_of(lock), encoding="utf-8")
        say("Set up in %.0f s." % (time.time() - began))


def compile_what_is_loaded():
    """One paper of the demo brief, so that Python compiles and keeps what it loads; later starts take half as long.

    Where the shell tells Python to keep nothing, every start would compile all of it anew.
    """
    words = "import sys; sys.dont_write_bytecode = False; import underpour.desk.app, underpour.desk.serve; "
    words += "from underpour.cli import main; main(['submittal', *sys.argv[1:]])"
    with tempfile.TemporaryDirectory() as folder:
        quietly(PYTHON, "-c", words, DEMO, "-o", Path(folder) / "submittal.pdf")


def demo(rest):
    """Alternatives side by side, the page to teach with and the paper, for the demo brief."""
    set_up(USER)
    out = ROOT / "out" / "demo"
    out.mkdir(parents=True, exist_ok=True)
    picture, page, paper = out / "comparison.svg", out / "comparison.html", out / "submittal.pdf"
    for command, files in (("compare", ["-o", picture, "-o", page]), ("submittal", ["-o", paper])):
        status = call(PYTHON, "-m", "underpour", command, DEMO, *files, *rest)
        if status not in (0, 1):  # 1: something falls short, which is an answer
            return status
    print("\nThe brief      " + DEMO)
    for words, file in (("Side by side   ", picture), ("To teach with  ", page), ("The submittal  ", paper)):
        print(words + str(file.relative_to(ROOT)))
    print("Change the place or the foam in the brief and say it again: python3 dev.py demo")
    return 0


def run(rest):
    set_up(USER)
    return call(PYTHON, "-m", "underpour", *rest)


CHECKS = (
    (["ruff", "check", "."], "The style is not clean; the lines above say where."),
    (["ruff", "format", "--check", "."], "Not laid out as agreed. This does it: .venv/bin/python -m ruff format ."),
    (["mypy"], "The types do not agree; the lines above say where."),
    (
        ["pytest", "-n", "auto", "--dist", "loadfile"],
        "Not every test holds; the lines above say which.",
    ),
)


def test(rest):
    set_up(DEVELOPER)
    if rest:
        return call(PYTHON, "-m", "pytest", *rest)
    for command, words in CHECKS:
        print("\n== " + " ".join(command[:2]), flush=True)
        status = call(PYTHON, "-m", *command)
        if status:
            say("\n" + words)
            return status
    return 0


def proof(rest):
    set_up(DEVELOPER)
    return call(PYTHON, "-m", "pytest", "-m", "proof", *rest)


def cover(rest):
    """Apart from the tests: counting lines makes what is written in Python alone take up to three times as long."""
    set_up(DEVELOPER)
    return call(
        PYTHON, "-m", "pytest", "-n", "auto", "--dist", "loadfile", "--cov", "--cov-report=term:skip-covered", *rest
    )


def bench(rest):
    set_up(DEVELOPER)
    return call(PYTHON, "-m", "benchmarks", *rest)


def lock(rest):
    """The four locks, for every Python from 3.11 and every system at once, with hashes and without addresses."""
    set_up(DEVELOPER)
    sources = (
        (USER, ["pyproject.toml"]),
        (DEVELOPER, ["pyproject.toml", "--extra", "dev", "-c", USER]),
        (BUILD, ["requirements/boot-build.in"]),
        (UV, ["requirements/boot-uv.in"]),
    )
    plain = ["--universal", "--generate-hashes", "--no-header", "--no-annotate", "--python-version", "3.11"]
    for name, source in sources:
        status = call(PYTHON, "-m", "uv", "pip", "compile", "-q", *plain, "-o", name, *source, *rest)
        if status:
            return status
        if "://" in (ROOT / name).read_text(encoding="utf-8"):
            sys.exit("%s holds an address; the locks name packages and hashes only." % name)
    return 0


def bundle(rest):
    set_up(DEVELOPER)
    pip = pip_of_the_venv()
    for name in (BUILD, UV, DEVELOPER):
        careful = ["--require-hashes", "--only-binary", ":all:", "-d", WHEELS]
        status = call(*pip, "download", "-q", *careful, "-r", ROOT / name, *rest)
        if status:
            return status
    here = len(list(WHEELS.iterdir()))
    print("%d files in wheelhouse/. Beside dev.py on a machine of this kind they stand in for the network." % here)
    return 0


ASKED = {
    "demo": demo,
    "test": test,
    "run": run,
    "proof": proof,
    "cover": cover,
    "bench": bench,
    "lock": lock,
    "bundle": bundle,
}


def hand_over_to_a_newer_python(words):
    """``python3`` may be an old one on a machine that has a newer one too."""
    for name in ("python3.14", "python3.13", "python3.12", "python3.11"):
        newer = shutil.which(name)
        if newer and quietly(newer, "-c", "import sys; sys.exit(sys.version_info < (3, 11))") is not None:
            return call(newer, ROOT / "dev.py", *words)
    return sys.exit("Python 3.11 or newer is needed; this is %s." % sys.version.split()[0])


def main(words):
    if sys.version_info < (3, 11):
        return hand_over_to_a_newer_python(words)
    if not words or words[0] in ("help", "-h", "--help"):
        print(__doc__)
        return 0
    if words[0] not in ASKED:
        say("dev.py does not know %s. It knows: %s." % (words[0], ", ".join(ASKED)))
        return 2
    return ASKED[words[0]](words[1:])


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv[1:]))
    except KeyboardInterrupt:
        sys.exit(130)
