"""Errands follow from dated lines alone, each with its day, its people and its mail."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from swap_board import HEAD, OFFER, make

from swapboard.disk.load import load_board
from swapboard.records.header import read_header
from swapboard.records.offer import OFFER_KEYS
from swapboard.settings import Settings, SwapSettings
from swapboard.taking.form import read_forms
from swapboard.today.offers import offer_errands
from swapboard.today.proposals import proposal_errands
from swapboard.today.types import Errand, by_urgency
from swapboard.today.words import Mailing

PROPOSED = ["2026-10-01: proposed"]
AGREED = [*PROPOSED, "2026-10-03: agreed"]
MAILED = [*AGREED, "2026-10-05: mailed by ines-okafor"]
BOTH = [*MAILED, "2026-10-06: mailed by tom-varga"]
HALF = [*BOTH, "2026-10-20: received by tom-varga"]


def errands(tmp_path, lines, day, more=None, keeper="somebody"):
    board = make(tmp_path / "board", {OFFER: HEAD + "\n".join(lines) + "\n", **(more or {})})
    loaded = load_board(board, day)
    settings = replace(loaded.settings, board=replace(loaded.settings.board, keeper=keeper))
    return offer_errands(loaded.board, day, settings, {("ines-okafor", "moth"): "moths"})


def short(found):
    return [(e.due and str(e.due), e.who, e.since and str(e.since)) for e in found]


@pytest.mark.parametrize(
    ("lines", "day", "expected"),
    [
        (PROPOSED, "2026-10-10", [("2026-10-15", ("tom-varga",), "2026-10-01")]),
        (PROPOSED, "2026-10-16", [("2026-10-16", (), "2026-10-16")]),
        (PROPOSED, "2026-10-30", []),
        (AGREED, "2026-10-10", [("2026-10-03", (), "2026-10-03"),
                                ("2026-10-17", ("ines-okafor",), "2026-10-03"),
                                ("2026-10-17", ("tom-varga",), "2026-10-03")]),
        (MAILED, "2026-10-10", [("2026-10-17", ("tom-varga",), "2026-10-03"),
                                ("2026-11-04", ("tom-varga",), "2026-10-05")]),
        (BOTH, "2026-10-10", [("2026-11-04", ("tom-varga",), "2026-10-05"),
                              ("2026-11-05", ("ines-okafor",), "2026-10-06")]),
        (HALF, "2026-11-10", [("2026-11-05", ("ines-okafor",), "2026-10-06")]),
        ([*HALF, "2026-10-22: received by ines-okafor"], "2026-11-10", []),
        ([*HALF, "2026-10-30: lost"], "2026-11-10", [("2026-10-30", (), "2026-10-30")]),
        ([*AGREED, "2026-10-04: withdrawn"], "2026-10-10", []),
        ([*PROPOSED, "2026-10-04: declined"], "2026-10-10", []),
    ],
)  # fmt: skip
def test_each_state_has_its_errands(tmp_path, lines, day, expected):
    """Who has to answer, mail or receive, by when, and since when they have owed it."""
    found = errands(tmp_path, lines, date.fromisoformat(day))
    assert short(found) == expected
    assert all(errand.draft and errand.about == OFFER for errand in found)


def test_nobody_writes_to_themselves(tmp_path):
    """What the keeper owes as a maker is an errand without a mail."""
    found = errands(tmp_path, BOTH, date(2026, 10, 10), keeper="ines-okafor")
    assert [bool(errand.draft) for errand in found] == [True, False]


def test_a_loss_is_settled_by_a_typed_state(tmp_path):
    """Once the card that did not arrive has a State of its own, nothing is left to do."""
    moth = {"cards/moth.md": "Title: Moth\nMaker: tom-varga\nState: traded\n"}
    heron = {"cards/night-heron.md": "Title: Night heron\nState: keeping\n"}
    lines = [*BOTH, "2026-10-30: lost"]
    assert errands(tmp_path, lines, date(2026, 11, 1), moth | heron) == ()


def test_an_overtaken_proposal_is_the_keepers_to_close(tmp_path):
    """Whoever waits in vain is told, and the command that ends it stands there."""
    other = HEAD.replace("night-heron", "river-fox") + "2026-10-02: proposed\n"
    found = errands(tmp_path, AGREED, date(2026, 10, 5), {"offers/fox-for-moth.md": other})
    (gone,) = [errand for errand in found if errand.about == "offers/fox-for-moth.md"]
    assert gone.who == () and gone.draft.to == ("ines-okafor",)
    assert "swapboard offer fox-for-moth declined" in gone.what


def test_the_most_urgent_comes_first_and_the_undated_last():
    """The order is total, so the same board always gives the same list."""
    day = date(2026, 10, 10)
    made = [Errand(None, "", (), "b"), Errand(day, "b", (), "x"), Errand(day, "a", (), "x"),
            Errand(day - timedelta(1), "z", (), "x"), Errand(None, "", (), "a")]  # fmt: skip
    ordered = sorted(made, key=by_urgency)
    assert [(e.due, e.about, e.what) for e in ordered] == [
        (day - timedelta(1), "z", "x"), (day, "a", "x"), (day, "b", "x"),
        (None, "", "a"), (None, "", "b"),
    ]  # fmt: skip


def test_the_settings_say_when_something_is_late(tmp_path):
    """Days for mailing and arriving are the house's own."""
    board = make(tmp_path / "board", {OFFER: HEAD + "\n".join(MAILED) + "\n"})
    settings = Settings(swaps=SwapSettings(mail_days=2, arrive_days=3))
    found = offer_errands(load_board(board).board, date(2026, 10, 10), settings)
    assert [str(errand.due) for errand in found] == ["2026-10-05", "2026-10-08"]


def test_the_introduction_says_what_why_and_how(tmp_path):
    """To both: the cards, the want that one fills, and addresses only by their own consent."""
    intro = errands(tmp_path, AGREED, date(2026, 10, 4))[0].draft
    assert intro.to == ("ines-okafor", "tom-varga")
    assert "Inés Okafor mails Night heron to Tom Varga (Hungary)" in intro.body
    assert "Tom Varga mails Moth to Inés Okafor (Portugal)" in intro.body
    assert "Inés Okafor likes: moths" in intro.body
    assert "yes, pass it on" in intro.body and "never go through the board" in intro.body


@pytest.mark.parametrize("lines", [PROPOSED, AGREED, BOTH])
def test_the_lines_to_answer_with_are_a_form_to_fill_in(tmp_path, lines):
    """What a maker sends back is read, and quoted without an answer it says nothing."""
    found = errands(tmp_path, lines, date(2026, 10, 10))
    (form,), problems = read_forms(found[-1].draft.body, "reply")
    assert problems == [] and form.kind == "news"
    assert form.text("news") == "" and form.text("offer") == "heron-for-moth"
    assert form.text("board") == "Reed Street" and form.text("by") in found[-1].draft.to


def test_a_proposed_swap_is_put_to_all_its_makers(tmp_path):
    """In a ring each learns what goes where; nothing is settled by it."""
    loaded = load_board(make(tmp_path / "board"))
    ring = [
        Mailing("ines-okafor", "tom-varga", ("night-heron",), ("birds",)),
        Mailing("tom-varga", "bo-tamm", ("moth",)),
        Mailing("bo-tamm", "ines-okafor", ("gone",)),
    ]
    (errand,) = proposal_errands([ring], loaded.board, loaded.settings)
    assert errand.about == "" and errand.due is None
    assert errand.draft.to == ("ines-okafor", "tom-varga", "bo-tamm")
    assert "Hello Inés Okafor, Tom Varga and bo-tamm," in errand.draft.body
    assert "goes round" in errand.draft.body and "until you say yes" in errand.draft.body
    assert "Tom Varga likes: birds" in errand.draft.body


def test_a_drafted_subject_is_one_line(tmp_path):
    """So is every title it comes from: no header of a mail can be smuggled in."""
    text = f"Title: A\n    Bcc: x\n{HEAD}2026-10-01: proposed\n"
    assert read_header(OFFER, text, OFFER_KEYS)[1] == []
    found = errands(tmp_path, [], date(2026, 10, 4), {OFFER: text})
    assert found and all("\n" not in errand.draft.subject for errand in found)
