"""Pages of a small board, kept as they were last looked at.

Refresh them with `python3 tests --refresh-golden`, and look at the difference.
"""

import shutil
from datetime import date
from pathlib import Path

import pytest

from swapboard.site.build import build_board

GOLDEN = Path(__file__).parent / "golden"
PAGES = (
    "index.html", "404.html", "cards.html", "cards/night-heron.html", "cards/fog.html",
    "themes/birds.html", "media/linocut.html", "calls.html", "calls/small-lights.html",
    "offers.html", "offers/reed-for-fog.html", "makers.html", "makers/ada-lindqvist.html",
    "pages/about.html", "themes.html", "media.html", "feeds.html", "feeds/board.xml",
    "data/cards.js", "data/compose.js", "swaps.html", "swaps/bo-tamm.html",
)
# It lists all countries, whose names are the locale data's own; tests/theme draws it.
NOT_KEPT = {"compose.html"}


@pytest.fixture(scope="module")
def built(tmp_path_factory):
    board = tmp_path_factory.mktemp("golden") / "board"
    shutil.copytree(GOLDEN / "board", board)
    made = build_board(board, today=date(2026, 10, 10), workers=1)
    assert made.done, "\n".join(map(str, made.problems))
    return board / "output"


@pytest.mark.parametrize("page", PAGES)
def test_a_page_is_as_it_was_last_looked_at(built, page, request):
    """Any change to what visitors get shows up in a difference to read."""
    kept = GOLDEN / "pages" / page
    made = (built / page).read_text("utf-8")
    if request.config.getoption("--refresh-golden"):
        kept.parent.mkdir(parents=True, exist_ok=True)
        kept.write_text(made, "utf-8")
    assert made == kept.read_text("utf-8")


def test_no_kind_of_page_is_forgotten(built):
    """Each folder and each list of the site has a page among the kept ones."""
    made = {p.relative_to(built).as_posix() for p in built.rglob("*.html")}
    kinds = {path.split("/")[0] for path in made}
    kept = {path.split("/")[0] for path in PAGES if path.endswith(".html")}
    assert kinds == kept | NOT_KEPT
