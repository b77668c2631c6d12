"""The composer is part of a built site, where there are cards to ask for."""

import json

import pytest
from pelican.settings import read_settings

from hostile.small_board import DAY, build, errors_of, make
from swapboard.site.conf import settings_for
from swapboard.site.pelican_class import SwapboardPelican
from swapboard.site.prepare import Wishes

CALL = "Title: Lights\nDate: 2026-10-01\nHost: ada\nSend: 3\nSign up by: 2026-10-20\n"


def index(output):
    script = (output / "data" / "compose.js").read_text("utf-8")
    return json.loads(script.removeprefix("swapboardComposer(").removesuffix(");\n"))


def test_a_build_has_the_composer_and_ways_to_it(tmp_path):
    """The page, its data, and links to it from each card that may be had and each open call."""
    board = make(tmp_path / "board", {"calls/lights.md": CALL})
    built = build(board)
    assert built.done, errors_of(built)
    assert "2 makers, 1 call and 0 offers: " in built.words
    output = board / "output"
    found = index(output)
    assert sorted(row[0] for row in found["cards"]) == ["fog", "heron"]
    assert found["makers"] == [["ada", "Ada"], ["keeper", "The keeper"]]
    assert [row[0] for row in found["calls"]] == ["lights"]
    assert 'href="../compose.html#cards=fog"' in (output / "cards" / "fog.html").read_text()
    assert 'href="../compose.html#call=lights"' in (output / "calls" / "lights.html").read_text()
    assert 'href="compose.html"' in (output / "cards.html").read_text()


def test_the_keepers_address_is_on_the_page_only_where_it_is_given(tmp_path):
    """A public address in board.toml is where offers go; without one there is none."""
    toml = 'format = 1\n\n[board]\nname = "Small board"\nmail = "cards@board.example"\n'
    board = make(tmp_path / "board", {"board.toml": toml})
    assert build(board).done
    page = board / "output" / "compose.html"
    assert 'href="mailto:cards@board.example"' in page.read_text("utf-8")
    make(board, {"board.toml": toml.replace('mail = "cards@board.example"\n', "")})
    assert build(board).done
    assert "mailto:" not in page.read_text("utf-8")


@pytest.mark.parametrize("left_out", ["compose", "cards"])
def test_a_site_without_it_has_no_link_to_it(tmp_path, left_out):
    """Without the plugin, or without cards, nothing of it is there: verify finds dead links."""
    board = make(tmp_path / "board", {"calls/lights.md": CALL})
    settings = read_settings(override=settings_for(board, wishes=Wishes(DAY, workers=1)))
    settings["PLUGINS"].remove(f"swapboard.site.{left_out}")
    SwapboardPelican(settings).run()
    output = board / "output"
    assert not (output / "compose.html").exists()
    assert not [page for page in output.rglob("*.html") if "compose.html" in page.read_text()]
