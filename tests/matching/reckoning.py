"""Brute force for small boards: every set of exchanges that fits, by records alone."""

from collections import Counter
from itertools import permutations, product

from swapboard.records.types import Board, Part, Want

LIMIT = 200_000


class TooMany(Exception):
    """The board is too big to try everything."""


def suits(card, want: Want) -> bool:
    """Whether a card is what a want asks for."""
    def holds(part: Part) -> bool:
        return part.kind == "anything" or any(
            name in {"theme": card.themes, "medium": card.media, "maker": (card.maker,),
                     "card": (card.name,)}[part.kind]
            for name in part.names
        )
    return all(map(holds, want.all_of)) and not any(map(holds, want.none_of))


def exchanges(board: Board, rings: int):
    """Every exchange: steps (card, taker, number of the want), in mailing order."""
    cards = [card for card in board.cards.values() if card.state == "available"]
    found = []
    for size in range(2, rings + 1):
        for ring in permutations(board.makers, size):
            if ring[0] != min(ring):
                continue
            steps = []
            for giver, taker in zip(ring, ring[1:] + ring[:1], strict=True):
                likes, refused = board.makers[taker].likes, board.makers[taker].rather_not
                steps.append([
                    (card, taker, number) for card in cards if card.maker == giver
                    for number, want in enumerate(likes)
                    if suits(card, want) and not any(suits(card, no) for no in refused)
                ])
            for chosen in product(*steps):
                turned = (chosen[-1], *chosen[:-1])
                if all(not gone[0].wants or any(suits(got[0], want) for want in gone[0].wants)
                       for got, gone in zip(turned, chosen, strict=True)):
                    found.append(chosen)
    return found


def best(board: Board, rings: int) -> tuple[int, ...]:
    """The best values of all levels: moved, -ringed, liking, -parcels, then how many
    makers get at least one, two … cards."""
    every = exchanges(board, rings)
    best_yet = [()]
    tried = 0
    used: Counter = Counter()
    chosen: list = []

    def fits(exchange) -> bool:
        for card, taker, number in exchange:
            maker = board.makers[taker]
            room = maker.takes_up_to
            if (used[card.name] >= card.copies_left or used[card.name, taker]
                    or used[taker, number, 0] >= maker.likes[number].up_to
                    or (room is not None and used[taker, "all", 0] >= room)):
                return False
        return True

    def count(exchange, by: int) -> None:
        for card, taker, number in exchange:
            for key in (card.name, (card.name, taker), (taker, number, 0), (taker, "all", 0)):
                used[key] += by

    def values() -> tuple[int, ...]:
        ringed = sum(len(exchange) for exchange in chosen if len(exchange) > 2)
        liking = sum(board.makers[t].likes[n].weight for e in chosen for _, t, n in e)
        groups = {tuple(taker for _, taker, _ in exchange) for exchange in chosen}
        got = Counter(taker for exchange in chosen for _, taker, _ in exchange)
        most = max(got.values(), default=0)
        fair = [sum(c >= k for c in got.values()) for k in range(1, most + 1)]
        return (sum(map(len, chosen)), -ringed, liking, -sum(map(len, groups)), *fair)

    def look(at: int) -> None:
        nonlocal tried
        tried += 1
        if tried > LIMIT:
            raise TooMany
        best_yet[0] = max(best_yet[0], values())
        for number in range(at, len(every)):
            if fits(every[number]):
                count(every[number], 1)
                chosen.append(every[number])
                look(number + 1)
                chosen.pop()
                count(every[number], -1)

    look(0)
    return best_yet[0]
