"""Words that do not belong on a public page: mail and street addresses, telephones."""

import re

from swapboard.problems import WARNING, Problem

_EMAIL = re.compile(r"[\w.+-]{1,64}@[\w-]{1,63}(?:\.[\w-]{1,63})+")
_DATE = re.compile(r"\b\d{4}-\d{2}-\d{2}\b")
_PHONE = re.compile(r"\+?\(?\d(?:[ ()./-]{0,3}\d){6,14}")
# A capital letter tells "12 Mill Lane" from "2 cards on the road".
_NUMBER_FIRST = (
    r"\b\d{1,5}[a-z]?,? (?:[^\W\d_a-z][\w'’.-]* ){1,3}"
    r"(?:[Ss]treet|St|[Rr]oad|Rd|[Aa]venue|Ave|[Ll]ane|[Bb]oulevard|Blvd)\b"
)
_STREET_FIRST = (
    r"\b\w*(?:\w\w(?:weg|gasse|laan|gatan|platz)|stra(?:ß|ss)e|str\.|straat),? \d{1,4}[a-z]?\b"
)
_ROMANCE = (
    r"\b(?:[Rr]ue|[Cc]alle|[Vv]ia) (?:(?:de|la|del|des|du) ){0,2}"
    r"[^\W\d_a-z][\w'’]*,?(?: [\w'’]+,?){0,2} \d{1,4}\b"
)
_STREET = re.compile(f"{_NUMBER_FIRST}|(?i:{_STREET_FIRST})|{_ROMANCE}")


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
