"""The site being made, beside the live one: write what changed, then swap.

Two twin trees take turns at being live. The one that is not gets only the
differences, by a copy from its twin where that already has them.
"""

import hashlib
import os
import shutil
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from swapboard.disk import exchange, site_tree
from swapboard.disk.site_tree import Entry
from swapboard.problems import WARNING, Problem

_OF_THE_BOARD = frozenset(
    ".swapboard board.toml calls cards makers offers pages photos private".split()
)


class Staging:
    """A site in the making. `put` every file, then `finish`, then `go_live`.

    `live` is the folder that visitors see; `state` the board's .swapboard.
    Must be used under the board's lock, by `with`: on another disk than the
    board's nothing is left beside `live`, whichever way it ends, and the next
    site takes from `live` what did not change.
    """

    def __init__(self, live: Path, state: Path) -> None:
        self.live = live
        self._state = state
        self._records = state / "trees" / _short_name(live)
        self._place = place = _staging_place(live, state)
        self.folder = place / f"staging-{_short_name(live)}"
        self._aside = place / f"aside-{_short_name(live)}"
        place.mkdir(parents=True, exist_ok=True)
        exchange.heal(self.folder, live, self._aside)
        self._old_live = site_tree.read_record(self._records, live)
        self._old_staged = site_tree.read_record(self._records, self.folder) or {}
        if self.folder.is_symlink():  # or else the files of another folder would be deleted
            self.folder.unlink()
        self.folder.mkdir(exist_ok=True)
        (self.folder / site_tree.VERSION_FILE).unlink(missing_ok=True)
        self._folders: set[str] = set()  # those that are known to be there
        self.entries: dict[str, Entry] = {}
        self.rewritten: list[str] = []

    def __enter__(self) -> "Staging":
        return self

    def __exit__(self, *_error: object) -> None:
        if self._place == self._state:
            return
        with suppress(OSError):  # what cannot be cleared now the next run clears
            exchange.heal(self.folder, self.live, self._aside)
            shutil.rmtree(self.folder, ignore_errors=True)
            self._place.rmdir()

    def put(self, path: str, source: str, make: Callable[[], bytes]) -> None:
        """Have `path` in the site, as made from `source` (a fingerprint).

        `make` is called only where neither twin holds the file made from the
        same source. A path can be put once.
        """
        if path in self.entries:
            raise ValueError(f"{path} would be written twice")
        staged = self._old_staged.get(path)
        if staged and staged.source == source and staged.still_there(f"{self.folder}/{path}"):
            self.entries[path] = staged
        elif (live := self._live_entry(path, source)) is not None:
            self._clear_the_way(path)
            _twin(self.live / path, self.folder / path)
            self.entries[path] = live
        else:
            data = make()
            self._clear_the_way(path)
            target = self.folder / path
            target.write_bytes(data)
            found = os.lstat(target)
            content = hashlib.sha256(data).hexdigest()
            self.entries[path] = Entry(source, content, found.st_size, found.st_mtime_ns)
        if self._is_new(path):
            self.rewritten.append(path)

    def gone(self) -> list[str]:
        """Files of the live site that this one no longer has, sorted."""
        return sorted(set(self._old_live or ()) - set(self.entries))

    def finish(self) -> str:
        """Delete what was not put, declare the tree whole, return its version."""
        kept = self.entries.keys()
        for path in list(site_tree.files_in(self.folder)):
            if path not in kept:
                (self.folder / path).unlink()
        _drop_empty_folders(self.folder)
        version = site_tree.version_of({p: e.content for p, e in self.entries.items()})
        site_tree.write_record(self._records, self.folder, version, self.entries)
        site_tree.write_version(self.folder, version)
        return version

    def go_live(self) -> list[Problem]:
        """Swap this site in. Files that somebody else put into the live folder
        are kept in .swapboard/found/ and named."""
        problems = self._rescue_strangers()
        if site_tree.version_named_in(self.live) != site_tree.version_named_in(
            self.folder
        ) or self._live_was_touched():
            exchange.exchange(self.folder, self.live, self._aside)
        # The site is live; what cannot be tidied now is tidied another time.
        with suppress(OSError):
            if site_tree.end_stale(self._records):  # the twin shows what the site was before
                shutil.rmtree(self.folder)
                site_tree.forget_records_but(self._records, [self.live])
            else:
                site_tree.forget_records_but(self._records, [self.live, self.folder])
            site_tree.note_place(self._records, self.live)
        return problems

    def _clear_the_way(self, path: str) -> None:
        """Make `path` writable: its folders exist, and nothing else is in its place."""
        inner = path.rpartition("/")[0]
        if inner not in self._folders:
            for folder in reversed((self.folder / path).parents[: path.count("/")]):
                if folder.is_symlink() or folder.is_file():
                    folder.unlink()
            (self.folder / inner).mkdir(parents=True, exist_ok=True)
            self._folders.add(inner)
        target = f"{self.folder}/{path}"
        if os.path.isdir(target) and not os.path.islink(target):
            shutil.rmtree(target)
        elif os.path.lexists(target):
            os.unlink(target)

    def _live_entry(self, path: str, source: str) -> Entry | None:
        entry = (self._old_live or {}).get(path)
        if entry and entry.source == source and entry.still_there(f"{self.live}/{path}"):
            return entry
        return None

    def _is_new(self, path: str) -> bool:
        before = (self._old_live or {}).get(path)
        now = self.entries[path]
        return before is None or (before.source, before.content) != (now.source, now.content)

    def _live_was_touched(self) -> bool:
        entries = self._old_live
        if entries is None:
            return True
        return not all(entry.still_there(f"{self.live}/{path}") for path, entry in entries.items())

    def _rescue_strangers(self) -> list[Problem]:
        problems = []
        for path in self._strangers():
            kept = _free_place(self._state / "found" / path)
            kept.parent.mkdir(parents=True, exist_ok=True)
            shutil.move(self.live / path, kept)
            problems.append(
                Problem(
                    f"{self.live.name}/{path}", 0, "", "was not made by a build, so it was moved",
                    f".swapboard/{kept.relative_to(self._state).as_posix()}",
                    "keep files of your own outside the built site", WARNING,
                )
            )
        return problems

    def _strangers(self) -> list[str]:
        """Files in the live folder that no build made, sorted.

        Where the record of the live site is lost, a whole site speaks for itself;
        of any other, whatever this build does not make counts as a stranger's.
        """
        if not self.live.is_dir():
            return []
        known = self._old_live
        if known is None:
            named = site_tree.version_named_in(self.live)
            if named is None or named == site_tree.version_found_in(self.live):
                return []
            known = self.entries
        return sorted(
            path
            for path in site_tree.files_in(self.live)
            if path not in known and path != site_tree.VERSION_FILE
        )


def refuse_foreign_folder(live: Path, board: Path) -> Problem | None:
    """A problem where `live` holds something that is not a site of ours."""
    fix = "name an empty or a new folder with --output"
    resolved, home = live.resolve(), board.resolve()
    if home == resolved or resolved in home.parents:
        return Problem(str(live), 0, "output", "must not be the board itself or a folder above it",
                       None, fix)
    first = resolved.relative_to(home).parts[0] if home in resolved.parents else ""
    if live.is_symlink() or (live.exists() and not live.is_dir()):
        return Problem(str(live), 0, "output", "must be a folder, not a file or a link", None, fix)
    is_taken = first not in ("", "output") and (home / first).exists() and not _is_site(resolved)
    if is_taken or first.casefold() in _OF_THE_BOARD:
        return Problem(str(live), 0, "output", "must not be a folder that the board is made of",
                       first, fix)
    if live.is_dir() and any(live.iterdir()) and not _is_site(live):
        return Problem(str(live), 0, "output", "holds files that no build made", None,
                       f"move them away, or {fix}")
    return None


def _is_site(folder: Path) -> bool:
    return site_tree.version_named_in(folder) is not None


def _short_name(live: Path) -> str:
    return hashlib.sha256(os.fsencode(live.resolve())).hexdigest()[:8]


def _staging_place(live: Path, state: Path) -> Path:
    """.swapboard, or beside the live site where that is on another disk: a
    folder can be swapped only within one file system."""
    state.mkdir(parents=True, exist_ok=True)
    parent = live.resolve().parent
    parent.mkdir(parents=True, exist_ok=True)
    return state if _share_a_disk(parent, state) else parent / ".swapboard-staging"


def _share_a_disk(folder: Path, other: Path) -> bool:
    return os.stat(folder).st_dev == os.stat(other).st_dev


def _twin(file: Path, target: Path) -> None:
    """The same file in both trees. Files are never changed in place, only replaced,
    so that one on disk does for two."""
    try:
        os.link(file, target, follow_symlinks=False)
    except OSError:  # not every file system has hard links
        shutil.copy2(file, target)


def _free_place(wanted: Path) -> Path:
    """`wanted`, or with a number after its name the first place that is free."""
    place, number = wanted, 2
    while os.path.lexists(place):
        place = wanted.with_name(f"{wanted.name}.{number}")
        number += 1
    return place


def _drop_empty_folders(top: Path) -> None:
    for folder, _, _ in os.walk(top, topdown=False):
        if folder != str(top) and not os.listdir(folder):
            os.rmdir(folder)
