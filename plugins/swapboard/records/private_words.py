"""Words that do not belong on a public page: mail and street addresses, telephones."""

import re

from ..problems import WARNING, Problem

_EMAIL = re.compile(r"[\w.+-]{1,64}@[\w-]{1,63}(?:\.[\w-]{1,63})+")
_DATE = re.compile(r"\b\d{4}-\d{2}-\d{2}\b")
_PHONE = re.compile(r"\+?\(?\d(?:[ ()./-]{0,3}\d){6,14}")
_STREET_WORDS = (
    r"street|st\.|road|rd\.|avenue|ave\.?|lane|boulevard|blvd\.?|square|court|terrace|crescent|"
    r"close|drive|rue|via|calle|straat|laan|gatan|platz|gasse|weg|stra(?:ß|ss)e|str\."
)
_STREET = re.compile(
    rf"\b\d{{1,5}}[a-z]?,?\s+(?:\w+\s+){{0,3}}(?:{_STREET_WORDS})(?!\w)"
    rf"|(?:\b|\w)(?:{_STREET_WORDS})\s+(?:\w+\s+){{0,3}}\d{{1,5}}[a-z]?\b",
    re.IGNORECASE,
)


def email_in(text: str) -> str | None:
    """The first e-mail address in a text, or None."""
    found = _EMAIL.search(text) if "@" in text else None
    return found[0] if found else None


def private_in(text: str) -> str | None:
    """What a text gives away ("an e-mail address"…), or None.

    Telephone numbers have seven digits or more; a street is one of the commoner
    words for it with a number beside it (from memory, not a list of any post).
    """
    if email_in(text):
        return "an e-mail address"
    without_dates = _DATE.sub(" ", text)
    if _PHONE.search(without_dates):
        return "a telephone number"
    if _STREET.search(without_dates):
        return "a street address"
    return None


def email_warning(path: str, line: int, field: str, text: str) -> Problem | None:
    """A warning where a public text holds an e-mail address; `line` is its first line."""
    if (found := email_in(text)) is None:
        return None
    line += text.count("\n", 0, text.index(found)) if line else 0
    fix = "take it out: addresses do not belong on a public page."
    return Problem(path, line, field, "should hold no e-mail address", found, fix, WARNING)
