"""Calendars are RFC 5545, as two readers that are not ours have it."""

from datetime import date, timedelta

import icalendar
import pytest
import vobject
from hypothesis import given
from hypothesis import strategies as st

from hostile.small_board import build, make
from swapboard.facets.calendar import CalendarDay, calendar

WORDS = st.text(st.characters(exclude_categories=("Cs",)), max_size=120)
CALL = (
    "Title: One leaf; two, three\nDate: 2026-10-01\nHost: keeper\nSend: 3\nReceive: 3\n"
    "Sign up by: 2026-10-20\nArrive by: 2026-11-20\nMail out by: 2026-12-05\n"
)


def a_day(**said) -> CalendarDay:
    return CalendarDay(
        **{"what": "sign up by", "path": "calls/leaf.html", "on": date(2026, 10, 20),
           "summary": "Leaf", "description": "", **said}
    )


def events_of(data: bytes) -> list:
    return icalendar.Calendar.from_ical(data).walk("VEVENT")


def test_a_line_folds_at_75_octets_and_never_inside_a_character():
    """60 × é after DESCRIPTION: gives 74 and 59 octets (RFC 5545, section 3.1)."""
    data = calendar("Board", [a_day(description="é" * 60)])
    lines = data.split(b"\r\n")
    at = next(i for i, line in enumerate(lines) if line.startswith(b"DESCRIPTION"))
    assert (len(lines[at]), len(lines[at + 1])) == (74, 59)
    assert b"\n" not in data.replace(b"\r\n", b"")


@given(WORDS, WORDS, st.dates(date(1, 1, 2), date(9999, 12, 30)))
def test_two_readers_find_what_was_written(summary, description, on):
    """Whatever people write comes back whole, but for control characters."""
    data = calendar("Board", [a_day(summary=summary, description=description, on=on)])
    assert all(len(line) <= 75 for line in data.split(b"\r\n"))
    kept = "".join(
        c for c in summary.replace("\r\n", "\n").replace("\r", "\n")
        if c in "\n\t" or (c >= " " and not "\x7f" <= c <= "\x9f")
    )
    (event,) = events_of(data)
    assert str(event["SUMMARY"]) == kept
    assert event["DTSTART"].dt == on and event["DTEND"].dt == on + timedelta(days=1)
    second = vobject.readOne(data.decode("utf-8"))
    assert second.vevent.summary.value == kept and second.vevent.dtstart.value == on


def test_an_event_keeps_its_uid_when_its_date_moves():
    """The date and SEQUENCE change, the UID does not; other dates have other ones."""
    before, after = a_day(), a_day(on=date(2026, 10, 27), summary="Leaf!", revision=1)
    (first,), (second,) = (events_of(calendar("B", [day], "https://a.example/")) for day in
                           (before, after))
    assert first["UID"] == second["UID"] and (first["SEQUENCE"], second["SEQUENCE"]) == (0, 1)
    (other,) = events_of(calendar("B", [a_day(what="arrive by")], "https://a.example/"))
    assert other["UID"] != first["UID"]


def test_a_cancelled_call_says_so():
    """Its days stay in the calendar, as cancelled."""
    (event,) = events_of(calendar("B", [a_day(cancelled=True)]))
    assert event["STATUS"] == "CANCELLED"


def test_there_is_no_empty_calendar():
    """RFC 5545 asks for at least one component."""
    with pytest.raises(ValueError, match="at least one day"):
        calendar("B", [])


def test_the_board_and_each_call_have_a_calendar(tmp_path):
    """A built board has both, a call without dates has none, and a second build the same."""
    board = make(tmp_path / "b", {"calls/leaf.md": CALL,
                                  "calls/bare.md": "Title: Bare\nSend: 2\n"})
    assert build(board).done
    data = (board / "output/calendar.ics").read_bytes()
    assert len(events_of(data)) == 4
    assert len(vobject.readOne(data.decode()).vevent_list) == 4
    assert events_of((board / "output/calls/leaf.ics").read_bytes())[1]["SUMMARY"].endswith(
        "One leaf; two, three"
    )
    assert not (board / "output/calls/bare.ics").exists()
    assert 'calendar.ics"' in (board / "output/feeds.html").read_text("utf-8")


def test_a_call_in_person_is_held_where_and_when_it_says(tmp_path):
    """The day has the place and the hour."""
    text = ("Title: Table\nHost: keeper\nSend: 3\nBy: in person\nPlace: The quay, Vale\n"
            "Hour: 14:00\nArrive by: 2026-11-07\n")
    board = make(tmp_path / "b", {"calls/table.md": text})
    assert build(board).done
    (event,) = events_of((board / "output/calls/table.ics").read_bytes())
    assert event["LOCATION"] == "The quay, Vale" and event["SUMMARY"] == "Table, 14:00"
