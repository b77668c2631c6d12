"""The project's own environment, `.venv`, made whole or not at all.

It is built aside and renamed into place, so that a try that fails, or is
killed, leaves what was there before. Only the standard library is used: this
runs before anything is installed.
"""

import hashlib
import importlib.util
import json
import os
import platform
import shlex
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

STAMP = "swapboard-stamp.json"

Say = Callable[[str], None]
Make = Callable[[Path], None]
Install = Callable[[Path, Path, frozenset[str]], None]


class Trouble(Exception):
    """Why there is no environment, in words for whoever typed the command."""


def say_at_once(text: str) -> None:
    """Prints a line that stands before whatever a program called next will print."""
    print(text, flush=True)


def ensure(
    root: Path,
    extras: Iterable[str] = (),
    say: Say = say_at_once,
    make: Make | None = None,
    install: Install | None = None,
) -> Path:
    """The folder `.venv` in the repository `root`, with the project and `extras` in it.

    One that fits is used at once; another of ours is replaced. `make(aside)`
    makes an empty environment and `install(aside, root, extras)` fills it; both
    raise Trouble when they cannot. Raises Trouble, with `.venv` as it was.
    """
    root = root.resolve()
    place = root / ".venv"
    wanted = frozenset(extras)
    try:
        if _fits(place, root, wanted) and not _leftovers(root):
            return place
        with _alone(root, say):
            _heal(root)
            _refuse_a_strangers(place)
            if not _fits(place, root, wanted):
                say(f"Making {place} (a few minutes the first time, then it is kept) ...")
                # What the old one had for another command is still wanted by that.
                wanted |= _stamped(place)[1]
                _build(root, wanted, make or make_environment, install or install_project)
                say("The environment is ready.")
    except OSError as error:
        raise Trouble(f"could not make {place}: {error}. Nothing was changed.") from error
    return place


def make_environment(aside: Path) -> None:
    """An empty environment with pip in the folder `aside`; raises Trouble."""
    if os.name != "posix":
        raise Trouble(
            "this works on Linux and macOS. Elsewhere: py -m venv .venv, then "
            r".venv\Scripts\pip install -e . and .venv\Scripts\swapboard build site_demo"
        )
    if not all(importlib.util.find_spec(name) for name in ("venv", "ensurepip")):
        raise Trouble(venv_advice())
    # Its name aside would otherwise be shown in every shell that activates it.
    command = [sys.executable, "-m", "venv", "--prompt", "swapboard", str(aside)]
    done = subprocess.run(command, env=clean(os.environ), capture_output=True, text=True)
    if done.returncode:
        said = (done.stdout + done.stderr).strip()
        raise Trouble(venv_advice() if "ensurepip is not" in said else said)


def install_project(aside: Path, root: Path, extras: frozenset[str]) -> None:
    """The project, editable, with `extras`, into the environment `aside`; raises Trouble."""
    what = f".[{','.join(sorted(extras))}]" if extras else "."
    pip = [str(aside / "bin" / "python"), "-m", "pip", "install", "--quiet"]
    # Compiling all that the libraries hold takes pip as long as all the rest; most is never used.
    command = [*pip, "--no-compile", "-e", what]
    done = subprocess.run(command, cwd=root, env=clean(os.environ))
    if done.returncode:
        raise Trouble(
            "pip could not install what the project needs (its own words are above). "
            "It needs a way to a package index: mend that and run this again. "
            "Nothing was changed."
        )


def venv_advice(release: Path = Path("/etc/os-release"), as_root: bool | None = None) -> str:
    """The one line that gives this Python its venv module."""
    kinds = set()
    if release.is_file():
        for line in release.read_text(encoding="utf-8", errors="replace").splitlines():
            key, _, value = line.partition("=")
            if key in ("ID", "ID_LIKE"):
                kinds |= set(value.strip("\"'").split())
    version = f"{sys.version_info.major}.{sys.version_info.minor}"
    if kinds & {"debian", "ubuntu"}:
        is_root = os.geteuid() == 0 if as_root is None else as_root
        sudo = "" if is_root else "sudo "
        # A fresh machine knows of no package before its lists are brought up to date.
        line = f"{sudo}apt-get update && {sudo}apt-get install python{version}-venv"
        return f"Python {version} lacks its venv module: {line}"
    return f"Python {version} lacks venv or ensurepip: install your Python's venv module"


def clean(variables: Mapping[str, str]) -> dict[str, str]:
    """The variables without those that would lead Python or pip out of the environment."""
    astray = {"PYTHONPATH", "PYTHONHOME", "PIP_TARGET", "PIP_PREFIX", "PIP_ROOT", "PIP_PYTHON"}
    kept = {key: value for key, value in variables.items() if key not in astray}
    return kept | {"PIP_USER": "0", "PIP_DISABLE_PIP_VERSION_CHECK": "1"}


def relocate(aside: Path, place: Path) -> None:
    """Writes `place` wherever an environment's own files name the folder `aside`.

    Those are the scripts in bin/ and pyvenv.cfg; links, programs in machine
    code and the libraries are left as they are.
    """
    old, new = os.fsencode(aside), os.fsencode(place)
    for file in [aside / "pyvenv.cfg", *sorted((aside / "bin").iterdir())]:
        if file.is_symlink() or not file.is_file():
            continue
        content = file.read_bytes()
        if old in content and b"\0" not in content:
            file.write_bytes(content.replace(old, new))


def _build(root: Path, extras: frozenset[str], make: Make, install: Install) -> None:
    place = root / ".venv"
    aside = root / f".venv.new-{os.getpid()}"
    _remove(aside)
    try:
        make(aside)
        install(aside, root, extras)
        relocate(aside, place)
        stamp = {"digest": _digest(root), "extras": sorted(extras)}
        (aside / STAMP).write_text(json.dumps(stamp) + "\n", encoding="utf-8")
        _swap_in(aside, place)
    finally:
        _remove(aside)


def _swap_in(aside: Path, place: Path) -> None:
    old = place.with_name(f".venv.old-{os.getpid()}")
    if not place.exists():
        aside.rename(place)
        return
    _remove(old)
    place.rename(old)
    try:
        aside.rename(place)
    finally:
        if not place.exists():
            old.rename(place)
    _remove(old)


def _heal(root: Path) -> None:
    """Mends what killed tries left: a swap half done, folders that nobody will use.

    Whoever holds the lock knows that no other try is alive; the process number
    in a name only keeps a pip that outlived its try out of the next one.
    """
    place = root / ".venv"
    for left in _leftovers(root):
        if ".old-" in left.name and not os.path.lexists(place):
            left.rename(place)
        _remove(left)


def _leftovers(root: Path) -> list[Path]:
    return sorted([*root.glob(".venv.new-*"), *root.glob(".venv.old-*")])


def _refuse_a_strangers(place: Path) -> None:
    if os.path.lexists(place) and (place.is_symlink() or not (place / STAMP).is_file()):
        raise Trouble(
            f"{place} was not made by this command, so it is left alone. Put it aside and "
            f"run this again: mv {shlex.quote(str(place))} {shlex.quote(str(place) + '.mine')}"
        )


def _fits(place: Path, root: Path, extras: frozenset[str]) -> bool:
    digest, present = _stamped(place)
    # A link to a Python that was uninstalled since does not exist.
    return digest == _digest(root) and extras <= present and (place / "bin/python").exists()


def _stamped(place: Path) -> tuple[str, frozenset[str]]:
    """The digest and extras in an environment's stamp; empty when there is none to read."""
    try:
        stamp = json.loads((place / STAMP).read_text(encoding="utf-8"))
        return str(stamp["digest"]), frozenset(map(str, stamp["extras"]))
    except (OSError, ValueError, KeyError, TypeError):
        return "", frozenset()


def _digest(root: Path) -> str:
    """What an environment was made from: it is made anew when any of this changes."""
    parts = [
        (root / "pyproject.toml").read_bytes(),
        platform.python_implementation().encode(),
        platform.python_version().encode(),
        os.fsencode(root),
    ]
    return hashlib.sha256(b"\0".join(parts)).hexdigest()


@contextmanager
def _alone(root: Path, say: Say) -> Iterator[None]:
    """Holds the lock file; the system lets go of it even when this run is killed."""
    try:
        import fcntl
    except ImportError:
        yield
        return
    with open(root / ".venv.lock", "a", encoding="utf-8") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            say("Another run is making the environment: waiting for it ...")
            fcntl.flock(lock, fcntl.LOCK_EX)
        yield


def _remove(folder: Path) -> None:
    if folder.is_dir() and not folder.is_symlink():
        shutil.rmtree(folder, ignore_errors=True)
    elif os.path.lexists(folder):
        folder.unlink()
