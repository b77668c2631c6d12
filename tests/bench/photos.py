"""How well and how fast cards are found: `python tests/bench/photos.py [--seeds N] [FOLDER]`.

On invented photographs held aside from training, or on a folder of real ones
with a `truth.json` (file → {"class", "quads": [[[x, y] × 4]…], "ignore":
[polygon…]}). Prints, by class, the share of whole cards at IoU ≥ .90 and ≥ .97,
crops returned, false ones, those of them not flagged, good ones flagged though
they have a card's size, and the median corner error in % of the long side,
beside two baselines: Canny edges and the largest quadrilateral; quadrilaterals
of LSD lines. Times are ratios to the first.
"""

import argparse
import json
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import cv2
import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "plugins"), str(ROOT / "tests")]

from finder_training.scenes import KINDS, draw_scene  # noqa: E402
from swapboard.disk.finder import find_cards  # noqa: E402
from swapboard.photo.find import working_copy  # noqa: E402
from swapboard.photo.geometry import (  # noqa: E402
    from_top_left,
    intersection_over_union,
    side_lengths,
)
from swapboard.photo.lines import quads_of_lines  # noqa: E402
from swapboard.photo.proposals import plausible  # noqa: E402

Sample = tuple[str, np.ndarray, np.ndarray, np.ndarray, np.ndarray]
"""Class, picture, quads of whole cards, quads of cut and covered ones, whether each of the
whole ones is of another size, which is to be flagged."""


def baseline(picture: np.ndarray) -> list[tuple[np.ndarray, bool]]:
    """Canny edges and the largest four-cornered outline, as many tutorials have it."""
    grey = cv2.GaussianBlur(cv2.cvtColor(picture, cv2.COLOR_RGB2GRAY), (5, 5), 0)
    outlines, _ = cv2.findContours(cv2.Canny(grey, 75, 200), cv2.RETR_LIST, 2)
    for outline in sorted(outlines, key=cv2.contourArea, reverse=True)[:10]:
        shape = cv2.approxPolyDP(outline, 0.02 * cv2.arcLength(outline, True), True)
        if len(shape) == 4 and cv2.isContourConvex(shape):
            return [(from_top_left(shape.reshape(4, 2) + 0.5), False)]
    return []


def of_lines(picture: np.ndarray) -> list[tuple[np.ndarray, bool]]:
    """The quadrilateral best covered by straight segments (LSD, 2012)."""
    small, scale = working_copy(picture)
    quads = quads_of_lines(cv2.cvtColor(small, cv2.COLOR_RGB2LAB))
    return [(from_top_left(quad / scale), False) for quad in quads if plausible(quad)][:1]


def ours(picture: np.ndarray) -> list[tuple[np.ndarray, bool]]:
    """What the board itself finds, and what of it is doubtful."""
    return [(np.array(card.corners), card.doubtful) for card in find_cards(picture)]


def invented(seeds: int) -> Iterator[Sample]:
    """Scenes drawn here, none of which was trained on."""
    for kind in KINDS:
        for seed in range(1000, 1000 + seeds):
            made = draw_scene(kind, seed, 1100)
            quads = np.array([from_top_left(quad) for quad in made.quads]).reshape(-1, 4, 2)
            whole = (made.visible > 0.93) & ~made.cut
            proportions = made.sizes.max(axis=1) / made.sizes.min(axis=1)
            odd = np.abs(np.log(proportions / 1.4)) > np.log(1.05)
            yield kind, made.picture, quads[whole], quads[~whole], odd[whole]


def real(folder: Path) -> Iterator[Sample]:
    """The same of photographs with a truth.json beside them."""
    for name, truth in sorted(json.loads((folder / "truth.json").read_text()).items()):
        picture = cv2.cvtColor(cv2.imread(str(folder / name)), cv2.COLOR_BGR2RGB)
        quads = np.array([from_top_left(np.array(quad)) for quad in truth["quads"]])
        ignored = [from_top_left(np.array(q)) for q in truth["ignore"] if len(q) == 4]
        odd = np.full(len(quads), "othersize" in truth["class"])
        yield truth["class"], picture, quads, np.array(ignored).reshape(-1, 4, 2), odd


class Tally:
    """Counts for one class and one finder."""

    def __init__(self) -> None:
        self.overlaps: list[float] = []
        self.errors: list[float] = []
        self.crops = self.wrong = self.silent = self.good_flagged = 0
        self.seconds = 0.0

    def add(self, sample: Sample, finder: Callable) -> None:
        _, picture, quads, ignored, odd = sample
        began = time.process_time()
        found = finder(picture)
        self.seconds += time.process_time() - began
        for quad in quads:
            ious = [intersection_over_union(quad, corners) for corners, _ in found]
            self.overlaps.append(max(ious, default=0.0))
        for corners, doubtful in found:
            self.crops += 1
            if any(intersection_over_union(corners, quad) > 0.5 for quad in ignored):
                continue
            right = any(intersection_over_union(corners, quad) >= 0.9 for quad in quads)
            self.wrong += not right
            self.silent += not right and not doubtful
            if right:
                nearest = int(np.argmax([intersection_over_union(corners, q) for q in quads]))
                quad = quads[nearest]
                self.good_flagged += doubtful and not odd[nearest]
                away = np.linalg.norm(corners - quad, axis=1) / side_lengths(quad).max()
                self.errors.extend(100 * away)

    def line(self) -> str:
        error = f"{np.median(self.errors):6.2f}" if self.errors else "     –"
        counts = f"{self.crops:6d} {self.wrong:6d} {self.silent:7d} {self.good_flagged:8d}"
        return f"{self.shares()} {counts} {error}"

    def shares(self) -> str:
        """Shares of cards at IoU ≥ .90 and ≥ .97."""
        if not self.overlaps:
            return "    –     –"
        overlaps = np.array(self.overlaps)
        return f"{np.mean(overlaps >= 0.9):5.2f} {np.mean(overlaps >= 0.97):5.2f}"


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", nargs="?", type=Path)
    parser.add_argument("--seeds", type=int, default=10)
    chosen = parser.parse_args()
    cv2.setNumThreads(1)
    finders = (ours, baseline, of_lines)
    table: dict[str, tuple[Tally, ...]] = {}
    for sample in real(chosen.folder) if chosen.folder else invented(chosen.seeds):
        tallies = table.setdefault(sample[0], tuple(Tally() for _ in finders))
        for tally, finder in zip(tallies, finders, strict=True):
            tally.add(sample, finder)
    head = "  ≥.90  ≥.97  crops  wrong unflagged good flagged error"
    print(f"{'class':14}{'cards':>6}{head}   Canny ≥.90 ≥.97  LSD ≥.90 ≥.97  time ×")
    for kind, (mine, plain, lines) in table.items():
        ratio = mine.seconds / max(plain.seconds, 1e-9)
        print(f"{kind:14}{len(mine.overlaps):6d} {mine.line()}       {plain.shares()}"
              f"    {lines.shares()}  {ratio:6.0f}")


if __name__ == "__main__":
    main()
