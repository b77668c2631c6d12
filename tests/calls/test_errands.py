"""What the host of a call has to do on a day, with the mail that goes with it."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from swapboard.records.deal_types import DealRecord
from swapboard.records.types import Board, Call, CallEvent, Maker, Person
from swapboard.today.calls import call_errands

MAKERS = {
    name: Maker(name, f"makers/{name}.md", name.title(), country="PL" if name == "ben" else "")
    for name in ("hana", "ada", "ben", "cyd", "dot")
}
CALL = Call(
    "lights", "calls/lights.md", "Lights", date(2026, 9, 1), host="hana", send=2, receive=2,
    sign_up_by=date(2026, 9, 20), arrive_by=date(2026, 10, 20), mail_out_by=date(2026, 11, 5),
    must_have=("a name on the back",), return_postage=(("PL", "two reply stamps"),),
)  # fmt: skip
ARRIVED = date(2026, 10, 10)


def person(maker: str, arrived: date | None = ARRIVED, **more) -> Person:
    """A row of the list."""
    return Person(maker, 2, date(2026, 9, 5), arrived, "", 2, **more)


PEOPLE = tuple(person(name) for name in ("hana", "ada", "ben", "cyd"))
DEAL = DealRecord(
    "calls/lights.deal.json", date(2026, 10, 21), date(2026, 10, 22), None, "{}",
    "swapboard list 1\nmaker\t2\tada\nmaker\t2\tben\nmaker\t2\tcyd\nmaker\t2\thana\n",
    "0" * 64, "1" * 64, "",
)  # fmt: skip


def errands(today: date, people=PEOPLE, **changes):
    """The errands of a day."""
    call = replace(CALL, people=people, **changes)
    return call_errands(Board({}, MAKERS, {"lights": call}, {}, {}), today)


def test_who_has_not_sent_is_reminded_two_weeks_before():
    """With what each card needs, and the postage from their country; not before that."""
    people = (*PEOPLE[:2], person("ben", None), PEOPLE[3])
    assert errands(date(2026, 10, 5), people) == ()
    (errand,) = errands(date(2026, 10, 6), people)
    assert (errand.due, errand.who, errand.about) == (
        date(2026, 10, 20), ("ben",), "calls/lights.md",
    )  # fmt: skip
    assert errand.draft.to == ("ben",) and "Hello Ben," in errand.draft.body
    assert "a name on the back" in errand.draft.body and "two reply stamps" in errand.draft.body


@pytest.mark.parametrize(
    ("day", "words"),
    [
        # A week's grace: common practice of the trade, no source.
        (date(2026, 10, 21), "ben is 1 day late with 2 cards; the grace ends on 2026-10-27"),
        (date(2026, 10, 27), "ben is 7 days late"),
        (date(2026, 10, 28), "the grace is over: deal without them"),
    ],
)
def test_who_is_late_is_waited_for_through_the_grace(day, words):
    """Then the place is given up, and the list can be frozen."""
    found = errands(day, (*PEOPLE[:2], person("ben", None), PEOPLE[3]))
    assert any(words in errand.what for errand in found)
    frozen = [errand for errand in found if "swapboard commit" in errand.what]
    assert bool(frozen) == (day > date(2026, 10, 27))


def test_when_all_is_here_the_list_is_frozen_and_dealt():
    """The public value that was promised is named."""
    (errand,) = errands(date(2026, 10, 12))
    assert errand.what == "freeze the list: swapboard commit lights" and errand.who == ("hana",)
    (errand,) = errands(
        date(2026, 10, 23), deal=replace(DEAL, dealt=None), public_value="the draw of 24 October"
    )
    assert "swapboard deal lights --value" in errand.what and "the draw of 24" in errand.what


def test_a_parcel_after_the_freeze_asks_for_a_repair_once():
    """Until there is a repair from that day on."""
    people = (*PEOPLE, person("dot", date(2026, 10, 23)))
    found = [e for e in errands(date(2026, 10, 24), people, deal=DEAL) if "repair" in e.what]
    assert len(found) == 1 and "dot" in found[0].what
    undealt = errands(date(2026, 10, 24), people, deal=replace(DEAL, dealt=None))
    assert any("commit lights --anew" in errand.what for errand in undealt)


def test_envelopes_are_mailed_then_asked_after():
    """Those not mailed are named; three weeks later those not received are asked."""
    sent = tuple(replace(p, mailed=date(2026, 11, 1)) for p in PEOPLE[1:])
    found = errands(date(2026, 10, 25), deal=DEAL)
    assert [errand.what for errand in found] == ["mail 3 envelopes: ada; ben; cyd"]
    found = errands(date(2026, 11, 2), (PEOPLE[0], *sent), deal=DEAL)
    assert ["swapboard open lights" in errand.what for errand in found] == [True]
    assert found[0].draft.to == ("ada", "ben", "cyd")
    opened = replace(DEAL, opened=date(2026, 11, 2))
    assert errands(date(2026, 11, 21), (PEOPLE[0], *sent), deal=opened) == ()
    late = errands(date(2026, 11, 22), (PEOPLE[0], *sent), deal=opened)
    assert [errand.who for errand in late] == [("ada",), ("ben",), ("cyd",)]


def test_a_lost_envelope_is_filled_anew_and_the_end_is_said():
    """The host is told how; when all is received the call can be closed."""
    opened = replace(DEAL, opened=date(2026, 11, 2))
    there = [replace(p, mailed=date(2026, 11, 1), received=date(2026, 11, 9)) for p in PEOPLE[1:]]
    lost = replace(there[0], received=None, lost=date(2026, 11, 20))
    found = errands(date(2026, 11, 21), (PEOPLE[0], lost, *there[1:]), deal=opened)
    assert any("swapboard repair lights" in e.what and e.draft.to == ("ada",) for e in found)
    (errand,) = errands(date(2026, 11, 21), (PEOPLE[0], *there), deal=opened)
    assert errand.what == "all is there: swapboard close lights"


def test_a_free_place_goes_to_who_waits():
    """While somebody waits and nobody is frozen out yet."""
    people = (*PEOPLE[:2], person("ben", None, standing="left"), person("dot", None,
              standing="waiting"))  # fmt: skip
    found = errands(date(2026, 9, 10), people, places=3)
    assert any("'dot'" in errand.what and errand.draft.to == ("dot",) for errand in found)
    assert errands(date(2026, 9, 10), people, places=2) == ()


def test_too_few_for_a_deal_is_said_after_sign_up():
    """With n cards each from different makers n + 1 are needed (recomputed)."""
    found = errands(date(2026, 9, 21), PEOPLE[:2])
    assert any("2 are in it, and 3 are needed" in errand.what for errand in found)
    said = (CallEvent(date(2026, 9, 21), "run short", 9),)
    assert not any("needed" in e.what for e in errands(date(2026, 9, 21), PEOPLE[:2], events=said))


@pytest.mark.parametrize("what", ["closed", "cancelled"])
def test_a_call_that_is_over_asks_nothing(what):
    """Neither of the host nor of anybody else."""
    over = (CallEvent(date(2026, 10, 1), what, 9),)
    missing = tuple(person(p.maker, None) for p in PEOPLE)
    assert errands(date(2026, 12, 1), missing, events=over) == ()


def test_no_draft_goes_to_the_host_or_holds_an_address():
    """Whoever reads along: nobody writes to themselves."""
    for days in range(120):
        today = date(2026, 9, 1) + timedelta(days=days)
        for errand in errands(today, (person("hana", None), *(person(p.maker, None)
                                                             for p in PEOPLE[1:]))):  # fmt: skip
            assert errand.draft is None or "hana" not in errand.draft.to
