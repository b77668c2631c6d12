"""A checker of proposals that shares nothing with the search: records in, complaints out.

It reads wants by its own plain rules, card by card, and knows neither sets, arcs
nor prices. A bound cannot be checked in this way; that what is proposed may be
proposed can.
"""

from collections import Counter
from collections.abc import Iterator
from datetime import date

from swapboard.matching.types import Move, Proposals, Swap
from swapboard.records.standing import standing
from swapboard.records.types import Board, Card, Part, Want
from swapboard.vocabulary import fold
from swapboard.vocabulary.counts import counted


def complaints(board: Board, proposals: Proposals, today: date, offer_days: int) -> list[str]:
    """Everything that is wrong with proposals, in words, sorted; empty where they stand.

    Checked: each card is available and goes as often as it has copies, to nobody
    twice; its giver made it and its taker wants it, by a want of theirs that is not
    filled too often; nobody takes more than they said; parcels go round two to
    `rings` different makers and hold as many cards each; what each maker gets for a
    card suits the card's own wants; the numbers reported are those of the swaps.
    """
    moves = [move for swap in proposals.swaps for parcel in swap.parcels for move in parcel.moves]
    found = [
        *_cards(board, moves, standing(board, today, offer_days)),
        *_takers(board, moves),
        *(text for swap in proposals.swaps for text in _swap(board, swap, proposals.rings)),
        *_numbers(proposals),
    ]
    return sorted(found)


def suits(card: Card, want: Want) -> bool:
    """Whether a card is what a want asks for."""
    return (
        want.understood
        and bool(want.all_of)
        and all(_holds(card, part) for part in want.all_of)
        and not any(_holds(card, part) for part in want.none_of)
    )


def _holds(card: Card, part: Part) -> bool:
    if part.kind == "anything":
        return True
    of_card = {
        "theme": card.themes, "medium": card.media, "maker": (card.maker,), "card": (card.name,)
    }[part.kind]
    return bool({fold(name) for name in part.names} & {fold(name) for name in of_card})


def _cards(board: Board, moves: list[Move], stands: dict) -> Iterator[str]:
    for name, count in Counter(move.card for move in moves).items():
        if name not in board.cards:
            yield f"{name} is not on the board"
        elif count > stands[name][1]:
            yield f"{name} goes {count} times, {stands[name][1]} copies are free"
    for (name, taker), count in Counter((move.card, move.taker) for move in moves).items():
        if count > 1:
            yield f"{taker} would get {name} {count} times"


def _takers(board: Board, moves: list[Move]) -> Iterator[str]:
    filled: Counter[tuple[str, int]] = Counter()
    for move in moves:
        card, taker = board.cards.get(move.card), board.makers.get(move.taker)
        if card is None or taker is None:
            yield f"{move.card} or {move.taker} is not on the board"
            continue
        if card.maker != move.giver or move.giver == move.taker:
            yield f"{move.card} is not for {move.giver} to give to {move.taker}"
        places = [at for at, want in enumerate(taker.likes) if want == move.want]
        if not places or not suits(card, move.want):
            yield f"{move.taker} has no such want for {move.card}"
        else:
            # Equal sentences stand for each other, so the emptiest is filled.
            filled[move.taker, min(places, key=lambda at: filled[move.taker, at])] += 1
        if any(suits(card, want) for want in taker.rather_not):
            yield f"{move.taker} would rather not have {move.card}"
    for (name, at), count in filled.items():
        if count > board.makers[name].likes[at].up_to:
            words, cards = board.makers[name].likes[at].text, counted(count, "card")
            yield f'{name} would get {cards} for "{words}"'
    for name, count in Counter(move.taker for move in moves).items():
        room = board.makers[name].takes_up_to if name in board.makers else 0
        if room is not None and count > room:
            yield f"{name} takes {room} cards and would get {count}"


def _swap(board: Board, swap: Swap, rings: int) -> Iterator[str]:
    parcels = swap.parcels
    names = " → ".join(swap.makers)
    if not 2 <= len(parcels) <= rings or len(set(swap.makers)) < len(parcels):
        yield f"{names} is no ring of 2 to {rings} makers"
    if len({len(parcel.moves) for parcel in parcels}) != 1 or not parcels[0].moves:
        yield f"{names}: not everybody mails as many cards"
        return
    for parcel, after in zip(parcels, (*parcels[1:], parcels[0]), strict=True):
        if parcel.taker != after.giver:
            yield f"{names}: {parcel.taker} gets and {after.giver} gives"
        if any((m.giver, m.taker) != (parcel.giver, parcel.taker) for m in parcel.moves):
            yield f"{names}: a card is in a parcel of others"
        for got, gone in zip(parcel.moves, after.moves, strict=True):
            yield from _goes_for(board, got.card, gone.card)


def _goes_for(board: Board, got: str, gone: str) -> Iterator[str]:
    if got not in board.cards or gone not in board.cards:
        return
    wants = [want for want in board.cards[gone].wants if want.understood]
    if wants and not any(suits(board.cards[got], want) for want in wants):
        yield f"{gone} does not go for {got}"


def _numbers(proposals: Proposals) -> Iterator[str]:
    moved = sum(len(p.moves) for swap in proposals.swaps for p in swap.parcels)
    ringed = sum(
        len(p.moves) for swap in proposals.swaps for p in swap.parcels if len(swap.parcels) > 2
    )
    liking = sum(m.want.weight for s in proposals.swaps for p in s.parcels for m in p.moves)
    parcels = sum(len(swap.parcels) for swap in proposals.swaps)
    counted = {
        "cards that move": moved, "cards in rings": ringed, "liking": liking, "parcels": parcels,
    }
    got = Counter(m.taker for s in proposals.swaps for p in s.parcels for m in p.moves)
    for level in proposals.levels:
        told = counted.get(level.name)
        if told is None:
            least = int(level.name.split()[3])
            told = sum(count >= least for count in got.values())
        if told != level.value:
            yield f"{level.name}: {level.value} reported, {told} counted"
        if level.bound is None:
            continue
        past = told > level.bound if level.goal == "most" else told < level.bound
        if past or (level.proven and told != level.bound):
            yield f"{level.name}: {told} does not go with the bound {level.bound}"
