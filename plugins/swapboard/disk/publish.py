"""`publish`: the built site, whole, in a folder or a zip file of the keeper's choice."""

import hashlib
import os
import zipfile
from dataclasses import dataclass, replace
from pathlib import Path

from swapboard.disk import site_tree
from swapboard.disk.lock import BoardBusy, board_lock
from swapboard.disk.site_tree import VERSION_FILE
from swapboard.disk.staging import Staging, refuse_foreign_folder
from swapboard.disk.trouble import problem_of
from swapboard.problems import Problem, errors
from swapboard.vocabulary.counts import counted

_OTHER_PLACE = "name an empty or a new folder, or a new file that ends in .zip"
# The first moment that a zip file can say (APPNOTE.TXT 6.3, MS-DOS date and time).
_ALWAYS = (1980, 1, 1, 0, 0, 0)


@dataclass(frozen=True, slots=True)
class Published:
    """What was published: how many files, how many of them are new or changed."""

    files: int
    changed: int
    is_zip: bool


def publish_site(
    site: Path, dest: Path, board: Path
) -> tuple[Published | None, list[Problem]]:
    """Put the built `site` of `board` where `dest` is: a folder, or a .zip file.

    A folder gets only the differences, and changes at once where it is on the
    board's disk; a zip file is written whole, and the same site always gives the
    same bytes (with one version of zlib). A folder with other files, and a zip
    file that holds something else, are left alone.
    """
    if problem := refuse_destination(site, dest, board):
        return None, [problem]
    try:
        with board_lock(board / ".swapboard"):
            if problem := _not_whole(site):
                return None, [problem]
            if is_zip(dest):
                return _to_zip(site, dest), []
            return _to_folder(site, dest, board)
    except BoardBusy as busy:
        return None, [busy.problem]
    except OSError as error:
        return None, [problem_of(error, str(dest))]


def words_for(published: Published, dest: Path) -> list[str]:
    """What was done, and what to do next, a line each."""
    files = counted(published.files, "file")
    if published.is_zip:
        return [f"Published {files} in {dest}.",
                "Next: upload this file where your host takes a zip file, or unpack it there."]
    kept = published.files - published.changed
    return [f"Published {files} in {dest}: {published.changed} new or changed, "
            f"{kept} as they were.",
            "Next: upload what is in this folder, all of it, to your web space."]


def is_zip(dest: Path) -> bool:
    """Whether a destination is to be a zip file."""
    return dest.suffix.lower() == ".zip"


def refuse_destination(site: Path, dest: Path, board: Path) -> Problem | None:
    """A problem where nothing may be published to `dest`; nothing is written."""
    if not os.path.isfile(board / "board.toml"):
        return Problem("board.toml", 0, "", "must be in the board's folder", str(board),
                       "name the folder of a board after the place to publish to")
    here, there = site.resolve(), dest.resolve()
    if here == there or here in there.parents or there in here.parents:
        return _refused(dest, "must not be the built site, a place in it or a folder above it")
    if not is_zip(dest):
        if os.path.ismount(dest):
            return _refused(dest, "must be a folder, not a whole disk",
                            f"name a folder on it, such as {dest / 'board'}")
        problem = refuse_foreign_folder(dest, board)
        return problem and replace(problem, field="", fix=_OTHER_PLACE)
    # What may not be a published folder may not hold a published file either.
    inside = there.parent != board.resolve() and board.resolve() in there.parents
    if inside and (problem := refuse_foreign_folder(there.parent, board)):
        return replace(problem, path=str(dest), field="", fix=_OTHER_PLACE)
    if dest.is_symlink() or (dest.exists() and not dest.is_file()):
        return _refused(dest, "must be a file, not a folder or a link")
    if dest.exists() and not _is_ours(dest):
        return _refused(dest, "holds something that was not published from a board",
                        "move it away, or name another file")
    return None


def _refused(dest: Path, must: str, fix: str = _OTHER_PLACE) -> Problem:
    return Problem(str(dest), 0, "", must, None, fix)


def _not_whole(site: Path) -> Problem | None:
    version = site_tree.version_named_in(site)
    if version is None:
        return Problem(str(site), 0, "", "must be a built site", None,
                       "build it first: swapboard build, or publish without --no-build")
    if version != site_tree.version_found_in(site):
        return Problem(str(site), 0, "", "was changed by hand since it was built", None,
                       "build it again: swapboard build, or publish without --no-build")
    return None


def _to_folder(site: Path, dest: Path, board: Path) -> tuple[Published | None, list[Problem]]:
    dest = dest.absolute()
    with Staging(dest, board.absolute() / ".swapboard") as staging:
        for path in _sorted_files(site):
            if path != VERSION_FILE:
                file = site / path
                source = hashlib.sha256(file.read_bytes()).hexdigest()
                staging.put(path, source, file.read_bytes)
        staging.finish()
        changed = len(staging.rewritten)
        problems = staging.go_live()
    done = Published(len(staging.entries), changed, False)
    return (None if errors(problems) else done), problems


def _to_zip(site: Path, dest: Path) -> Published:
    dest.parent.mkdir(parents=True, exist_ok=True)
    aside = dest.with_name(f".{dest.name}.{os.getpid()}")
    paths = _sorted_files(site)
    try:
        with zipfile.ZipFile(aside, "w") as archive:
            for path in paths:
                entry = zipfile.ZipInfo(path, _ALWAYS)
                entry.compress_type = zipfile.ZIP_DEFLATED
                entry.create_system = 3  # of Unix, whatever this runs on
                entry.external_attr = 0o100644 << 16
                archive.writestr(entry, (site / path).read_bytes(), compresslevel=9)
        os.replace(aside, dest)
    finally:
        aside.unlink(missing_ok=True)
    count = len(paths) - 1  # version.txt is no part of what people look at
    return Published(count, count, True)


def _sorted_files(site: Path) -> list[str]:
    return sorted(site_tree.files_in(site))


def _is_ours(file: Path) -> bool:
    """Whether a zip file is a site that was published, or an empty file."""
    if file.stat().st_size == 0:
        return True
    try:
        with zipfile.ZipFile(file) as archive:
            return {VERSION_FILE, "index.html"} <= set(archive.namelist())
    except (OSError, zipfile.BadZipFile):
        return False
