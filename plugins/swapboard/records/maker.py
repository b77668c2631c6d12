"""makers/NAME.md: text → maker."""

import re
from urllib.parse import urlsplit

from swapboard.problems import Problem
from swapboard.records.card import read_media, sentences
from swapboard.records.fields import Fields
from swapboard.records.header import Keys
from swapboard.records.names import title_of
from swapboard.records.post import instead_for, open_post
from swapboard.records.types import Maker, Want
from swapboard.settings import Settings
from swapboard.vocabulary.countries import countries_in

_KNOWN = (
    "Name", "Country", "Media", "Likes", "Rather not", "Takes up to", "Household", "Links",
)  # fmt: skip
MAKER_KEYS = Keys(
    _KNOWN,
    instead_for(
        _KNOWN,
        {
            "title": "Name",
            "wants": "Likes",
            "want": "Likes",
            "dislikes": "Rather not",
            "not": "Rather not",
            "link": "Links",
            "website": "Links",
            "web": "Links",
            "limit": "Takes up to",
        },
    ),
)


def read_maker(path: str, text: str, settings: Settings) -> tuple[Maker, list[Problem]]:
    """A maker as their post has it; likes are still plain sentences."""
    name, header, fields = open_post(path, text, MAKER_KEYS)
    maker = Maker(
        name=name,
        path=path,
        title=fields.text("Name", most=100) or _name_from(name),
        country=_read_country(fields, settings),
        media=read_media(fields, "Media", settings),
        likes=sentences(fields, "Likes"),
        rather_not=_rather_not(fields),
        takes_up_to=fields.whole("Takes up to", 0, 999),
        household=fields.text("Household"),
        links=tuple(_read_links(fields)),
        body=header.body,
        lines=fields.lines(header),
    )
    return maker, fields.problems


def _name_from(name: str) -> str:
    return " ".join(word[:1].upper() + word[1:] for word in title_of(name).split())


def _rather_not(fields: Fields) -> tuple[Want, ...]:
    """Each thing named is one dislike: here commas part them, as they do in speech."""
    return tuple(Want(text, line, understood=False) for text, line in fields.items("Rather not"))


def _read_country(fields: Fields, settings: Settings) -> str:
    if (field := fields.get("Country")) is None:
        return ""
    countries = countries_in(settings.board.language)
    country = countries.find(field.value)
    if country is None:
        fix = countries.suggest(field.value) or "write its English name or its two-letter code."
        fields.bad(field, "must be a country", fix=fix)
    return country or ""


def _read_links(fields: Fields):
    for link, line in fields.sentences("Links", most=20):
        if is_web_address(link):
            yield link
        else:
            fix = "write one whole address on a line, like https://drawings.example/."
            must = "must be a web address with https:// or http://"
            fields.bad(fields.get("Links"), must, link, fix, line)


def is_web_address(text: str) -> bool:
    """Whether a text is one http or https address without a password in it."""
    try:
        parts = urlsplit(text)
        port_fits = parts.port is None or parts.port > 0
    except ValueError:
        return False
    plain = not re.search(r"[\s<>\"'\\]", text) and len(text) <= 500
    host = bool(re.fullmatch(r"[\w.-]+", parts.hostname or ""))
    return (
        plain
        and port_fits
        and host
        and parts.scheme in ("http", "https")
        and "@" not in parts.netloc
    )
