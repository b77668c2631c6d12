"""One photo and all that posts want of it: found, cut, written to the cache.

The same code runs in this process and in worker processes; what it answers
does not depend on where it ran.
"""

from dataclasses import asdict, dataclass
from hashlib import sha256
from pathlib import Path

import numpy as np

from swapboard.disk import photo_keys
from swapboard.disk.contain import write_whole
from swapboard.disk.finder import find_cards
from swapboard.disk.photo_settle import Request, settle
from swapboard.disk.pictures import encode_avif, encode_jpeg, read_picture
from swapboard.photo.derive import derive, jpeg_size
from swapboard.photo.find import Found
from swapboard.photo.rectify import rectify, shape_of
from swapboard.problems import Problem
from swapboard.settings import PhotoSettings


@dataclass(frozen=True, slots=True)
class CutCard:
    """A card cut out of its photo, in all its published sizes.

    `key` names the bytes of the pictures; `files` holds (kind, width, height,
    file name in the cache folder), kind "avif" smallest first, then "jpeg";
    `picture_size` is (width, height) of the upright photo.
    """

    key: str
    found: Found
    wide: bool
    files: tuple[tuple[str, int, int, str], ...]
    picture_size: tuple[int, int]


@dataclass(frozen=True, slots=True)
class PhotoJob:
    """A photo (its name in photos/, its file, its SHA-256) and the requests for it."""

    name: str
    file: str
    photo: str
    cache: str
    limits: PhotoSettings
    requests: tuple[Request, ...]


@dataclass(frozen=True, slots=True)
class PhotoResult:
    """What came of a job: the cards found, a cut card or None per request, problems.

    `found` and `size` (width, height) are None where the photo could not be read.
    """

    name: str
    size: tuple[int, int] | None
    found: tuple[Found, ...] | None
    cuts: tuple[CutCard | None, ...]
    problems: tuple[Problem, ...]


def from_cache(job: PhotoJob) -> PhotoResult | None:
    """The job's result where the cache holds all of it, else None."""
    photo = _Photo(job)
    return None if photo.found is None else _answer(photo, make=False)


def work(job: PhotoJob) -> PhotoResult:
    """The job's result, making what the cache does not hold."""
    photo = _Photo(job)
    if photo.found is None and not photo.find():
        nothing = (None,) * len(job.requests)
        return PhotoResult(job.name, None, None, nothing, tuple(photo.problems))
    return _answer(photo, make=True)


class _Photo:
    """A photo whose cards are known from the cache, or found when first needed."""

    def __init__(self, job: PhotoJob) -> None:
        self.job = job
        self.picture: np.ndarray | None = None
        self.size: tuple[int, int] | None = None
        self.found: tuple[Found, ...] | None = None
        self.problems: list[Problem] = []
        self._focal: float | None = None
        self._record = Path(job.cache) / f"found-{photo_keys.found_key(job.photo)}.json"
        known = photo_keys.read_record(self._record)
        if known and _within(known["size"], job):
            self.size = tuple(known["size"])
            self.found = tuple(_found(told) for told in known["found"])
            self.problems = [self._named(told) for told in known["problems"]]

    def open(self) -> bool:
        """Decode the picture where that is not done yet; False where it cannot be."""
        if self.picture is None:
            name = f"photos/{self.job.name}"
            self.picture, self._focal, self.problems = read_picture(
                Path(self.job.file), name, self.job.limits
            )
        if self.picture is None:
            return False
        self.size = (self.picture.shape[1], self.picture.shape[0])
        return True

    def find(self) -> bool:
        """Find the cards and note them in the cache; False where the photo cannot be read."""
        if not self.open():
            return False
        self.found = find_cards(self.picture, self._focal)
        body = {
            "photo": self.job.photo,
            "size": self.size,
            "found": [asdict(card) for card in self.found],
            "problems": [asdict(problem) for problem in self.problems],
        }
        photo_keys.write_record(self._record, body)
        return True

    def _named(self, told: dict) -> Problem:
        """A noted problem, under the name the photo goes by now."""
        return Problem(**{**told, "path": f"photos/{self.job.name}"})


def _within(size: tuple[int, int], job: PhotoJob) -> bool:
    """Whether a photo known from before keeps to the limits of today."""
    try:
        weight = Path(job.file).stat().st_size
    except OSError:
        return False
    pixels = size[0] * size[1]
    limits = job.limits
    return (
        pixels <= limits.largest_megapixels * 1_000_000
        and weight <= limits.largest_megabytes * 1_000_000
    )


def _found(told: dict) -> Found:
    corners = tuple((float(x), float(y)) for x, y in told["corners"])
    return Found(**{**told, "corners": corners, "reasons": tuple(told["reasons"])})


def _answer(photo: _Photo, make: bool) -> PhotoResult | None:
    """Every request settled and cut; None where something is missing and not to be made."""
    cuts: list[CutCard | None] = []
    problems: list[Problem] = []
    for request in photo.job.requests:
        card, told = settle(request, photo.found, photo.size)
        problems.extend(told)
        cut = None if card is None else _cut(photo, request, card, make)
        if card is not None and cut is None and not make:
            return None
        cuts.append(cut)
    told = (*photo.problems, *problems)
    return PhotoResult(photo.job.name, photo.size, photo.found, tuple(cuts), told)


def _cut(photo: _Photo, request: Request, card: Found, make: bool) -> CutCard | None:
    corners = np.array(card.corners)
    shape = shape_of(corners, request.panels)
    name = f"cut-{photo_keys.cut_key(photo.job.photo, card.corners, shape)}.json"
    record = Path(photo.job.cache) / name
    cut = _known_cut(record)
    if cut is None and make and photo.open():
        cut = _make_cut(record, photo, corners, shape)
    if cut is None:
        return None
    files = tuple((kind, width, height, name) for kind, width, height, name, *_ in cut["files"])
    return CutCard(cut["key"], card, shape[0] > shape[1], files, photo.size)


def _make_cut(record: Path, photo: _Photo, corners: np.ndarray, shape: tuple[int, int]) -> dict:
    """Cut, encode and write a card's pictures, then the record that names them."""
    arrays = derive(rectify(photo.picture, corners, shape))
    sizes = [(array.shape[1], array.shape[0]) for array in arrays]
    made = [("avif", size, encode_avif(array)) for size, array in zip(sizes, arrays, strict=True)]
    of_jpeg = jpeg_size(sizes)
    made.append(("jpeg", of_jpeg, encode_jpeg(arrays[sizes.index(of_jpeg)])))
    key = photo_keys.digest(content for _, _, content in made)[:32]
    files = []
    for kind, (width, height), content in made:
        path = record.parent / f"card-{key}-{width}.{kind}"
        write_whole(path, content)
        state = path.stat()
        known = [state.st_size, state.st_mtime_ns, sha256(content).hexdigest()]
        files.append([kind, width, height, path.name, *known])
    body = {"photo": photo.job.photo, "key": key, "files": files}
    photo_keys.write_record(record, body)
    return body


def _known_cut(record: Path) -> dict | None:
    """A cut's record, where all its pictures are in the cache, whole."""
    body = photo_keys.read_record(record)
    if body is None:
        return None
    whole = (_untouched(record.parent / name, *known) for _, _, _, name, *known in body["files"])
    return body if all(whole) else None


def _untouched(path: Path, size: int, changed: int, expected: str) -> bool:
    """Whether a file holds what was written: by its time and size, else by its bytes."""
    try:
        state = path.stat()
        if state.st_size != size:
            return False
        same = state.st_mtime_ns == changed
        return same or sha256(path.read_bytes()).hexdigest() == expected
    except OSError:
        return False
