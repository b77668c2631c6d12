"""The composer's data is a script that holds data and nothing else."""

import json
from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from swapboard.facets.composer_index import composer_index
from swapboard.views.types import CardTile, Link, Picture

MAKERS = [("ada", "Ada"), ("bo", "Bo Tamm")]


def tile(title="Moth", picture=None):
    return CardTile("moth", "cards/moth.html", title, Link("Bo Tamm"), picture, "available")


def data(script):
    assert script.startswith("swapboardComposer(") and script.endswith(");\n")
    return json.loads(script.removeprefix("swapboardComposer(").removesuffix(");\n"))


def test_a_card_has_its_makers_number_and_its_smallest_picture():
    """Makers are listed once; a card has one small AVIF and the JPEG, or nothing."""
    sizes = (("pictures/a-240.avif", 240, 336), ("pictures/a-480.avif", 480, 672))
    picture = Picture(sizes, ("pictures/a-480.jpg", 480, 672), "A moth")
    calls = [("lights", "Small lights", 4, None, None),
             ("frost", "Frost", 2, date(2026, 11, 1), date(2026, 11, 9))]
    found = data(composer_index(MAKERS, [(tile(picture=picture), "bo"), (tile(), "ada")], calls))
    assert found == {
        "version": 1,
        "makers": [["ada", "Ada"], ["bo", "Bo Tamm"]],
        "cards": [
            ["moth", "Moth", 1, ["pictures/a-240.avif", "pictures/a-480.jpg", 480, 672, "A moth"]],
            ["moth", "Moth", 0, None],
        ],
        "calls": [["lights", "Small lights", 4, "", ""],
                  ["frost", "Frost", 2, "2026-11-01", "2026-11-09"]],
    }


def test_a_card_of_nobody_on_the_board_cannot_be_asked_for():
    """Without a maker there is nobody to write to."""
    assert data(composer_index(MAKERS, [(tile(), "gone")], []))["cards"] == []


@given(st.text())
def test_no_title_can_leave_the_script(title):
    """Whatever a title holds, the script has no markup and no line break but its last."""
    script = composer_index(MAKERS, [(tile(title), "ada")], [])
    assert "<" not in script and not {"\u2028", "\u2029"} & set(script)
    assert script.count("\n") == 1
    assert data(script)["cards"][0][1] == title
