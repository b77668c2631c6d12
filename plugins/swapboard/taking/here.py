"""The board that a letter meets, and what is free on it."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date

from swapboard.records.types import Board, State
from swapboard.settings import Settings
from swapboard.taking.types import MAIL_COLUMNS, MAIL_TABLE, Letter, Row


@dataclass(frozen=True, slots=True)
class Here:
    """The board that a letter meets: its records, where each card stands, the names in
    photos/, and the mail addresses known of each maker."""

    board: Board
    settings: Settings
    today: date
    stands: dict[str, tuple[State, int]]
    photos: Collection[str]
    mails: dict[str, set[str]]


def mail_row(letter: Letter, maker: str, mails: dict[str, set[str]]) -> tuple[Row, ...]:
    """The sender's address, kept where none is known yet: another one might be anybody's."""
    if not letter.sender or mails.get(maker):
        return ()
    return (Row(MAIL_TABLE, MAIL_COLUMNS, (maker, letter.sender)),)
