"""Forgetting somebody all at once: what is to change is written aside whole, then carried out.

A run that is killed while it writes aside has changed nothing. Once the folder has its name
the rest is sure to come: the next build, or the next `forget`, goes on with it. What the
built site and its hidden twin still show goes with the build that follows.
"""

import json
import os
import shutil
from pathlib import Path

from swapboard.disk import site_tree
from swapboard.disk.contain import contained, write_whole
from swapboard.disk.private_file import write_private
from swapboard.problems import WARNING, Problem

FOLDER = ".swapboard/forgetting"
_ASIDE = ".swapboard/forgetting.new"
# Left while a built site may still show what was forgotten.
_SITE = ".swapboard/forgotten"
_TREES = ".swapboard/trees"
_PLAN = "plan.json"


def begin(board: Path, gone: tuple[str, ...], written: dict[str, str]) -> None:
    """Write aside what is to be taken away and what is to change; raises OSError."""
    aside = board / _ASIDE
    shutil.rmtree(aside, ignore_errors=True)
    aside.mkdir(parents=True)
    aside.chmod(0o700)
    for number, text in enumerate(written.values()):
        _put(aside / str(number), text.encode("utf-8"))
    plan = {"gone": list(gone), "written": list(written)}
    _put(aside / _PLAN, json.dumps(plan).encode("utf-8"))
    aside.rename(board / FOLDER)


def go_on(board: Path) -> bool:
    """Carry out what was written aside; whether there was anything. Every step may be
    done twice, so it does not matter where it was cut short. Raises OSError."""
    folder = board / FOLDER
    shutil.rmtree(board / _ASIDE, ignore_errors=True)
    if not folder.is_dir():
        return False
    plan = json.loads((folder / _PLAN).read_text("utf-8"))
    for number, path in enumerate(plan["written"]):
        _write(board, path, (folder / str(number)).read_bytes())
    for path in plan["gone"]:
        if contained(board, board / path):
            (board / path).unlink(missing_ok=True)
    # Proposed swaps, by the names of their cards; what the photo cache holds of theirs is
    # taken away by a build, which knows what the others need.
    for file in (board / ".swapboard").glob("swaps-*.json"):
        file.unlink(missing_ok=True)
    site_tree.note_stale(board / _TREES)
    (board / _SITE).mkdir(exist_ok=True)
    folder.rename(board / _ASIDE)
    shutil.rmtree(board / _ASIDE)
    return True


def drop_cache(board: Path) -> None:
    """Where no site is built: the photo cache, which a build makes again, and the note."""
    for folder in (".swapboard/cache", _SITE):
        shutil.rmtree(board / folder, ignore_errors=True)


def site_is_behind(board: Path) -> bool:
    """Whether a built site, or the photo cache, may still hold what was forgotten."""
    return (board / _SITE).is_dir()


def settle(board: Path, live: Path) -> None:
    """After a build of the board's own site: take away the note that it is behind; its
    hidden twin went with the build. Raises OSError."""
    if site_is_behind(board) and live.resolve() == (board / "output").resolve():
        shutil.rmtree(board / _SITE)


def sites_behind(board: Path) -> list[Path]:
    """Sites built or published elsewhere that may still show what was forgotten."""
    found = site_tree.stale_sites(board / _TREES)
    return [site for site in found if site != (board / "output").resolve()]


def cut_short(board: Path) -> list[Problem]:
    """A warning where somebody is half forgotten, and for each site elsewhere that may
    still show them; nothing is changed."""
    must = "must be made anew: it may show somebody who was forgotten"
    fix = "build or publish into it again, or delete it."
    warnings = [Problem(str(site), 0, "", must, None, fix, WARNING) for site in sites_behind(board)]
    if not (board / FOLDER).is_dir() and not site_is_behind(board):
        return warnings
    must = "must be finished: somebody was to be forgotten, and that was cut short"
    place = FOLDER if (board / FOLDER).is_dir() else _SITE
    fix = "build the board: swapboard build."
    return [Problem(place, 0, "", must, None, fix, WARNING), *warnings]


def _put(file: Path, data: bytes) -> None:
    with open(os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as opened:
        opened.write(data)
        opened.flush()
        os.fsync(opened.fileno())


def _write(board: Path, path: str, data: bytes) -> None:
    file = board / path
    if path.startswith("private/"):
        write_private(board, path, data.decode("utf-8"))
    elif contained(board, file):
        mode = file.stat().st_mode & 0o777 if file.exists() else 0o644
        write_whole(file, data)
        file.chmod(mode)
