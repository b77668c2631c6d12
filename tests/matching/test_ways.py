"""Big markets take other ways through the search; on smaller ones all ways agree."""

import time

import numpy as np
import pytest
from invented import card, maker, mixed_wants, named_wants, want
from invented import market as market_of_these

from swapboard.matching import effort, first_level, match
from swapboard.matching.annealing import annealed
from swapboard.matching.arcs import arcs_of
from swapboard.matching.both_sides import from_both_sides
from swapboard.matching.effort import Effort
from swapboard.matching.exchanges import EVERY, Exchanges, lengths
from swapboard.matching.gradient import by_gradient
from swapboard.matching.greedy import greedy
from swapboard.matching.local_cuts import Bounded
from swapboard.matching.neighbourhood import improved
from swapboard.matching.objective import MOVED, Levels, table_of
from swapboard.matching.program import solve
from swapboard.matching.report import as_data, as_text
from swapboard.matching.rows import rows_of
from swapboard.records.types import Part

MARKETS = {"named": named_wants(30, 5, 4, 6), "mixed": mixed_wants(20, 5, 3, themes=6, media=6)}


@pytest.mark.parametrize("kind", MARKETS)
@pytest.mark.parametrize("exact", [0, 10**9])
def test_many_columns_are_solved_as_few_are(kind, exact, monkeypatch):
    """Priced first, by either method, the most cards and their proof are the same."""
    plain = match.match(MARKETS[kind], 3, 20).levels
    assert plain[-1].proven and plain[0].value > 10
    monkeypatch.setattr(first_level, "_FEW", 0)
    monkeypatch.setattr(first_level, "_EXACT", exact)
    priced = match.match(MARKETS[kind], 3, 20).levels
    assert priced[0].value <= plain[0].value <= priced[0].bound
    if exact:
        # On every level: no column that a best choice may need was ruled out.
        assert priced == plain


def test_where_not_all_can_be_written_down_no_more_is_claimed(monkeypatch):
    """From a part of the columns something good comes, under a bound that holds for all."""
    plain = match.match(MARKETS["mixed"], 3, 20).levels[0]
    monkeypatch.setattr(first_level, "_ALL", 400)
    part = match.match(MARKETS["mixed"], 3, 20)
    assert 0 < part.moved <= plain.value <= part.levels[0].bound
    assert all(level.bound is None or level.proven for level in part.levels[2:])


@pytest.mark.parametrize("seconds", [0.0, 0.05])
def test_no_time_gives_something_without_a_proof_it_lacks(seconds):
    """Cut short, what fits is proposed, and the bound is not passed."""
    full = match.match(MARKETS["named"], 3, 20).levels[0]
    short = match.match(MARKETS["named"], 3, seconds).levels[0]
    assert short.value <= full.value <= short.bound
    assert short.proven == (short.value == short.bound)


@pytest.mark.parametrize("kind", MARKETS)
def test_gap_after_gap_reaches_the_best(kind):
    """From nothing taken, gaps of makers near each other end at the best there is, and
    never take more of a card, a want or a maker's room than there is."""
    market = MARKETS[kind]
    best = match.match(market, 3, 20).levels[0].value
    arcs = arcs_of(market)
    rows = rows_of(market, arcs)
    columns = Exchanges(market, arcs, 3).within(np.zeros(arcs.count), EVERY, 10**6)
    table = table_of(market, arcs, columns)
    nothing = np.zeros(len(columns), dtype=bool)
    bounded = Bounded(table, rows, rows.owners(arcs, market), Effort.of(60))
    assert bounded.solve(Effort.of(60))
    taken = improved(
        table, rows, bounded.columns, bounded.losses, nothing, best, Effort.of(60), 100
    )
    index, _ = rows.of_columns(columns[taken])
    assert table.length[taken].sum() == best
    assert (np.bincount(index, minlength=rows.count()) <= rows.most).all()


@pytest.mark.parametrize("kind", MARKETS)
def test_prices_step_by_step_come_near_those_of_the_simplex_method(kind):
    """By weak duality never below the exact bound, and within a twentieth of it."""
    market = MARKETS[kind]
    arcs = arcs_of(market)
    rows = rows_of(market, arcs)
    columns = Exchanges(market, arcs, 3).within(np.zeros(arcs.count), EVERY, 10**6)
    table = table_of(market, arcs, columns)
    bounded = Bounded(table, rows, rows.owners(arcs, market), Effort.of(60))
    assert bounded.solve(Effort.of(60))
    exact = bounded.bound
    stepped = by_gradient(rows, columns, Effort.of(20)).bound
    assert exact - 1e-6 <= stepped <= 1.05 * exact


@pytest.mark.parametrize("seed", range(6))
def test_local_cuts_bound_between_the_best_and_the_prices(seed):
    """Makers near each other show that whole swaps move less than shares of them would,
    and never less than the best there is (solved whole, on another way)."""
    market = named_wants(60, 4, 5, 6, seed=seed)
    best = match.match(market, 3, 60).levels[0]
    assert best.proven
    arcs = arcs_of(market)
    rows = rows_of(market, arcs)
    columns = Exchanges(market, arcs, 3).within(np.zeros(arcs.count), EVERY, 10**6)
    table = table_of(market, arcs, columns)
    bounded = Bounded(table, rows, rows.owners(arcs, market), Effort.of(60))
    assert bounded.solve(Effort.of(60))
    loose = bounded.bound
    taken = from_both_sides(bounded, Effort.of(60))
    assert best.value == table.length[taken].sum()
    # All sixty makers are near each other, so that nothing is left between.
    assert best.value - 1e-6 <= bounded.bound <= loose
    assert bounded.bound < best.value + 1


@pytest.mark.parametrize("near", [12, 20, 30])
@pytest.mark.parametrize("seed", [1, 4])
def test_cuts_of_few_makers_hold_for_every_best_choice(near, seed):
    """Cut around losses of a worse choice, and cut again within cuts: the bound never falls
    below the best there is, whose columns all stay open."""
    market = named_wants(60, 4, 5, 6, seed=seed)
    arcs = arcs_of(market)
    rows = rows_of(market, arcs)
    columns = Exchanges(market, arcs, 3).within(np.zeros(arcs.count), EVERY, 10**6)
    table = table_of(market, arcs, columns)
    best = Levels(table, rows).program(MOVED, {})
    best = solve(best, Effort.of(60)).choice > 0.5
    bounded = Bounded(table, rows, rows.owners(arcs, market), Effort.of(60))
    assert bounded.solve(Effort.of(60))
    bounded.rule_out(int(table.length[best].sum()) - 2)
    found = bounded.cut(bounded.parted(), near, Effort.of(60), 60)
    worse = greedy(columns, rows)
    for _ in range(4):
        assert bounded.solve(Effort.of(60))
        assert bounded.bound >= table.length[best].sum() - 1e-6
        assert np.isfinite(bounded.prices.gain[best]).all()
        # Losses are the whole of what a choice falls short by.
        for choice in (best, worse):
            if np.isfinite(bounded.prices.gain[choice]).all():
                missing = bounded.prices.bound - table.length[choice].sum()
                assert bounded.losses(choice)[1].sum() == pytest.approx(missing, abs=0.01)
        found += bounded.cut(bounded.losses(worse)[0], near + 2, Effort.of(60), 60)
        bounded.rule_out(int(table.length[best].sum()))
    assert found


@pytest.mark.parametrize("seed", range(3))
def test_chance_keeps_to_every_limit_and_loses_nothing(seed):
    """What comes out fits, moves no less than what went in, and the same seed repeats it."""
    market = MARKETS["mixed"]
    arcs = arcs_of(market)
    rows = rows_of(market, arcs)
    columns = Exchanges(market, arcs, 3).within(np.zeros(arcs.count), EVERY, 10**6)
    start = greedy(columns, rows)
    taken = annealed(columns, rows, start, 10**9, Effort(0.01, float("inf")), seed)
    again = annealed(columns, rows, start, 10**9, Effort(0.01, float("inf")), seed)
    index, _ = rows.of_columns(columns[taken])
    assert (np.bincount(index, minlength=rows.count()) <= rows.most).all()
    assert lengths(columns[start]).sum() < lengths(columns[taken]).sum()
    assert (taken == again).all()


def test_a_slower_machine_finds_the_same(monkeypatch):
    """Steps are counted, not seconds: with a clock that runs three times as fast, the same
    swaps come out, so long as it does not cut the search short."""
    market = mixed_wants(30, 6, 3, themes=6, media=6)
    monkeypatch.setattr(first_level, "_FEW", 500)
    plain = match.match(market, 3, 600)
    now = time.monotonic
    monkeypatch.setattr(effort.time, "monotonic", lambda: 3 * now())
    assert not plain.late
    assert match.match(market, 3, 600) == plain


def test_where_the_clock_cuts_short_it_is_said():
    """No second at all is too little, and the proposals say so."""
    short = match.match(MARKETS["named"], 3, 0.0)
    assert short.late and "time ran out" in as_text(short) and as_data(short)["late"]


def test_a_part_that_ran_out_of_time_does_not_end_the_whole():
    """The whole is told that something was cut short, and goes on with the time it has."""
    whole = Effort.of(60)
    assert whole.part(0.0).over()
    assert whole.late and not whole.over()


def test_a_new_card_leaves_strangers_alone():
    """Two circles of makers who want nothing of each other: a card and a want more in one
    change no swap of the other."""
    def circle(letter, more=0):
        names = [f"{letter}-{number}" for number in range(8)]
        anything = want(Part("maker", tuple(names)), up_to=2)
        return ([maker(name, anything) for name in names],
                [card(f"{name}-{n}", name) for name in names for n in range(2)]
                + [card(f"{letter}-new-{n}", names[0]) for n in range(more)])

    def swaps(found, letter):
        return [swap for swap in found.swaps if swap.makers[0].startswith(letter)]

    makers, cards = (a + b for a, b in zip(circle("a"), circle("b"), strict=True))
    before = match.match(market_of_these(makers, cards), 3, 60)
    makers, cards = (a + b for a, b in zip(circle("a", 1), circle("b"), strict=True))
    after = match.match(market_of_these(makers, cards), 3, 60)
    assert len(swaps(before, "b")) > 3
    assert swaps(before, "b") == swaps(after, "b")
