"""A proposal whose card went with another swap is shown as overtaken."""

from datetime import date

import pytest
from swap_board import DAY, HEAD, OFFER, make

from swapboard.disk.load import load_board
from swapboard.problems import errors
from swapboard.records.overtaken import overtaken, states
from swapboard.records.types import OfferState
from swapboard.site.build import build_board

OTHER = "offers/fox-for-moth.md"


def board_with(tmp_path, first, second, more=None):
    """`first` are the dated lines of heron-for-moth, `second` those of fox-for-moth."""
    files = {
        OFFER: HEAD + "\n".join(first) + "\n",
        OTHER: HEAD.replace("night-heron", "river-fox") + "\n".join(second) + "\n",
    }
    return make(tmp_path / "board", files | (more or {}))


def state_of(board, name, day=DAY):
    loaded = load_board(board, day)
    assert errors(loaded.problems) == []
    return states(loaded.board, day, 14)[name]


AGREED = ["2026-10-01: proposed", "2026-10-05: agreed"]


def test_a_proposal_is_overtaken_when_its_card_goes(tmp_path):
    """It is no error, it names what overtook it, and it comes back when that is called off."""
    board = board_with(tmp_path, AGREED, ["2026-10-03: proposed"])
    assert state_of(board, "fox-for-moth") == OfferState.OVERTAKEN
    taken = overtaken(load_board(board, DAY).board)["fox-for-moth"]
    assert (taken.by, taken.card, taken.on) == ("heron-for-moth", "moth", date(2026, 10, 5))
    board = board_with(tmp_path, [*AGREED, "2026-10-06: withdrawn"], ["2026-10-03: proposed"])
    assert state_of(board, "fox-for-moth") == OfferState.PROPOSED


def test_what_had_expired_before_is_not_overtaken(tmp_path):
    """Whichever came first ended it."""
    board = board_with(tmp_path, AGREED, ["2026-09-01: proposed"])
    assert state_of(board, "fox-for-moth") == OfferState.EXPIRED
    board = board_with(tmp_path, AGREED, ["2026-09-21: proposed"])
    assert state_of(board, "fox-for-moth") == OfferState.OVERTAKEN


def test_a_card_that_was_gone_before_is_an_error(tmp_path):
    """A proposal for what somebody else had already is refused, not called overtaken."""
    board = board_with(tmp_path, AGREED, ["2026-10-06: proposed"])
    said = [str(problem) for problem in errors(load_board(board, DAY).problems)]
    assert len(said) == 1 and OFFER in said[0] and said[0].startswith(f"{OTHER}:4: Asks")


@pytest.mark.parametrize(("copies", "state"), [(1, "overtaken"), (2, "proposed")])
def test_an_edition_is_overtaken_with_its_last_copy(tmp_path, copies, state):
    """While a copy is free a proposal stays open."""
    moth = f"Title: Moth\nMaker: tom-varga\nKind: print 1/9\nCopies left: {copies}\n"
    board = board_with(tmp_path, AGREED, ["2026-10-03: proposed"], {"cards/moth.md": moth})
    assert state_of(board, "fox-for-moth") == state


def test_the_pages_say_so(tmp_path):
    """The offer's page names the other offer, its line of dates ends there, and the list
    puts it with those that ended without a swap."""
    board = board_with(tmp_path, AGREED, ["2026-10-03: proposed"])
    built = build_board(board, today=DAY, workers=1)
    assert built.done, built.problems
    page = (board / "output/offers/fox-for-moth.html").read_text()
    assert "Overtaken before it was answered" in page
    assert 'href="heron-for-moth.html"' in page.replace("../offers/", "")
    assert page.index("Proposed</span>") < page.index("Overtaken</span>")
    listed = (board / "output/offers.html").read_text()
    assert listed.index("Ended without a swap</h2>") < listed.index("fox-for-moth.html")
    assert listed.count('class="moments"') == 2
    card = (board / "output/cards/moth.html").read_text()
    assert "Spoken for" in card


def test_an_open_offer_says_until_when(tmp_path):
    """The line of dates ends with the last day for an answer, and after it with the end."""
    board = board_with(tmp_path, ["2026-10-01: proposed"], ["2026-09-10: proposed"])
    assert build_board(board, today=DAY, workers=1).done
    page = (board / "output/offers/heron-for-moth.html").read_text()
    assert "Open until" in page and "2026-10-15" in page
    page = (board / "output/offers/fox-for-moth.html").read_text()
    assert "Open until" not in page and "Expired" in page and "2026-09-25" in page
