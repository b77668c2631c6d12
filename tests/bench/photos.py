"""How well and how fast cards are found: `python tests/bench/photos.py [FOLDER]`.

On invented photographs held aside from training, or on a folder of real ones
with a `truth.json` (file → {"class", "quads": [[[x, y] × 4]…], "ignore":
[polygon…], "flags": a list of words for each quad}). By class, what is asked and
what came of it: the share of whole cards at IoU ≥ .90 and ≥ .97, beside two
baselines (Canny edges and the largest quadrilateral; quadrilaterals of LSD lines),
then what the crops themselves must keep to. What falls short is marked "<".
Times are processor time as a ratio to the first baseline in the same run.
`--twelve` measures 12-megapixel photographs instead (see `photo_speed.py`).
"""

import argparse
import os
import sys
from collections.abc import Iterator
from multiprocessing import get_context
from pathlib import Path

# Read by the numerical libraries when they are first imported.
os.environ.update(OPENBLAS_NUM_THREADS="1", OMP_NUM_THREADS="1")

import cv2
import numpy as np

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parents[1] / "plugins")]

from photo_samples import FIRST_SEED, Measured, invented, measure, ours, real, truths  # noqa: E402

from finder_training.scenes import KINDS  # noqa: E402

ASKED = {
    "single": (0.99, 0.98), "cluttered": (0.95, 0.90), "low contrast": (0.95, 0.85),
    "several": (0.95, 0.92), "page": (0.95, 0.85), "scan": (0.99, 0.96),
    "cropped": (0.98, 0.98), "folded": (0.97, 0.93), "other": (0.97, 0.92),
}
"""Shares of whole cards at IoU ≥ .90 and ≥ .97; kinds not named here are shown without."""

ASKED_REAL = (0.96, 0.93)


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", nargs="?", type=Path, help="real photographs with truth.json")
    parser.add_argument("--seeds", type=int, default=10, help="scenes of each kind")
    parser.add_argument("--long", type=int, default=1100, help="their long side in px")
    parser.add_argument("--kinds", help=f"some of: {', '.join(KINDS)}")
    parser.add_argument("--processes", type=int, default=1, help="scenes measured at once")
    parser.add_argument("--twelve", action="store_true", help="times at 12 megapixels instead")
    chosen = parser.parse_args()
    kinds = [kind.strip() for kind in chosen.kinds.split(",")] if chosen.kinds else list(KINDS)
    unknown = [kind for kind in kinds if kind not in KINDS]
    if unknown:
        parser.error(f"--kinds: no kind is called {', '.join(unknown)}; {', '.join(KINDS)} are")
    if chosen.twelve:
        from photo_speed import print_speed

        set_up()
        print_speed(kinds if chosen.kinds else None, chosen.seeds)
        return
    if chosen.folder:
        tasks = [(chosen.folder, *one) for one in truths(chosen.folder)]
    else:
        seeds = range(FIRST_SEED, FIRST_SEED + chosen.seeds)
        tasks = [(kind, seed, chosen.long) for kind in kinds for seed in seeds]
    measured = list(measured_all(tasks, chosen.processes))
    print_table(measured, {} if chosen.folder else ASKED)
    print_rest(measured, bool(chosen.folder))


def measured_all(tasks: list[tuple], processes: int) -> Iterator[Measured]:
    """Each task measured, in order, on so many processes of one thread each."""
    if processes <= 1:
        set_up()
        yield from map(_work, tasks)
        return
    # Forked processes would share the networks of this one.
    with get_context("spawn").Pool(processes, set_up) as pool:
        yield from pool.imap(_work, tasks)


def set_up() -> None:
    """One thread, and what is loaded once loaded before anything is timed."""
    cv2.setNumThreads(1)
    ours(np.random.default_rng(1).integers(0, 255, (300, 400, 3), np.uint8))


def _work(task: tuple) -> Measured:
    return measure(real(*task) if isinstance(task[0], Path) else invented(*task))


def print_table(measured: list[Measured], asked: dict[str, tuple[float, float]]) -> None:
    """One line a class: pictures, cards, shares asked and got, baselines, counts, time."""
    print(f"{'':14}{'pic-':>5}{'':6}   IoU ≥ .90     IoU ≥ .97     Canny       LSD      "
          f"         un-   good    corner  time")
    print(f"{'class':14}{'tures':>5}{'cards':>6}   asked got     asked got     .90 .97    .90 .97  "
          f" wrong flagged flagged error %  ×")
    for kind in dict.fromkeys(one.kind for one in measured):
        want = asked.get(kind, (None, None))
        print(_row(kind, [one for one in measured if one.kind == kind], want))
    print(_row("over all", measured, (None, None) if asked else ASKED_REAL))


def _row(name: str, some: list[Measured], want: tuple[float | None, float | None]) -> str:
    mine, plain, lines = (
        [overlap for one in some for overlap in getattr(one, which)]
        for which in ("overlaps", "plain", "lines")
    )
    shares = "  ".join(
        _asked_got(least, share_of(mine, at)) for least, at in zip(want, (0.9, 0.97), strict=True))
    baselines = "   ".join(
        f"{_share(share_of(other, 0.9))} {_share(share_of(other, 0.97))}"
        for other in (plain, lines))
    wrong, silent, flagged = (
        sum(getattr(one, count) for one in some) for count in ("wrong", "silent", "flagged"))
    errors = [error for one in some for error in one.errors]
    error = f"{np.median(errors):7.2f}" if errors else "      –"
    seconds = np.sum([one.seconds for one in some], axis=0)
    return (f"{name:14}{len(some):5}{len(mine):6}   {shares}  {baselines}  {wrong:6}{silent:8}"
            f"{flagged:8} {error}{seconds[0] / max(seconds[1], 1e-9):6.0f}")


def print_rest(measured: list[Measured], is_real: bool) -> None:
    """What is asked of the crops, beyond where the cards are."""
    print(f"\n{'what else':52}asked     got")
    of = {kind: [m for m in measured if m.kind == kind] for kind in KINDS}
    if of["single"]:
        errors = [error for m in of["single"] for error in m.errors] or [np.inf]
        _line("single: corner error, median % of the long side", 0.15, np.median(errors))
    cut = np.sum([m.cut for m in measured], axis=0)
    missed = f"; {cut[0] - cut[1]} cut cards more are not told at all" if cut[0] > cut[1] else ""
    _share_line("cut by the frame: flagged, of those told", 1.0, cut[2], cut[1], missed, least=True)
    for kind, some in of.items():
        if kind in ("several", "grid") and some:
            false = sum(m.false for m in some)
            _share_line(f"{kind}: false crops a picture", 0.05, false, len(some))
    pockets = np.sum([m.pockets for m in measured], axis=0)
    _share_line("page: empty pockets taken", 0.02, pockets[1], pockets[0])
    odd = np.sum([m.odd for m in measured], axis=0)
    _share_line("sizes over 5 % off: flagged, of those found", 0.95, odd[1], odd[0], least=True)
    silent = sum(m.unflagged > 0 for m in of["none"])
    _share_line("none: pictures with an unflagged crop", 0.03, silent, len(of["none"]))
    crops, good = sum(m.crops for m in measured), sum(m.good for m in measured)
    _share_line("over all: crops wrong and unflagged", 0.01, sum(m.silent for m in measured), crops)
    if not is_real:
        _share_line("over all: good crops flagged", 0.08, sum(m.flagged for m in measured), good)
    _share_line("over all: false crops a picture", None, sum(m.false for m in measured),
                len(measured))


def share_of(overlaps: list[float], at: float) -> float | None:
    """The share of overlaps that come up to `at`."""
    return float(np.mean(np.array(overlaps) >= at)) if overlaps else None


def _share(share: float | None) -> str:
    return "  –" if share is None else f"{share:.2f}".replace("0.", " .").rjust(4)


def _asked_got(least: float | None, got: float | None) -> str:
    short = least is not None and got is not None and got < least
    asked = "   –" if least is None else _share(least)
    return f"{asked} {_share(got):>5}{'<' if short else ' '}"


def _share_line(
    what: str, asked: float | None, part: int, whole: int, more: str = "", least: bool = False
) -> None:
    """A line on a share; nothing where there is nothing to count."""
    if whole:
        _line(what, asked, part / whole, f"   ({part} of {whole}{more})", least)


def _line(what: str, asked: float | None, got: float, more: str = "", least: bool = False) -> None:
    short = asked is not None and (got < asked if least else got > asked)
    limit = "–" if asked is None else f"{'≥' if least else '≤'} {asked:.2f}"
    print(f"{what:52}{limit:6}  {got:6.3f}{'<' if short else ' '}{more}")


if __name__ == "__main__":
    main()
