"""The filter's data is a script that holds data and nothing else."""

import json

from hypothesis import given
from hypothesis import strategies as st

from swapboard.facets.filter_index import filter_index
from swapboard.views.types import CardTile, Link, Picture

PICTURE = Picture((("pictures/a-240.avif", 240, 336),), ("pictures/a-480.jpg", 480, 672), "A moth")


def tile(title, maker="Ines", picture=PICTURE):
    return CardTile("a", "cards/a.html", title, Link(maker, "makers/i.html"), picture, "available")


def data(script):
    assert script.startswith("swapboardCards(") and script.endswith(");\n")
    return json.loads(script.removeprefix("swapboardCards(").removesuffix(");\n"))


def test_names_are_listed_once_and_pointed_to():
    """Two cards of one theme share its entry."""
    birds = Link("birds", "themes/birds.html")
    ink = Link("ink pen", "media/ink-pen.html")
    found = data(filter_index([(tile("A"), [birds], [ink]), (tile("B", "Tom"), [birds], [])]))
    assert found["version"] == 1
    assert found["themes"] == [{"name": "birds", "path": "themes/birds.html"}]
    assert [card["themes"] for card in found["cards"]] == [[0], [0]]
    assert [card["media"] for card in found["cards"]] == [[0], []]
    assert [card["maker"] for card in found["cards"]] == [0, 1]
    assert found["cards"][0]["pictures"]["jpeg"] == ["pictures/a-480.jpg", 480, 672]


def test_a_card_without_a_picture_stays_in():
    """It is shown without one."""
    found = data(filter_index([(tile("A", picture=None), [], [])]))
    assert found["cards"][0]["pictures"] is None


@given(st.text())
def test_no_title_can_leave_the_script(title):
    """Whatever a title holds, the script has no markup and no line break but its last."""
    script = filter_index([(tile(title), [], [])])
    assert "<" not in script
    assert not {"\u2028", "\u2029"} & set(script)
    assert script.count("\n") == 1
    assert data(script)["cards"][0]["title"] == title
