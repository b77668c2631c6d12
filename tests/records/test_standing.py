"""What has become of offers, and where that leaves the cards."""

from datetime import date

import pytest
from sample_board import GOOD, PHOTOS, changed, messages, read_with

from swapboard.records.board import read_board
from swapboard.records.standing import offer_state, sides, standing
from swapboard.records.types import OfferState, State

DAY = date(2026, 10, 10)
OFFER = "offers/heron-for-moth.md"
HEAD = "From: ines-okafor\nTo: tom-varga\nGives: night-heron\nAsks: moth\n"
COMPLETE = [
    "2026-09-01: proposed",
    "2026-09-02: agreed",
    "2026-09-03: mailed by ines-okafor",
    "2026-09-03: mailed by tom-varga",
    "2026-09-10: received by tom-varga",
    "2026-09-12: received by ines-okafor",
]
SINGLE = {"cards/night-heron.md": "Title: Night heron\nPhoto: heron.jpg\n"}


def told(lines: list[str]) -> dict[str, str]:
    return {OFFER: HEAD + "\n".join(lines) + "\n"}


def stands(changes: dict) -> dict[str, tuple[State, int]]:
    return standing(read_with(changes)[0], DAY, 14)


@pytest.mark.parametrize(
    ("lines", "state"),
    [
        (COMPLETE[:1], OfferState.EXPIRED),
        (["2026-09-26: proposed"], OfferState.PROPOSED),
        (["2026-09-25: proposed"], OfferState.EXPIRED),
        (COMPLETE[:2], OfferState.AGREED),
        (COMPLETE[:3], OfferState.ON_THEIR_WAY),
        (COMPLETE[:5], OfferState.ON_THEIR_WAY),
        (COMPLETE, OfferState.COMPLETE),
        ([*COMPLETE[:1], "2026-09-05: declined"], OfferState.DECLINED),
        ([*COMPLETE[:2], "2026-09-05: withdrawn"], OfferState.WITHDRAWN),
        ([*COMPLETE[:4], "2026-09-30: lost"], OfferState.LOST),
        ([*COMPLETE[:4], "2026-09-04: lost", *COMPLETE[4:]], OfferState.COMPLETE),
    ],
)
def test_the_state_follows_from_the_dated_lines(lines, state):
    """An offer's state comes from what happened, and it expires after the house's days."""
    board, problems = read_with(told(lines))
    assert not problems
    assert offer_state(board.offers["heron-for-moth"], DAY, 14) == state


def test_each_side_has_two_flags_of_its_own():
    """Mailed and received are kept for each maker apart."""
    offer = read_with(told(COMPLETE[:5]))[0].offers["heron-for-moth"]
    assert [(s.maker, s.mailed, s.received) for s in sides(offer)] == [
        ("ines-okafor", True, False),
        ("tom-varga", True, True),
    ]


@pytest.mark.parametrize(
    ("lines", "heron", "moth"),
    [
        (COMPLETE[:1], (State.AVAILABLE, 1), (State.AVAILABLE, 1)),
        (COMPLETE[:2], (State.SPOKEN_FOR, 0), (State.SPOKEN_FOR, 0)),
        (COMPLETE[:5], (State.SPOKEN_FOR, 0), (State.SPOKEN_FOR, 0)),
        (COMPLETE, (State.TRADED, 0), (State.TRADED, 0)),
        ([*COMPLETE[:5], "2026-09-30: lost"], (State.TRADED, 0), (State.SPOKEN_FOR, 0)),
    ],
)
def test_an_offers_word_goes_before_the_cards(lines, heron, moth):
    """Cards stand where their offer says: spoken for, traded, or free."""
    found = stands(told(lines) | SINGLE)
    assert (found["night-heron"], found["moth"]) == (heron, moth)
    assert found["fern"] == (State.AVAILABLE, 1)


def test_an_edition_counts_its_copies():
    """Of an edition one copy goes with each offer, and the rest stays free."""
    assert stands(told(COMPLETE[:2]))["night-heron"] == (State.AVAILABLE, 1)
    second = {
        "offers/second.md": HEAD.replace("moth", "fern") + "2026-09-01: proposed\n2026-09-05 agreed"
    }
    assert stands(told(COMPLETE) | second)["night-heron"] == (State.SPOKEN_FOR, 0)


def test_after_a_loss_the_typed_state_decides():
    """A State typed in a card settles a lost offer."""
    lines = [*COMPLETE[:4], "2026-09-30: lost"]
    fern = {"cards/moth.md": "Maker: tom-varga\nThemes: Moths\nTitle: Moth\nState: keeping\n"}
    assert stands(told(lines) | fern)["moth"] == (State.KEEPING, 0)
    assert messages(told(lines) | fern) == []


def test_two_agreed_offers_for_one_card_are_named_together():
    """A single card spoken for twice is an error in the later offer that names the first."""
    third = HEAD.replace("moth", "fern") + "2026-09-01: proposed\n2026-09-05: agreed\n"
    assert messages(told(COMPLETE[:2]) | SINGLE | {"offers/a.md": third}) == [
        "offers/a.md:3: Gives: must be spoken for once: offers/heron-for-moth.md has it already "
        '(got "night-heron"). Fix: add a line declined or withdrawn to one of the offers, or mend '
        "its cards."
    ]


def test_an_edition_is_spoken_for_as_often_as_it_has_copies():
    """The third of three offers for two copies is an error, the second is not."""
    agreed = "2026-09-01: proposed\n2026-09-05: agreed\n"
    cards = {f"cards/c{i}.md": f"Title: c{i}\nMaker: tom-varga\n" for i in range(2)}
    offers = {f"offers/z{i}.md": HEAD.replace("moth", f"c{i}") + agreed for i in range(2)}
    said = messages(told(COMPLETE[:2]) | cards | offers)
    assert [m.split(" (got")[0] for m in said] == [
        "offers/z1.md:3: Gives: must have a copy left: all 2 are spoken for by "
        "offers/heron-for-moth.md, offers/z0.md"
    ]


@pytest.mark.parametrize(
    ("lines", "typed", "said"),
    [
        (COMPLETE[:2], "available", State.SPOKEN_FOR),
        (COMPLETE[:2], "keeping", State.SPOKEN_FOR),
        (COMPLETE[:2], "traded", State.SPOKEN_FOR),
        (COMPLETE, "available", State.TRADED),
        (COMPLETE, "spoken for", State.TRADED),
    ],
)
def test_a_typed_state_may_not_deny_an_offer(lines, typed, said):
    """A State typed in a card against an offer's word names both files."""
    card = {"cards/moth.md": f"Maker: tom-varga\nThemes: Moths\nTitle: Moth\nState: {typed}\n"}
    assert messages(told(lines) | card) == [
        f"cards/moth.md:4: State: must not deny {OFFER}, by which it is {said.value} "
        f'(got "{typed}"). Fix: take the line out: the offer\'s dated lines say where the card '
        "stands."
    ]


@pytest.mark.parametrize(("lines", "typed"), [(COMPLETE[:2], "spoken for"), (COMPLETE, "traded")])
def test_a_typed_state_may_agree_with_an_offer(lines, typed):
    """A State that says what the offer says is no problem."""
    card = {"cards/moth.md": f"Maker: tom-varga\nThemes: Moths\nTitle: Moth\nState: {typed}\n"}
    assert messages(told(lines) | card) == []


def test_an_open_proposal_needs_available_cards():
    """A proposal for a card that is promised, kept or gone is an error that says why."""
    other = {"offers/b.md": HEAD + "2026-09-20: proposed\n"}
    said = messages(told(COMPLETE[:2]) | other | SINGLE)
    assert [m.split("Fix: ")[1] for m in said] == [
        f"{OFFER} has it: add a line declined or withdrawn, or name another card."
    ] * 2
    kept = changed("cards/moth.md", "Edge: torn or burnt", "State: keeping")
    assert messages(told(COMPLETE[:1]) | kept) == [
        f'{OFFER}:4: Asks: must name cards that are available (got "moth"). '
        "Fix: cards/moth.md says it is keeping: add a line declined or withdrawn, or name "
        "another card."
    ]


def test_an_expired_proposal_holds_nobody_to_anything():
    """With a day given, a proposal that has expired needs no available card."""
    kept = {"cards/moth.md": "Maker: tom-varga\nThemes: Moths\nTitle: Moth\nState: keeping\n"}
    texts = GOOD | told(COMPLETE[:1]) | kept
    assert read_board(texts, PHOTOS, today=DAY)[2] == []
    assert len(read_board(texts, PHOTOS, today=date(2026, 9, 2))[2]) == 1
