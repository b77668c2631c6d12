"""A board becomes a site: whole, the same every time, or not at all."""

import re
import shutil
import subprocess
import sys
from datetime import date

import pytest

from boards import DEMO, DEMO_DAY, REPO, files_of
from swapboard.disk import site_tree
from swapboard.site.build import build_board


def build(board, **options):
    return build_board(board, today=options.pop("today", DEMO_DAY), workers=1, **options)


def site(board):
    return files_of(board / "output")


def test_two_builds_are_the_same_to_the_byte(demo_board, demo_site):
    """The same board and day give the same bytes, built again or built elsewhere."""
    assert build(demo_board).done
    first = site(demo_board)
    assert build(demo_board).done
    assert site(demo_board) == first == files_of(demo_site)


def test_plain_pelican_gives_the_same_site(demo_board, demo_site):
    """`pelican -s pelicanconf.py` and `swapboard build` are one path."""
    shutil.copy(DEMO / "pelicanconf.py", demo_board)
    command = [sys.executable, "-m", "pelican", "-s", str(demo_board / "pelicanconf.py")]
    epoch = {"SOURCE_DATE_EPOCH": "1791633600", "PATH": "/usr/bin:/bin"}  # 2026-10-10T12:00Z
    done = subprocess.run(command, capture_output=True, text=True, env=epoch, cwd=demo_board)
    assert done.returncode == 0, done.stdout + done.stderr
    assert site(demo_board) == files_of(demo_site)


def test_every_post_has_its_page(demo_site):
    """One flat page per post, named after its file."""
    for kind in ("cards", "makers", "calls", "offers", "pages"):
        posts = {file.stem for file in (DEMO / kind).glob("*.md")}
        assert posts
        assert {file.stem for file in (demo_site / kind).glob("*.html")} == posts


BROKEN = {
    "cards/moth-broken.md": "Title: Moth\nMade: last week\n\n",
    "cards/fern-broken.md": "Title: Fern\nMaker: nobody-of-that-name\n\n",
    "cards/tram-broken.md": "Title: Tram\nPhoto: not-there.jpg\n\n",
}


def break_three(board):
    for path, text in BROKEN.items():
        (board / path).write_text(text, "utf-8")


def test_three_faults_are_three_messages_and_the_site_stays(piece_board):
    """A bad date, a misspelt maker, a missing photo: all named, nothing touched."""
    assert build(piece_board).done
    before = site(piece_board)
    break_three(piece_board)
    built = build(piece_board)
    assert not built.done
    told = [str(problem) for problem in built.problems if problem.severity == "error"]
    assert len(told) == 3
    assert [re.match(r"[^:]+:\d+", words)[0] for words in sorted(told)] == [
        "cards/fern-broken.md:2", "cards/moth-broken.md:2", "cards/tram-broken.md:2"
    ]
    assert all("Fix: " in words for words in told)
    assert site(piece_board) == before


def test_set_aside_publishes_the_rest_and_names_what_is_missing(piece_board, piece_site):
    """Without the three broken posts the site is what it was, and they are named."""
    break_three(piece_board)
    built = build(piece_board, set_aside=True)
    assert built.done
    assert {path.split(" ")[0].rstrip(":") for path in built.left_out} == set(BROKEN)
    assert site(piece_board) == files_of(piece_site)


def test_the_day_is_an_argument(piece_board):
    """Another day, another site where it shows; the same day, the same."""
    build(piece_board)
    first = site(piece_board)
    build(piece_board, today=date(2031, 1, 1))
    later = site(piece_board)
    assert first != later
    assert {p for p in later if later[p] != first.get(p)} < set(later)
    build(piece_board)
    assert site(piece_board) == first


def test_source_date_epoch_sets_the_day(piece_board, piece_site, monkeypatch):
    """SOURCE_DATE_EPOCH as reproducible-builds.org specifies it, in the board's zone."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1791633600")  # 2026-10-10T12:00:00Z
    assert build_board(piece_board, workers=1).done
    assert site(piece_board) == files_of(piece_site)


def test_a_private_address_in_a_post_stops_the_build(piece_board):
    """A street of private/ that stands in a post never goes live; both places are named."""
    build(piece_board)
    before = site(piece_board)
    (piece_board / "private").mkdir(exist_ok=True)
    (piece_board / "private" / "addresses.csv").write_text(
        "maker,street,postcode,town\nx,47 Gallowglass Terrace,ZX9 4QQ,Farholm\n"
    )
    page = next((piece_board / "pages").glob("*.md"))
    page.write_text(page.read_text() + "\n\nSend cards to 47 GALLOWGLASS\nterrace.\n")
    built = build(piece_board)
    assert not built.done
    told = " ".join(map(str, built.problems))
    assert "private/addresses.csv:2" in told and f"pages/{page.stem}" in told
    assert "Gallowglass".casefold() not in told.casefold()
    assert site(piece_board) == before
    assert not any(b"gallowglass" in data.lower() for data in site(piece_board).values())


def test_a_build_already_running_is_said_so(piece_board):
    """Two builds of one board never meet."""
    from swapboard.disk.lock import board_lock

    with board_lock(piece_board / ".swapboard"):
        built = build(piece_board)
    assert not built.done
    assert "another run" in str(built.problems[0])


def test_an_output_elsewhere(piece_board, tmp_path, piece_site):
    """--output builds into any empty or new folder, with the same bytes."""
    assert build(piece_board, output=tmp_path / "web" / "site").done
    assert files_of(tmp_path / "web" / "site") == files_of(piece_site)
    assert not (piece_board / "output").exists()


def test_a_folder_with_other_files_is_never_replaced(piece_board):
    """Whatever is in the output folder that no build made, the build refuses."""
    (piece_board / "output").mkdir()
    (piece_board / "output" / "thesis.txt").write_text("years of work")
    assert not build(piece_board).done
    assert (piece_board / "output" / "thesis.txt").read_text() == "years of work"


def test_the_site_names_its_contents(demo_site):
    """version.txt is the digest of every path and byte in the site."""
    assert site_tree.version_named_in(demo_site) == site_tree.version_found_in(demo_site)


@pytest.mark.parametrize("left_out", ["calls", "offers", "makers", "filters", "photos"])
def test_each_kind_of_page_can_be_left_out(piece_board, left_out):
    """Without one plugin there are no such pages, and no link to any."""
    from pelican.settings import read_settings

    from swapboard.site.conf import settings_for
    from swapboard.site.pelican_class import SwapboardPelican
    from swapboard.site.prepare import Wishes

    wishes = Wishes(today=DEMO_DAY, workers=1, quiet=True)
    settings = read_settings(override=settings_for(piece_board, wishes=wishes))
    settings["PLUGINS"].remove(f"swapboard.site.{left_out}")
    SwapboardPelican(settings).run()  # verify finds every dead link
    made = site(piece_board)
    assert not any(path.startswith(f"{left_out}/") for path in made)


def test_nothing_but_state_and_output_is_written(piece_board):
    """A build leaves the board's own files as they were."""


    def own(board):
        made = (".swapboard/", "output/")
        return {p: data for p, data in files_of(board).items() if not p.startswith(made)}

    before = own(piece_board)
    build(piece_board)
    after = own(piece_board)
    # What was announced outlasts a site that is thrown away: it is the keeper's to have.
    kept = {"private/announced.json"} if "private/announced.json" not in before else set()
    assert set(after) - set(before) == kept
    assert {path: after[path] for path in before} == before


def test_repo_is_where_it_is_said_to_be():
    """The tests build the demo that the README shows."""
    assert (REPO / "site_demo" / "board.toml").is_file()
