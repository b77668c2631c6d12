"""What the texts of board.toml have to be, key by key.

Each check gives the value to use, or None; what it must be; and how to mend it.
"""

import re
from collections.abc import Callable
from functools import cache

from swapboard.problems import did_you_mean

Checked = tuple[str | None, str, str]


def _name(value: str) -> Checked:
    name = " ".join(value.split())
    good = name if 0 < len(name) <= 100 else None
    return good, "must be a name of 1 to 100 characters", "give the board a short name."


def _keeper(value: str) -> Checked:
    good = value.strip().removesuffix(".md")
    return (
        good if good and "/" not in good and "\\" not in good else None,
        "must be the name of a file in makers/, without .md",
        'write the name of your own file, like keeper = "keeper".',
    )


def _address(value: str) -> Checked:
    must = "must be a web address like https://cards.example/"
    fix = "write the whole address with https:// and nothing after the folder, or leave it empty."
    if not value.strip():
        return "", must, fix
    pattern = r"https?://[\w.-]+(:\d{1,5})?(/[\w.~!$&'()*+,;=:@%/-]*)?"
    good = value.strip() if re.fullmatch(pattern, value.strip(), re.IGNORECASE) else None
    if good and (".." in good or "//" in good.split("://", 1)[1]):
        good = None
    return (good and good.rstrip("/") + "/"), must, fix


def _language(value: str) -> Checked:
    from babel import Locale, UnknownLocaleError

    must, fix = "must be a language tag", 'write a tag like "en", "en-US" or "de".'
    try:
        locale = Locale.parse(value.strip().replace("_", "-"), sep="-")
    except (UnknownLocaleError, ValueError, TypeError):
        return None, must, fix
    return str(locale).replace("_", "-"), must, fix


@cache
def _zones() -> frozenset[str]:
    from zoneinfo import available_timezones

    return frozenset(available_timezones())  # goes through some 600 files each time


def _time_zone(value: str) -> Checked:
    zones = _zones()
    if value in zones:
        return value, "", ""
    hint = did_you_mean(value, zones) or 'write one like "UTC" or "Europe/Vienna".'
    return None, "must be a time zone by its place", hint


def _paper(value: str) -> Checked:
    good = {"a4": "A4", "letter": "Letter"}.get(value.strip().casefold())
    return good, 'must be "A4" or "Letter"', 'write paper = "A4" or paper = "Letter".'


def _mail(value: str) -> Checked:
    must = "must be a mail address like cards@board.example"
    fix = "write one address and nothing else, or leave it empty. Everybody can read it."
    pattern = r"[\w.!#$%&'*+/=?^`{|}~-]{1,64}@[\w-]{1,63}(\.[\w-]{1,63})+"
    good = value.strip()
    return (good if not good or re.fullmatch(pattern, good) else None), must, fix


def _font(value: str) -> Checked:
    must = "must be the name of a font in the board's folder"
    fix = 'write it like font = "own.ttf", or leave it empty.'
    name = value.strip().removeprefix("./")
    inside = ".." not in name.split("/") and not name.startswith("/") and "\\" not in name
    return (name if not name or inside and name.lower().endswith(".ttf") else None), must, fix


CHECKS: dict[str, Callable[[str], Checked]] = {
    "board.name": _name,
    "board.address": _address,
    "board.keeper": _keeper,
    "board.language": _language,
    "board.time_zone": _time_zone,
    "board.paper": _paper,
    "board.mail": _mail,
    "board.font": _font,
}
