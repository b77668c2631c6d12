"""`swapboard today`: the keeper's list, its data, and that it stays with the keeper."""

import json

import pytest
from click.testing import CliRunner
from swap_board import DAY, HEAD, OFFER, make

from boards import files_of
from swapboard.cli import main
from swapboard.site.build import build_board

LATE = HEAD + (
    "2026-08-01: proposed\n2026-08-03: agreed\n2026-08-05: mailed by ines-okafor\n"
)
MAILS = {"private/mail.csv": "maker,mail\nines-okafor,ines@reeds.example\n"
                             "tom-varga,tom@post.example\n"}  # fmt: skip


def today(board, *more):
    return CliRunner().invoke(main, ["today", str(board), "--today", str(DAY), *more])


@pytest.fixture
def board(tmp_path):
    return make(tmp_path / "board", {OFFER: LATE, **MAILS})


def test_what_is_late_is_to_be_chased(board):
    """Each line says who owes whom what, since when, and by when it was due."""
    done = today(board)
    assert done.exit_code == 0, done.output
    assert done.stdout.startswith("To chase\n")
    assert ("offers/heron-for-moth.md: tom-varga owes ines-okafor moth, to be mailed "
            "(since 2026-08-03, due 2026-08-17)") in done.stdout
    assert "night-heron from ines-okafor is on its way to tom-varga" in done.stdout
    assert "Subject:" not in done.stdout and "@" not in done.stdout


def test_drafts_are_printed_with_the_addresses_that_are_known(board):
    """The To line has the address from private/mail.csv; the text has nobody's."""
    done = today(board, "--drafts")
    assert "To: tom-varga <tom@post.example>" in done.stdout
    assert "Hello Tom Varga," in done.stdout
    bodies = [line for line in done.stdout.splitlines() if "To:" not in line]
    assert not [line for line in bodies if "@" in line]


def test_an_introduction_is_a_mail_to_each_alone(board):
    """Neither of the two learns the other's address from the keeper's mail."""
    make(board, {OFFER: HEAD + "2026-10-08: proposed\n2026-10-09: agreed\n"})
    done = today(board, "--drafts")
    assert "To: ines-okafor <ines@reeds.example>" in done.stdout
    assert "a mail to each alone" in done.stdout


def test_the_data_is_versioned_and_whole(board):
    """Every key that is documented is there, and the same board gives the same data."""
    done = today(board, "--json")
    data = json.loads(done.stdout)
    assert (data["version"], data["day"], data["problems"]) == (1, "2026-10-10", [])
    first = data["errands"][0]
    assert {key: first[key] for key in ("due", "overdue", "about", "who", "since")} == {
        "due": "2026-08-17", "overdue": True, "about": OFFER, "who": ["tom-varga"],
        "since": "2026-08-03",
    }  # fmt: skip
    assert first["draft"]["to"] == ["tom-varga"]
    assert first["draft"]["mail"] == {"tom-varga": "tom@post.example"}
    assert set(first["draft"]) == {"to", "mail", "subject", "body"}
    assert today(board, "--json").stdout == done.stdout


def test_the_board_proposes_swaps_with_a_mail_to_both(board):
    """Who could swap is asked for their yes; without proposals nothing is looked for."""
    make(board, {
        OFFER: HEAD + "2026-08-01: proposed\n2026-08-02: declined\n",
        "makers/tom-varga.md": "Name: Tom Varga\nLikes: theme birds\n",
    })
    data = json.loads(today(board, "--json").stdout)
    (found,) = data["errands"]
    assert found["about"] == "" and found["draft"]["to"] == ["ines-okafor", "tom-varga"]
    assert "likes: theme moths, dearly" in found["draft"]["body"]
    assert "Swaps to propose" in today(board).stdout
    assert today(board, "--no-proposals").stdout == "Nothing is to be done today.\n"


CALL = (
    "Title: Small lights\nHost: tom-varga\nSend: 1\nReceive: 1\nArrive by: 2026-10-05\n"
    "Days of grace: 1\nMail out by: 2026-10-20\n"
)
PEOPLE = "maker,cards,signed up,arrived,note\nines-okafor,1,,2026-10-01,\nama,1,,2026-10-02,\n"
HOSTED = {"calls/small-lights.md": CALL, "calls/small-lights.people.csv": PEOPLE}


def part(told, heading):
    """The lines below a heading of the list."""
    return told.partition(f"{heading}\n\n")[2].partition("\n\n")[0]


def test_what_takes_a_command_is_for_the_keeper_to_do_whosever_call_it_is(board):
    """The list is frozen by whoever has the board; whose call it is, is said."""
    make(board, HOSTED | {OFFER: LATE})
    told = part(today(board).stdout, "For you to do")
    assert "calls/small-lights.md: freeze the list: swapboard commit small-lights" in told
    assert "(tom-varga, whose call it is" in told


def test_a_maker_sees_only_what_concerns_them(board):
    """What is theirs comes first; the keeper's own errands, and other people's, do not come."""
    make(board, HOSTED | {
        OFFER: LATE,
        "makers/ama.md": "Name: Ama\nLikes: theme none\n",
        "offers/fox-for-fern.md": "From: ines-okafor\nTo: tom-varga\nGives: river-fox\n"
        "Asks: fern\n2026-10-08: proposed\n2026-10-09: agreed\n",
    })  # fmt: skip
    tom = today(board, "--for", "Tom Varga").stdout
    mine = part(tom, "For you to do")
    assert "tom-varga owes ines-okafor moth" in mine and "freeze the list" in mine
    assert "whose call it is" not in mine and "introduce" not in tom
    assert "ines-okafor owes tom-varga river-fox" in part(tom, "Waiting for")
    assert today(board, "--for", "ama").stdout == "Nothing is to be done today.\n"
    whole = json.loads(today(board, "--json").stdout)["errands"]
    theirs = json.loads(today(board, "--json", "--for", "tom-varga").stdout)["errands"]
    assert theirs == [one for one in whole if one["who"]] and len(theirs) < len(whole)


def test_a_maker_who_is_not_there_is_named(board):
    """Nothing is listed for nobody."""
    done = today(board, "--for", "tom-vargo")
    assert done.exit_code == 1 and done.stdout == ""
    assert 'did you mean "tom-varga"' in done.stderr
    told = today(board, "--for", "tom-vargo", "--json")
    assert told.exit_code == 1 and json.loads(told.stdout)["errands"] == []
    assert json.loads(told.stdout)["problems"][0]["field"] == "--for"


def test_a_mail_is_shown_no_wider_than_a_terminal(board):
    """Long lines are folded as they are shown; the data has each paragraph in one piece."""
    note = "I would so much like to have this one, " * 8
    make(board, {OFFER: HEAD + f"2026-10-08: proposed\n\n{note}\n"})
    told = today(board, "--drafts").stdout
    drafted = told.partition("Subject:")[2]
    assert max(map(len, drafted.splitlines()[1:])) <= 80
    (asked,) = json.loads(today(board, "--json", "--no-proposals").stdout)["errands"]
    assert "answer with these lines and write yes or no behind News:\n" in asked["draft"]["body"]
    assert "\nSwap news, form 1\nBoard: Reed Street\nOffer:" in asked["draft"]["body"]


def test_nothing_of_it_is_on_the_site(board):
    """No page says who owes anything or since when, and nothing is written by asking."""
    before = files_of(board)
    today(board, "--drafts")
    after = {p: d for p, d in files_of(board).items() if not p.startswith(".swapboard/")}
    assert after == before
    assert build_board(board, today=DAY, workers=1).done
    pages = [d for p, d in files_of(board / "output").items() if p.endswith(".html")]
    assert pages
    for word in (b"owes", b"late", b"overdue", b"2026-08-17", b"post.example"):
        assert not [page for page in pages if b" " + word in page or b">" + word in page]


def test_a_broken_post_is_named_and_the_rest_is_told(board):
    """Exit code 1, the problem, and the errands that are sure."""
    (board / "cards/fern.md").write_text("Title: Fern\nMaker: nobody\n")
    done = today(board)
    assert done.exit_code == 1 and "cards/fern.md:2" in done.stderr
    assert "tom-varga owes ines-okafor moth" in done.stdout


def test_a_table_that_cannot_be_read_is_named(board):
    """private/mail.csv needs its two columns."""
    make(board, {"private/mail.csv": "who;where\n"})
    done = today(board)
    assert done.exit_code == 1 and "private/mail.csv:1: must have the columns" in done.stderr


def test_without_a_board_there_is_one_message(tmp_path):
    """It says how to make one."""
    done = today(tmp_path)
    assert done.exit_code == 1 and "swapboard start" in done.output
