"""Big markets take other ways through the search; on smaller ones all ways agree."""

import numpy as np
import pytest
from invented import mixed_wants, named_wants

from swapboard.matching import first_level, match, prices
from swapboard.matching.arcs import arcs_of
from swapboard.matching.effort import Effort
from swapboard.matching.exchanges import EVERY, Exchanges
from swapboard.matching.gradient import by_gradient
from swapboard.matching.neighbourhood import improved
from swapboard.matching.objective import table_of
from swapboard.matching.rows import rows_of

MARKETS = {"named": named_wants(30, 5, 4, 6), "mixed": mixed_wants(20, 5, 3, themes=6, media=6)}


@pytest.mark.parametrize("kind", MARKETS)
@pytest.mark.parametrize("exact", [0, 10**9])
def test_many_columns_are_solved_as_few_are(kind, exact, monkeypatch):
    """Priced first, by either method, the most cards and their proof are the same."""
    plain = match.match(MARKETS[kind], 3, 20).levels[0]
    assert plain.proven and plain.value > 10
    monkeypatch.setattr(first_level, "_FEW", 0)
    monkeypatch.setattr(prices, "_EXACT", exact)
    priced = match.match(MARKETS[kind], 3, 20).levels[0]
    assert priced.value <= plain.value <= priced.bound
    if exact:
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
    some = prices.priced(rows, columns, Effort.of(20))
    taken = improved(table, rows, some, nothing, best, Effort.of(60))
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
    exact = prices.priced(rows, columns, Effort.of(20)).bound
    stepped = by_gradient(rows, columns, Effort.of(20)).bound
    assert exact - 1e-6 <= stepped <= 1.05 * exact
