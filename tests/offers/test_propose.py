"""`swapboard propose`: what the board proposes becomes offers, and a round goes to its end."""

import pytest
from click.testing import CliRunner
from swap_board import DAY, OFFER, make

from boards import files_of
from swapboard.cli import main
from swapboard.disk.load import load_board
from swapboard.problems import errors
from swapboard.records.standing import standing, written_state
from swapboard.records.types import OfferState

PAIR = {OFFER: None, "makers/tom-varga.md": "Name: Tom Varga\nLikes: theme birds\n"}
RING = {
    OFFER: None,
    "makers/tom-varga.md": "Name: Tom Varga\nLikes: card kettle\n",
    "makers/ama-darko.md": "Name: Ama Darko\nLikes: theme birds\n",
    "cards/kettle.md": "Title: Kettle\nMaker: ama-darko\n",
}
PARCELS = ("kettle-to-tom-varga", "moth-to-ines-okafor", "night-heron-to-ama-darko")


def run(board, *said, day=DAY):
    done = CliRunner().invoke(main, [*said, "--today", str(day)])
    assert done.exit_code in (0, 1) and (not done.exception or done.exit_code), done.output
    return done


def propose(board, *said):
    return run(board, "propose", *said, "--board", str(board))


def step(board, name, what, *more):
    return run(board, "offer", name, what, str(board), *more)


def today(board, *more):
    return run(board, "today", str(board), *more).stdout


@pytest.fixture
def pair(tmp_path):
    return make(tmp_path / "board", PAIR)


@pytest.fixture
def ring(tmp_path):
    return make(tmp_path / "board", RING)


def states(board):
    loaded = load_board(board, DAY)
    assert not errors(loaded.problems), loaded.problems
    return {name: written_state(offer) for name, offer in loaded.board.offers.items()}


def test_the_first_maker_named_makes_the_offer(pair):
    """By the name of their file or as they are called; the other is asked for their card."""
    done = propose(pair, "Tom Varga", "ines-okafor")
    assert done.exit_code == 0, done.output
    assert (pair / "offers/moth-for-night-heron.md").read_text() == (
        "Title: Moth for Night heron\nFrom: tom-varga\nTo: ines-okafor\nGives: moth\n"
        "Asks: night-heron\n2026-10-10: proposed\n"
    )
    assert "ines-okafor owes tom-varga an answer" in today(pair)


def test_what_both_have_said_yes_to_is_agreed_at_once(pair):
    """Its cards are spoken for, and the introduction is the keeper's next errand."""
    assert "swapboard propose ines-okafor tom-varga --agreed" in today(pair)
    done = propose(pair, "ines-okafor", "tom-varga", "--agreed")
    assert "offers/night-heron-for-moth.md: agreed" in done.stdout
    assert list(states(pair).values()) == [OfferState.AGREED]
    assert "introduce ines-okafor and tom-varga, who have agreed" in today(pair)
    assert "Swaps to propose" not in today(pair)


def test_a_swap_that_waits_as_an_offer_is_not_proposed_again(pair):
    """Neither by the list of the day nor by the command, which says what to do instead."""
    assert propose(pair, "ines-okafor", "tom-varga").exit_code == 0
    assert "Swaps to propose" not in today(pair)
    before = files_of(pair / "offers")
    again = propose(pair, "tom-varga", "ines-okafor", "--agreed")
    assert again.exit_code == 1 and "swapboard offer night-heron-for-moth agreed" in again.stderr
    assert files_of(pair / "offers") == before


def test_a_ring_becomes_an_offer_for_each_parcel(ring):
    """Each names the whole round, and asks nothing."""
    assert propose(ring, "tom-varga", "ines-okafor", "ama-darko").exit_code == 0
    assert sorted(states(ring)) == sorted(PARCELS)
    assert (ring / "offers/moth-to-ines-okafor.md").read_text() == (
        "Title: Moth, in a round of three\nFrom: tom-varga\nTo: ines-okafor\nGives: moth\n"
        "Round: tom-varga, ines-okafor, ama-darko\n2026-10-10: proposed\n"
    )


def test_nobody_mails_before_all_of_a_round_have_said_yes(ring):
    """With the last yes all three parcels are introduced, each to its own two makers."""
    propose(ring, "tom-varga", "ines-okafor", "ama-darko")
    for name in PARCELS[:2]:
        assert step(ring, name, "agreed").exit_code == 0
    assert "introduce" not in today(ring) and "to be mailed" not in today(ring)
    assert step(ring, PARCELS[2], "agreed").exit_code == 0
    told = today(ring, "--drafts")
    assert told.count(": introduce ") == 3 and told.count("to be mailed") == 3
    assert "Ama Darko mails Kettle to Tom Varga" in told and "mails  to" not in told


def test_a_round_goes_to_its_end_parcel_by_parcel(ring):
    """Who mails and who receives needs no saying; each parcel is complete by itself."""
    propose(ring, "ama-darko", "tom-varga", "ines-okafor", "--agreed")
    for name in PARCELS:
        assert step(ring, name, "mailed").exit_code == 0
    assert set(states(ring).values()) == {OfferState.ON_THEIR_WAY}
    for name in PARCELS:
        assert step(ring, name, "received").exit_code == 0
    assert set(states(ring).values()) == {OfferState.COMPLETE}
    board = load_board(ring, DAY).board
    stands = standing(board, DAY, 14)
    traded = [card for card in ("kettle", "moth", "night-heron") if stands[card][1] == 0]
    assert len(traded) == 3 and stands["river-fox"][1] == 1
    assert today(ring) == "Nothing is to be done today.\n"


def test_a_round_that_one_leaves_is_off_for_all(ring):
    """The others are told, and the commands that free their cards stand there."""
    propose(ring, "tom-varga", "ines-okafor", "ama-darko")
    step(ring, PARCELS[0], "agreed")
    step(ring, PARCELS[1], "declined")
    told = today(ring, "--drafts", "--no-proposals")
    assert told.count("the round is off, since offers/moth-to-ines-okafor.md is declined") == 2
    assert "will not come about" in " ".join(told.split()) and "mail within" not in told
    for name in (PARCELS[0], PARCELS[2]):
        assert f"swapboard offer {name} withdrawn" in told
        assert step(ring, name, "withdrawn").exit_code == 0
    assert today(ring, "--no-proposals") == "Nothing is to be done today.\n"


@pytest.mark.parametrize(("said", "reason"), [
    (("ines-okafor",), "two makers or more"),
    (("ines-okafor", "ines-okafor"), "two makers or more"),
    (("ines-okafor", "tom-vargo"), 'did you mean "tom-varga"'),
    (("ines-okafor", "../../etc"), "must be a maker of this board"),
    (("tom-varga", "ama-darko"), "proposed is: swapboard propose ama-darko tom-varga ines-okafor"),
])  # fmt: skip
def test_what_is_not_proposed_is_refused_with_what_is(ring, said, reason):
    """Nothing is written, and the message has something to type."""
    done = propose(ring, *said)
    assert done.exit_code == 1 and reason in done.stderr and "Fix:" in done.stderr
    assert not (ring / "offers").exists()


def test_a_board_with_an_error_proposes_nothing(ring):
    """The error is named; so is a folder that is no board."""
    (ring / "cards/fern.md").write_text("Title: Fern\nMaker: nobody\n")
    done = propose(ring, "ama-darko", "tom-varga", "ines-okafor")
    assert done.exit_code == 1 and "cards/fern.md:2" in done.stderr
    done = propose(ring.parent, "ama-darko", "tom-varga")
    assert done.exit_code == 1 and "swapboard start" in done.output


ROUND = "From: tom-varga\nTo: ines-okafor\nGives: moth\n{}\n2026-10-01: proposed\n"


@pytest.mark.parametrize(("line", "reason"), [
    ("Round: tom-varga, ines-okafor", "must name three or four makers"),
    ("Round: tom-varga, ines-okafor, tom-varga", "must name three or four makers"),
    ("Round: ines-okafor, tom-varga, ama-darko", "right behind the one in From"),
    ("Round: tom-varga, ines-okafor, nobody", "must be the name of a file in makers"),
    ("Round: tom-varga, ines-okafor, ama-darko\nAsks: night-heron", "must not stand beside Round"),
    ("Ring: tom-varga, ines-okafor, ama-darko", "Round"),
])  # fmt: skip
def test_a_round_that_cannot_be_is_a_problem(ring, line, reason):
    """It names its line and what to write instead."""
    make(ring, {"offers/x.md": ROUND.format(line), OFFER: None})
    found = [str(problem) for problem in errors(load_board(ring, DAY).problems)]
    assert any("offers/x.md:" in text and reason in text for text in found), found


def test_a_round_that_lacks_a_parcel_is_warned_of(ring):
    """Each of the parcels that are there says which is not; a whole round says nothing."""
    propose(ring, "tom-varga", "ines-okafor", "ama-darko")
    assert not load_board(ring, DAY).problems
    (ring / "offers/moth-to-ines-okafor.md").unlink()
    told = [str(problem) for problem in load_board(ring, DAY).problems]
    assert len(told) == 2
    assert all("there is none from tom-varga to ines-okafor" in text for text in told), told


@pytest.mark.parametrize(("what", "by"), [("mailed", "ines-okafor"), ("received", "tom-varga")])
def test_in_a_round_a_parcel_goes_one_way(ring, what, by):
    """The other way belongs to another offer, and the message says so."""
    propose(ring, "tom-varga", "ines-okafor", "ama-darko", "--agreed")
    step(ring, "moth-to-ines-okafor", "mailed")
    done = step(ring, "moth-to-ines-okafor", what, "--by", by)
    assert done.exit_code == 1 and "tom-varga mails and ines-okafor receives" in done.stderr


def test_forgetting_a_maker_takes_their_rounds_along(ring):
    """No post is left that names them, and the others' cards keep their state."""
    propose(ring, "tom-varga", "ines-okafor", "ama-darko", "--agreed")
    done = CliRunner().invoke(main, ["forget", "ama-darko", str(ring), "--yes"])
    assert done.exit_code == 0, done.output
    assert not list((ring / "offers").glob("*.md"))
    assert "State: spoken for" in (ring / "cards/moth.md").read_text()
