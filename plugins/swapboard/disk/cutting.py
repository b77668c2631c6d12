"""A board's cards and their photos: what is to be cut, and what was found."""

import os
from collections.abc import Callable, Sequence
from pathlib import Path

from swapboard.disk.load import Loaded, load_board
from swapboard.disk.photo_cache import CutCard, Request, cut_all
from swapboard.disk.photo_report import report_board, report_files
from swapboard.problems import Problem
from swapboard.records.types import Board

Progress = Callable[[int, int], None]


def cut_photos(
    loaded: Loaded,
    workers: int | None,
    progress: Progress | None,
    cache: Path | None = None,
) -> tuple[dict[tuple[str, str], CutCard], list[Problem]]:
    """Cut every card of the board out of its photo.

    What the board's photo cache lacks is written to the folder `cache`; to the
    board's own where that is None.
    """
    return cut_all(
        loaded.folder, wanted_in(loaded), loaded.settings.photos,
        workers=workers, progress=progress, cache=cache,
    )


def wanted_in(loaded: Loaded) -> list[Request]:
    """What is to be cut, where the photo is there (where not, that is a problem already)."""
    return [r for r in requests_of(loaded.board) if r.spot.file in loaded.texts.photos]


def requests_of(board: Board) -> list[Request]:
    """What is to be cut: each card's front, and its back where it has one."""
    wanted = []
    for card in board.cards.values():
        for side, spot in (("front", card.photo), ("back", card.back)):
            if spot is not None:
                key = "photo" if side == "front" else "back"
                corners = card.cut_out_at if side == "front" else None
                line = card.lines.get(key, 0)
                wanted.append(
                    Request(card.name, side, spot, corners, card.panels, card.path, line)
                )
    return wanted


def report_on(paths: Sequence[Path], progress: Progress | None = None) -> dict:
    """What was found in some picture files, or in the photos of one board's folder;
    see `photo_report` for the form."""
    if len(paths) == 1 and paths[0].is_dir():
        loaded = load_board(paths[0])
        if not os.path.isfile(paths[0] / "board.toml"):
            return report_board(paths[0], [], loaded.settings.photos)
        wanted = wanted_in(loaded)
        return report_board(paths[0], wanted, loaded.settings.photos, progress=progress)
    return report_files(paths)
