"""What a cached result depends on, as digests; and notes of files' digests."""

import json
import time
from collections.abc import Iterable
from functools import cache
from hashlib import sha256
from pathlib import Path

from swapboard.disk.contain import write_whole
from swapboard.disk.finder import weight_files

RECIPE = 1
"""Raised by hand when cached results must be redone though no code here changed."""

RACY = 2_000_000_000
"""ns: a file changed this shortly before it was noted may have changed again unseen."""

_CUTTING = ("geometry.py", "rectify.py", "derive.py")


@cache
def versions() -> str:
    """The libraries whose results and bytes end up in the cache."""
    import cv2
    import numpy
    import PIL
    import pillow_heif
    from PIL import features

    avif = features.version("avif")
    parts = (numpy.__version__, cv2.__version__, PIL.__version__, pillow_heif.__version__, avif)
    return "/".join(str(part) for part in parts)


@cache
def code_digest(cutting_only: bool) -> str:
    """Digest of the modules that find cards, or of those alone that cut them."""
    here = Path(__file__).parent
    photo = here.parent / "photo"
    modules = [here / "pictures.py"]
    modules += [photo / name for name in _CUTTING] if cutting_only else sorted(photo.glob("*.py"))
    if not cutting_only:
        modules += [here / "finder.py", *weight_files()]
    return digest(path.read_bytes() for path in modules)


def digest(parts: Iterable[bytes]) -> str:
    """SHA-256 in hex over parts, each preceded by its length."""
    whole = sha256()
    for part in parts:
        whole.update(len(part).to_bytes(8, "big"))
        whole.update(part)
    return whole.hexdigest()


def found_key(photo: str) -> str:
    """Names what was found in the photo with this digest."""
    told = (photo, str(RECIPE), code_digest(False), versions())
    return digest(part.encode() for part in told)[:32]


def cut_key(photo: str, corners: tuple[tuple[float, float], ...], shape: tuple[int, int]) -> str:
    """Names the pictures cut from the photo at these corners (px) in this proportion."""
    told = (photo, repr(corners), repr(shape), str(RECIPE), code_digest(True), versions())
    return digest(part.encode() for part in told)[:32]


def read_record(path: Path) -> dict | None:
    """A JSON object written by `write_record`, or None where it is missing or damaged."""
    try:
        told = json.loads(path.read_bytes())
        body = told["body"]
        return body if told["sum"] == _sum(body) and isinstance(body, dict) else None
    except (OSError, ValueError, KeyError, TypeError):
        return None


def write_record(path: Path, body: dict) -> None:
    """Write a JSON object with a checksum of itself."""
    write_whole(path, json.dumps({"body": body, "sum": _sum(body)}).encode())


def _sum(body: object) -> str:
    return sha256(json.dumps(body, sort_keys=True).encode()).hexdigest()[:16]


class DigestNotes:
    """SHA-256 of files, remembered by size, modification time and inode.

    A note is trusted only where the file had been left alone for `RACY` when
    the note was made. Notes of files not asked for again are dropped.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._known = read_record(path) or {}
        self._asked: dict[str, list] = {}

    def sha256_of(self, path: Path, name: str) -> str:
        """The digest of a file; OSError where it cannot be read."""
        state = path.stat()
        mark = [state.st_size, state.st_mtime_ns, state.st_ino]
        note = self._known.get(name)
        if isinstance(note, list) and note[:3] == mark and note[1] < note[4] - RACY:
            self._asked[name] = note
            return note[3]
        now = time.time_ns()
        with path.open("rb") as file:
            whole = sha256()
            while piece := file.read(1 << 20):
                whole.update(piece)
        self._asked[name] = [*mark, whole.hexdigest(), now]
        return whole.hexdigest()

    def digests(self) -> set[str]:
        """Those of all files asked for when the notes were last saved."""
        return {note[3] for note in self._known.values() if isinstance(note, list)}

    def save(self) -> None:
        """Write the notes of all files asked for since the beginning, if they changed."""
        if self._asked != self._known:
            write_record(self._path, self._asked)
