"""private/ in one file, one maker's data, and a maker who leaves."""

import io
import os
import re
import shutil
import zipfile

from click.testing import CliRunner
from PIL import Image

from hostile.small_board import build, errors_of, make
from swapboard.cli import main
from swapboard.disk import forget_journal
from swapboard.disk.forget import finish_forgetting, forget, plan_forgetting
from swapboard.disk.load import load_board

WORDS = "four plain words here"
FILES = {
    "board.toml": 'format = 1\n\n[board]\nname = "Small board"\n',
    "makers/keeper.md": "Name: The keeper\n",
    "makers/ada.md": "Name: Ada\n\nHello.\n",
    "makers/bo.md": "Name: Bo\n",
    "cards/heron.md": "Title: Heron\n",
    "cards/fog.md": "Title: Fog\nMaker: ada\n",
    "offers/one.md": "From: ada\nTo: keeper\nGives: fog\nAsks: heron\n2026-09-01: proposed\n"
    "2026-09-02: agreed\n2026-09-03: mailed by ada\n2026-09-03: mailed by keeper\n"
    "2026-09-09: received by ada\n2026-09-09: received by keeper\n",
    "calls/leaf.md": "Title: Leaf\nHost: ada\nSend: 2\nDate: 2026-09-01\n",
    "calls/leaf.people.csv": "maker,cards,signed up,arrived,note\nada,2,2026-09-02,,blue\n"
    "bo,2,2026-09-02,,\n",
    "private/addresses.csv": "maker,name,street,postcode,town,country\n"
    'ada,Ada,"12, Mill Lane",AB1 2CD,Vale,GB\nbo,Bo,3 High Road,XY9 8ZZ,Vale,GB\n',
}


def run(*words, lines=""):
    return CliRunner().invoke(main, [str(word) for word in words], input=lines)


def kept(board):
    return {p.relative_to(board).as_posix(): p.read_bytes() for p in sorted(board.rglob("*"))
            if p.is_file() and ".swapboard" not in p.parts}


def test_a_backup_comes_back_as_it_was_and_shows_nothing(tmp_path):
    """The same bytes with the passphrase, mode 0600, no word of it in the file."""
    board, file = make(tmp_path / "b", FILES), tmp_path / "kept.backup"
    assert run("backup", file, board, lines=f"{WORDS}\n{WORDS}\n").exit_code == 0
    assert file.stat().st_mode & 0o777 == 0o600
    assert b"Mill" not in file.read_bytes() and b"addresses" not in file.read_bytes()
    before = kept(board)
    (board / "private/addresses.csv").unlink()
    done = run("restore", file, board, lines=WORDS + "\n")
    assert done.exit_code == 0, done.output
    assert kept(board) == before
    assert (board / "private/addresses.csv").stat().st_mode & 0o777 == 0o600


def test_a_wrong_passphrase_or_a_damaged_file_changes_nothing(tmp_path):
    """Each ends with a sentence, exit code 1 and the board as it was."""
    board, file = make(tmp_path / "b", FILES), tmp_path / "kept.backup"
    run("backup", file, board, lines=f"{WORDS}\n{WORDS}\n")
    whole = file.read_bytes()
    (board / "private/addresses.csv").write_text("maker\nada\n")
    before = kept(board)
    for data, words in ((whole, "another passphrase"), (whole[:-1], WORDS), (whole[:40], WORDS),
                        (whole[:60] + bytes([whole[60] ^ 1]) + whole[61:], WORDS), (b"", WORDS)):
        file.write_bytes(data)
        done = run("restore", file, board, "--yes", lines=words + "\n")
        assert done.exit_code == 1 and "Fix:" in done.output and "Traceback" not in done.output
        assert kept(board) == before


def test_restore_writes_over_nothing_without_a_yes(tmp_path):
    """A file with other contents stays until it is agreed to; others stay anyway."""
    board, file = make(tmp_path / "b", FILES), tmp_path / "kept.backup"
    run("backup", file, board, lines=f"{WORDS}\n{WORDS}\n")
    (board / "private/addresses.csv").write_text("maker\nnew\n")
    (board / "private/notes.txt").write_text("later")
    done = run("restore", file, board, lines=WORDS + "\n")
    assert done.exit_code == 1 and "private/addresses.csv" in done.output
    assert (board / "private/addresses.csv").read_text() == "maker\nnew\n"
    assert run("restore", file, board, "--yes", lines=WORDS + "\n").exit_code == 0
    assert "Mill Lane" in (board / "private/addresses.csv").read_text()
    assert (board / "private/notes.txt").read_text() == "later"


def test_a_backup_is_not_made_where_it_would_be_lost_or_shown(tmp_path):
    """Not over another file, not into output/, not with a short passphrase or two of them."""
    board = make(tmp_path / "b", {**FILES, "output/index.html": ""})
    (tmp_path / "old").write_text("x")
    for file, lines in ((tmp_path / "old", f"{WORDS}\n{WORDS}\n"),
                        (board / "output/x", f"{WORDS}\n{WORDS}\n"),
                        (tmp_path / "x", "short\nshort\n"),
                        (tmp_path / "x", f"{WORDS}\nother {WORDS}\n")):
        assert run("backup", file, board, lines=lines).exit_code == 1
    assert not (tmp_path / "x").exists() and (tmp_path / "old").read_text() == "x"


def test_an_export_has_their_data_and_nobody_elses_rows(tmp_path):
    """Posts, offers, their rows; not Bo's address."""
    board, file = make(tmp_path / "b", FILES), tmp_path / "ada.zip"
    assert run("export", "Ada", file, board).exit_code == 0
    with zipfile.ZipFile(file) as packed:
        data = {name: packed.read(name).decode() for name in packed.namelist()}
    assert sorted(data) == ["calls/leaf.md", "calls/leaf.people.csv", "cards/fog.md",
                            "makers/ada.md", "offers/one.md", "private/addresses.csv"]
    assert "Mill Lane" in data["private/addresses.csv"]
    assert not any("High Road" in text or "\nbo," in text for text in data.values())


def test_a_maker_is_forgotten_and_the_board_still_builds(tmp_path):
    """Their things go, the other's card stays traded, the call has a maker who left."""
    board = make(tmp_path / "b", FILES)
    before = kept(board)
    asked = run("forget", "ada", board)
    assert asked.exit_code == 1 and "take away  cards/fog.md" in asked.output
    assert kept(board) == before
    done = run("forget", "ada", board, "--yes")
    assert done.exit_code == 0 and "git" in done.output, done.output
    built = build(board)
    assert built.done, errors_of(built)
    assert not (board / "cards/fog.md").exists() and not (board / "offers/one.md").exists()
    assert "State: traded" in (board / "cards/heron.md").read_text()
    assert "Host: a-maker-who-left" in (board / "calls/leaf.md").read_text()
    assert "a-maker-who-left,2,2026-09-02,," in (board / "calls/leaf.people.csv").read_text()
    everything = b"".join(kept(board).values())
    assert b"Mill Lane" not in everything and b"Ada" not in everything
    assert b"High Road" in everything


def test_the_keeper_and_a_stranger_are_not_forgotten(tmp_path):
    """Both end with a sentence and nothing changed."""
    board = make(tmp_path / "b", FILES)
    before = kept(board)
    for name in ("keeper", "adda"):
        done = run("forget", name, board, "--yes")
        assert done.exit_code == 1 and "Fix:" in done.output
    assert kept(board) == before


class Killed(BaseException):
    """What no code of ours catches."""


def test_a_forgetting_that_is_cut_short_is_nothing_or_goes_on(tmp_path, monkeypatch):
    """Killed at its first, second … change of the disk: the board is as it was, or whatever
    next works on it finishes it; what was not theirs is never lost."""
    whole = make(tmp_path / "whole", FILES)
    assert forgotten(whole) == "done"
    after, number, ended = kept(whole), 0, []
    while not ended or ended[-1] != "done":
        number += 1
        board = make(tmp_path / str(number), FILES)
        before = kept(board)
        with monkeypatch.context() as patched:
            _die_at(patched, number)
            ended.append(forgotten(board))
        if ended[-1] == "goes on":
            assert [str(p) for p in finish_forgetting(board) if "is finished now" in p.must]
        elif kept(board) != after:
            assert kept(board) == before and ended[-1] == "cut short"
            assert forgotten(board) == "done"
        assert kept(board) == after
        assert not (board / forget_journal.FOLDER).exists()
    assert {"cut short", "goes on", "done"} <= set(ended) and number > 10


def test_a_forgetting_that_was_cut_short_is_told_and_finished_by_a_build(tmp_path, monkeypatch):
    """Nobody has to know how it was begun."""
    board = make(tmp_path / "b", FILES)
    assert build(board).done
    with monkeypatch.context() as patched:
        _die_at(patched, 9)
        assert forgotten(board) == "goes on"
    assert "forgetting: must be finished" in run("check", board).output
    assert build(board).done
    assert not (board / "output/makers/ada.html").exists()
    assert not list((board / ".swapboard").glob("forg*"))


def forgotten(board):
    """Forget ada; how far it came."""
    plan, _ = plan_forgetting(load_board(board), "ada")
    try:
        assert forget(board, plan) == []
    except Killed:
        return "goes on" if (board / forget_journal.FOLDER).is_dir() else "cut short"
    return "done"


def _die_at(patched, number):
    """Have the process end before the numbered change that is made to the disk."""
    left = [number]

    def dying(act):
        def acts(*words, **more):
            left[0] -= 1
            if left[0] == 0:
                raise Killed
            return act(*words, **more)

        return acts

    for name in ("replace", "rename", "unlink", "mkdir", "rmdir"):
        patched.setattr(os, name, dying(getattr(os, name)))


def test_nothing_that_was_made_for_them_stays_on_this_disk(tmp_path):
    """Not the site, its twin, their cut pictures, nor what names them beside it."""
    photo = io.BytesIO()
    Image.new("RGB", (630, 882), (180, 40, 30)).save(photo, "JPEG")
    other = io.BytesIO()
    Image.new("RGB", (630, 882), (20, 90, 160)).save(other, "JPEG")
    board = make(tmp_path / "b", {
        **FILES, "cards/fog.md": "Title: Fog\nMaker: ada\nPhoto: fog.jpg\n",
        "cards/heron.md": "Title: Heron\nPhoto: heron.jpg\n", "photos/fog.jpg": photo.getvalue(),
        "photos/heron.jpg": other.getvalue(), "makers/ada.md": "Name: Ada Quillfeather\n",
    })  # fmt: skip
    assert build(board).done and build(board).done
    assert len(list((board / ".swapboard/cache").glob("cut-*"))) == 2
    done = run("forget", "ada", board, "--yes")
    assert done.exit_code == 0, done.output
    assert len(list((board / ".swapboard/cache").glob("cut-*"))) == 1
    for file in board.rglob("*"):
        # Whole words: names of digests are in 0-9a-f and may hold an "ada" by chance.
        assert not {"fog", "ada"} & set(re.split(r"[\W_]+", file.name)), file
        if file.is_file():
            data = file.read_bytes()
            assert b"Quillfeather" not in data and b"fog" not in data, file


def test_where_the_board_cannot_be_built_it_is_said_what_still_shows_them(tmp_path):
    """The board's files are without them; the next build that is done takes the rest."""
    board = make(tmp_path / "b", FILES)
    assert build(board).done
    (board / "cards/wrong.md").write_text("Title: Wrong\nMade: last week\n")
    done = run("forget", "ada", board, "--yes")
    assert done.exit_code == 1 and "output/ and .swapboard/cache still hold" in done.output
    assert not (board / "makers/ada.md").exists() and (board / "output/makers/ada.html").exists()
    assert "cut short" in run("check", board).output
    (board / "cards/wrong.md").unlink()
    assert build(board).done
    assert not (board / "output/makers/ada.html").exists()
    assert not list((board / ".swapboard").glob("staging-*"))
    assert "cut short" not in run("check", board).output


def test_sites_made_elsewhere_are_named_until_they_are_made_anew(tmp_path):
    """Built or published, each by its place; the hidden twin goes with what is made anew."""
    board = make(tmp_path / "b", {**FILES, "makers/ada.md": "Name: Ada Quillfeather\n"})
    built, published, gone = (tmp_path / name for name in ("built", "published", "gone"))
    for words in (("build", "--output", built, board), ("build", "--output", gone, board),
                  ("publish", published, board), ("publish", published, board)):
        assert run(*words).exit_code == 0
    shutil.rmtree(gone)
    done = run("forget", "ada", board, "--yes")
    assert done.exit_code == 0, done.output
    said = [line for line in done.output.splitlines() if "still shows them" in line]
    assert [line.split(" still")[0] for line in said] == [str(built), str(published)]
    assert str(built) in run("check", board).output
    run("build", "--output", built, board)
    run("publish", published, board)
    assert "forgotten" not in run("check", board).output
    for file in tmp_path.rglob("*"):
        assert not file.is_file() or b"Quillfeather" not in file.read_bytes(), file
