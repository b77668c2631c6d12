"""What a board is made of: one frozen record per post, parsed once at the edge.

Names are file stems. Every record knows the file it came from (`path`,
relative to the board) and the line of each of its fields (`lines`, by field
name in lower case), so that a cross-check can point at the very line.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from swapboard.records.deal_types import DealRecord


class State(StrEnum):
    """Where a card stands, in the maker's own words."""

    AVAILABLE = "available"
    SPOKEN_FOR = "spoken for"
    TRADED = "traded"
    KEEPING = "keeping"


class Edge(StrEnum):
    """How a card's edge is shown: its shadow and corners follow it."""

    SQUARE = "square"
    ROUNDED = "rounded"
    TORN = "torn"


class OfferState(StrEnum):
    """What has become of an offer, derived from dated lines alone: its own, and of an
    overtaken one those of the offer that spoke for its card."""

    PROPOSED = "proposed"
    AGREED = "agreed"
    ON_THEIR_WAY = "on their way"
    COMPLETE = "complete"
    DECLINED = "declined"
    WITHDRAWN = "withdrawn"
    EXPIRED = "expired"
    OVERTAKEN = "overtaken"
    LOST = "lost"


@dataclass(frozen=True, slots=True)
class PhotoSpot:
    """A picture in photos/, and the card in it: the one under a point of the
    upright picture, given as shares (0–1) of its width and height from the top
    left; None means the only card, or the surest."""

    file: str
    at: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Corners:
    """A keeper's own four corners, clockwise from the card's top left.

    `points` are [x, y] in pixels of the upright picture, or in shares of its
    width and height (0–1) when `shares` is true."""

    points: tuple[tuple[float, float], ...]
    shares: bool


@dataclass(frozen=True, slots=True)
class Kind:
    """Original (1 of 1), print n/N or set n/N; `word` is "original", "print" or "set"."""

    word: str = "original"
    number: int | None = None
    total: int | None = None


@dataclass(frozen=True, slots=True)
class Part:
    """One condition of a want: names of one kind joined by "or".

    `kind` is "theme", "medium", "maker", "card" or "anything"."""

    kind: str
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Want:
    """What somebody would like: every part of `all_of` holds, none of `none_of`.

    `up_to` counts cards; `weight` is 3 for dearly, 2, 1 for if need be.
    `understood` is False for a sentence that stays on the page as written but
    takes no part in matching."""

    text: str
    line: int
    all_of: tuple[Part, ...] = ()
    none_of: tuple[Part, ...] = ()
    up_to: int = 1
    weight: int = 2
    understood: bool = True


@dataclass(frozen=True, slots=True)
class Card:
    """A card that a maker made and may swap."""

    name: str
    path: str
    title: str
    maker: str
    date: date | None = None
    photo: PhotoSpot | None = None
    back: PhotoSpot | None = None
    alt: str = ""
    themes: tuple[str, ...] = ()
    media: tuple[str, ...] = ()
    made_on: str = ""
    made: date | None = None
    kind: Kind = Kind()
    copies_left: int = 1
    panels: int = 1
    edge: Edge = Edge.SQUARE
    series: str = ""
    day: int | None = None
    call: str = ""
    state: State = State.AVAILABLE
    wants: tuple[Want, ...] = ()
    cut_out_at: Corners | None = None
    body: str = ""
    lines: dict[str, int] = field(default_factory=dict, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Maker:
    """Somebody with cards on the board."""

    name: str
    path: str
    title: str
    country: str = ""
    media: tuple[str, ...] = ()
    likes: tuple[Want, ...] = ()
    rather_not: tuple[Want, ...] = ()
    takes_up_to: int | None = None
    household: str = ""
    links: tuple[str, ...] = ()
    body: str = ""
    lines: dict[str, int] = field(default_factory=dict, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Person:
    """One row of calls/NAME.people.csv: public names only.

    `standing` is "" for who is in it, "waiting" or "left"; `places` is 2 where one
    person holds two; the last four days are those of the envelope that goes back."""

    maker: str
    cards: int
    signed_up: date | None
    arrived: date | None
    note: str
    line: int
    places: int = 1
    standing: str = ""
    sealed: date | None = None
    mailed: date | None = None
    received: date | None = None
    lost: date | None = None


@dataclass(frozen=True, slots=True)
class CallEvent:
    """One dated line of a call: `what` is one of `call.EVENTS`."""

    on: date
    what: str
    line: int


@dataclass(frozen=True, slots=True)
class Call:
    """A swap call: a group swap that a host announces."""

    name: str
    path: str
    title: str
    date: date | None = None
    theme: str = ""
    host: str = ""
    by: str = "post"
    place: str = ""
    hour: str = ""
    send: int = 0
    receive: int = 0
    chosen_by: str = ""
    host_takes_part: bool = True
    media: tuple[str, ...] = ()
    not_wanted: tuple[str, ...] = ()
    must_have: tuple[str, ...] = ()
    thickness: str = ""
    places: int | None = None
    sign_up_by: date | None = None
    arrive_by: date | None = None
    mail_out_by: date | None = None
    countries: tuple[str, ...] = ()
    return_postage: tuple[tuple[str, str], ...] = ()
    adults_only: bool = False
    guardian: bool = False
    two_places: bool = False
    grace_days: int = 7
    public_value: str = ""
    relax: tuple[str, ...] = ("met", "double", "apart")
    by_maker: bool = False
    revision: int = 0
    events: tuple[CallEvent, ...] = ()
    deal: DealRecord | None = None
    people: tuple[Person, ...] = ()
    body: str = ""
    lines: dict[str, int] = field(default_factory=dict, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Event:
    """One dated line of an offer: `what` happened, `by` whom ("" where both)."""

    on: date
    what: str
    by: str
    line: int


@dataclass(frozen=True, slots=True)
class Offer:
    """A swap proposed by one maker to another: n cards for n cards. In a `round` of three or
    four makers each mails to the next: such an offer is one parcel of it, and asks nothing."""

    name: str
    path: str
    title: str
    from_maker: str
    to_maker: str
    gives: tuple[str, ...]
    asks: tuple[str, ...]
    events: tuple[Event, ...] = ()
    body: str = ""
    round: tuple[str, ...] = ()
    lines: dict[str, int] = field(default_factory=dict, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class TextPage:
    """A page of the keeper's own: about, house rules."""

    name: str
    path: str
    title: str
    body: str = ""
    lines: dict[str, int] = field(default_factory=dict, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A file that is not on the board because of an error in it, or in a file that
    it needs: `why` is one plain phrase. `holds` are the cards that its swap holds
    or has moved, so that none goes back to "available" with it; `unread` is true
    for an offer whose cards could not be read."""

    path: str
    why: str
    holds: tuple[tuple[str, State], ...] = ()
    unread: bool = False


@dataclass(frozen=True, slots=True)
class Board:
    """Everything that could be read, each kind by name in sorted order.

    `left_out` are the files with an error, by path: named, never just missing."""

    cards: dict[str, Card]
    makers: dict[str, Maker]
    calls: dict[str, Call]
    offers: dict[str, Offer]
    pages: dict[str, TextPage]
    left_out: tuple[LeftOut, ...] = ()
