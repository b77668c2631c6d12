"""What the pages of a swap call show: its rules, its people, its deal, its gallery."""

from dataclasses import dataclass
from datetime import date

from swapboard.views.types import CallTile, CardTile, Link, Writing


@dataclass(frozen=True, slots=True)
class CallPerson:
    """Somebody in a call; `envelope` is a code of how far the cards for them have come:
    "sealed", "mailed", "received", "lost", or "" for none of it, on the day `since`."""

    maker: Link
    cards: int
    signed_up: date | None
    arrived: date | None
    note: str
    places: int = 1
    envelope: str = ""
    since: date | None = None


@dataclass(frozen=True, slots=True)
class DealtTo:
    """Who got what: the cards of one envelope, each (giver, number, card). `card` is the
    card's own page where it has one; `number` is 0 where the host dealt by maker."""

    maker: Link
    cards: tuple[tuple[Link, int, Link | None], ...]


@dataclass(frozen=True, slots=True)
class MovedCard:
    """A card that a repair moved; no `left` or `to` is the host's own pile."""

    giver: Link
    number: int
    left: Link | None
    to: Link | None


@dataclass(frozen=True, slots=True)
class RepairShown:
    """A repair of the deal; its `moves` are known once the call is open."""

    on: date
    reason: str
    envelopes: int
    sealed: int
    relaxed: tuple[str, ...]
    digest: str
    moves: tuple[MovedCard, ...]


@dataclass(frozen=True, slots=True)
class EarlierShown:
    """A list that was frozen before and given up."""

    frozen: date
    commitment: str
    reason: str


@dataclass(frozen=True, slots=True)
class DealShown:
    """A deal as far as it is public; `envelopes` are empty until it is `opened`.

    `makers` and `cards` count what the frozen list holds, `apart` the pairs kept apart
    in it, `told` those of them that may be told. `value_name` is "" where no public
    value completes the seed.
    """

    frozen: date
    dealt: date | None
    opened: date | None
    makers: int
    cards: int
    commitment: str
    list_sha256: str
    value_name: str
    value: str
    method: str
    guarantee: str
    relaxed: tuple[str, ...]
    apart: int
    told: int
    repairs: tuple[RepairShown, ...]
    earlier: tuple[EarlierShown, ...]
    envelopes: tuple[DealtTo, ...]
    verify: str


@dataclass(frozen=True, slots=True)
class CallPage:
    """calls/NAME.html

    `numbers` are (makers, cards, countries) of an opened swap, else empty."""

    tile: CallTile
    body: Writing
    place: str
    hour: str
    chosen_by: str
    host_takes_part: bool
    media: tuple[Link, ...]
    not_wanted: tuple[str, ...]
    must_have: tuple[str, ...]
    thickness: str
    countries: tuple[str, ...]
    return_postage: tuple[tuple[str, str], ...]
    adults_only: bool
    people: tuple[CallPerson, ...]
    guardian: bool = False
    two_places: bool = False
    by_maker: bool = False
    waiting: tuple[CallPerson, ...] = ()
    deal: DealShown | None = None
    gallery: tuple[CardTile, ...] = ()
    numbers: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class VerifyPage:
    """verify/NAME.html: how to check a deal; `proof` and `script` are files beside it,
    the same proof for programs and for this page. `secret` is "" until it is opened."""

    title: str
    call: Link
    deal: DealShown
    list_text: str
    secret: str
    proof: str
    script: str
