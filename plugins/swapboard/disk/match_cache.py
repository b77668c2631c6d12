"""Proposed swaps kept beside the board, so that an unchanged one is not searched again."""

import json
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from typing import Any

from swapboard.disk.contain import contained, write_whole
from swapboard.disk.load import Loaded
from swapboard.disk.photo_keys import digest
from swapboard.matching.types import Level, Market, Move, Parcel, Proposals, Swap
from swapboard.records.types import Board

_LARGEST = 200_000_000


def key_of(market: Market, rings: int) -> str:
    """A digest of all that decides what is found, but for the time that it may take."""
    return digest(part.encode("utf-8", "surrogatepass") for part in (
        repr(market), str(rings), _code()
    ))


def known(loaded: Loaded, rings: int, key: str, seconds: int) -> Proposals | None:
    """What was kept under `key`, where it was proven or looked for `seconds` or longer.

    None as well where the file is not there, of another board or damaged: whoever
    asks must check what is given, and can always look anew.
    """
    file = _file(loaded.folder, rings)
    try:
        if file.stat().st_size > _LARGEST:
            return None
        data = json.loads(file.read_bytes())
        if data["key"] != key:
            return None
        found = _read(data["proposals"], loaded.board)
        proven = all(level.proven for level in found.levels)
        return found if proven or data["seconds"] >= seconds else None
    except (OSError, ValueError, KeyError, TypeError, IndexError, AttributeError, RecursionError):
        return None


def keep(loaded: Loaded, proposals: Proposals, key: str, seconds: int) -> None:
    """Keep what was found in `seconds`. Raises OSError where it cannot be written."""
    file = _file(loaded.folder, proposals.rings)
    if not contained(loaded.folder, file):
        return
    told = {"key": key, "seconds": seconds, "proposals": _told(proposals, loaded.board)}
    write_whole(file, json.dumps(told, ensure_ascii=False).encode("utf-8", "surrogatepass"))


def _file(folder: Path, rings: int) -> Path:
    return folder / ".swapboard" / f"swaps-{rings}.json"


def _told(proposals: Proposals, board: Board) -> dict[str, Any]:
    """Proposals as JSON; a want goes by its place among its maker's likes."""
    return {
        "rings": proposals.rings,
        "late": proposals.late,
        "levels": [
            [level.name, level.goal, level.value, level.bound, level.proven]
            for level in proposals.levels
        ],
        "swaps": [
            [
                [parcel.giver, parcel.taker, [
                    [move.card, board.makers[parcel.taker].likes.index(move.want)]
                    for move in parcel.moves
                ]]
                for parcel in swap.parcels
            ]
            for swap in proposals.swaps
        ],
    }


def _read(data: dict[str, Any], board: Board) -> Proposals:
    return Proposals(
        data["rings"],
        tuple(Swap(tuple(_parcel(parcel, board) for parcel in swap)) for swap in data["swaps"]),
        tuple(Level(*level) for level in data["levels"]),
        bool(data["late"]),
    )


def _parcel(data: list[Any], board: Board) -> Parcel:
    giver, taker, moves = data
    likes = board.makers[taker].likes
    return Parcel(giver, taker, tuple(Move(card, giver, taker, likes[at]) for card, at in moves))


@cache
def _code() -> str:
    """A digest of the code that searches, and the version of the solver."""
    here = Path(__file__).resolve().parents[1] / "matching"
    try:
        solver = version("highspy")
    except PackageNotFoundError:
        solver = ""
    return digest([solver.encode(), *(file.read_bytes() for file in sorted(here.glob("*.py")))])
