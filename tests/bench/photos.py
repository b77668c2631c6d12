"""How well and how fast cards are found: `python tests/bench/photos.py [--seeds N] [FOLDER]`.

On invented photographs, or on a folder of real ones with a `truth.json` (file →
{"class", "quads": [[[x, y] × 4]…], "ignore": [polygon…]}). Prints, by class,
the share of cards at IoU ≥ .90 and ≥ .97, false crops, those of them not
flagged, and good ones flagged, beside a baseline of Canny edges and the
largest quadrilateral; times are ratios to that baseline.
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

from photo.scenes import CLASSES, scene  # noqa: E402
from swapboard.photo.find import find_cards  # noqa: E402
from swapboard.photo.geometry import from_top_left, intersection_over_union  # noqa: E402

Sample = tuple[str, np.ndarray, np.ndarray, np.ndarray]


def baseline(picture: np.ndarray) -> list[tuple[np.ndarray, bool]]:
    """Canny edges and the largest four-cornered outline, as many tutorials have it."""
    grey = cv2.GaussianBlur(cv2.cvtColor(picture, cv2.COLOR_RGB2GRAY), (5, 5), 0)
    outlines, _ = cv2.findContours(cv2.Canny(grey, 75, 200), cv2.RETR_LIST, 2)
    for outline in sorted(outlines, key=cv2.contourArea, reverse=True)[:10]:
        shape = cv2.approxPolyDP(outline, 0.02 * cv2.arcLength(outline, True), True)
        if len(shape) == 4 and cv2.isContourConvex(shape):
            return [(from_top_left(shape.reshape(4, 2) + 0.5), False)]
    return []


def ours(picture: np.ndarray) -> list[tuple[np.ndarray, bool]]:
    """What the board itself finds, and what of it is doubtful."""
    return [(np.array(card.corners), card.doubtful) for card in find_cards(picture)]


def invented(seeds: int) -> Iterator[Sample]:
    """(class, picture, quads, ignored quads) of drawn scenes."""
    for kind in CLASSES:
        for seed in range(1000, 1000 + seeds):
            made = scene(kind, seed)
            yield kind, made.picture, made.quads, np.zeros((0, 4, 2))


def real(folder: Path) -> Iterator[Sample]:
    """The same of photographs with a truth.json beside them."""
    for name, truth in sorted(json.loads((folder / "truth.json").read_text()).items()):
        picture = cv2.cvtColor(cv2.imread(str(folder / name)), cv2.COLOR_BGR2RGB)
        quads = np.array([from_top_left(np.array(quad)) for quad in truth["quads"]])
        ignored = [from_top_left(np.array(q)) for q in truth["ignore"] if len(q) == 4]
        yield truth["class"], picture, quads, np.array(ignored).reshape(-1, 4, 2)


class Tally:
    """Counts for one class and one finder."""

    def __init__(self) -> None:
        self.overlaps: list[float] = []
        self.wrong = self.silent = self.good_flagged = 0
        self.seconds = 0.0

    def add(self, sample: Sample, finder: Callable) -> None:
        _, picture, quads, ignored = sample
        began = time.process_time()
        found = finder(picture)
        self.seconds += time.process_time() - began
        for quad in quads:
            ious = [intersection_over_union(quad, corners) for corners, _ in found]
            self.overlaps.append(max(ious, default=0.0))
        for corners, doubtful in found:
            if any(intersection_over_union(corners, quad) > 0.5 for quad in ignored):
                continue
            right = any(intersection_over_union(corners, quad) >= 0.9 for quad in quads)
            self.wrong += not right
            self.silent += not right and not doubtful
            self.good_flagged += right and doubtful

    def line(self) -> str:
        overlaps = np.array(self.overlaps)
        shares = f"{np.mean(overlaps >= 0.9):5.2f} {np.mean(overlaps >= 0.97):5.2f}"
        return f"{shares} {self.wrong:6d} {self.silent:7d} {self.good_flagged:8d}"


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", nargs="?", type=Path)
    parser.add_argument("--seeds", type=int, default=10)
    chosen = parser.parse_args()
    cv2.setNumThreads(1)
    table: dict[str, tuple[Tally, Tally]] = {}
    for sample in real(chosen.folder) if chosen.folder else invented(chosen.seeds):
        pair = table.setdefault(sample[0], (Tally(), Tally()))
        pair[0].add(sample, ours)
        pair[1].add(sample, baseline)
    head = "  ≥.90  ≥.97  wrong unflagged good flagged"
    print(f"{'class':16}{'cards':>6}{head}   baseline: ≥.90 ≥.97   time ×")
    for kind, (mine, plain) in table.items():
        ratio = mine.seconds / max(plain.seconds, 1e-9)
        overlaps = np.array(plain.overlaps)
        other = f"{np.mean(overlaps >= 0.9):12.2f} {np.mean(overlaps >= 0.97):5.2f}"
        print(f"{kind:16}{len(overlaps):6d} {mine.line()} {other} {ratio:9.0f}")


if __name__ == "__main__":
    main()
