"""calls/NAME.md: text → swap call."""

import re
from datetime import date
from typing import Any

from swapboard.problems import Problem, did_you_mean
from swapboard.records.card import read_media
from swapboard.records.fields import DATE_FIX, Fields, parse_date
from swapboard.records.header import Field, Keys
from swapboard.records.names import title_of
from swapboard.records.post import instead_for, open_post
from swapboard.records.types import Call, CallEvent
from swapboard.settings import Settings
from swapboard.vocabulary import tidy
from swapboard.vocabulary.countries import countries_in

_KNOWN = (
    "Title", "Date", "Theme", "Host", "By", "Place", "Hour", "Send", "Receive", "Chosen by",
    "Host takes part", "Media", "Not", "Must have", "Thickness", "Places", "Sign up by",
    "Arrive by", "Mail out by", "Countries", "Return postage", "Adults only", "Guardian",
    "Two places", "Days of grace", "Public value", "Relax", "Dealing", "Revision",
)  # fmt: skip
CALL_KEYS = Keys(
    _KNOWN,
    instead_for(
        _KNOWN,
        {
            "themes": "Theme",
            "maker": "Host",
            "deadline": "Arrive by",
            "due": "Arrive by",
            "sign up": "Sign up by",
            "mail by": "Mail out by",
            "postage": "Return postage",
            "country": "Countries",
            "time": "Hour",
            "where": "Place",
            "location": "Place",
            "cards": "Send",
            "people": "Places",
            "adults": "Adults only",
            "rules": "Must have",
            "grace": "Days of grace",
            "lottery": "Public value",
            "version": "Revision",
        },
    ),
    dated=True,
)
EVENTS = ("extended", "run short", "dealt", "opened", "closed", "cancelled")
_LAST = ("closed", "cancelled")
_EVENTS_INSTEAD = {
    "over": "closed",
    "ended": "closed",
    "done": "closed",
    "canceled": "cancelled",
    "withdrawn": "cancelled",
    "called off": "cancelled",
    "prolonged": "extended",
    "postponed": "extended",
    "too few": "run short",
    "shown": "opened",
}
RELAX_WORDS = {"earlier swaps": "met", "two of one maker": "double", "households": "apart"}

YES_NO = {"yes": True, "no": False}
DEALING = {"card by card": False, "by maker": True}
_HOUR = re.compile(r"([01]?\d|2[0-3]):[0-5]\d(\s*[-–]\s*([01]?\d|2[0-3]):[0-5]\d)?")
_ANYWHERE = frozenset(["anywhere", "worldwide", "all", "any"])
_DATES_IN_ORDER = ("Date", "Sign up by", "Arrive by", "Mail out by")
_MOST_PLACES = 1000


def read_call(path: str, text: str, settings: Settings) -> tuple[Call, list[Problem]]:
    """A swap call as its post has it; its people come from the list beside it."""
    name, header, fields = open_post(path, text, CALL_KEYS)
    send, receive = _read_numbers(fields, settings)
    days = _read_dates(fields)
    call = Call(
        name=name,
        path=path,
        title=fields.text("Title") or title_of(name),
        date=days["Date"],
        theme=fields.text("Theme"),
        host=fields.text("Host", settings.board.keeper),
        by=_read_by(fields),
        place=fields.text("Place"),
        hour=_read_hour(fields),
        send=send,
        receive=receive,
        chosen_by=fields.choice("Chosen by", {"host": "host", "maker": "maker"}, ""),
        host_takes_part=fields.choice("Host takes part", YES_NO, True),
        media=read_media(fields, "Media", settings),
        not_wanted=tuple(item for item, _ in fields.items("Not", longest=200)),
        must_have=tuple(item for item, _ in fields.items("Must have", longest=200)),
        thickness=fields.text("Thickness"),
        places=fields.whole("Places", 1, _MOST_PLACES),
        sign_up_by=days["Sign up by"],
        arrive_by=days["Arrive by"],
        mail_out_by=days["Mail out by"],
        countries=tuple(_read_countries(fields, settings)),
        return_postage=tuple(_read_postage(fields, settings)),
        adults_only=fields.choice("Adults only", YES_NO, False),
        **_read_round(fields, header.dated),
        body=header.body,
        lines=fields.lines(header),
    )
    return call, fields.problems


def _read_round(fields: Fields, dated: tuple[Field, ...]) -> dict[str, Any]:
    """How the round is run: who may hold what, how it is dealt, what has happened."""
    return {
        "guardian": _read_guardian(fields),
        "two_places": fields.choice("Two places", YES_NO, False),
        "grace_days": fields.whole("Days of grace", 0, 60, 7),
        "public_value": fields.text("Public value"),
        "relax": _read_relax(fields),
        "by_maker": fields.choice("Dealing", DEALING, False),
        "revision": fields.whole("Revision", 0, 10_000, 0),
        "events": _read_events(fields, dated),
    }


def _read_guardian(fields: Fields) -> bool:
    guardian = fields.choice("Guardian", YES_NO, False)
    if guardian and fields.choice("Adults only", YES_NO, False):
        fix = "keep one of the two lines."
        fields.bad(fields.get("Guardian"), "must not be yes where Adults only is", fix=fix)
    return guardian


def _read_relax(fields: Fields) -> tuple[str, ...]:
    """The rules that may give way, the first to give way first; all where none is said."""
    if "Relax" not in fields:
        return tuple(RELAX_WORDS.values())
    named = list(fields.items("Relax"))
    if [item.casefold() for item, _ in named] == ["nothing"]:
        return ()
    found = []
    for item, line in named:
        if rule := RELAX_WORDS.get(item.casefold()):
            found.append(rule)
        else:
            must = f"must name some of: {' · '.join(RELAX_WORDS)}, or be nothing"
            fix = did_you_mean(item, RELAX_WORDS) or "write the first to give way first."
            fields.bad(fields.get("Relax"), must, item, fix, line)
    return tuple(found)


def _read_events(fields: Fields, dated: tuple[Field, ...]) -> tuple[CallEvent, ...]:
    """What has happened to the call, by day; nothing comes after its end."""
    events: list[CallEvent] = []
    for field in dated:
        day, what = parse_date(field.key), tidy(field.value).rstrip(".").casefold()
        if day is None:
            fields.bad(field, "must be a date like 2026-09-28", field.key, DATE_FIX)
        elif what not in EVENTS:
            instead = _EVENTS_INSTEAD.get(what)
            fix = f'write "{instead}" instead.' if instead else did_you_mean(what, EVENTS)
            must = f"must be one of: {' · '.join(EVENTS)}"
            fields.bad(field, must, field.value, fix or "write a line like 2026-09-28: extended.")
        else:
            events.append(CallEvent(day, what, field.line))
    events.sort(key=lambda event: event.on)
    for event, after in zip(events, events[1:], strict=False):
        if event.what in _LAST:
            line = next(field for field in dated if field.line == after.line)
            fix = "take out one of the two lines."
            fields.bad(line, f"must not come after {event.what} ({event.on})", fix=fix)
    return tuple(events)


def _read_numbers(fields: Fields, settings: Settings) -> tuple[int, int]:
    most = settings.swaps.cards_per_call_at_most
    send = fields.whole("Send", 1, most, 0)
    receive = fields.whole("Receive", 1, most, send)
    if "Send" not in fields:
        fields.missing("Send", "must say how many cards each sends", "add a line like Send: 4.")
    elif send and receive > send:
        fix = f"nobody gets more than they send: write at most {send}."
        fields.bad(fields.get("Receive"), f"must be at most Send ({send})", fix=fix)
    return send, receive


def _read_dates(fields: Fields) -> dict[str, date | None]:
    days = {key: fields.day(key) for key in _DATES_IN_ORDER}
    known = [key for key in _DATES_IN_ORDER if days[key]]
    for before, after in zip(known, known[1:], strict=False):
        if days[before] > days[after]:
            must = f"must not be before {before} ({days[before]})"
            fix = "put the dates in order: " + " ≤ ".join(_DATES_IN_ORDER) + "."
            fields.bad(fields.get(after), must, fix=fix)
    return days


def _read_by(fields: Fields) -> str:
    by = fields.choice("By", {"post": "post", "in person": "in person"}, "post")
    if by == "in person":
        for key, example in (("Place", "The reading room, Oststadt"), ("Hour", "14:00")):
            if key not in fields:
                must = "must be there where a call is held in person"
                fields.missing(key, must, f"add a line like {key}: {example}.")
    return by


def _read_hour(fields: Fields) -> str:
    if (field := fields.get("Hour")) is None:
        return ""
    if _HOUR.fullmatch(field.value):
        return re.sub(r"\s*[-–]\s*", "–", field.value)
    fields.bad(field, "must be an hour like 14:00", fix="write 14:00, or 14:00-17:00.")
    return ""


def _read_countries(fields: Fields, settings: Settings):
    countries = countries_in(settings.board.language)
    seen = set()
    for item, line in fields.items("Countries", most=300):
        country = countries.find(item)
        if country is None and item.casefold() in _ANYWHERE:
            continue
        if country is None:
            fix = countries.suggest(item) or "write its English name or its two-letter code."
            fields.bad(fields.get("Countries"), "must be a country", item, fix, line)
        elif country not in seen:
            seen.add(country)
            yield country


def _read_postage(fields: Fields, settings: Settings):
    countries = countries_in(settings.board.language)
    seen = set()
    for sentence, line in fields.sentences("Return postage", most=300):
        written, colon, what = map(tidy, sentence.partition(":"))
        country = countries.find(written) if colon else None
        if country is None or not what:
            suggestion = countries.suggest(written) if colon else ""
            fix = suggestion or "write lines like Germany: two international reply stamps."
            must = "must be lines of a country, a colon and the postage"
            fields.bad(fields.get("Return postage"), must, sentence, fix, line)
        elif country in seen:
            fix = "keep one line for each country."
            fields.bad(fields.get("Return postage"), "must name it once", sentence, fix, line)
        else:
            seen.add(country)
            yield country, what
