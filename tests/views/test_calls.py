"""A call's phase and its line of dates follow from its dates and the day alone."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from swapboard.records.types import Call
from swapboard.views.calls import phase_of

CALL = Call(
    "lights", "calls/lights.md", "Lights", date(2026, 9, 1), send=4, receive=3,
    sign_up_by=date(2026, 10, 15), arrive_by=date(2026, 11, 20), mail_out_by=date(2026, 12, 5),
)


@pytest.mark.parametrize(
    ("day", "phase"),
    [
        # Announced, signing up, making, arriving, closed: common practice, no source.
        (date(2026, 8, 31), "announced"),
        (date(2026, 9, 1), "signing up"),
        (date(2026, 10, 15), "signing up"),
        (date(2026, 10, 16), "making"),
        (date(2026, 11, 20), "making"),
        (date(2026, 11, 21), "arriving"),
        (date(2026, 12, 5), "arriving"),
        (date(2026, 12, 6), "closed"),
    ],
)
def test_a_date_is_still_in_time_on_its_own_day(day, phase):
    """Each phase lasts until its date is over."""
    assert phase_of(CALL, day) == phase


@given(st.dates(date(2026, 1, 1), date(2027, 12, 31)))
def test_phases_only_go_forward(day):
    """From one day to the next a call stays where it is or goes on."""
    order = ["announced", "signing up", "making", "arriving", "closed"]
    today, tomorrow = (phase_of(CALL, d) for d in (day, day + timedelta(days=1)))
    assert order.index(today) <= order.index(tomorrow) <= order.index(today) + 1


def test_a_call_without_dates_stays_open():
    """Nothing closes it but its host."""
    assert phase_of(Call("a", "calls/a.md", "A"), date(2030, 1, 1)) == "signing up"
