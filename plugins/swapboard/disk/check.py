"""`check`: every problem of a board, with nothing written."""

from pathlib import Path

from swapboard.disk.load import Loaded, load_board
from swapboard.disk.pictures import read_picture
from swapboard.problems import Problem, in_order


def check_board(folder: Path) -> list[Problem]:
    """All problems of the board in `folder`, the worst first: its posts, how they
    fit together, and whether each picture that a post names can be used."""
    loaded = load_board(folder)
    return in_order([*loaded.problems, *_pictures(loaded)])


def _pictures(loaded: Loaded) -> list[Problem]:
    spots = {card.photo for card in loaded.board.cards.values()}
    spots |= {card.back for card in loaded.board.cards.values()}
    named = {spot.file for spot in spots if spot is not None}
    problems = []
    for name in sorted(named & loaded.texts.photos):
        path = f"photos/{name}"
        problems += read_picture(loaded.folder / path, path, loaded.settings.photos)[2]
    return problems
