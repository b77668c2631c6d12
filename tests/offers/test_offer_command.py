"""`swapboard offer`: what happened becomes a dated line, and nothing else changes."""

import pytest
from click.testing import CliRunner
from swap_board import DAY, HEAD, OFFER, make

from boards import files_of
from swapboard.cli import main
from swapboard.disk.check import check_board
from swapboard.disk.load import load_board
from swapboard.records.standing import standing

NAME = "heron-for-moth"


def say(board, *words, today=DAY):
    return CliRunner().invoke(main, ["offer", NAME, *words, "--today", str(today), str(board)])


def seen(board):
    """The board's files without its lock."""
    return {p: d for p, d in files_of(board).items() if not p.startswith(".swapboard/")}


@pytest.fixture
def board(tmp_path):
    return make(tmp_path / "board")


def stands(board):
    loaded = load_board(board, DAY)
    return {name: state.value for name, (state, _) in standing(loaded.board, DAY, 14).items()}


def test_an_offer_goes_from_proposed_to_complete(board):
    """Agreeing speaks the cards for, and the last arrival marks them traded."""
    assert stands(board)["moth"] == "available"
    assert say(board, "agreed", "--on", "2026-10-03").exit_code == 0
    assert (stands(board)["moth"], stands(board)["night-heron"]) == ("spoken for",) * 2
    for words in (
        ("mailed", "--by", "ines-okafor", "--on", "2026-10-04"),
        ("mailed", "--by", "Tom Varga", "--on", "2026-10-05"),
        ("received", "--by", "TOM-VARGA", "--on", "2026-10-08"),
        ("received", "--by", "Inés Okafor"),
    ):
        done = say(board, *words)
        assert done.exit_code == 0, done.output
    assert (board / OFFER).read_text() == HEAD + (
        "2026-10-01: proposed\n2026-10-03: agreed\n2026-10-04: mailed by ines-okafor\n"
        "2026-10-05: mailed by tom-varga\n2026-10-08: received by tom-varga\n"
        "2026-10-10: received by ines-okafor\n\nWould you?\n"
    )
    assert (stands(board)["moth"], stands(board)["night-heron"]) == ("traded",) * 2
    assert check_board(board, workers=1) == []


def test_of_an_edition_one_copy_goes(board):
    """Completing an offer takes one off the copies left, and the rest stays available."""
    make(board, {"cards/moth.md": "Title: Moth\nMaker: tom-varga\nKind: print 1/9\n"
                                  "Copies left: 3\n"})
    for words in (("agreed",), ("mailed", "--by", "ines-okafor"), ("mailed",),
                  ("received", "--by", "ines-okafor"), ("received",)):
        done = say(board, *words)
        assert done.exit_code == 0, done.output
    loaded = load_board(board, DAY)
    assert standing(loaded.board, DAY, 14)["moth"] == ("available", 2)


@pytest.mark.parametrize(
    "text",
    [
        b"\xef\xbb\xbf" + HEAD.encode() + b"2026-10-01: proposed\n\nWould you?\n",
        HEAD.replace("\n", "\r\n").encode() + b"2026-10-01 proposed\r\n\r\nWould\nyou?\r\n",
        HEAD.replace("\n", "\r").encode() + b"2026-10-01: proposed\r\rWould you?\r",
        HEAD.encode() + b"2026-10-01: proposed",
        b"2026-10-01: proposed\n" + HEAD.encode() + b"\nCaf\xc3\xa9  \n\n\n",
        HEAD.encode() + b"2026-10-01:\n    proposed\n",
    ],
    ids=["mark", "CRLF", "CR", "no end", "line first", "two lines"],
)
def test_all_but_the_line_is_kept_to_the_byte(board, text):
    """Marks, line ends and spaces stay; the new line ends as its neighbours do."""
    make(board, {OFFER: text})
    before = seen(board)
    assert say(board, "agreed").exit_code == 0
    after = seen(board)
    assert {p: d for p, d in after.items() if p != OFFER} == {
        p: d for p, d in before.items() if p != OFFER
    }
    end = b"\r\n" if b"\r\n" in text else b"\r" if b"\r" in text else b"\n"
    line = b"2026-10-10: agreed"
    assert after[OFFER].count(line) == 1
    pair = (line + end, end + line)
    assert text in (after[OFFER].replace(part, b"", 1) for part in pair)
    assert check_board(board, workers=1) == []


def test_news_that_comes_late_stands_in_its_place(board):
    """A line for an earlier day is put before those of later days."""
    say(board, "agreed", "--on", "2026-10-02")
    say(board, "mailed", "--by", "tom-varga", "--on", "2026-10-06")
    done = say(board, "mailed", "--by", "ines-okafor", "--on", "2026-10-04")
    assert done.exit_code == 0, done.output
    lines = [line for line in (board / OFFER).read_text().splitlines() if "mailed" in line]
    assert lines == ["2026-10-04: mailed by ines-okafor", "2026-10-06: mailed by tom-varga"]


@pytest.mark.parametrize(
    ("before", "words", "must", "fix"),
    [
        ([], ("mailed", "--by", "tom-varga"), "after a line that says agreed",
         "first run: swapboard offer heron-for-moth agreed"),
        ([], ("mailed",), "must say who has mailed", "--by ines-okafor or --by tom-varga"),
        ([], ("agreed", "--by", "ines-okafor"), "by the maker who was asked", "tom-varga"),
        ([], ("agreed", "--by", "somebody"), "one of the two makers", "ines-okafor or tom-varga"),
        ([], ("agreed", "--on", "2026-10-11"), "must not be later than today", "the day it was"),
        ([], ("agreed", "--on", "2026-09-30"), "must not be before it was proposed", "--on"),
        ([], ("declined", "--by", "ines-okafor"), "must be called withdrawn", "withdrawn"),
        ([], ("withdrawn", "--by", "tom-varga"), "must be called declined", "declined"),
        ([], ("received", "--by", "tom-varga"), "must come after", "mailed --by ines-okafor"),
        ([], ("lost",), "must come after", "look at the dated lines"),
        (["2026-10-02: agreed"], ("agreed",), "only once", "says so already"),
        (["2026-10-02: agreed"], ("declined",), "must not come after agreed", "withdrawn"),
        (["2026-10-02: declined"], ("agreed",), "must not come after declined", "a new offer"),
        (["2026-10-02: agreed", "2026-10-03: mailed by tom-varga"], ("withdrawn",),
         "must not come after a card was mailed", "heron-for-moth lost"),
        (["2026-10-02: agreed", "2026-10-03: mailed by tom-varga"],
         ("mailed", "--by", "tom-varga"), "only once for tom-varga", "says so already"),
    ],
)  # fmt: skip
def test_an_impossible_step_is_refused_and_changes_nothing(board, before, words, must, fix):
    """The message says what does not fit and what to do, and the post stays as it was."""
    told = HEAD + "\n".join(["2026-10-01: proposed", *before]) + "\n"
    make(board, {OFFER: told})
    kept = seen(board)
    done = say(board, *words)
    assert done.exit_code == 1 and not done.stdout
    assert must in done.stderr and fix in done.stderr.partition("Fix:")[2], done.stderr
    assert seen(board) == kept


def test_two_offers_cannot_both_have_a_card(board):
    """Agreeing to the second is refused, and both offers are named."""
    second = HEAD.replace("night-heron", "river-fox") + "2026-10-02: proposed\n"
    make(board, {"offers/fox-for-moth.md": second})
    assert say(board, "agreed").exit_code == 0
    done = CliRunner().invoke(
        main, ["offer", "fox-for-moth", "agreed", "--today", str(DAY), str(board)]
    )
    assert done.exit_code == 1
    assert OFFER in done.stderr and "offers/fox-for-moth.md" in done.stderr
    assert (board / "offers/fox-for-moth.md").read_text() == second
    assert check_board(board, workers=1) == []


def test_a_late_yes_is_written_with_a_word_about_it(board):
    """An offer that had expired can still be agreed, and the keeper is told."""
    make(board, {OFFER: HEAD + "2026-09-01: proposed\n"})
    done = say(board, "agreed")
    assert done.exit_code == 0
    assert "warning" in done.stderr and "had expired" in done.stderr


def test_an_unknown_offer_gets_the_nearest_name(board):
    """A slip in the name is answered with the name that was meant."""
    done = CliRunner().invoke(main, ["offer", "heron-for-mot", "agreed", str(board)])
    assert done.exit_code == 1 and 'did you mean "heron-for-moth"?' in done.stderr


@pytest.mark.parametrize("name", ["../makers/ines-okafor", "/etc/passwd", "..", ""])
def test_a_name_that_is_a_path_finds_no_offer(board, name):
    """Only names of offers are names here."""
    kept = seen(board)
    done = CliRunner().invoke(main, ["offer", name, "agreed", str(board)])
    assert done.exit_code == 1 and "must be an offer of this board" in done.stderr
    assert seen(board) == kept


def test_an_offer_that_is_a_link_out_of_the_board_is_left_alone(board, tmp_path):
    """A link in an offer's place is not written through."""
    outside = tmp_path / "outside.md"
    outside.write_text((board / OFFER).read_text())
    (board / OFFER).unlink()
    (board / OFFER).symlink_to(outside)
    kept = outside.read_bytes()
    assert say(board, "agreed").exit_code == 1
    assert outside.read_bytes() == kept
