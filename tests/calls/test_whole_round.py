"""One whole swap, played by commands alone, from `add call` to closed."""

import json
import stat
import zipfile

import pytest
from click.testing import CliRunner

from calls.round import STEPS, Host, new_board
from swapboard.cli import main
from swapboard.dealing.proof_check import FAILS, HOLDS, UNKNOWN, check_proof


@pytest.fixture(scope="module")
def played(tmp_path_factory):
    """A board on which the whole round was played, and what was seen on the way."""
    host = Host(new_board(tmp_path_factory.mktemp("round") / "board"))
    seen = {}
    for step in STEPS:
        step(host, seen)
    return host, seen


@pytest.mark.parametrize(
    ("phase", "words"),
    [
        ("announced", "Signing up"),
        ("signing up", "Waiting for a place"),
        ("arriving", "Cards arriving"),
        ("frozen", "Nobody knows yet who gets what"),
        ("page dealt", "Dealt"),
        ("mailed", "Mailed back"),
        ("opened", "Who got what"),
        ("received", "Received"),
        ("closed", "Closed"),
    ],
)
def test_the_page_says_where_the_swap_is(played, phase, words):
    """Each phase of the round stands on the call's page."""
    assert words in played[1][phase]


def test_places_go_to_the_first_and_then_to_who_waits(played):
    """The eighth waits; when somebody leaves, the host is told who is next."""
    seen = played[1]
    assert "waiting list" in seen["full"]
    assert "First on the waiting list is fay" in seen["left"]
    assert ">Fay<" in seen["arriving"] and ">Eli<" not in seen["arriving"]


def test_what_cannot_be_dealt_is_noted_in_private_alone(played):
    """A card that is not the maker's own counts less, and nobody reads why."""
    host, seen = played
    assert "3 cards to deal, of 4 that came" in seen["short"]
    file = host.board / "private/parcels/small-lights.csv"
    assert "a printed postcard" in file.read_text() and stat.S_IMODE(file.stat().st_mode) == 0o600
    assert "a printed postcard" not in host.site_text()
    people = (host.board / "calls/small-lights.people.csv").read_text()
    assert "own" not in people and "postcard" not in people


def test_the_deal_holds_who_had_arrived(played):
    """The host owes no card, a short parcel gets less back, a full one with an extra more."""
    back = {one["maker"]: one["back"] for one in played[1]["dealt"]["people"]}
    assert back == {"hana": 4, "ada": 3, "ben": 3, "cyd": 2, "Aunt Pim": 4, "fay": 3}
    assert played[1]["dealt"]["not_arrived"] == ["dot"]


def test_nothing_of_who_gets_what_is_public_before_the_opening(played):
    """Neither secret nor household nor a card's way is anywhere in the site."""
    host, seen = played
    kept = json.loads((host.board / "private/deals/small-lights.json").read_text())
    moves = seen["mended"]["moves"]
    for text in (seen["site dealt"], seen["site mended"]):
        assert kept["commitment"] in text
        for secret in (kept["secret"], kept["apart_secret"], "mill lane", '"table"', '"salt"'):
            assert secret not in text
    for giver, number, left, to in moves:
        assert json.dumps([giver, number, left, to]) not in seen["site mended"]
    assert "A parcel came late" in seen["site mended"]


def test_a_late_parcel_leaves_sealed_envelopes_alone(played):
    """The repair gives the late maker what they sent, first from the host's spare cards."""
    seen = played[1]
    before = {one["maker"]: one["cards"] for one in seen["dealt"]["envelopes"]}
    after = {one["maker"]: one["cards"] for one in seen["after"]["envelopes"]}
    assert "swapboard repair small-lights" in seen["late"]
    assert seen["mended"]["sealed"] == ["ada", "ben"]
    assert before["ada"] == after["ada"] and before["ben"] == after["ben"]
    assert len(after["dot"]) == 3 and all(giver != "dot" for giver, _ in after["dot"])
    assert seen["mended"]["others"] == [] and seen["mended"]["spares"] == 3
    assert seen["after"]["table"] == seen["dealt"]["table"]


def test_the_deal_is_opened_only_when_all_is_mailed(played):
    """Before that the host is told whose envelope is still there."""
    assert "dot" in played[1]["closed door"] and "--early" in played[1]["closed door"]


def test_the_published_proof_holds(played):
    """What the site offers for download is dealt again; a pair nobody told hides the last step."""
    host, _ = played
    proof = json.loads(host.page("verify/small-lights.json"))
    results = [step.result for step in check_proof(proof)]
    assert FAILS not in results and HOLDS in results and results[-1] == UNKNOWN
    assert len(proof["repairs"]) == 1
    out = host.says("verify", "small-lights")
    assert "holds" in out and "The repair of 2026-10-28" in out


def test_who_got_what_counts_the_repair(played):
    """The page of an opened call shows the envelopes as they were mailed."""
    host, seen = played
    text = host.page("calls/small-lights.html")
    shown = text[text.index("Who got what"):text.index("The swap")]
    assert shown.count("<dt>") == len([e for e in seen["after"]["envelopes"] if e["cards"]])
    for words in ("Thank you", "the deal was mended", "A repair is chosen, not drawn"):
        assert words in text


def test_a_mended_deal_says_what_no_longer_holds(played):
    """On the page and where it is verified, and not before anything was mended."""
    host, seen = played
    assert "chosen, not drawn" in host.page("verify/small-lights.html")
    assert "chosen, not drawn" not in seen["page dealt"]


def test_an_export_has_what_a_maker_gave_and_got(played, tmp_path):
    """Every card of an opened deal that is theirs or came to them, and nobody else's; what the
    host alone may read is named and left out."""
    host, seen = played
    done = CliRunner().invoke(main, ["export", "ada", str(tmp_path / "ada.zip"), str(host.board)])
    assert done.exit_code == 0, done.output
    assert "private/deals/small-lights.json: may name them" in done.output
    with zipfile.ZipFile(tmp_path / "ada.zip") as packed:
        rows = packed.read("calls/small-lights.deal.csv").decode().splitlines()[1:]
        assert not any(name.startswith("private/deals") for name in packed.namelist())
    expected = [
        f"{giver},{number},{one['maker']}"
        for one in seen["after"]["envelopes"] for giver, number in one["cards"]
        if "ada" in (giver, one["maker"])
    ]  # fmt: skip
    assert sorted(rows) == sorted(expected)
    assert any(row.startswith("ada,") for row in rows)
    assert any(row.endswith(",ada") for row in rows)
