"""Big markets take other ways through the search; on smaller ones all ways agree."""

import pytest
from invented import mixed_wants, named_wants

from swapboard.matching import first_level, match, prices

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
