"""Proposed swaps in a build: certified, kept, and switched off without a trace."""

import json
import os
from dataclasses import replace

import pytest

import swapboard.matching.match
from hostile.small_board import DAY, build, errors_of, make
from swapboard.disk.matching import match_board

WANTS = {
    "makers/ada.md": "Name: Ada\nLikes: theme birds, dearly\n",
    "makers/bo.md": "Name: Bo\nLikes: theme sea\n",
    "cards/heron.md": "Title: Heron\nMaker: bo\nThemes: birds\n",
    "cards/fog.md": "Title: Fog\nMaker: ada\nThemes: sea\n",
    "cards/kettle.md": "Title: Kettle\nMaker: bo\n",
}


@pytest.fixture
def searches(monkeypatch):
    """How often swaps were searched: one entry each."""
    made = []
    search = swapboard.matching.match.match
    monkeypatch.setattr(
        swapboard.matching.match, "match",
        lambda *given: made.append(given[1:]) or search(*given),
    )  # fmt: skip
    return made


def page(board, name):
    return (board / "output" / name).read_text("utf-8")


def test_a_swap_is_on_every_page_that_it_concerns(tmp_path):
    """The list, both makers' own pages, both cards and the pages of their themes show it."""
    board = make(tmp_path, WANTS)
    assert build(board).done
    for name in ("swaps", "swaps/ada", "swaps/bo", "cards/heron", "cards/fog", "themes/birds"):
        shown = page(board, f"{name}.html")
        assert "Ada and Bo" in shown and "dearly likes birds" in shown
    assert "Proven best." in page(board, "swaps.html")
    assert "swaps/ada.html" in page(board, "makers/ada.html")
    assert "Ada and Bo" not in page(board, "cards/kettle.html")
    assert not (board / "output" / "swaps" / "keeper.html").exists()


def test_an_unchanged_market_is_not_searched_again(tmp_path, searches):
    """Where a text changed, what was found holds; where a want changed it is sought anew."""
    board = make(tmp_path, WANTS)
    assert build(board).done and len(searches) == 1
    make(board, {"cards/fog.md": WANTS["cards/fog.md"] + "\nGrey on grey.\n"})
    assert build(board).done and len(searches) == 1
    make(board, {"makers/bo.md": "Name: Bo\nLikes: theme trees\n"})
    assert build(board).done and len(searches) == 2
    assert "Ada and Bo" not in page(board, "swaps.html")


def test_what_match_found_is_what_a_build_shows(tmp_path, searches):
    """The command has more time, and a build takes what it found."""
    board = make(tmp_path, WANTS)
    assert match_board(board, today=DAY).proposals.moved == 2
    assert build(board).done and len(searches) == 1


def test_a_board_without_wants_searches_nothing_and_keeps_nothing(tmp_path, searches):
    """No want, no search; the page says that there is nothing yet."""
    board = make(tmp_path)
    assert build(board).done and not searches
    assert "No two makers" in page(board, "swaps.html")
    assert not list((board / ".swapboard").glob("swaps-*"))


@pytest.mark.parametrize("damage", [
    lambda told: "{",
    lambda told: "[]",
    lambda told: json.dumps(told | {"proposals": {"rings": 3, "levels": [], "swaps": [[1]]}}),
    lambda told: json.dumps(told).replace('"fog"', '"kettle"'),
    lambda told: json.dumps(told).replace('"bo"', '"nobody"'),
    lambda told: json.dumps(told).replace('that move", "most", 2', 'that move", "most", 9'),
])  # fmt: skip
def test_what_was_kept_is_believed_only_when_it_holds(tmp_path, searches, damage):
    """A kept file that is damaged, or says what is not so, costs a search and nothing else."""
    board = make(tmp_path, WANTS)
    assert build(board).done
    before = page(board, "swaps.html")
    file = board / ".swapboard" / "swaps-3.json"
    told = json.loads(file.read_text("utf-8"))
    file.write_text(damage(told), "utf-8")
    assert build(board).done and len(searches) == 2
    assert page(board, "swaps.html") == before


def test_swaps_that_do_not_hold_stop_the_build(tmp_path, monkeypatch):
    """A search gone wrong is an error in words, and the last good site stays."""
    board = make(tmp_path, WANTS)
    assert build(board).done
    before = page(board, "swaps.html")
    search = swapboard.matching.match.match

    def wrong(*given):
        found = search(*given)
        levels = (replace(found.levels[0], value=found.levels[0].value + 1), *found.levels[1:])
        return replace(found, levels=levels)

    monkeypatch.setattr(swapboard.matching.match, "match", wrong)
    make(board, {"cards/reed.md": "Title: Reed\nMaker: bo\nThemes: birds\n"})
    built = build(board)
    (told,) = errors_of(built)
    assert not built.done and "must give proposed swaps that pass their check" in told
    assert "3 reported, 2 counted" in told
    assert page(board, "swaps.html") == before
    assert match_board(board, today=DAY).proposals is None


def test_a_link_out_of_the_board_is_not_written_through(tmp_path, searches):
    """Where the kept file would lie outside the board, nothing is kept."""
    board, outside = make(tmp_path / "board", WANTS), tmp_path / "outside"
    outside.mkdir()
    (board / ".swapboard").mkdir()
    os.symlink(outside / "kept", board / ".swapboard" / "swaps-3.json")
    assert build(board).done and build(board).done
    assert len(searches) == 2 and not list(outside.iterdir())


def test_a_card_that_nobody_wants_leaves_pages_of_swaps_as_they_are(tmp_path):
    """No page of swaps changes for it."""
    board = make(tmp_path, WANTS)
    assert build(board).done
    files = [board / "output" / "swaps.html", *(board / "output" / "swaps").glob("*.html")]
    texts = {file: file.read_bytes() for file in files}
    make(board, {"cards/spoon.md": "Title: Spoon\nMaker: bo\n"})
    assert build(board).done
    assert len(files) == 3 and {file: file.read_bytes() for file in files} == texts
