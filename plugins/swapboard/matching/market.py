"""A board's makers, free cards and wants as numbered rows."""

from datetime import date

from swapboard.matching.types import Market, Seat, Wish
from swapboard.matching.wants import WantIndex
from swapboard.records.standing import standing
from swapboard.records.types import Board, Card, Maker


def market_of(board: Board, today: date, offer_days: int) -> Market:
    """What may be swapped on a day: available cards only, each with its free copies.

    A maker takes what suits one of their Likes and nothing under Rather not, never
    a card of their own, at most `Takes up to` in all. A card with Wants of its own
    goes only for a card that suits one of them; sentences that were not understood
    say nothing. Cards whose maker is not on the board take no part.
    """
    stands = standing(board, today, offer_days)
    names = tuple(sorted(board.makers))
    number = {name: at for at, name in enumerate(names)}
    cards = [
        card
        for name, card in sorted(board.cards.items())
        if stands[name][1] > 0 and card.maker in number
    ]
    index = WantIndex(cards)
    owner = tuple(number[card.maker] for card in cards)
    makers = [board.makers[name] for name in names]
    wishes = _wishes(makers, owner, index)
    seats, seat = _seats(cards, owner, wishes, index)
    return Market(
        makers=names,
        room=tuple(_room(maker, len(cards)) for maker in makers),
        cards=tuple(card.name for card in cards),
        owner=owner,
        copies=tuple(stands[card.name][1] for card in cards),
        seat=seat,
        seats=seats,
        wishes=wishes,
    )


def _room(maker: Maker, everything: int) -> int:
    return everything if maker.takes_up_to is None else maker.takes_up_to


def _seats(
    cards: list[Card], owner: tuple[int, ...], wishes: tuple[Wish, ...], index: WantIndex
) -> tuple[tuple[Seat, ...], tuple[int, ...]]:
    """The seats in the order in which cards need them, and each card's."""
    liked: dict[int, set[int]] = {}
    for wish in wishes:
        liked.setdefault(wish.maker, set()).update(wish.cards)
    numbers: dict[tuple, int] = {}
    seats: list[Seat] = []
    seat: list[int] = []
    for card, maker in zip(cards, owner, strict=True):
        wants = [want for want in card.wants if want.understood]
        takes = index.among(liked.get(maker, ()), wants) if wants else None
        key = (maker, takes)
        if key not in numbers:
            numbers[key] = len(seats)
            seats.append(Seat(maker, takes))
        seat.append(numbers[key])
    return tuple(seats), tuple(seat)


def _wishes(
    makers: list[Maker], owner: tuple[int, ...], index: WantIndex
) -> tuple[Wish, ...]:
    """Every want that some free card suits, by maker and in the order written."""
    own: dict[int, set[int]] = {}
    for card, maker in enumerate(owner):
        own.setdefault(maker, set()).add(card)
    wishes = []
    for number, maker in enumerate(makers):
        if number not in own:
            continue
        refused = own[number].union(index.any_of(maker.rather_not))
        for want in maker.likes:
            if found := index.suits(want) - refused:
                wishes.append(Wish(number, want, tuple(sorted(found))))
    return tuple(wishes)
