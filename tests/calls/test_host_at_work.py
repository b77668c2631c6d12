"""What a host may not do is refused in words, and nothing is written."""

import json
import shutil
import stat

import pytest

from boards import files_of
from calls.round import Host, new_board

pytestmark = pytest.mark.usefixtures("looked_at_once")

CALL = (
    "Title: Lights\nDate: 2026-09-01\nHost: hana\nSend: 3\nReceive: 2\nSign up by: 2026-09-20\n"
    "Arrive by: 2026-10-20\nMail out by: 2026-11-05\n\nAnything lit.\n"
)
PEOPLE = (
    "maker,cards,signed up,arrived,note\ncyd,3,2026-09-05,2026-10-10,\n"
    "dot,3,2026-09-05,2026-10-11,\neli,3,2026-09-05,2026-10-12,\nfay,3,2026-09-05,2026-10-13,\n"
)


@pytest.fixture
def host(tmp_path):
    """A host with a call whose cards are here."""
    host = Host(new_board(tmp_path / "board"))
    (host.board / "calls/lights.md").write_text(CALL)
    (host.board / "calls/lights.people.csv").write_text(PEOPLE)
    return host


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("join", "light", "ada"), 'did you mean "lights"?'),
        (("join", "lights", "cyd"), "must not be on the list already"),
        (("leave", "lights", "Nobody"), "must be somebody on the list"),
        (("join", "lights", "ada", "--places", "2"), "Two places"),
        (("join", "lights", "x@example.org"), "e-mail"),
        (("arrive", "lights", "cyd", "2", "--wrong-size", "3"), "at most the 2 cards"),
        (("arrive", "lights", "cyd", "1", "--cards", "first-card"), "by whoever sent it"),
        (("sealed", "lights", "cyd"), "must be dealt before"),
        (("repair", "lights"), "must be dealt"),
        (("open", "lights"), "must be dealt"),
        (("verify", "lights"), "must have a deal"),
        (("verify", "nothing.json"), "nothing.json"),
        (("extend", "lights"), "must name a date to move"),
        (("extend", "lights", "--arrive-by", "2026-12-31"), "must not be before Arrive by"),
    ],
)
def test_a_refusal_says_why_and_writes_nothing(host, words, said):
    """Each with a fix; the board is as it was."""
    before = {p: d for p, d in files_of(host.board).items() if not p.startswith(".swapboard")}
    day = () if words[0] == "verify" else ("--today", "2026-09-15")
    assert said in host.says(*words, *day, fails=True)
    after = {p: d for p, d in files_of(host.board).items() if not p.startswith(".swapboard")}
    assert after == before


def test_a_list_that_changed_is_frozen_anew_in_public(host):
    """Before anything is sealed: with a reason, and the earlier commitment beside it."""
    host.says("commit", "lights", "--today", "2026-10-21")
    first = json.loads((host.board / "calls/lights.deal.json").read_text())
    host.says("join", "lights", "gus", "--today", "2026-10-22")
    host.says("join", "lights", "ada", "--today", "2026-10-22")
    assert "commit lights --anew" in host.says("arrive", "lights", "gus", "--today", "2026-10-22")
    assert "must say why" in host.says("commit", "lights", "--anew", fails=True)
    assert "nothing has arrived: ada" in host.says("commit", "lights")
    host.says("commit", "lights", "--anew", "--because", "gus came late", "--today", "2026-10-22")
    again = json.loads((host.board / "calls/lights.deal.json").read_text())
    assert again["earlier"][0]["commitment"] == first["proof"]["commitment"]
    assert again["proof"]["commitment"] != first["proof"]["commitment"]
    host.builds("2026-10-23")
    page = host.page("calls/lights.html")
    assert first["proof"]["commitment"] in page and "gus came late" in page
    host.deals("lights")
    host.says("sealed", "lights", "cyd")
    done = host.says("commit", "lights", "--anew", "--because", "I like it not", fails=True)
    assert "must not be dealt anew" in done


def test_a_parcel_is_noted_while_another_post_is_broken(host):
    """A deal waits until the board is in order, since any post may say who is kept apart."""
    (host.board / "makers/gus.md").write_text("Name: Gus\nHousehold\n")
    host.says("join", "lights", "ada", "--today", "2026-09-10")
    host.says("arrive", "lights", "ada", "--today", "2026-10-01")
    assert "makers/gus.md" in host.says("commit", "lights", fails=True)


def test_a_lost_envelope_is_filled_from_the_spares(host):
    """What lay in it is gone; the host's own cards replace it as far as they go."""
    before = {e["maker"]: e["cards"] for e in host.deals("lights")["envelopes"]}
    host.says("mailed", "lights", "--all", "--today", "2026-11-01")
    host.says("lost", "lights", "cyd", "--today", "2026-11-20")
    made = json.loads(host.says("repair", "lights", "--because", "an envelope was lost", "--json"))
    after = {e["maker"]: e["cards"] for e in host.deals("lights")["envelopes"]}
    assert made["spares"] == 2 and len(after["cyd"]) == 2
    assert not {tuple(c) for c in after["cyd"]} & {tuple(c) for c in before["cyd"]}
    assert all(after[maker] == before[maker] for maker in ("dot", "eli", "fay"))
    host.says("mailed", "lights", "cyd", "--today", "2026-11-22")
    assert "nothing to mend" in host.says("repair", "lights")


def test_a_card_lost_by_the_host_is_named(host):
    """By maker and number; one that is sealed away is refused."""
    dealt = host.deals("lights")
    giver, number = dealt["envelopes"][0]["cards"][0]
    taker = dealt["envelopes"][0]["maker"]
    assert "from 1 to 3" in host.says("repair", "lights", "--lost", f"{giver}:9", fails=True)
    host.says("sealed", "lights", taker)
    refused = host.says("repair", "lights", "--lost", f"{giver}:{number}", fails=True)
    assert f"card {number} of {giver} lies in it" in refused
    people = host.board / "calls/lights.people.csv"
    people.write_text(PEOPLE)
    host.says("repair", "lights", "--lost", f"{giver}:{number}")
    after = {e["maker"]: e["cards"] for e in host.deals("lights")["envelopes"]}
    assert [giver, number] not in after[taker] and len(after[taker]) == 2
    # A spare that is lost as well is never put into an envelope later.
    makers = ("cyd", "dot", "eli", "fay")
    spare = next(m for m in makers if m != taker and [m, 3] not in after[taker])
    host.says("repair", "lights", "--lost", f"{spare}:3")
    host.says("leave", "lights", next(m for m in makers if m not in (spare, taker)))
    made = json.loads(host.says("repair", "lights", "--json"))
    assert [spare, 3] not in [card[:2] for card in made["cards"]]


def test_a_dealt_call_moves_with_its_board(host, tmp_path):
    """What is public says nothing without the secret; both together deal again."""
    first = host.deals("lights")
    other = shutil.copytree(host.board, tmp_path / "other", ignore=shutil.ignore_patterns("deals"))
    lost = Host(other)
    assert "calls/lights.deal.json is bound to it" in lost.says("repair", "lights", fails=True)
    shutil.copytree(host.board / "private/deals", other / "private/deals")
    assert lost.deals("lights") == first


def test_a_moved_date_asks_for_a_higher_revision(host):
    """Until it rises, however often the board is built, and with the cache thrown away."""
    host.builds("2026-09-02")
    post = host.board / "calls/lights.md"
    post.write_text(CALL.replace("Arrive by: 2026-10-20", "Arrive by: 2026-10-27"))
    asked = "Revision: must be higher than 0, since Arrive by was 2026-10-20"
    assert asked in host.checks()
    for built in (".swapboard", "output"):
        shutil.rmtree(host.board / built)
        assert asked in host.checks()
    host.builds("2026-09-03")
    assert asked in host.checks()
    host.says("extend", "lights", "--arrive-by", "2026-10-28", "--today", "2026-09-04")
    assert "Revision" not in host.checks()
    assert "2026-09-04: extended" in post.read_text() and "Revision: 1" in post.read_text()
    assert "Anything lit." in post.read_text()
    host.builds("2026-09-05")
    assert "Revision" not in host.checks() and "extended" in host.page("calls/lights.html")


def test_cards_sent_in_are_hidden_until_the_call_is_opened(host):
    """Neither page nor picture nor name; then they are the call's gallery."""
    for name in ("lantern", "glow-worm"):
        (host.board / f"cards/{name}.md").write_text(
            f"Title: The {name} card\nMaker: cyd\nPhoto: first-card.jpg\nAlt: A {name}.\n"
        )
    host.says("arrive", "lights", "cyd", "--cards", "lantern,glow-worm", "--today", "2026-10-20")
    assert "Call: lights" in (host.board / "cards/lantern.md").read_text()
    host.deals("lights")
    host.builds("2026-10-21")
    assert "lantern" not in host.site_text() and "glow-worm" not in host.site_text()
    assert not list((host.board / "output").rglob("*lantern*"))
    host.says("mailed", "lights", "--all")
    host.says("open", "lights")
    host.builds("2026-11-06")
    page = host.page("calls/lights.html")
    assert "The lantern card" in page and (host.board / "output/cards/lantern.html").is_file()
    assert "cyd 1 (glow-worm)" in host.says_deal("lights")


def test_a_call_that_is_cancelled_says_whom_to_send_back_to(host):
    """And no command goes on with it."""
    assert "cyd, dot, eli, fay" in host.says("close", "lights", "--cancelled")
    moved = host.says("extend", "lights", "--arrive-by", "2026-11-01", fails=True)
    assert "must still run" in moved
    assert "must still run" in host.says("join", "lights", "ada", fails=True)
    host.builds("2026-12-01")
    assert "Cancelled" in host.page("calls/lights.html")


def test_a_swap_in_person_has_a_sheet_for_the_table(host):
    """Names to tick at the door; once dealt, what to read out; for the host's eyes alone."""
    held = "By: in person\nPlace: The <old> mill\nHour: 14:00\n"
    post = CALL.replace("Mail out by: 2026-11-05\n", held)
    (host.board / "calls/lights.md").write_text(post)
    host.says("table", "lights", "--today", "2026-10-20")
    sheet = host.board / "private/tables/lights.html"
    assert stat.S_IMODE(sheet.stat().st_mode) == 0o600
    assert "The &lt;old&gt; mill, 2026-10-20, 14:00" in sheet.read_text()
    assert "The deal" not in sheet.read_text() and "<td>Cyd" in sheet.read_text()
    dealt = host.deals("lights", "--today", "2026-10-20")
    host.says("table", "lights", "--today", "2026-10-20")
    assert sheet.read_text().count("<li>") == len(dealt["envelopes"])
