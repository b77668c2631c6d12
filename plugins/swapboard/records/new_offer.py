"""A new offer's post: its name, its title and its first dated line."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from swapboard.records.header import write_post
from swapboard.records.names import name_of
from swapboard.records.types import Board
from swapboard.vocabulary import slug, stem_of

LONGEST_TITLE = 300
_NUMBERS = {3: "three", 4: "four"}


@dataclass(frozen=True, slots=True)
class NewOffer:
    """What is offered, before it has a name: card names, as many on both sides; in a `round`
    of makers, each mailing to the next, one parcel alone, which asks nothing."""

    giver: str
    taker: str
    gives: tuple[str, ...]
    asks: tuple[str, ...] = ()
    note: str = ""
    round: tuple[str, ...] = ()


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


def offer_post(
    offer: NewOffer,
    board: Board,
    today: date,
    new_titles: Mapping[str, str] | None = None,
    steps: Sequence[str] = ("proposed",),
    also_taken: Collection[str] = (),
) -> tuple[str, str]:
    """The path and the text of the offer's post, proposed (and what else `steps` say) today.

    `new_titles` are those of its cards that are not on the board yet; `also_taken` names
    of offers that are not there yet either.
    """
    titles = {name: card.title for name, card in board.cards.items()} | dict(new_titles or {})
    taken = [*board.offers, *also_taken, *(name_of(left.path) for left in board.left_out)]
    gives, asks = offer.gives, offer.asks
    wanted = f"{gives[0]}-for-{asks[0]}" if asks else f"{gives[0]}-to-{offer.taker}"
    fields = [
        *([("Title", title)] if len(title := _title(offer, titles)) <= LONGEST_TITLE else []),
        ("From", offer.giver), ("To", offer.taker), ("Gives", ", ".join(gives)),
        *([("Asks", ", ".join(asks))] if asks else [("Round", ", ".join(offer.round))]),
        *((today.isoformat(), step) for step in steps),
    ]  # fmt: skip
    return f"offers/{free_name(wanted, taken)}.md", write_post(fields, offer.note)


def _title(offer: NewOffer, titles: Mapping[str, str]) -> str:
    more = f" and {len(offer.gives) - 1} more" if len(offer.gives) > 1 else ""
    given = f"{titles[offer.gives[0]]}{more}"
    if not offer.asks:
        return f"{given}, in a round of {_NUMBERS[len(offer.round)]}"
    return f"{given} for {titles[offer.asks[0]]}{more}"
