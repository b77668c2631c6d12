"""Publishing without the broken posts."""

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sample_board import GOOD, PHOTOS, changed, read_with

from swapboard.problems import Problem
from swapboard.records.board import read_board
from swapboard.records.set_aside import not_safe_to_set_aside, set_aside
from swapboard.records.standing import standing
from swapboard.records.types import Board, State

DAY = date(2026, 10, 10)
OFFER = "offers/heron-for-moth.md"


def aside(changes: dict, more: list[Problem] = ()) -> tuple[Board, list[str]]:
    board, problems = read_with(changes)
    return set_aside(board, [*problems, *more])


def test_three_broken_files_leave_the_rest():
    """A bad date, a misspelt maker and a missing photo go; each is named with its reason."""
    bad = {
        "cards/a.md": "Title: a\nMade: last week\n",
        "cards/b.md": "Title: b\nMaker: tom-vagra\n",
        "cards/c.md": "Title: c\nPhoto: none.jpg\n",
    }
    board, said = aside(bad)
    assert set(board.cards) == {"night-heron", "moth", "fern"}
    assert said == [
        "cards/a.md: line 2, Made: must be a date like 2026-09-28",
        "cards/b.md: line 2, Maker: must be the name of a file in makers/",
        "cards/c.md: line 2, Photo: must be a picture in photos/",
    ]


def test_a_maker_takes_cards_offers_and_calls_along():
    """What needs a broken maker is left out with it, and the cards promised to them stay held."""
    board, said = aside({"makers/tom-varga.md": "Nonsense"})
    assert set(board.cards) == {"night-heron"} and not board.offers and not board.calls
    assert [sentence.split(":")[0] for sentence in said] == [
        "calls/small-lights.md",
        "cards/fern.md",
        "cards/moth.md",
        "makers/tom-varga.md",
        OFFER,
    ]
    assert said[4] == (
        f"{OFFER}: its maker tom-varga is left out; not free while it is left out: night-heron"
    )
    # Of two copies one is promised: the other is still free.
    assert standing(board, DAY, 14)["night-heron"] == (State.AVAILABLE, 1)


@pytest.mark.parametrize(
    "offer",
    [
        changed(OFFER, "2026-09-30 mailed", "2026-09-31 mailed"),
        changed(OFFER, "2026-09-28: agreed\n", ""),
        changed(OFFER, "From: ines-okafor", "From: ines-okfor"),
        changed(OFFER, "From", "Frm"),
    ],
)
def test_cards_of_a_broken_offer_do_not_become_available(offer):
    """Cards named in an offer that is set aside stay spoken for."""
    board, said = aside(offer)
    assert not board.offers
    assert standing(board, DAY, 14)["moth"] == (State.SPOKEN_FOR, 0)
    assert said[0].endswith("; not free while it is left out: moth, night-heron")


def test_an_offer_whose_cards_cannot_be_read_says_so():
    """Where a broken offer's cards cannot be known, the sentence asks to look."""
    _, said = aside(changed(OFFER, "Asks: moth", "Aks: moth"))
    assert said[0].endswith(
        "; not free while it is left out: night-heron; some of its cards could not be read: "
        "look whether they are shown as available"
    )


def test_an_error_in_a_picture_takes_its_card():
    """A card goes with its unreadable picture."""
    broken = Problem("photos/table.jpg", 0, "", "must be a picture", None, "take it anew.")
    board, said = aside({}, [broken])
    assert set(board.cards) == {"night-heron", "fern"} and not board.offers
    assert said[0] == "cards/moth.md: its picture, photos/table.jpg, has an error"


def test_an_error_in_a_list_takes_its_call():
    """A call goes with its list of people."""
    board, said = aside(changed("calls/small-lights.people.csv", "A guest,4", "A guest,four"))
    assert not board.calls
    assert said == [
        "calls/small-lights.md: calls/small-lights.people.csv has an error",
        "calls/small-lights.people.csv: line 3, cards: must be a whole number from 0 to 9999",
    ]


@pytest.mark.parametrize(
    ("changes", "unsafe"),
    [
        ({"board.toml": "format = 2\n"}, ["board.toml"]),
        ({"makers/ines-okafor.md": "Nonsense"}, ["makers/ines-okafor.md"]),
        ({"makers/tom-varga.md": "Nonsense"}, []),
        ({"stray/x.md": "Title: x"}, ["stray/x.md"]),
    ],
)
def test_what_no_board_can_be_without(changes, unsafe):
    """board.toml, the keeper's post and files of no kind cannot be set aside."""
    texts = GOOD | changes
    _, found, problems = read_board(texts, PHOTOS)
    assert [p.path for p in not_safe_to_set_aside(problems, found)] == unsafe


def test_a_file_without_text_is_known_by_its_name():
    """What nobody could decode is left out; what refers to it goes too and is not blamed."""
    texts = {path: text for path, text in GOOD.items() if path != "cards/moth.md"}
    board, _, problems = read_board(
        texts, PHOTOS, unread=["cards/moth.md", "offers/new.md", "photos/x.jpg"]
    )
    assert [p.severity for p in problems] == ["warning"]
    board, said = set_aside(board, problems)
    assert said == [
        "cards/moth.md: has an error",
        f"{OFFER}: its card moth is left out; not free while it is left out: night-heron",
        "offers/new.md: has an error; some of its cards could not be read: "
        "look whether they are shown as available",
    ]


def closed(board: Board) -> bool:
    return (
        all(card.maker in board.makers for card in board.cards.values())
        and all(call.host in board.makers for call in board.calls.values())
        and all(
            {o.from_maker, o.to_maker} <= board.makers.keys()
            and {*o.gives, *o.asks} <= board.cards.keys()
            for o in board.offers.values()
        )
    )


PATHS = sorted(path for path in GOOD if path.endswith((".md", ".csv")))


@settings(deadline=None, max_examples=40)
@given(st.sets(st.sampled_from(PATHS)))
def test_any_broken_files_leave_a_closed_board(broken):
    """Whatever is broken, what is left names nothing that is left out, and every file is
    on the board or named."""
    board, said = aside(dict.fromkeys(broken, "\x00"))
    assert closed(board)
    kept = {
        r.path
        for kind in ("cards", "makers", "calls", "offers", "pages")
        for r in getattr(board, kind).values()
    }
    named = {sentence.split(":")[0] for sentence in said}
    assert not kept & named
    assert kept | named >= {path for path in PATHS if path.endswith(".md")}
    if "moth" in board.cards:
        expected = State.AVAILABLE if OFFER in broken else State.SPOKEN_FOR
        assert standing(board, DAY, 14)["moth"][0] == expected
