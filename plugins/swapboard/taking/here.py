"""The board that a letter meets, and what is free on it."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date

from swapboard.records.types import Board, State
from swapboard.settings import Settings
from swapboard.taking.types import MAIL_COLUMNS, MAIL_TABLE, Letter, Row
from swapboard.vocabulary import slug, stem_of


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


def free_name(wanted: str, taken: Collection[str]) -> str:
    """A name made from a text, with a number after it where a name of `taken` is the same
    web address."""
    stem = stem_of(wanted)
    slugs = {slug(name) for name in taken}
    if stem not in slugs:
        return stem
    number = 2
    while f"{stem}-{number}" in slugs:
        number += 1
    return f"{stem}-{number}"


def mail_row(letter: Letter, maker: str, mails: dict[str, set[str]]) -> tuple[Row, ...]:
    """The sender's address, kept where none is known yet: another one might be anybody's."""
    if not letter.sender or mails.get(maker):
        return ()
    return (Row(MAIL_TABLE, MAIL_COLUMNS, (maker, letter.sender)),)
