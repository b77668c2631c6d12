"""`check`: every problem that a build would name, with nothing written."""

import os
import tempfile
from collections.abc import Callable
from pathlib import Path

from swapboard.disk import leaks
from swapboard.disk.announced import moved_dates
from swapboard.disk.cutting import cut_photos
from swapboard.disk.forget_journal import cut_short
from swapboard.disk.load import Loaded, load_board
from swapboard.disk.print_fonts import paper_problems
from swapboard.disk.trouble import problem_of
from swapboard.problems import Problem, in_order


def check_board(
    folder: Path,
    progress: Callable[[int, int], None] | None = None,
    workers: int | None = None,
) -> list[Problem]:
    """All problems of the board in `folder`, the worst first: its posts, how they
    fit together, what is cut out of its photos, private things in public texts.

    Nothing is written into the folder: what the photo cache lacks is cut anew
    each time. `progress(done, total)` counts photos.
    """
    loaded = load_board(folder)
    if not os.path.isfile(folder / "board.toml"):
        return list(loaded.problems)
    try:
        with tempfile.TemporaryDirectory(prefix="swapboard-") as cache:
            cut = cut_photos(loaded, workers, progress, Path(cache))[1]
    except OSError as error:
        cut = [problem_of(error, tempfile.gettempdir())]
    more = [*moved_dates(folder, loaded.board), *cut_short(folder), *paper_problems(loaded)]
    return in_order([*loaded.problems, *cut, *more, *_private(loaded)])


def _private(loaded: Loaded) -> list[Problem]:
    """Private fields in the texts that pages are made from, as `leaks` finds them."""
    fields, problems = leaks.private_fields(loaded.folder)
    if not fields:
        return problems
    scan = leaks.LeakScan(fields)
    for path, text in sorted(loaded.texts.texts.items()):
        for field in scan.found_in(text):
            problems.append(leaks.told_of(field, path, _line_of(scan, field, text)))
    return problems


def _line_of(scan: leaks.LeakScan, field: leaks.PrivateField, text: str) -> int:
    """The last line of the shortest beginning of `text` that holds the field."""
    lines = text.splitlines(keepends=True)
    first, last = 1, len(lines)
    while first < last:
        middle = (first + last) // 2
        if field in scan.found_in("".join(lines[:middle])):
            last = middle
        else:
            first = middle + 1
    return first
