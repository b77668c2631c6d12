"""What matching reads and what it proposes, as plain data."""

from collections.abc import Mapping
from dataclasses import dataclass

from swapboard.records.types import Want


@dataclass(frozen=True, slots=True)
class Wish:
    """A want of a maker, as far as the board can fill it: `cards` are numbers of
    free cards of others that suit it, sorted."""

    maker: int
    want: Want
    cards: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Seat:
    """Where a card goes out and another comes in: a maker, and what the cards given
    from here may go for. A maker has one seat for all cards that go for anything
    and one for each other answer; `takes` are the cards its maker likes that suit it,
    None for any."""

    maker: int
    takes: frozenset[int] | None = None


@dataclass(frozen=True, slots=True)
class Market:
    """Makers, free cards and wants as numbered rows.

    `makers` and `cards` are names, sorted; `owner`, `copies` and `seat` run along
    `cards`, `room` (how many cards a maker takes now) along `makers`."""

    makers: tuple[str, ...]
    room: tuple[int, ...]
    cards: tuple[str, ...]
    owner: tuple[int, ...]
    copies: tuple[int, ...]
    seat: tuple[int, ...]
    seats: tuple[Seat, ...]
    wishes: tuple[Wish, ...]


@dataclass(frozen=True, slots=True)
class Move:
    """A card on its way to somebody who wants it: `want` is the sentence that it fills."""

    card: str
    giver: str
    taker: str
    want: Want


@dataclass(frozen=True, slots=True)
class Parcel:
    """What one maker mails to another in a swap: `moves` in the order of its cards."""

    giver: str
    taker: str
    moves: tuple[Move, ...]

    @property
    def cards(self) -> tuple[str, ...]:
        """The names of the cards in it."""
        return tuple(move.card for move in self.moves)


@dataclass(frozen=True, slots=True)
class Swap:
    """Two makers, or a ring of three or four, each mailing as many cards to the next.

    The first parcel's taker gives the second, and so round. Cards at one place of
    the parcels go for each other: there each maker gives one and gets one."""

    parcels: tuple[Parcel, ...]

    @property
    def makers(self) -> tuple[str, ...]:
        """Who takes part, each mailing to the next, the first name in the alphabet first."""
        return tuple(parcel.giver for parcel in self.parcels)

    @property
    def count(self) -> int:
        """How many cards each of them mails."""
        return len(self.parcels[0].moves)


@dataclass(frozen=True, slots=True)
class Level:
    """One level of the objective. `goal` is "most" or "fewest"; `bound` is what no
    proposals can pass that are as good on the levels before, None where unknown;
    `proven` says that the value is the best there is, here and on all levels before."""

    name: str
    goal: str
    value: int
    bound: int | None
    proven: bool


@dataclass(frozen=True, slots=True)
class Proposals:
    """Disjoint swaps, sorted, and how good they are. `rings` is the longest ring allowed;
    `late` says that the clock cut the search short, so that another run may differ."""

    rings: int
    swaps: tuple[Swap, ...]
    levels: tuple[Level, ...]
    late: bool = False

    @property
    def moved(self) -> int:
        """How many cards reach somebody who wants them."""
        return sum(len(parcel.moves) for swap in self.swaps for parcel in swap.parcels)


@dataclass(frozen=True, slots=True)
class WorthWriting:
    """Somebody to write to: `gets` are their cards that the maker would like, `gives`
    the maker's that they would; the strongest liking first, each card once. `both`
    says that a card could go for a card, wants of the cards themselves included."""

    other: str
    both: bool
    gets: tuple[Move, ...]
    gives: tuple[Move, ...]


@dataclass(frozen=True, slots=True)
class ForMaker:
    """A maker's own page of matching."""

    maker: str
    proposals: tuple[Swap, ...]
    worth_writing: tuple[WorthWriting, ...]


@dataclass(frozen=True, slots=True)
class Liker:
    """Somebody who would like a card, and the dearest want of theirs that it suits.
    `both` says that they have a card that it could go for."""

    maker: str
    both: bool
    want: Want


@dataclass(frozen=True, slots=True)
class Matching:
    """All that a board's pages say of who could swap: what is proposed, each maker's
    part by name, and for each card that somebody would like, who would."""

    proposals: Proposals
    people: Mapping[str, ForMaker]
    likers: Mapping[str, tuple[Liker, ...]]
