"""`swapboard build`: the same Pelican run that `pelican -s pelicanconf.py` makes."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from pelican.settings import read_settings

from swapboard.problems import Problem
from swapboard.site.conf import settings_for
from swapboard.site.pelican_class import BoardRefused, SwapboardPelican
from swapboard.site.prepare import Wishes
from swapboard.vocabulary.counts import counted


@dataclass(frozen=True, slots=True)
class Built:
    """What came of a build; `words` say it in one line."""

    done: bool
    problems: list[Problem]
    left_out: tuple[str, ...] = ()
    words: str = ""


def build_board(
    board: Path,
    output: Path | None = None,
    today: date | None = None,
    set_aside: bool = False,
    progress: Callable[[int, int], None] | None = None,
    workers: int | None = None,
) -> Built:
    """Build `board` into `output` (BOARD/output if None) for the day `today`."""
    if not board.is_dir():
        problem = Problem(str(board), 0, "", "must be a board's folder", None,
                          "name the folder of a board, or make one with: swapboard start FOLDER")
        return Built(False, [problem])
    wishes = Wishes(today, set_aside, workers, quiet=True, progress=progress)
    live = output.absolute() if output else None
    settings = read_settings(override=settings_for(board, live, wishes))
    run = SwapboardPelican(settings)
    try:
        run.run()
    except BoardRefused as refused:
        left_out = run.report.left_out if run.report else ()
        return Built(False, refused.problems, left_out)
    report = run.report
    assert report is not None
    made = report.loaded.board
    words = (
        f"Built {counted(len(made.cards), 'card')}, {counted(len(made.makers), 'maker')}, "
        f"{counted(len(made.calls), 'call')} and {counted(len(made.offers), 'offer')}: "
        f"{Path(settings['OUTPUT_PATH']) / 'index.html'}"
    )
    return Built(True, list(report.loaded.problems), report.left_out, words)
