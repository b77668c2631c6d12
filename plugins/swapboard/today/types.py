"""An errand of the keeper's, and the mail that goes with it."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Draft:
    """A mail to send by hand: `to` are makers (names of files in makers/), whose
    addresses are looked up in private/ by whoever prints it, and never here."""

    to: tuple[str, ...]
    subject: str
    body: str


@dataclass(frozen=True, slots=True)
class Errand:
    """One thing to do or to chase.

    `due` is the day it has to be done by, None where there is none; `about` the post
    it concerns, like "offers/heron-for-moth.md"; `who` the makers who have to do it, by
    name, empty where it is the keeper's own; `what` says it in words; `since` is the day
    it has been waiting from. `at_board` says that it is done with the board's commands, so
    by whoever keeps the board, whosever call it is.
    """

    due: date | None
    about: str
    who: tuple[str, ...]
    what: str
    since: date | None = None
    draft: Draft | None = None
    at_board: bool = False


def by_urgency(errand: Errand) -> tuple[date, date, str, tuple[str, ...], str]:
    """The order of errands: the earliest due first, those without a day last; then by
    how long they have waited, by post, people and words."""
    return (
        errand.due or date.max, errand.since or date.max, errand.about, errand.who, errand.what,
    )
