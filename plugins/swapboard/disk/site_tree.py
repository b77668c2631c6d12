"""A built site on disk, and the record of what every file in it came from.

A site names itself: its version.txt holds the SHA-256 of all paths and
contents. The record of a tree is stored under that name and the folder's
inode, so it can never be taken for another tree's, nor for one that a killed
run left half written (such a tree has no version.txt).
"""

import hashlib
import json
import os
import re
from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from swapboard.disk.contain import write_whole

VERSION_FILE = "version.txt"
# Beside a site's records: where it lies, and whether it shows what has to be forgotten.
_PLACE, _STALE = "place.txt", "stale"
_VERSION = re.compile(r"sha256 ([0-9a-f]{64})\n")


@dataclass(frozen=True, slots=True)
class Entry:
    """One file of a site: what it was made from (`source`), the SHA-256 of its
    bytes (`content`), and its size and time as this tree holds it."""

    source: str
    content: str
    size: int
    mtime_ns: int

    def still_there(self, file: str | Path) -> bool:
        """Whether the file on disk is the one recorded, by size and time."""
        try:
            found = os.lstat(file)
        except OSError:
            return False
        return found.st_size == self.size and found.st_mtime_ns == self.mtime_ns


def version_of(contents: Mapping[str, str]) -> str:
    """The name of a site: SHA-256 over its sorted paths and their contents' SHA-256."""
    digest = hashlib.sha256()
    for path in sorted(contents):
        digest.update(f"{path}\0{contents[path]}\n".encode())
    return digest.hexdigest()


def version_named_in(tree: Path) -> str | None:
    """The version that `tree` says it is; None where it is no whole site of ours."""
    try:
        match = _VERSION.fullmatch((tree / VERSION_FILE).read_text("ascii"))
    except (OSError, ValueError):
        return None
    return match[1] if match else None


def version_found_in(tree: Path) -> str:
    """The version that the files of `tree` really have, every byte read."""
    return version_of(
        {
            path: hashlib.sha256((tree / path).read_bytes()).hexdigest()
            for path in files_in(tree)
            if path != VERSION_FILE
        }
    )


def files_in(tree: Path) -> Iterator[str]:
    """Every file and link below `tree`, as relative paths with forward slashes."""
    waiting = [""]
    while waiting:
        inner = waiting.pop()
        with os.scandir(tree / inner) as entries:
            for entry in entries:
                path = f"{inner}{entry.name}"
                if entry.is_dir(follow_symlinks=False):
                    waiting.append(f"{path}/")
                else:
                    yield path


def write_version(tree: Path, version: str) -> None:
    """Declare `tree` whole."""
    write_whole(tree / VERSION_FILE, f"sha256 {version}\n".encode("ascii"))


def read_record(records: Path, tree: Path) -> dict[str, Entry] | None:
    """The record of `tree` as kept in the folder `records`; None where there is none."""
    version = version_named_in(tree)
    if version is None:
        return None
    try:
        rows = json.loads(_record_file(records, version, tree).read_text("utf-8"))
        return {path: Entry(*row) for path, row in rows.items()}
    except (OSError, ValueError, TypeError, AttributeError):
        return None


def write_record(records: Path, tree: Path, version: str, entries: Mapping[str, Entry]) -> None:
    """Keep the record of `tree`, which holds `version`."""
    rows = {
        path: (entry.source, entry.content, entry.size, entry.mtime_ns)
        for path, entry in entries.items()
    }
    data = json.dumps(rows, separators=(",", ":"), ensure_ascii=False).encode("utf-8")
    write_whole(_record_file(records, version, tree), data)


def forget_records_but(records: Path, trees: list[Path]) -> None:
    """Delete the records of trees that are no more."""
    kept = {
        _record_file(records, version, tree)
        for tree in trees
        if (version := version_named_in(tree)) is not None
    }
    for file in records.glob("*.json"):
        if file not in kept:
            file.unlink(missing_ok=True)


def note_place(records: Path, live: Path) -> None:
    """Keep where the site of the folder `records` lies."""
    place, said = records / _PLACE, os.fsencode(live.resolve())
    if not place.exists() or place.read_bytes() != said:
        write_whole(place, said)


def note_stale(trees: Path) -> None:
    """Mark every site with records in `trees` as one that has to be made anew."""
    for records in trees.glob("*/"):
        (records / _STALE).touch()


def stale_sites(trees: Path) -> list[Path]:
    """The sites marked so that still lie where they were made, sorted."""
    found = []
    for mark in trees.glob(f"*/{_STALE}"):
        with suppress(OSError):
            live = Path(os.fsdecode(mark.with_name(_PLACE).read_bytes()))
            if version_named_in(live) is not None:
                found.append(live)
    return sorted(found)


def end_stale(records: Path) -> bool:
    """Take the mark away, now that the site is made anew; whether there was one."""
    was_there = (records / _STALE).exists()
    (records / _STALE).unlink(missing_ok=True)
    return was_there


def _record_file(records: Path, version: str, tree: Path) -> Path:
    return records / f"{version[:32]}-{os.stat(tree).st_ino}.json"
