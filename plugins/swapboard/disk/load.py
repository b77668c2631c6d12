"""A board from its folder: read, parsed and checked, with every problem it has."""

import os
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from swapboard.disk.board_folder import BoardTexts, read_texts
from swapboard.disk.body_limits import body_problems
from swapboard.disk.today import the_day
from swapboard.problems import Problem, errors, in_order
from swapboard.records.board import read_board
from swapboard.records.types import Board
from swapboard.settings import Settings, read_settings


@dataclass(frozen=True, slots=True)
class Loaded:
    """A board as it was read on the day `today`. `problems` are in order, the
    worst first."""

    folder: Path
    texts: BoardTexts
    board: Board
    settings: Settings
    today: date
    problems: tuple[Problem, ...]

    def with_problems(self, more: list[Problem]) -> "Loaded":
        """The same board with further problems known."""
        return replace(self, problems=tuple(in_order([*self.problems, *more])))


def load_board(folder: Path, today: date | None = None) -> Loaded:
    """Read the board in `folder` for the day `today` (else SOURCE_DATE_EPOCH, else
    now); never raises for what a keeper can have written."""
    texts, problems = read_texts(folder)
    settings, _ = read_settings(texts.texts.get("board.toml", ""))
    day = the_day(today, settings.board.time_zone)
    if not os.path.isfile(folder / "board.toml"):
        return Loaded(folder, texts, Board({}, {}, {}, {}, {}), settings, day, tuple(problems))
    # A post that cannot be read still exists: whoever refers to it is not wrong.
    unread = {problem.path for problem in errors(problems)}
    board, settings, more = read_board(texts.texts, texts.photos, unread=unread, today=day)
    told = in_order([*problems, *more, *body_problems(texts.texts)])
    return Loaded(folder, texts, board, settings, day, tuple(told))
