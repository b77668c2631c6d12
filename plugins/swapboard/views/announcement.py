"""A call in the words that announce it: on a flyer, in a mail, in a picture."""

from dataclasses import dataclass
from datetime import date
from urllib.parse import quote, urljoin

from swapboard.views.plain_words import plain_words
from swapboard.views.showing import Showing


@dataclass(frozen=True, slots=True)
class Announcement:
    """A call as it is announced. `facts` are (name, value), `body` is its text without
    marks, `address` that of its page on the web, "" where the board's is not known."""

    board: str
    title: str
    theme: str
    host: str
    facts: tuple[tuple[str, str], ...]
    body: str
    address: str


def announcement(showing: Showing, name: str) -> Announcement:
    """What is announced of the call `name`: public things alone."""
    call, own = showing.board.calls[name], showing.settings.board
    facts = [
        ("Theme", call.theme),
        ("Host", showing.maker(call.host).text),
        ("Cards", f"send {call.send}, receive {call.receive}" if call.send else ""),
        ("Where", ", ".join(filter(None, (call.place, call.hour)))),
        ("Sign up by", _day(call.sign_up_by, own.language)),
        ("Held on" if call.by == "in person" else "Arrive by",
         _day(call.arrive_by, own.language)),
        ("Mailed out by", _day(call.mail_out_by, own.language)),
        ("Media", ", ".join(call.media)),
        ("Not", "; ".join(call.not_wanted)),
        ("Must have", "; ".join(call.must_have)),
        ("Thickness", call.thickness),
        ("Places", str(call.places) if call.places else ""),
        ("Countries", ", ".join(call.countries)),
        ("Age", "adults only" if call.adults_only else ""),
    ]
    page = quote(f"calls/{name}.html", safe="/-_.~")
    return Announcement(
        own.name, call.title, call.theme, showing.maker(call.host).text,
        tuple((key, value) for key, value in facts if value), plain_words(call.body),
        urljoin(own.address, page) if own.address else "",
    )  # fmt: skip


def text_to_paste(told: Announcement) -> str:
    """The call as plain text, for a mail or a forum."""
    lines = [f"Swap call: {told.title}", ""]
    lines += [f"{key}: {value}" for key, value in told.facts]
    lines += ["", told.body] if told.body else []
    lines += ["", f"Sign up and read more: {told.address}"] if told.address else []
    return "\n".join([*lines, "", f"On {told.board}", ""])


def _day(day: date | None, language: str) -> str:
    if day is None:
        return ""
    from babel import UnknownLocaleError
    from babel.dates import format_date

    try:
        return format_date(day, format="long", locale=language.replace("-", "_"))
    except (UnknownLocaleError, ValueError):
        return day.isoformat()
