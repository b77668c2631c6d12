"""Whether a deal keeps to its rules, told without any of the code that made it.

Only the prices of the rules are shared (`rules`). That nothing had to be relaxed so
little is shown by weak duality: any prices of givers and takers give a bound that no
valid table can be below (L. V. Kantorovich, 1942; Ahuja, Magnanti and Orlin, 1993,
chapter 9); a table at its bound is proven to relax as little as can be.
"""

from collections import Counter
from collections.abc import Iterable, Mapping

from swapboard.dealing.result import Deal
from swapboard.dealing.rules import RELAX, Maker, Rules, counts_of, pairs_of, rules_of
from swapboard.vocabulary.counts import counted


def faults_of(
    deal: Deal,
    sent: Mapping[Maker, int],
    *,
    apart: Iterable[tuple[Maker, Maker]] = (),
    met: Iterable[tuple[Maker, Maker]] = (),
    relax: Iterable[str] = RELAX,
) -> list[str]:
    """Everything that is wrong with `deal` as one sentence each; none for a valid one."""
    rules = rules_of(counts_of(sent), pairs_of(apart, "apart", True), pairs_of(met, "met"), relax)
    if not deal.possible:
        return [] if deal.table == {} else ["A deal that is not possible deals cards."]
    faults = [*_sums(deal, sent), *_cards(deal), *_kept(deal, rules)]
    return faults or _least(deal, rules)


def _sums(deal: Deal, sent: Mapping[Maker, int]):
    gives, gets = Counter(), Counter()
    for (giver, taker), count in deal.table.items():
        if giver not in sent or taker not in sent or count < 1:
            yield f"{giver} to {taker} is no cell of this deal."
        if giver == taker:
            yield f"{giver} gets their own."
        gives[giver] += count
        gets[taker] += count
    for maker, count in sent.items():
        if gives[maker] != count:
            yield f"{maker} gives {counted(gives[maker], 'card')} in place of {count}."
        if gets[maker] != count:
            yield f"{maker} gets {counted(gets[maker], 'card')} in place of {count}."


def _cards(deal: Deal):
    dealt = Counter((card.giver, card.taker) for card in deal.cards)
    if dealt != Counter(deal.table):
        yield "The list of cards is not the table."
    numbers: dict[Maker, list[int]] = {}
    for card in deal.cards:
        numbers.setdefault(card.giver, []).append(card.number)
    for giver, found in numbers.items():
        if sorted(found) != list(range(1, len(found) + 1)):
            yield f"The cards of {giver} are not each dealt once."


def _kept(deal: Deal, rules: Rules):
    place = {maker: number for number, maker in enumerate(rules.makers)}
    for (giver, taker), count in deal.table.items():
        if giver in place and taker in place and giver != taker:
            cap = rules.cap[place[giver]][place[taker]]
            if count > cap:
                yield f"{giver} sends {count} to {taker}, who may get {cap}."


def _least(deal: Deal, rules: Rules) -> list[str]:
    if len(deal.prices[0]) != len(rules.makers) or len(deal.prices[1]) != len(rules.makers):
        return ["There is no proof that as little as possible is relaxed."]
    place = {maker: number for number, maker in enumerate(rules.makers)}
    table = [[0] * len(place) for _ in place]
    for (giver, taker), count in deal.table.items():
        table[place[giver]][place[taker]] = count
    if rules.cost(table) != _bound(rules, *deal.prices):
        return ["It is not proven that as little as possible is relaxed."]
    return []


def _bound(rules: Rules, givers: tuple[int, ...], takers: tuple[int, ...]) -> int:
    """What no table can cost less than: every card's worth at these prices, and in
    each cell all that can be saved against it."""
    bound = 0
    for i, count in enumerate(rules.counts):
        bound += count * (takers[i] - givers[i])
        for j, cap in enumerate(rules.cap[i]):
            worth = takers[j] - givers[i]
            for number in range(1, cap + 1):
                price = rules.base[i][j] + (rules.double + number - 1 if number > 1 else 0)
                if price >= worth:
                    break
                bound += price - worth
    return bound
