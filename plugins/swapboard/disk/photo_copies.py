"""Copies of a board's photos that a page opened from a file can show and read."""

import base64
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from swapboard.disk import photo_keys
from swapboard.disk.contain import write_whole
from swapboard.disk.photo_cache import cache_folder
from swapboard.disk.pictures import encode_jpeg, read_picture
from swapboard.settings import PhotoSettings

LONGEST = 2000
"""px on the long side of a copy: enough to place a corner by, quick to open."""

RECIPE = 1
"""Raised by hand when copies must be made anew though their photos did not change."""


@dataclass(frozen=True, slots=True)
class PhotoCopy:
    """`name` is that of the files NAME.jpg and NAME.js, `size` (width, height) in px."""

    name: str
    size: tuple[int, int]


def copies_of(
    board: Path,
    photos: Sequence[str],
    folder: Path,
    limits: PhotoSettings,
    progress: Callable[[int, int], None] | None = None,
) -> dict[str, PhotoCopy]:
    """The copies of `photos` (paths in the board) in `folder`, by path.

    A copy is the photo upright, as JPEG without any metadata, and the same JPEG
    once more as a script `swapboardPhoto("NAME","BASE64")`: a page opened from
    a file may show a picture file, but not read its pixels. A photo that cannot
    be read has none. Those there are kept, since their names hold the photo's
    digest; what no photo asks for is removed. `progress(done, total)` counts
    photos. A new copy takes some 0.2 s. Raises OSError where nothing can be
    written.
    """
    notes = photo_keys.DigestNotes(cache_folder(board) / "photos.json")
    copies: dict[str, PhotoCopy] = {}
    for done, photo in enumerate(photos, start=1):
        copy = _copy(board, photo, folder, limits, notes)
        if copy is not None:
            copies[photo] = copy
        if progress is not None:
            progress(done, len(photos))
    kept = {f"{copy.name}{ending}" for copy in copies.values() for ending in (".jpg", ".js")}
    for path in sorted(folder.glob("*")):
        # Another process may be writing a file under a passing name that begins with a dot.
        if path.name not in kept and not path.name.startswith("."):
            path.unlink(missing_ok=True)
    return copies


def _copy(
    board: Path, photo: str, folder: Path, limits: PhotoSettings, notes: photo_keys.DigestNotes
) -> PhotoCopy | None:
    from swapboard.photo.shrinking import working_copy

    try:
        digest = notes.sha256_of(board / photo, photo.removeprefix("photos/"))
    except OSError:
        return None
    name = f"{digest[:24]}-{RECIPE}"
    file, script = folder / f"{name}.jpg", folder / f"{name}.js"
    known = _size_of(file) if script.is_file() else None
    if known is not None:
        return PhotoCopy(name, known)
    picture, _, _ = read_picture(board / photo, photo, limits)
    if picture is None:
        return None
    small, _ = working_copy(picture, LONGEST)
    content = encode_jpeg(small)
    write_whole(file, content)
    text = base64.b64encode(content).decode("ascii")
    write_whole(script, f'swapboardPhoto("{name}","{text}");\n'.encode("ascii"))
    return PhotoCopy(name, (small.shape[1], small.shape[0]))


def _size_of(file: Path) -> tuple[int, int] | None:
    """The size of a JPEG written before, or None where there is none that is one."""
    from PIL import Image

    try:
        with Image.open(file, formats=("JPEG",)) as image:
            return image.size
    except (OSError, ValueError):
        return None
