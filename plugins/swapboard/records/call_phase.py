"""Where a call stands: from its dates, its dated lines, its deal and its people's marks."""

from datetime import date

from swapboard.records.types import Call, Person

ANNOUNCED, SIGNING_UP, MAKING, ARRIVING = "announced", "signing up", "making", "arriving"
DEALT, MAILED, RECEIVED = "dealt", "mailed back", "received"
CLOSED, CANCELLED = "closed", "cancelled"
# In the order in which a call goes through them.
PHASES = (ANNOUNCED, SIGNING_UP, MAKING, ARRIVING, DEALT, MAILED, RECEIVED, CLOSED, CANCELLED)
OVER = (CLOSED, CANCELLED)


def phase_of(call: Call, today: date) -> str:
    """The phase of a call; a date itself is still in time.

    What has happened goes before what was planned: a dated line closed or cancelled,
    then the envelopes, then the deal, then the dates. A call of which nobody recorded
    a deal is over when its last date is; one whose deal is recorded lasts until its
    envelopes are received, or a line closes it.
    """
    happened = {event.what for event in call.events if event.on <= today}
    if CANCELLED in happened:
        return CANCELLED
    if CLOSED in happened:
        return CLOSED
    if is_dealt(call, today):
        return _after_the_deal(call, today)
    if call.date and today < call.date:
        return ANNOUNCED
    if call.sign_up_by and today <= call.sign_up_by:
        return SIGNING_UP
    if call.arrive_by and today <= call.arrive_by:
        here = any(person.arrived and person.arrived <= today for person in taking_part(call))
        return ARRIVING if here and call.by != "in person" else MAKING
    if call.deal and call.deal.frozen <= today:
        return ARRIVING
    if call.mail_out_by and call.arrive_by and today <= call.mail_out_by:
        return ARRIVING
    return CLOSED if call.sign_up_by or call.arrive_by or call.mail_out_by else SIGNING_UP


def is_dealt(call: Call, today: date) -> bool:
    """Whether the deal is made, by command or by a dated line."""
    if call.deal and call.deal.dealt and call.deal.dealt <= today:
        return True
    return any(e.what in ("dealt", "opened") and e.on <= today for e in call.events)


def opened_on(call: Call) -> date | None:
    """The day from which everybody may see who got what; None while nobody may."""
    if call.deal:
        return call.deal.opened
    return next((event.on for event in call.events if event.what == "opened"), None)


def marks_of(call: Call, today: date) -> tuple[str, ...]:
    """What else is to be said of a call: "extended", "run short"."""
    happened = {event.what for event in call.events if event.on <= today}
    return tuple(mark for mark in ("extended", "run short") if mark in happened)


def taking_part(call: Call) -> tuple[Person, ...]:
    """Those who hold a place, in the order of the list."""
    return tuple(person for person in call.people if not person.standing)


def waiting(call: Call) -> tuple[Person, ...]:
    """The waiting list, first come first served: by day, then as listed."""
    found = [person for person in call.people if person.standing == "waiting"]
    return tuple(sorted(found, key=lambda person: person.signed_up or date.max))


def places_taken(call: Call) -> int:
    """Places held; one person may hold two."""
    return sum(person.places for person in taking_part(call))


def places_left(call: Call) -> int | None:
    """Places still free; None where the host set no limit."""
    return None if call.places is None else max(0, call.places - places_taken(call))


def envelopes(call: Call) -> tuple[Person, ...]:
    """Those to whom an envelope goes back: whose cards arrived, but for the host."""
    return tuple(p for p in taking_part(call) if p.arrived and p.maker != call.host)


def _after_the_deal(call: Call, today: date) -> str:
    if call.by == "in person":
        return CLOSED if call.arrive_by and today > call.arrive_by else DEALT
    due = envelopes(call)
    if due and all(_by(person.received or person.lost, today) for person in due):
        return RECEIVED
    if due and all(_by(person.mailed, today) for person in due):
        return MAILED
    return DEALT


def _by(day: date | None, today: date) -> bool:
    return day is not None and day <= today
