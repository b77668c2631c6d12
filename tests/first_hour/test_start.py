"""`start` makes a board out to its keeper."""

import os
import pty
import subprocess
import sys
from pathlib import Path

import pytest

from first_hour.hour import REPO, done, swapboard
from swapboard.disk.load import load_board
from swapboard.disk.start import Answers, start_board, system_time_zone


def test_without_a_terminal_nothing_is_asked(tmp_path):
    """Into a pipe `start` asks nothing and makes a board without fault."""
    done("start", "b", folder=tmp_path)
    loaded = load_board(tmp_path / "b")
    assert loaded.problems == ()
    assert loaded.settings.board.keeper == "keeper"
    assert loaded.settings.board.time_zone == "Europe/Vienna"


def test_options_make_the_board_out_to_its_keeper(tmp_path):
    """Name, maker and country stand in board.toml, in the keeper's post and on the card."""
    done("start", "b", "--name", 'The "Paper" Ferry', "--maker", "Inés O'Kafor: #1",
         "--country", "us", folder=tmp_path)
    loaded = load_board(tmp_path / "b")
    assert loaded.problems == ()
    board = loaded.settings.board
    assert (board.name, board.keeper, board.paper) == (
        'The "Paper" Ferry', "ines-okafor-1", "Letter",
    )
    (maker,) = loaded.board.makers.values()
    assert (maker.title, maker.country) == ("Inés O'Kafor: #1", "United States")
    assert {card.maker for card in loaded.board.cards.values()} == {"ines-okafor-1"}
    assert "`ines-okafor-1`" in maker.body and "`keeper`" not in maker.body


@pytest.mark.parametrize(
    ("country", "paper"),  # Unicode CLDR 46, supplemental measurementData, paperSize
    [("Canada", "Letter"), ("mx", "Letter"), ("Chile", "Letter"), ("Philippines", "Letter"),
     ("Portugal", "A4"), ("Brazil", "A4"), ("", "A4")],
)
def test_the_paper_is_the_countrys(tmp_path, country, paper):
    """Where people print on Letter the board does too, elsewhere on A4."""
    assert start_board(tmp_path / "b", Answers(country=country), time_zone="UTC") == []
    assert load_board(tmp_path / "b").settings.board.paper == paper


@pytest.mark.parametrize(
    ("answers", "option", "fix"),
    [
        (Answers(country="Portugl"), "--country", 'did you mean "Portugal"?'),
        (Answers(name="  "), "--name", "give the board a short name."),
        (Answers(maker=""), "--maker", "write your name"),
        (Answers(maker="Ana\x07"), "--maker", "cannot be seen"),
        (Answers(maker="n" * 101), "--maker", "shorten it"),
    ],
)
def test_an_answer_that_cannot_be_used_is_told(tmp_path, answers, option, fix):
    """A bad option is named with a way to mend it, and nothing is written."""
    (problem,) = start_board(tmp_path / "b", answers)
    assert problem.path == option and fix in problem.fix
    assert not (tmp_path / "b").exists()


def test_all_that_is_wrong_is_told_at_once(tmp_path):
    """Two bad options are two messages and exit code 1."""
    ran = swapboard("start", "b", "--name", "", "--country", "Nowhere", folder=tmp_path)
    assert ran.returncode == 1
    assert "--name" in ran.stderr and "--country" in ran.stderr


def test_a_folder_with_files_is_left_alone(tmp_path):
    """Whatever stands in the folder stays, and nothing joins it."""
    (tmp_path / "letter.txt").write_text("dear")
    (problem,) = start_board(tmp_path)
    assert "new or an empty folder" in problem.must
    assert [path.name for path in tmp_path.iterdir()] == ["letter.txt"]


def test_the_page_about_going_online_comes_along(tmp_path):
    """Every new board has the page and all the pictures that it shows."""
    start_board(tmp_path / "b")
    page = (tmp_path / "b" / "going-online.md").read_text("utf-8")
    pictures = [part.split(")")[0] for part in page.split("](")[1:]]
    assert len(pictures) == 5
    assert all((tmp_path / "b" / picture).is_file() for picture in pictures)


def test_on_a_terminal_three_questions_are_asked(tmp_path):
    """Answers are taken, Enter takes a default, and a bad answer is asked for anew."""
    said = converse(tmp_path, ["The shed", "", "Portugl", "Portugal"])
    assert said.count("?") >= 4 and 'did you mean "Portugal"' in said
    loaded = load_board(tmp_path / "b")
    assert loaded.settings.board.name == "The shed"
    (maker,) = loaded.board.makers.values()
    assert (maker.name, maker.country) == ("keeper", "Portugal")


def converse(folder: Path, answers: list[str]) -> str:
    """Run `start b` on a terminal of its own, typing a line at each question."""
    ours, theirs = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-c", "from swapboard.cli import main; main()", "start", "b"],
        cwd=folder, stdin=theirs, stdout=theirs, stderr=theirs,
        env={**os.environ, "PYTHONPATH": str(REPO / "plugins")},
    )
    os.close(theirs)
    # The terminal keeps what is typed ahead until it is asked for.
    os.write(ours, "".join(f"{answer}\n" for answer in answers).encode())
    said = b""
    while True:
        try:
            part = os.read(ours, 4096)
        except OSError:  # on Linux, how a terminal says that nobody is left
            break
        if not part:
            break
        said += part
    os.close(ours)
    assert process.wait() == 0, said.decode()
    return said.decode()


@pytest.mark.parametrize(
    ("variable", "link", "zone"),
    [
        ("Europe/Lisbon", "/usr/share/zoneinfo/Asia/Tokyo", "Europe/Lisbon"),
        (":Europe/Lisbon", None, "Europe/Lisbon"),
        ("/usr/share/zoneinfo/posix/Europe/Lisbon", None, "Europe/Lisbon"),
        ("", "/usr/share/zoneinfo/Asia/Tokyo", "Asia/Tokyo"),
        ("CET-1CEST", "/usr/share/zoneinfo/Asia/Tokyo", "Asia/Tokyo"),
        ("", "/somewhere/else", "UTC"),
        ("", None, "UTC"),
    ],
)
def test_the_time_zone_is_the_computers(tmp_path, variable, link, zone):
    """TZ comes first, then where the system's link leads, then UTC."""
    localtime = tmp_path / "localtime"
    if link:
        localtime.symlink_to(link)
    assert system_time_zone({"TZ": variable}, localtime) == zone
