"""Calendars (RFC 5545, 2009): the dates of a board's calls, for whoever subscribes."""

import uuid
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from urllib.parse import quote, urljoin

BOARD_CALENDAR = "calendar.ics"
_LONGEST = 75  # octets on one line, its break not counted (RFC 5545, section 3.1)
_NO_DAY = date(1970, 1, 1)


@dataclass(frozen=True, slots=True)
class CalendarDay:
    """One date of a call: `what` is a code that never changes for it, `path` the
    call's page, `revision` how often its dates were moved, `made` the day on which
    the call was announced."""

    what: str
    path: str
    on: date
    summary: str
    description: str
    place: str = ""
    revision: int = 0
    made: date | None = None
    cancelled: bool = False


def calendar_path(page: str) -> str:
    """The calendar that belongs to a call's page: calls/leaf.html has calls/leaf.ics."""
    return page.removesuffix(".html") + ".ics"


def calendar(name: str, days: Iterable[CalendarDay], address: str = "") -> bytes:
    """An iCalendar stream of all-day events, sorted by day, page and code.

    Lines end in CRLF and are folded at 75 octets, never inside a character. An
    event's UID is a UUID (RFC 9562) of the board's `address`, the call's page and
    the code, and stays when words and dates change; SEQUENCE is `revision`. DTSTAMP
    is the day of the announcement, so that the same board gives the same bytes.
    Raises ValueError where there are no days: RFC 5545 has no empty calendar.
    """
    ordered = sorted(days, key=lambda day: (day.on, day.path, day.what))
    if not ordered:
        raise ValueError("a calendar needs at least one day")
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Swapboard//Swap calls//EN"]
    lines += ["CALSCALE:GREGORIAN", f"NAME:{_text(name)}", f"X-WR-CALNAME:{_text(name)}"]
    for day in ordered:
        lines += _event(day, address)
    return "".join(_folded(line) + "\r\n" for line in [*lines, "END:VCALENDAR"]).encode("utf-8")


def _event(day: CalendarDay, address: str) -> list[str]:
    made = day.made or _NO_DAY
    lines = [
        "BEGIN:VEVENT",
        f"UID:{uuid.uuid5(uuid.NAMESPACE_URL, f'{address}{day.path}#{day.what}')}",
        f"DTSTAMP:{_date(made)}T000000Z",
        f"SEQUENCE:{day.revision}",
        f"DTSTART;VALUE=DATE:{_date(day.on)}",
        f"DTEND;VALUE=DATE:{_date(_day_after(day.on))}",
        f"SUMMARY:{_text(day.summary)}",
    ]
    if day.description:
        lines.append(f"DESCRIPTION:{_text(day.description)}")
    if day.place:
        lines.append(f"LOCATION:{_text(day.place)}")
    if address:
        lines.append(f"URL:{urljoin(address, quote(day.path, safe='/-_.~'))}")
    status = "CANCELLED" if day.cancelled else "CONFIRMED"
    # Nobody is busy all day because a parcel is due.
    return [*lines, f"STATUS:{status}", "TRANSP:TRANSPARENT", "END:VEVENT"]


def _date(day: date) -> str:
    return f"{day.year:04}{day.month:02}{day.day:02}"


def _day_after(day: date) -> date:
    return day + timedelta(days=1) if day < date.max else day


def _text(value: str) -> str:
    """TEXT as section 3.3.11 escapes it, without the control characters it forbids."""
    value = value.replace("\r\n", "\n").replace("\r", "\n")
    value = "".join(c for c in value if c in "\n\t" or (c >= " " and not "\x7f" <= c <= "\x9f"))
    value = value.encode("utf-8", "ignore").decode("utf-8")  # half a surrogate pair is no text
    for plain, escaped in (("\\", "\\\\"), (";", "\\;"), (",", "\\,"), ("\n", "\\n")):
        value = value.replace(plain, escaped)
    return value


def _folded(line: str) -> str:
    parts, part, size = [], "", 0
    for character in line:
        width = len(character.encode("utf-8"))
        if size + width > _LONGEST:
            parts.append(part)
            part, size = " ", 1
        part, size = part + character, size + width
    return "\r\n".join([*parts, part])
