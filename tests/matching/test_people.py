"""Who is worth writing to, and why; and what the command says."""

import json

from click.testing import CliRunner
from invented import DAY, board_of, card, cards_named, maker, want

from boards import DEMO
from swapboard.cli import main
from swapboard.matching.market import market_of
from swapboard.matching.match import match
from swapboard.matching.people import for_each_maker
from swapboard.matching.report import how_good
from swapboard.matching.types import Level
from swapboard.records.types import Part


def pages(makers, cards):
    market = market_of(board_of(makers, cards), DAY, 14)
    return {page.maker: page for page in for_each_maker(market, match(market, 3, 60))}


def test_who_likes_back_comes_before_who_only_has_something():
    """Cyd likes a card of Ada's and Ben does not, though his card is liked more."""
    found = pages(
        [maker("ada", cards_named("b", weight=3), cards_named("c")), maker("ben"),
         maker("cyd", cards_named("a"))],
        [card("a", "ada"), card("b", "ben"), card("c", "cyd")],
    )
    assert [(w.other, w.both) for w in found["ada"].worth_writing] == [
        ("cyd", True), ("ben", False)]
    assert [move.card for move in found["ada"].worth_writing[0].gives] == ["a"]
    assert len(found["ada"].proposals) == len(found["cyd"].proposals) == 1
    assert found["ben"].proposals == found["ben"].worth_writing == ()


def test_a_card_is_named_once_with_the_dearest_reason():
    """A card that suits two wants is liked for the stronger."""
    dear = want(Part("theme", ("sea",)), weight=3)
    found = pages([maker("ada", want(Part("anything")), dear), maker("ben", cards_named("a"))],
                  [card("a", "ada"), card("b", "ben", themes=("sea",))])
    (other,) = found["ada"].worth_writing
    assert [(move.card, move.want) for move in other.gets] == [("b", dear)]


def test_best_is_never_said_without_a_proof():
    """A gap is rounded up, and no gap is made up."""
    assert how_good(Level("x", "most", 213, 213, True)) == "proven best"
    assert how_good(Level("x", "most", 2991, 3000, False)) == "within 0.3 % of the best possible"
    assert how_good(Level("x", "most", 9999, 10_000, False)) == "within 0.1 % of the best possible"
    assert "best" not in how_good(Level("x", "most", 5, None, False)).replace("best possible", "")


def test_the_command_keeps_its_contract():
    """Version, numbers, and swaps of parcels with makers and cards by name."""
    done = CliRunner().invoke(main, ["match", str(DEMO), "--json", "--today", "2026-10-10"])
    told = json.loads(done.stdout)
    assert done.exit_code == 0 and told["version"] == 1 and told["rings"] == 3
    assert told["proven"] and told["moved"] == told["bound"] > 0
    mailed = [c for swap in told["swaps"] for parcel in swap["parcels"] for c in parcel["cards"]]
    assert len(mailed) == told["moved"]
    for swap in told["swaps"]:
        parcels = swap["parcels"]
        assert len({len(parcel["cards"]) for parcel in parcels}) == 1
        assert [p["to"] for p in parcels] == [p["from"] for p in parcels[1:] + parcels[:1]]


def test_the_command_speaks_plainly_and_refuses_a_broken_board(tmp_path):
    """Text says how good it is; a folder without a board is an error."""
    done = CliRunner().invoke(main, ["match", str(DEMO), "--rings", "2", "--today", "2026-10-10"])
    assert done.exit_code == 0 and "proven best" in done.stdout and " mails " in done.stdout
    assert CliRunner().invoke(main, ["match", str(tmp_path)]).exit_code == 1
