"""A deal mended: sealed envelopes stay, and nothing less than what is done would do."""

from collections import Counter
from itertools import product
from random import Random

import pytest

from swapboard.dealing import deal, repair_search
from swapboard.dealing.repair import SPARE, repair
from swapboard.dealing.repair_bound import bound_of
from swapboard.dealing.repair_check import faults_of_repair
from swapboard.dealing.repair_task import Task
from swapboard.dealing.rules import APART, DOUBLE, MET, RELAX


def lying(sent, seed=b"deal", **rules):
    """The envelopes of a deal: (giver, number, taker)."""
    return [(c.giver, c.number, c.taker) for c in deal(sent, seed=seed, **rules).cards]


def hand_of(sent, spare=0):
    """Every card of each, with so many kept by the host."""
    return {maker: range(1, count + spare + 1) for maker, count in sent.items()}


SIX = dict.fromkeys("abcdef", 3)


def test_a_late_maker_gets_the_hosts_spares_first():
    """With one spare card of each nobody else's envelope is opened."""
    cards = lying(SIX)
    hand, due = {**hand_of(SIX, 1), "g": range(1, 5)}, {**SIX, "g": 3}
    made = repair(cards, hand=hand, due=due, sealed="ab", seed=b"1")
    assert not faults_of_repair(made, cards, hand=hand, due=due, sealed="ab")
    assert made.others == () and made.short == () and made.proven
    assert {(move.left, move.to) for move in made.moves} == {(SPARE, "g")}


def test_without_spares_a_late_maker_opens_as_few_as_give_each_another_card():
    """Three cards from three makers for three of the late one's: three envelopes, no sealed one."""
    cards = lying(SIX)
    hand, due = {**hand_of(SIX), "g": range(1, 4)}, {**SIX, "g": 3}
    made = repair(cards, hand=hand, due=due, sealed="ab", seed=b"1")
    assert not faults_of_repair(made, cards, hand=hand, due=due, sealed="ab")
    assert len(made.others) == 3 and not {"a", "b"} & set(made.others)
    assert made.relaxed == () and made.short == ()


def test_a_lost_card_is_replaced_from_the_spares():
    """One card moves out, one in, and nobody else notices."""
    cards = lying(SIX)
    giver, number, taker = cards[0]
    hand = {m: [n for n in range(1, 5) if (m, n) != (giver, number)] for m in SIX}
    made = repair(cards, hand=hand, due=SIX, seed=b"1")
    assert not faults_of_repair(made, cards, hand=hand, due=SIX)
    assert len(made.moves) == 2 and made.others == ()
    assert {move.to for move in made.moves} == {SPARE, taker}


def test_a_lost_card_without_a_spare_is_said_to_lack():
    """Who still lacks a card is named; nothing is made up."""
    cards = lying(SIX)
    giver, number, taker = cards[0]
    hand = {m: [n for n in range(1, 4) if (m, n) != (giver, number)] for m in SIX}
    made = repair(cards, hand=hand, due=SIX, seed=b"1")
    assert made.short == ((taker, 1),) and made.others == ()


def test_who_leaves_takes_their_cards_home():
    """A maker who is due nothing any more has no envelope, and none of theirs is dealt."""
    cards = lying(SIX)
    hand = {maker: range(1, 5) for maker in "abcde"}
    due = dict.fromkeys("abcde", 3)
    made = repair(cards, hand=hand, due=due, seed=b"1")
    assert not faults_of_repair(made, cards, hand=hand, due=due)
    assert {"f"} & {side for card in made.cards for side in (card[0], card[2])} == set()
    assert made.short == () and all(count == 1 for count in _table(made.cards).values())


def test_nothing_changed_is_nothing_done():
    """A deal that fits is left as it is."""
    cards = lying(SIX)
    made = repair(cards, hand=hand_of(SIX, 1), due=SIX, seed=b"1")
    assert made.moves == () and sorted(made.cards) == sorted(cards)


def test_the_same_arguments_give_the_same_repair():
    """Between equals the seed decides, and only the seed."""
    cards, hand, due = lying(SIX), {**hand_of(SIX), "g": range(1, 4)}, {**SIX, "g": 3}
    made = [repair(cards, hand=hand, due=due, seed=bytes([n % 8])) for n in range(16)]
    assert made[:8] == made[8:] and len({each.moves for each in made}) > 1


def test_a_sealed_envelope_with_a_card_that_is_gone_is_refused():
    """Nobody can take a card out of a sealed envelope."""
    cards = lying(SIX)
    giver, number, taker = cards[0]
    hand = {m: [n for n in range(1, 4) if (m, n) != (giver, number)] for m in SIX}
    with pytest.raises(ValueError, match=f"card {number} of {giver} is sealed for {taker}"):
        repair(cards, hand=hand, due=SIX, sealed=[taker], seed=b"1")


def test_a_rule_that_may_not_give_way_is_kept_even_for_a_card():
    """Without `apart` among the rules to relax a household stays apart and somebody lacks one."""
    cards = [("a", 1, "b"), ("b", 1, "a")]
    hand, due = {"a": [1], "b": [1], "c": [1]}, {"a": 1, "b": 1, "c": 1}
    free = repair(cards, hand=hand, due=due, apart=[("a", "c"), ("b", "c")], seed=b"1")
    assert free.short == () and [one.rule for one in free.relaxed] == [APART]
    kept = repair(
        cards, hand=hand, due=due, apart=[("a", "c"), ("b", "c")], relax=(MET, DOUBLE), seed=b"1"
    )
    assert kept.short == (("c", 1),) and kept.moves == ()


@pytest.mark.parametrize("number", range(40))
@pytest.mark.parametrize("begun_with", ["what may be of use", "nothing but what lies there"])
def test_no_other_way_is_better(monkeypatch, number, begun_with):
    """Every way to deal the loose cards of a small case, weighed by the same aims.

    However few cells the programme begins with: the prices ask for the others."""
    if begun_with == "nothing but what lies there":
        monkeypatch.setattr(
            repair_search, "_of_use", lambda task: [cell for cell in task.cells if cell in task.now]
        )
    cards, rules = small_case(number)
    made = repair(cards, **rules, seed=b"1")
    hand, due, sealed, met, apart = (rules[k] for k in ("hand", "due", "sealed", "met", "apart"))
    assert not faults_of_repair(made, cards, hand=hand, due=due, sealed=sealed)
    ours = _aims(cards, _table(made.cards), hand, due, sealed, met, apart)
    best = min(
        _aims(cards, table, hand, due, sealed, met, apart)
        for table in _tables(cards, hand, due, sealed)
    )
    assert ours == best and made.proven


@pytest.mark.parametrize("number", range(40))
def test_no_prices_promise_more_than_can_be(number):
    """Whatever the prices, the bound is at or below the best of all ways, for every aim."""
    chance = Random(number)
    cards, rules = small_case(number)
    hand, due, sealed, met, apart = (rules[k] for k in ("hand", "due", "sealed", "met", "apart"))
    task = task_of(cards, hand, due, sealed, met, apart)
    best = min(
        _aims(cards, table, hand, due, sealed, met, apart)
        for table in _tables(cards, hand, due, sealed)
    )
    for place, aim in enumerate(task.aims):
        settled = dict(zip(task.aims, best[:place], strict=False))
        for _ in range(20):
            prices = {giver: chance.choice([0, 1, 2, 5]) for giver in task.givers}
            weights = {other: chance.choice([0, 1, 9]) for other in settled} | {aim: 3}
            assert bound_of(task, weights, settled, prices)[0] <= 3 * best[place]


@pytest.mark.parametrize("late, others, moves", [("y", 20, 40), ("xyz", 18, 114)])
def test_a_large_swap_is_mended_with_few_of_its_cells(monkeypatch, late, others, moves):
    """200 makers × 20, half the envelopes sealed and not one spare card, proven the least.

    By hand: each envelope that is opened passes a card on for each late maker's card that it
    takes, and each late maker gets a card from the other late ones as well."""
    opened = []
    monkeypatch.setattr(
        repair_search.Programme, "open_cells", _noting(repair_search.Programme.open_cells, opened)
    )
    sent = {f"m{number:03}": 20 for number in range(200)}
    cards = lying(sent)
    after = {**sent, **dict.fromkeys(late, 20)}
    sealed = [maker for maker in sent if maker < "m100"]
    made = repair(cards, hand=hand_of(after), due=after, sealed=sealed, seed=b"1")
    assert not faults_of_repair(made, cards, hand=hand_of(after), due=after, sealed=sealed)
    assert made.proven and made.short == () and made.relaxed == ()
    assert (len(made.others), len(made.moves)) == (others, moves)
    assert sum(opened) < 10_000


def _noting(method, numbers):
    def noted(programme, cells):
        before = len(programme.open)
        method(programme, cells)
        numbers.append(len(programme.open) - before)

    return noted


def small_case(number):
    """The envelopes of a small deal, and what became of it: for `repair`, but a seed."""
    chance = Random(number)
    pairs = [pair for pair in product("abcde", repeat=2) if pair[0] != pair[1]]
    met = [pair for pair in pairs if chance.random() < 0.2]
    apart = [("a", "b")] if chance.random() < 0.4 else []
    before = None
    while before is None or not before.possible:
        sent = {maker: chance.choice([1, 2]) for maker in "abcd"}
        before = deal(sent, met=met, apart=apart, seed=b"x")
    cards = [(c.giver, c.number, c.taker) for c in before.cards]
    sealed = [maker for maker in "abcd" if chance.random() < 0.3]
    hand = {m: list(range(1, n + 1 + chance.choice([0, 0, 1]))) for m, n in sent.items()}
    due = dict(sent)
    if chance.random() < 0.7:
        hand["e"], due["e"] = [1, 2], chance.choice([1, 2])
    loose = [card for card in cards if card[2] not in sealed]
    if loose and chance.random() < 0.5:
        giver, gone, _ = chance.choice(loose)
        hand[giver].remove(gone)
    return cards, {"hand": hand, "due": due, "sealed": sealed, "met": met, "apart": apart}


def task_of(cards, hand, due, sealed, met, apart):
    """A case as the numbers that the search works with, told without its code."""
    kept = tuple(card for card in cards if card[2] in sealed)
    shut = {(giver, number) for giver, number, _ in kept}
    there = {(giver, number) for giver, numbers in hand.items() for number in numbers}
    loose = tuple(c for c in cards if c[2] not in sealed and (c[0], c[1]) in there)
    before, after = Counter(c[2] for c in cards), Counter(c[2] for c in loose)
    open_takers = sorted(set(due) - set(sealed))
    return Task(
        takers=tuple(open_takers), due=due, kept=kept, loose=loose,
        piles={g: frozenset(n for n in numbers if (g, n) not in shut)
               for g, numbers in hand.items()},
        quiet=frozenset(t for t in open_takers if before[t] == after[t] == due[t]),
        met=frozenset(met), apart=frozenset({*apart, *((b, a) for a, b in apart)}), relax=RELAX,
    )  # fmt: skip


def _table(cards) -> Counter:
    return Counter((giver, taker) for giver, _, taker in cards)


def _tables(cards, hand, due, sealed):
    """Every table that leaves sealed envelopes alone and gives nobody too many or their own."""
    kept = _table(card for card in cards if card[2] in sealed)
    stock = Counter({giver: len(numbers) for giver, numbers in hand.items()})
    for (giver, _), count in kept.items():
        stock[giver] -= count
    takers = sorted(set(due) - set(sealed))

    def fill(at, left, table):
        if at == len(takers):
            yield table
            return
        taker = takers[at]
        givers = [giver for giver in sorted(left) if giver != taker]
        for counts in product(*(range(min(left[g], due[taker]) + 1) for g in givers)):
            if sum(counts) <= due[taker]:
                given = dict(zip(givers, counts, strict=True))
                more = Counter({(g, taker): n for g, n in given.items() if n})
                yield from fill(at + 1, left - Counter(given), table + more)

    yield from fill(0, stock, kept)


def _aims(cards, table, hand, due, sealed, met, apart):
    """(cards wanting, new crossings of pairs apart, new doubles, new repeats, envelopes of
    others changed, cards moved in): the order of `RELAX` turned round, then the changes."""
    assert RELAX == (MET, DOUBLE, APART)
    there = _table(c for c in cards if c[1] in hand.get(c[0], ()))
    before, got = Counter(c[2] for c in cards), Counter()
    apart = {*apart, *((b, a) for a, b in apart)}
    for (_, taker), count in table.items():
        got[taker] += count
    open_cells = {cell for cell in {*table, *there} if cell[1] not in sealed}
    added = {cell: max(0, table[cell] - there[cell]) for cell in open_cells}
    quiet = {
        taker for taker in due
        if taker not in sealed and before[taker] == due[taker]
        and sum(n for (_, to), n in there.items() if to == taker) == due[taker]
    }  # fmt: skip
    touched = {cell[1] for cell in open_cells if cell[1] in quiet and table[cell] != there[cell]}
    return (
        sum(due[t] - got[t] for t in due if t not in sealed),
        sum(n for cell, n in added.items() if cell in apart),
        sum(max(0, table[cell] - max(1, there[cell])) for cell in open_cells),
        sum(n for cell, n in added.items() if cell in set(met)),
        len(touched),
        sum(added.values()),
    )
