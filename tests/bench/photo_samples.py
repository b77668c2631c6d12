"""Photographs with what is known of them, invented or real, and what three finders say of each."""

import json
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

import cv2
import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "plugins"), str(ROOT / "tests")]

from finder_training.scenes import draw_scene  # noqa: E402
from swapboard.disk.finder import find_cards  # noqa: E402
from swapboard.photo.find import WORKING_SIZE  # noqa: E402
from swapboard.photo.geometry import (  # noqa: E402
    from_top_left,
    intersection_over_union,
    overlap,
    side_lengths,
    signed_area,
)
from swapboard.photo.lines import quads_of_lines  # noqa: E402
from swapboard.photo.proposals import plausible  # noqa: E402
from swapboard.photo.shrinking import working_copy  # noqa: E402
from swapboard.photo.verdict import OPEN_PROPORTIONS  # noqa: E402

Answer = list[tuple[np.ndarray, bool]]
"""Corners [4, 2] px of each crop, and whether it is flagged as doubtful."""

FIRST_SEED = 1000
WHOLE = 0.93
"""Share of a card that must show for it to count as whole."""


@dataclass(frozen=True, slots=True)
class Sample:
    """A photograph and its truth, quadrilaterals [n, 4, 2] px from each card's top left.

    `whole` are the cards to be found, `odd` those of them more than 5 % off a
    card's size, open or closed, and `excused` those that may be flagged for that
    or because something covers them; `cut` leave the frame; `covered` are not
    counted either way; `pockets` are a page's empty ones.
    """

    kind: str
    picture: np.ndarray
    whole: np.ndarray
    odd: np.ndarray
    excused: np.ndarray
    cut: np.ndarray
    covered: np.ndarray
    pockets: np.ndarray


@dataclass(frozen=True, slots=True)
class Measured:
    """One photograph's counts.

    `overlaps`, `plain`, `lines`: for each whole card the best overlap over union of
    the finder's, of Canny's and of LSD's answers; `seconds`: processor time of the
    three. Of the finder's crops: `wrong` ones, `silent` those of them without a flag,
    `false` those that are on no card at all, `good` ones that should not be flagged
    and `flagged` those that are; `errors`: how far corners are off, % of the long side.
    """

    kind: str
    overlaps: tuple[float, ...]
    plain: tuple[float, ...]
    lines: tuple[float, ...]
    seconds: tuple[float, float, float]
    crops: int
    wrong: int
    silent: int
    false: int
    unflagged: int
    good: int
    flagged: int
    errors: tuple[float, ...]
    cut: tuple[int, int, int]
    """Cards cut by the frame: how many, of how many something is told, flagged each time."""
    odd: tuple[int, int]
    pockets: tuple[int, int]


def canny(picture: np.ndarray) -> Answer:
    """Canny edges and the largest four-cornered outline, as many tutorials have it."""
    grey = cv2.GaussianBlur(cv2.cvtColor(picture, cv2.COLOR_RGB2GRAY), (5, 5), 0)
    outlines, _ = cv2.findContours(cv2.Canny(grey, 75, 200), cv2.RETR_LIST, 2)
    for outline in sorted(outlines, key=cv2.contourArea, reverse=True)[:10]:
        shape = cv2.approxPolyDP(outline, 0.02 * cv2.arcLength(outline, True), True)
        if len(shape) == 4 and cv2.isContourConvex(shape):
            return [(from_top_left(shape.reshape(4, 2) + 0.5), False)]
    return []


def of_lines(picture: np.ndarray) -> Answer:
    """The quadrilateral best covered by straight segments (LSD, 2012)."""
    small, scale = working_copy(picture, WORKING_SIZE)
    quads = quads_of_lines(cv2.cvtColor(small, cv2.COLOR_RGB2LAB))
    return [(from_top_left(quad / scale), False) for quad in quads if plausible(quad)][:1]


def ours(picture: np.ndarray) -> Answer:
    """What the board itself finds, and what of it is doubtful."""
    return [(np.array(card.corners), card.doubtful) for card in find_cards(picture)]


def invented(kind: str, seed: int, long: int) -> Sample:
    """A scene drawn here, held aside from training."""
    made = draw_scene(kind, seed, long)
    quads, cut = _upright(made.quads), made.cut
    if kind == "cropped":
        # Cut a little within its card, the picture is the card all the same.
        height, width = made.picture.shape[:2]
        quads, cut = np.clip(quads, 0, (width, height)), cut & False
    whole = (made.visible > WHOLE) & ~cut
    odd = off_size(made.sizes.max(axis=1) / made.sizes.min(axis=1))[whole]
    pockets = made.decoys if kind == "page" else made.decoys[:0]
    return Sample(
        kind, made.picture, quads[whole], odd, odd, quads[cut], quads[~whole & ~cut], pockets)


def real(folder: Path, name: str, truth: dict) -> Sample:
    """A photograph with its entry of the folder's truth.json."""
    picture = cv2.cvtColor(cv2.imread(str(folder / name)), cv2.COLOR_BGR2RGB)
    quads = _upright(truth["quads"])
    flags = truth.get("flags") or [[] for _ in quads]
    cut = np.array(["cut" in told for told in flags], bool)
    covered = np.array([bool(told) for told in flags], bool)[~cut]
    odd = np.full(len(covered), "othersize" in truth["class"])
    ignored = _upright([quad for quad in truth["ignore"] if len(quad) == 4])
    return Sample(
        truth["class"], picture, quads[~cut], odd, odd | covered, quads[cut], ignored, ignored[:0])


def truths(folder: Path) -> list[tuple[str, dict]]:
    """The files of a folder of real photographs with what is known of each."""
    return sorted(json.loads((folder / "truth.json").read_text("utf-8")).items())


def off_size(proportions: np.ndarray) -> np.ndarray:
    """Which proportions (long over short) are over 5 % off a card's, lying open or closed."""
    known = np.array([1.4, *OPEN_PROPORTIONS])
    return np.abs(np.log(proportions[:, None] / known)).min(axis=1) > np.log(1.05)


def measure(sample: Sample) -> Measured:
    """The sample shown to the three finders."""
    answers, seconds = zip(
        *(_timed(finder, sample.picture) for finder in (ours, canny, of_lines)), strict=True)
    mine = answers[0]
    nearest = [_nearest(corners, sample.whole) for corners, _ in mine]
    right = [(crop, flag, which) for (crop, flag), (which, best)
             in zip(mine, nearest, strict=True) if best >= 0.9]
    wrong = [one for one, (_, best) in zip(mine, nearest, strict=True)
             if best < 0.9 and not _passes(*one, sample)]
    cards = np.concatenate([sample.whole, sample.cut])
    cut = [[flag for crop, flag in mine if _is_of(crop, quad)] for quad in sample.cut]
    usual = [flag for _, flag, which in right if not sample.excused[which]]
    odd = [flag for _, flag, which in right if sample.odd[which]]
    crops = np.array([crop for crop, _ in mine]).reshape(-1, 4, 2)
    taken = [pocket for pocket in sample.pockets if _nearest(pocket, crops)[1] > 0.5]
    return Measured(
        sample.kind, *(_overlaps(sample.whole, answer) for answer in answers), seconds=seconds,
        crops=len(mine), unflagged=sum(not flag for _, flag in mine),
        wrong=len(wrong), silent=sum(not flag for _, flag in wrong),
        false=sum(_nearest(crop, cards)[1] < 0.5 for crop, _ in wrong),
        good=len(usual), flagged=sum(usual),
        errors=tuple(error for crop, _, which in right for error in _errors(crop, sample, which)),
        cut=(len(cut), sum(map(bool, cut)), sum(bool(told) and all(told) for told in cut)),
        odd=(len(odd), sum(odd)), pockets=(len(sample.pockets), len(taken)),
    )


def _passes(crop: np.ndarray, flagged: bool, sample: Sample) -> bool:
    """Whether a crop of no whole card is right all the same: of one that something covers, or,
    where it is flagged, of one that the frame cuts."""
    if _nearest(crop, sample.covered)[1] >= 0.5:
        return True
    return flagged and any(_is_of(crop, quad) for quad in sample.cut)


def _errors(crop: np.ndarray, sample: Sample, which: int) -> list[float]:
    quad = sample.whole[which]
    away = np.linalg.norm(crop - quad, axis=1) / side_lengths(quad).max()
    return (100 * away).tolist()


def _timed(finder: Callable[[np.ndarray], Answer], picture: np.ndarray) -> tuple[Answer, float]:
    began = time.process_time()
    found = finder(picture)
    return found, time.process_time() - began


def _overlaps(quads: np.ndarray, found: Answer) -> tuple[float, ...]:
    crops = np.array([corners for corners, _ in found]).reshape(-1, 4, 2)
    return tuple(_nearest(quad, crops)[1] for quad in quads)


def _nearest(corners: np.ndarray, quads: np.ndarray) -> tuple[int, float]:
    """Which of the quads overlaps most, and its overlap over union; (-1, 0) where none does."""
    overlaps = [intersection_over_union(corners, quad) for quad in quads]
    best = max(range(len(overlaps)), key=overlaps.__getitem__, default=-1)
    return best, overlaps[best] if overlaps else 0.0


def _is_of(crop: np.ndarray, cut: np.ndarray) -> bool:
    """Whether a crop shows a card that the frame cuts: most of it lies on that card."""
    shared = overlap(crop, cut)
    return shared > 0.5 * abs(signed_area(crop)) and shared > 0.15 * abs(signed_area(cut))


def _upright(quads: Sequence) -> np.ndarray:
    return np.array([from_top_left(np.array(quad)) for quad in quads]).reshape(-1, 4, 2)
