"""The dates of calls as the days of a calendar."""

from swapboard.facets.calendar import CalendarDay
from swapboard.views.showing import Showing

_SUMMARIES = {
    "announced": "Opens: {}",
    "sign up by": "Sign up by today: {}",
    "arrive by": "Cards arrive by today: {}",
    "held": "{}",
    "mail out by": "Mailed out by today: {}",
}


def call_days(showing: Showing, name: str) -> tuple[CalendarDay, ...]:
    """Every date of the call `name`, by day. A call in person is held on the day by
    which its cards arrive, and that day has its place and hour."""
    call = showing.board.calls[name]
    in_person = call.by == "in person"
    dated = (
        ("announced", call.date), ("sign up by", call.sign_up_by),
        ("held" if in_person else "arrive by", call.arrive_by), ("mail out by", call.mail_out_by),
    )  # fmt: skip
    cancelled = any(event.what == "cancelled" for event in call.events)
    days = []
    for what, on in dated:
        if on is None:
            continue
        is_held = what == "held"
        summary = _SUMMARIES[what].format(call.title)
        days.append(
            CalendarDay(
                what="arrive by" if is_held else what,
                path=f"calls/{name}.html",
                on=on,
                summary=f"{summary}, {call.hour}" if is_held and call.hour else summary,
                description=_description(showing, name),
                place=call.place if is_held else "",
                revision=call.revision,
                made=call.date,
                cancelled=cancelled,
            )
        )
    return tuple(days)


def board_days(showing: Showing) -> tuple[CalendarDay, ...]:
    """Every date of every call."""
    return tuple(day for name in sorted(showing.board.calls) for day in call_days(showing, name))


def _description(showing: Showing, name: str) -> str:
    call = showing.board.calls[name]
    lines = [f"Theme: {call.theme}"] if call.theme else []
    lines.append(f"Host: {showing.maker(call.host).text}")
    if call.send:
        lines.append(f"Send {call.send}, receive {call.receive}")
    return "\n".join(lines)
