"""What can be asked for on the composer's page follows from the board alone."""

import json
from datetime import date

from swapboard.records.types import Board, Call, Card, Event, Maker, Offer, State
from swapboard.settings import Settings
from swapboard.views.compose import compose_index, compose_page
from swapboard.views.showing import SECTIONS, Showing

TODAY = date(2026, 10, 10)


def card(name, maker, **changes):
    return Card(name, f"cards/{name}.md", name.title(), maker, **changes)


def showing(sections=SECTIONS):
    cards = (card("fog", "ines"), card("reed", "tam"), card("owl", "tam"),
             card("old", "ines", state=State.TRADED))  # fmt: skip
    agreed = (Event(date(2026, 10, 5), "agreed", "", 1),)
    offer = Offer("a", "offers/a.md", "a", "ines", "tam", ("fog",), ("reed",), agreed)
    calls = (
        Call("now", "calls/now.md", "Now", date(2026, 9, 1), host="ines", send=4,
             sign_up_by=TODAY),
        Call("soon", "calls/soon.md", "Soon", date(2026, 10, 11), host="ines", send=3,
             sign_up_by=date(2026, 10, 20)),
        Call("late", "calls/late.md", "Late", date(2026, 8, 1), host="ines",
             sign_up_by=date(2026, 10, 9), arrive_by=date(2026, 11, 1)),
    )  # fmt: skip
    makers = {"tam": Maker("tam", "makers/tam.md", "Tam"),
              "ines": Maker("ines", "makers/ines.md", "ines")}  # fmt: skip
    board = Board({c.name: c for c in cards}, makers, {c.name: c for c in calls}, {"a": offer}, {})
    return Showing(board, Settings(), {}, TODAY, sections)


def index(sections=SECTIONS):
    script = compose_index(showing(sections))
    return json.loads(script.removeprefix("swapboardComposer(").removesuffix(");\n"))


def test_only_what_may_be_had_can_be_asked_for():
    """Cards traded or spoken for are left out; makers go by their public names."""
    found = index()
    assert [row[0] for row in found["cards"]] == ["owl"]
    assert found["makers"] == [["ines", "ines"], ["tam", "Tam"]]


def test_only_calls_that_are_open_can_be_signed_up_for():
    """The last day to sign up is still in time; one that opens later says from when; a site
    without calls offers none."""
    assert index()["calls"] == [["now", "Now", 4, "", "2026-10-10"],
                                ["soon", "Soon", 3, "2026-10-11", "2026-10-20"]]
    assert compose_page(showing()).calls == (
        ("now", "Now", None), ("soon", "Soon", date(2026, 10, 11)),
    )  # fmt: skip
    assert index(SECTIONS - {"calls"})["calls"] == []


def test_countries_are_named_in_the_boards_language():
    """The page suggests every country there is."""
    countries = compose_page(showing()).countries
    assert {"Ghana", "Finland"} <= set(countries) and len(countries) > 200
