"""Every card of a board cut out of its photo, from the cache where it can be.

The cache lies in BOARD/.swapboard/cache: notes of the photos' digests, what
was found in each photo, and each cut card's pictures. A damaged entry is as
good as none. Nothing in it is ever needed: it can be deleted at any time.
"""

import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from swapboard.disk import photo_keys
from swapboard.disk.contain import contained
from swapboard.disk.photo_settle import Request
from swapboard.disk.photo_work import CutCard, PhotoJob, PhotoResult, from_cache, work
from swapboard.disk.worker_pool import Crashed, run_jobs
from swapboard.problems import Problem, in_order
from swapboard.settings import PhotoSettings

__all__ = ["CutCard", "Request", "cache_folder", "cut_all", "prune", "results"]

FEW = 2
"""So few photos are done before worker processes would have started."""

MOST_WORKERS = 8


def cache_folder(board_folder: Path) -> Path:
    """Where the pictures named in `CutCard.files` lie."""
    return board_folder / ".swapboard" / "cache"


def cut_all(
    board_folder: Path,
    wanted: Sequence[Request],
    limits: PhotoSettings,
    *,
    workers: int | None = None,
    progress: Callable[[int, int], None] | None = None,
    cache: Path | None = None,
) -> tuple[dict[tuple[str, str], CutCard], list[Problem]]:
    """Cut every wanted card out of its photo.

    Answers the cut cards by (card, side), in sorted order, and all problems.
    Each photo is decoded once for all its cards, and only where the cache lacks
    something. `workers`: how many processes (None: one per core); the result
    does not depend on it. `progress(done, total)` counts photos. What the
    board's cache lacks is written to the folder `cache`, or to the board's own
    where that is None.
    """
    by_photo: dict[str, list[Request]] = {}
    for request in wanted:
        by_photo.setdefault(request.spot.file, []).append(request)
    cut: dict[tuple[str, str], CutCard] = {}
    told: list[Problem] = []
    for result in results(
        board_folder, by_photo, limits, workers=workers, progress=progress, cache=cache
    ):
        told.extend(result.problems)
        for request, card in zip(by_photo[result.name], result.cuts, strict=True):
            if card is not None:
                cut[request.card, request.side] = card
    return dict(sorted(cut.items())), in_order(told)


def results(
    board_folder: Path,
    by_photo: dict[str, list[Request]],
    limits: PhotoSettings,
    *,
    workers: int | None = None,
    progress: Callable[[int, int], None] | None = None,
    cache: Path | None = None,
) -> list[PhotoResult]:
    """What came of each photo (by its name in photos/) and its requests, by name."""
    notes = photo_keys.DigestNotes(cache_folder(board_folder) / "photos.json")
    done: dict[str, PhotoResult] = {}
    jobs: list[PhotoJob] = []
    for name in sorted(by_photo):
        job = _job(board_folder, name, by_photo[name], limits, notes)
        known = from_cache(job) if isinstance(job, PhotoJob) else job
        if known is None:
            jobs.append(job if cache is None else replace(job, cache=str(cache)))
        else:
            done[name] = known
    if cache is None:
        notes.save()
    _tell(progress, len(done), len(by_photo))
    for result in _worked(jobs, workers):
        done[result.name] = result
        _tell(progress, len(done), len(by_photo))
    return [done[name] for name in sorted(done)]


def prune(board_folder: Path, keep: Iterable[CutCard]) -> int:
    """Remove what the cache holds beyond the kept cards; how many files went.

    Kept are the pictures and records of `keep`, and what was found in photos
    that were asked for last.
    """
    cache = cache_folder(board_folder)
    keys = {card.key for card in keep}
    photos = photo_keys.DigestNotes(cache / "photos.json").digests()
    gone = 0
    for path in sorted(cache.glob("*")) if cache.is_dir() else ():
        if not _in_use(path, keys, photos):
            path.unlink(missing_ok=True)
            gone += 1
    return gone


def _in_use(path: Path, keys: set[str], photos: set[str]) -> bool:
    if path.name.startswith("card-"):
        return path.name.split("-")[1] in keys
    if path.name.startswith(("cut-", "found-")):
        body = photo_keys.read_record(path) or {}
        return body.get("photo") in photos and body.get("key") in {*keys, None}
    # Another process may be writing a file under a passing name that begins with a dot.
    return path.name == "photos.json" or path.name.startswith(".")


def _tell(progress: Callable[[int, int], None] | None, done: int, total: int) -> None:
    if progress is not None:
        progress(done, total)


def _job(
    board_folder: Path,
    name: str,
    requests: Sequence[Request],
    limits: PhotoSettings,
    notes: photo_keys.DigestNotes,
) -> PhotoJob | PhotoResult:
    """The work on one photo, or at once what is wrong with the file."""
    folder = board_folder / "photos"
    path = folder / name
    nothing = (None,) * len(requests)
    if not contained(folder, path):
        problem = Problem(f"photos/{name}", 0, "", "must lie in photos/", name, "move it there")
        return PhotoResult(name, None, None, nothing, (problem,))
    try:
        digest = notes.sha256_of(path, name) if path.is_file() else ""
    except OSError:
        digest = ""
    # Without a digest nothing is in the cache, and reading will name what is wrong.
    cache = str(cache_folder(board_folder))
    return PhotoJob(name, str(path), digest, cache, limits, tuple(requests))


def _worked(jobs: Sequence[PhotoJob], workers: int | None) -> Iterator[PhotoResult]:
    count = min(workers or _cores(), MOST_WORKERS, len(jobs))
    if count <= 1 or len(jobs) <= FEW:
        for job in jobs:
            yield work(job)
        return
    for index, result in run_jobs(work, jobs, count):
        yield _crash(jobs[index], result) if isinstance(result, Crashed) else result


def _crash(job: PhotoJob, crashed: Crashed) -> PhotoResult:
    must = "must be a picture that can be worked on"
    got = f"the process cutting it ended with code {crashed.code}"
    fix = "save the photo smaller: most likely the memory did not suffice"
    problem = Problem(f"photos/{job.name}", 0, "", must, got, fix)
    return PhotoResult(job.name, None, None, (None,) * len(job.requests), (problem,))


def _cores() -> int:
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1
