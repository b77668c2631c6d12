"""Whether a repair keeps to what may not change, told without the code that made it."""

from collections import Counter
from collections.abc import Iterable, Mapping

from swapboard.dealing.repair import Repair
from swapboard.dealing.rules import Maker
from swapboard.vocabulary.counts import counted

Card = tuple[Maker, int, Maker]


def faults_of_repair(
    made: Repair,
    cards: Iterable[Card],
    *,
    hand: Mapping[Maker, Iterable[int]],
    due: Mapping[Maker, int],
    sealed: Iterable[Maker] = (),
) -> list[str]:
    """Everything that is wrong with a repair of `cards` as one sentence each.

    That it changes as little as can be is not told here; see `Repair.proven`.
    """
    faults, before, shut = [], list(cards), set(sealed)
    for maker in sorted(shut, key=str):
        if _envelope(before, maker) != _envelope(made.cards, maker):
            faults.append(f"The sealed envelope of {maker} is changed.")
    for (giver, number), times in Counter((g, n) for g, n, _ in made.cards).items():
        if times > 1:
            faults.append(f"Card {number} of {giver} lies in {times} envelopes.")
        if number not in set(hand.get(giver, ())):
            faults.append(f"Card {number} of {giver} is dealt and not there.")
    faults += [f"{giver} gets their own." for giver, _, taker in made.cards if giver == taker]
    got, short = Counter(taker for _, _, taker in made.cards), dict(made.short)
    for maker, count in due.items():
        if maker not in shut and got[maker] + short.get(maker, 0) != count:
            faults.append(f"{maker} gets {counted(got[maker], 'card')} in place of {count}.")
    return faults


def _envelope(cards: Iterable[Card], maker: Maker) -> list:
    return sorted((giver, number) for giver, number, taker in cards if taker == maker)
