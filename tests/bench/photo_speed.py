"""Processor time at 12 megapixels on one core: to find cards, and to make all their pictures."""

import io
import time
from dataclasses import dataclass

import cv2
import numpy as np
from photo_samples import FIRST_SEED, canny
from PIL import Image

from finder_training.scenes import draw_scene
from swapboard.disk.finder import find_cards
from swapboard.disk.pictures import encode_avif, encode_jpeg
from swapboard.photo.derive import derive, jpeg_size
from swapboard.photo.rectify import rectify, shape_of

LONG = 4000
"""px: 4000 × 3000 is 12 megapixels."""

DRAWN = 2000
"""px: scenes are drawn so large, then enlarged; drawing takes longer than finding."""

KINDS = ("single", "cluttered", "low contrast", "several", "page", "scan", "folded")

TO_FIND, ALL_FOR_ONE, EACH_FURTHER = 1.5, 2.5, 0.4
"""Seconds asked on one core."""


@dataclass(frozen=True, slots=True)
class Spent:
    """Processor seconds for one photograph; `pictures` for each of its cards."""

    kind: str
    read: float
    find: float
    pictures: tuple[float, ...]
    canny: float

    @property
    def whole(self) -> float:
        """From the file to every picture of every card."""
        return self.read + self.find + sum(self.pictures)

    @property
    def allowed(self) -> float:
        """What is asked for that, with so many cards."""
        return ALL_FOR_ONE + EACH_FURTHER * max(len(self.pictures) - 1, 0)


def print_speed(kinds: list[str] | None, seeds: int) -> None:
    """One line a photograph, then the slowest of each."""
    print(f"Processor seconds at 12 megapixels, one thread; asked: {TO_FIND} to find, "
          f"{ALL_FOR_ONE} for all of one card, {EACH_FURTHER} for each further\n")
    print(f"{'kind':14}{'cards':>5}{'read':>7}{'find':>7}{'× Canny':>9}{'a card':>9}"
          f"{'all':>8}{'allowed':>9}{'× Canny':>9}")
    spent = []
    for kind in kinds or KINDS:
        for seed in range(FIRST_SEED, FIRST_SEED + seeds):
            one = spend(kind, large(kind, seed))
            spent.append(one)
            print(_line(one), flush=True)
    slowest = max(one.find for one in spent)
    pictures = [seconds for one in spent for seconds in one.pictures]
    over = sum(one.whole > one.allowed for one in spent)
    print(f"\nto find: median {np.median([one.find for one in spent]):.2f}, slowest {slowest:.2f} "
          f"(asked {TO_FIND}); over the time allowed for all: {over} of {len(spent)}")
    if pictures:
        print(f"pictures of a card: median {np.median(pictures):.2f}, slowest {max(pictures):.2f}")


def _line(one: Spent) -> str:
    mean = np.mean(one.pictures) if one.pictures else 0.0
    return (f"{one.kind:14}{len(one.pictures):5}{one.read:7.2f}{one.find:7.2f}"
            f"{'<' if one.find > TO_FIND else ' '}{one.find / one.canny:8.1f}{mean:9.2f}"
            f"{one.whole:8.2f}{'<' if one.whole > one.allowed else ' '}{one.allowed:8.1f}"
            f"{one.whole / one.canny:9.1f}")


def large(kind: str, seed: int) -> bytes:
    """A scene held aside from training as a 12-megapixel JPEG file (or less, by its shape)."""
    picture = draw_scene(kind, seed, DRAWN).picture
    scale = LONG / max(picture.shape[:2])
    picture = cv2.resize(picture, None, fx=scale, fy=scale, interpolation=cv2.INTER_CUBIC)
    file = io.BytesIO()
    Image.fromarray(picture).save(file, "JPEG", quality=92)
    return file.getvalue()


def spend(kind: str, file: bytes) -> Spent:
    """A photograph's file read, its cards found, and every size a build makes of each."""
    picture, read = _timed(lambda: np.asarray(Image.open(io.BytesIO(file)).convert("RGB")))
    found, find = _timed(lambda: find_cards(picture))
    pictures = [_timed(lambda card=card: _pictures(picture, np.array(card.corners)))[1]
                for card in found]
    return Spent(kind, read, find, tuple(pictures), _timed(lambda: canny(picture))[1])


def _pictures(picture: np.ndarray, corners: np.ndarray) -> list[bytes]:
    """What disk/photo_work.py makes of one card."""
    arrays = derive(rectify(picture, corners, shape_of(corners)))
    sizes = [(array.shape[1], array.shape[0]) for array in arrays]
    jpeg = arrays[sizes.index(jpeg_size(sizes))]
    return [*(encode_avif(array) for array in arrays), encode_jpeg(jpeg)]


def _timed(work):
    began = time.process_time()
    result = work()
    return result, time.process_time() - began
