"""Pages count from the oldest, so that a new card changes few."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from swapboard.facets.grouping import page_path
from swapboard.facets.paging import sheets


@given(st.integers(0, 200), st.integers(1, 30))
def test_every_item_is_on_one_page_in_order(count, size):
    """Put together, the pages are the list."""
    items = list(range(count))
    cut = sheets(items, size)
    assert [i for sheet in cut for i in sheet.items] == items
    assert [sheet.number for sheet in cut] == list(range(len(cut), 0, -1))
    assert all(len(sheet.items) == size for sheet in cut if not sheet.is_newest)
    assert len(cut[0].items) < 2 * size


@given(st.integers(0, 200), st.integers(1, 30))
def test_a_new_item_leaves_older_pages_as_they_are(count, size):
    """Every page but the newest two keeps its items, and its number."""
    before = {sheet.number: sheet.items for sheet in sheets(list(range(count, 0, -1)), size)}
    after = {sheet.number: sheet.items for sheet in sheets(list(range(count + 1, 0, -1)), size)}
    changed = {n for n in after if after[n] != before.get(n)}
    assert changed <= {max(after), max(after) - 1}
    assert all(after[n] == before[n] for n in range(1, max(before)))


def test_a_list_without_items_has_one_page():
    """There is always a page to link to."""
    assert [(s.number, s.of, s.items) for s in sheets([], 5)] == [(1, 1, ())]


def test_no_page_of_nothing():
    """A size below one is a fault of the caller."""
    with pytest.raises(ValueError, match="at least 1"):
        sheets([1], 0)


def test_paths_of_pages_cannot_meet_names():
    """The newest page has the plain path; the others a dot that no slug holds."""
    assert page_path("themes/birds.html", 3, 3) == "themes/birds.html"
    assert page_path("themes/birds.html", 2, 3) == "themes/birds.page-2.html"
