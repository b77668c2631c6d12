"""What pages say of proposed swaps follows from the board and its matching alone."""

from dataclasses import replace
from datetime import date

import pytest

from swapboard.matching.market import market_of
from swapboard.matching.match import match
from swapboard.matching.people import for_each_maker, likers_of_cards
from swapboard.matching.types import Level, Matching
from swapboard.records.types import Board, Card, Maker, Part, Want
from swapboard.settings import Settings
from swapboard.views.cards import card_lists, card_page
from swapboard.views.makers import maker_page
from swapboard.views.matches import maker_swaps, makers_with_swaps
from swapboard.views.showing import SECTIONS, Showing
from swapboard.views.swap_lists import (
    MAKERS_AT_MOST,
    SWAPS_PER_PAGE,
    SWAPS_WITH_CARDS,
    swap_lists,
    swap_makers,
)

TODAY = date(2026, 10, 10)


def want(text, *parts):
    return Want(text, 1, parts)


def card(name, maker, theme, **more):
    return Card(name, f"cards/{name}.md", name.title(), maker, themes=(theme,), **more)


BIRDS = want("theme birds", Part("theme", ("birds",)))
SEA = want("theme sea", Part("theme", ("sea",)))
MAKERS = {
    "ada": Maker("ada", "makers/ada.md", "Ada", likes=(BIRDS,)),
    "ben": Maker("ben", "makers/ben.md", "Ben", likes=(SEA,)),
    "cyd": Maker("cyd", "makers/cyd.md", "Cyd", likes=(BIRDS, SEA)),
    "dot": Maker("dot", "makers/dot.md", "Dot"),
}
CARDS = {c.name: c for c in (
    card("wave", "ada", "sea"), card("owl", "ben", "birds"), card("mug", "cyd", "kitchen"),
    card("pan", "dot", "kitchen"),
)}  # fmt: skip


def shown(makers=MAKERS, cards=CARDS, sections=SECTIONS):
    board = Board(cards, makers, {}, {}, {})
    market = market_of(board, TODAY, 14)
    proposals = match(market, 3, 60)
    people = {page.maker: page for page in for_each_maker(market, proposals)}
    matching = Matching(proposals, people, likers_of_cards(market))
    return Showing(board, Settings(), {}, TODAY, sections, matching)


def test_a_swap_is_shown_with_the_want_that_each_card_fills():
    """Ada's sea for Ben's birds: one for one, both reasons as their makers wrote them."""
    (tile,) = dict(swap_lists(shown()))["swaps.html"].swaps
    told = [(p.giver.text, p.taker.text, [(c.tile.name, c.reason.text) for c in p.cards])
            for p in tile.parcels]  # fmt: skip
    assert told == [
        ("Ada", "Ben", [("wave", "theme sea")]), ("Ben", "Ada", [("owl", "theme birds")]),
    ]  # fmt: skip
    assert tile.count == 1 and [link.text for link in tile.themes] == ["sea", "birds"]


def test_only_who_has_somebody_gets_a_page():
    """Cyd likes two cards and is worth a page; nobody and nothing concerns Dot."""
    showing = shown()
    assert makers_with_swaps(showing) == ["ada", "ben", "cyd"]
    assert [(one.maker.text, one.both) for one in maker_swaps(showing, "cyd").worth_writing] == [
        ("Ada", False), ("Ben", False)]
    assert maker_page(showing, "cyd").swaps_path == "swaps/cyd.html"
    assert maker_page(showing, "dot").swaps_path == ""


def test_a_card_names_first_who_could_give_something_for_it():
    """Ben has birds for Ada's wave; Cyd, who likes it as well, has nothing for her."""
    page = card_page(shown(), "wave")
    assert [(one.maker.text, one.both) for one in page.likers] == [("Ben", True), ("Cyd", False)]
    assert (page.more_likers, page.swaps_path, len(page.swaps)) == (False, "swaps/ada.html", 1)
    assert card_page(shown(), "pan").likers == ()


def test_what_a_card_may_go_for_is_heeded_on_its_page():
    """Where the wave goes only for kitchens, Ben's birds are nothing to offer for it."""
    kitchens = want("theme kitchen", Part("theme", ("kitchen",)))
    cards = CARDS | {"wave": card("wave", "ada", "sea", wants=(kitchens,))}
    assert [one.both for one in card_page(shown(cards=cards), "wave").likers] == [False, False]


def test_lists_show_the_swaps_that_hold_their_cards():
    """The page of a theme has the swaps with a card of it; the list of all has none."""
    lists = dict(card_lists(shown()))
    assert [len(lists[f"{path}.html"].swaps) for path in ("themes/birds", "themes/kitchen", "cards")
            ] == [1, 0, 0]


def test_beyond_the_first_others_are_named_and_the_rest_is_counted(monkeypatch):
    """Nobody worth writing to is lost without a word."""
    monkeypatch.setattr("swapboard.views.matches.PICTURED", 2)
    monkeypatch.setattr("swapboard.views.matches.NAMED", 5)
    many = {f"m{n}": Maker(f"m{n}", f"makers/m{n}.md", f"M{n}") for n in range(9)}
    cards = {f"owl{n}": card(f"owl{n}", f"m{n}", "birds") for n in range(9)}
    showing = shown({"ada": MAKERS["ada"], **many}, {"wave": CARDS["wave"], **cards})
    page = maker_swaps(showing, "ada")
    assert (len(page.worth_writing), len(page.others), page.left_out) == (2, 3, 4)
    assert all(one.gets == () and one.gets_count == 1 for one in page.others)


def test_fairness_is_one_aim_as_doubtful_as_its_most_doubtful_level():
    """A later level without proof takes "proven" from all of it."""
    showing = shown()
    levels = (
        Level("cards that move", "most", 6, 6, True),
        Level("makers who get 1 or more", "most", 3, 3, True),
        Level("makers who get 2 or more", "most", 2, None, False),
    )  # fmt: skip
    proposals = replace(showing.matching.proposals, levels=levels)
    showing.matching = replace(showing.matching, proposals=proposals)
    moved, fair = dict(swap_lists(showing))["swaps.html"].aims
    assert (moved.code, moved.values, moved.verdict) == ("moved", (6,), "proven")
    assert (fair.code, fair.values, fair.verdict) == ("fairness", (3, 2), "unknown")


def test_a_search_that_ran_out_of_time_is_told_with_its_aims():
    """Another build may propose other swaps then; a search that was done says nothing."""
    showing = shown()
    assert not dict(swap_lists(showing))["swaps.html"].late
    proposals = replace(showing.matching.proposals, late=True)
    showing.matching = replace(showing.matching, proposals=proposals)
    assert dict(swap_lists(showing))["swaps.html"].late


def many_swaps(pairs):
    """So many pairs of makers, each with a swap of their own: of the sea for birds, and in
    every third pair for the night."""
    makers, cards = {}, {}
    for n in range(pairs):
        theirs = "night" if n % 3 == 2 else "birds"
        one, two = f"a{n:03}", f"b{n:03}"
        for mine, maker, other in (("sea", one, two), (theirs, two, one)):
            likes = (want(f"maker {other}", Part("maker", (other,))),)
            makers[maker] = Maker(maker, f"makers/{maker}.md", maker.title(), likes=likes)
            cards[f"{maker}-c"] = card(f"{maker}-c", maker, mine)
    return shown(makers, cards)


def test_swaps_are_leafed_through_and_stand_on_one_sheet_each():
    """The first sheet has the aims and the filter, and each leads to those beside it."""
    lists = dict(swap_lists(many_swaps(2 * SWAPS_PER_PAGE + 6)))
    first, second = lists["swaps.html"], lists["swaps.page-2.html"]
    assert (len(first.swaps), len(second.swaps)) == (SWAPS_PER_PAGE + 6, SWAPS_PER_PAGE)
    assert len({tile.parcels for view in (first, second) for tile in view.swaps}) == 54
    assert (first.newer, first.older) == ("", "swaps.page-2.html")
    assert (second.newer, second.older, second.number) == ("swaps.html", "", 2)
    assert first.aims and first.themes and not (second.aims or second.themes or second.makers)
    assert first.count == 54


def test_each_theme_leads_to_all_of_its_swaps_and_to_no_other():
    """Counts of the filter are those of the lists it leads to, sheet after sheet."""
    showing = many_swaps(54)
    lists = dict(swap_lists(showing))
    cards = dict(card_lists(showing))
    told = {facet.text: (facet.path, facet.count) for facet in lists["swaps.html"].themes}
    assert told == {
        "sea": ("themes/sea.swaps.html", 54), "birds": ("themes/birds.swaps.html", 36),
        "night": ("themes/night.swaps.html", 18),
    }  # fmt: skip
    for name, (path, count) in told.items():
        further = path.removesuffix("html") + "page-"
        sheets = [view for at, view in lists.items() if at == path or at.startswith(further)]
        tiles = [tile for view in sheets for tile in view.swaps]
        assert len(tiles) == count and all(name in [t.text for t in one.themes] for one in tiles)
        page = cards[f"themes/{name}.html"]
        assert (len(page.swaps), page.more_swaps) == (SWAPS_WITH_CARDS, count - SWAPS_WITH_CARDS)
        assert page.swaps_path == path


def test_a_theme_of_few_swaps_has_them_below_its_cards():
    """It has no list of its own, and the filter leads to its page."""
    showing = many_swaps(4)
    lists = dict(swap_lists(showing))
    assert list(lists) == ["swaps.html"]
    assert [facet.path for facet in lists["swaps.html"].themes] == [
        "themes/sea.html#swaps", "themes/birds.html#swaps", "themes/night.html#swaps"]
    page = dict(card_lists(showing))["themes/sea.html"]
    assert (len(page.swaps), page.more_swaps, page.swaps_path) == (4, 0, "")


def test_many_makers_have_a_page_of_their_own():
    """All of them stand there, and the list of swaps leads to it; few stand on the list."""
    few = many_swaps(4)
    assert swap_makers(few) is None and len(dict(swap_lists(few))["swaps.html"].makers) == 8
    showing = many_swaps(MAKERS_AT_MOST // 2 + 1)
    first = dict(swap_lists(showing))["swaps.html"]
    assert (first.makers, first.makers_path) == ((), "swaps.makers.html")
    assert len(swap_makers(showing).makers) == MAKERS_AT_MOST + 2


@pytest.mark.parametrize("path", ["cards/wave", "makers/ada", "themes/birds"])
def test_a_site_without_swaps_says_nothing_of_them(path):
    """Where the plugin is left out, no page has a word or a link."""
    showing = shown(sections=SECTIONS - {"swaps"})
    kind, name = path.split("/")
    view = {"cards": lambda: card_page(showing, name), "makers": lambda: maker_page(showing, name),
            "themes": lambda: dict(card_lists(showing))[f"{path}.html"]}[kind]()  # fmt: skip
    assert not getattr(view, "swaps", ()) and not getattr(view, "swaps_path", "")
    assert not getattr(view, "likers", ())
