"""What a call's deal file says: calls/NAME.deal.json as records, all of it public."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Move:
    """A card that a repair moved: `number` of `giver`'s pile, from one envelope to another;
    "" is the host's pile of cards that are in none."""

    giver: str
    number: int
    left: str
    to: str


@dataclass(frozen=True, slots=True)
class RepairRecord:
    """A repair of a deal. Until the call is opened only what names nobody is known:
    `digest` is the SHA-256 of `record`, the text that is published then."""

    on: date
    reason: str
    envelopes: int
    sealed: int
    spares: int
    relaxed: tuple[str, ...]
    digest: str
    record: str = ""
    moves: tuple[Move, ...] = ()


@dataclass(frozen=True, slots=True)
class EarlierDeal:
    """A list that was frozen before, and given up for a new one."""

    frozen: date
    commitment: str
    list_sha256: str
    reason: str


@dataclass(frozen=True, slots=True)
class DealRecord:
    """A call's frozen list, its deal and its repairs, as far as they are public.

    `proof` is the proof as JSON text, as dealing/SPECIFICATION.md has it. `cards`
    (giver, number, taker) are there once `opened`, with the repairs made.
    """

    path: str
    frozen: date
    dealt: date | None
    opened: date | None
    proof: str
    list_text: str
    list_sha256: str
    commitment: str
    public_value: str
    method: str = ""
    guarantee: str = ""
    relaxed: tuple[str, ...] = ()
    cards: tuple[tuple[str, int, str], ...] = ()
    repairs: tuple[RepairRecord, ...] = ()
    earlier: tuple[EarlierDeal, ...] = ()
