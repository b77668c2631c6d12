"""Where a call stands, once things have happened."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calls.test_errands import CALL, DEAL, PEOPLE
from swapboard.records.call_phase import PHASES, marks_of, phase_of
from swapboard.records.types import CallEvent

MAILED, RECEIVED = date(2026, 11, 1), date(2026, 11, 9)
PLAYED = replace(
    CALL,
    deal=DEAL,
    people=(PEOPLE[0], *(replace(p, mailed=MAILED, received=RECEIVED) for p in PEOPLE[1:])),
)


@pytest.mark.parametrize(
    ("day", "phase"),
    [
        (date(2026, 8, 31), "announced"),
        (date(2026, 9, 20), "signing up"),
        (date(2026, 10, 9), "making"),
        (date(2026, 10, 10), "arriving"),
        (date(2026, 10, 21), "arriving"),
        (date(2026, 10, 22), "dealt"),
        (date(2026, 11, 1), "mailed back"),
        (date(2026, 11, 9), "received"),
        (date(2027, 3, 1), "received"),
    ],
)
def test_what_has_happened_goes_before_what_was_planned(day, phase):
    """By dates until the deal, by marks after it."""
    assert phase_of(PLAYED, day) == phase


def test_a_deal_keeps_a_call_open_past_its_last_date():
    """Envelopes that are late are not closed over."""
    assert phase_of(replace(PLAYED, people=PEOPLE), date(2027, 1, 1)) == "dealt"


@pytest.mark.parametrize("what", ["closed", "cancelled"])
def test_the_host_ends_a_call_in_any_phase(what):
    """From the day of the line on."""
    ended = replace(PLAYED, events=(CallEvent(date(2026, 9, 10), what, 1),))
    assert phase_of(ended, date(2026, 9, 9)) == "signing up"
    assert phase_of(ended, date(2026, 9, 10)) == what


def test_marks_stand_beside_the_phase():
    """Extended and run short change no phase."""
    events = tuple(CallEvent(date(2026, 9, 10), what, 1) for what in ("extended", "run short"))
    call = replace(PLAYED, events=events)
    assert marks_of(call, date(2026, 9, 9)) == ()
    assert marks_of(call, date(2026, 9, 10)) == ("extended", "run short")
    assert phase_of(call, date(2026, 9, 10)) == "signing up"


def test_a_swap_in_person_is_over_after_its_day():
    """It is dealt at the table, and nothing is mailed."""
    held = replace(CALL, by="in person", mail_out_by=None, people=PEOPLE, deal=DEAL)
    held = replace(held, deal=replace(DEAL, frozen=CALL.arrive_by, dealt=CALL.arrive_by))
    assert phase_of(held, date(2026, 10, 19)) == "making"
    assert phase_of(held, CALL.arrive_by) == "dealt"
    assert phase_of(held, date(2026, 10, 21)) == "closed"


@given(st.integers(0, 200))
def test_phases_only_go_forward(days):
    """From one day to the next a call stays where it is or goes on."""
    today = date(2026, 8, 20) + timedelta(days=days)
    first, then = (PHASES.index(phase_of(PLAYED, today + timedelta(days=n))) for n in (0, 1))
    assert first <= then
