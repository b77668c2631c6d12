"""When two spellings are one name, and what a name looks like in an address."""

import re
import unicodedata
from functools import lru_cache

# Letters that Unicode does not take apart, as they are commonly written in ASCII.
_IN_ASCII = str.maketrans(
    {"æ": "ae", "œ": "oe", "ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "ı": "i", "ħ": "h"}
)
_APOSTROPHES = str.maketrans("", "", "'\u2019\u02bc\u2018`")
_LONGEST_SLUG = 150
_LONGEST_STEM = 80

# Windows keeps these for devices, with any extension ("Naming Files, Paths, and
# Namespaces", Microsoft Learn).
RESERVED_NAMES = frozenset(
    ["con", "prn", "aux", "nul"]
    + [f"{device}{n}" for device in ("com", "lpt") for n in "0123456789\u00b9\u00b2\u00b3"]
)


def tidy(text: str) -> str:
    """Text in Unicode's composed form (NFC), each run of spaces one space."""
    return " ".join(unicodedata.normalize("NFC", text).split())


@lru_cache(maxsize=50_000)
def fold(text: str) -> str:
    """The form in which themes are compared: tidy and without regard to case."""
    return tidy(tidy(text).casefold())


@lru_cache(maxsize=50_000)
def bare(text: str) -> str:
    """The form in which names in wants are compared: words of letters and digits.

    Case, accents, hyphens and other marks make no difference: "Night-Heron"
    and "night  heron" are one name, and so are "Inés" and "ines".
    """
    return " ".join(re.findall(r"[^\W_]+", _plain_letters(text)))


@lru_cache(maxsize=50_000)
def slug(text: str) -> str:
    """Text as part of a web address: lower case, words joined by hyphens.

    Latin letters lose their accents, other scripts are kept. Never empty, never
    a name that Windows reserves, at most 150 bytes of UTF-8, and the same text
    always gives the same slug; different texts may give the same one.
    """
    letters = _plain_letters(text.translate(_APOSTROPHES))
    kept = "".join(c if unicodedata.category(c)[0] in "LNM" else "-" for c in letters)
    joined = unicodedata.normalize("NFC", "-".join(filter(None, kept.split("-"))))
    if not joined:
        joined = "-".join(f"u{ord(c):x}" for c in tidy(text)[:8]) or "unnamed"
    short = joined.encode()[:_LONGEST_SLUG].decode(errors="ignore").strip("-")
    return f"{short}-" if short in RESERVED_NAMES else short


def stem_of(text: str) -> str:
    """A text's slug as the name of a new file: at most 80 bytes, so that a number fits after
    it in the 100 characters that a name may have."""
    stem = slug(text)
    if len(stem.encode()) <= _LONGEST_STEM:
        return stem
    return stem.encode()[:_LONGEST_STEM].decode(errors="ignore").strip("-.")


def _plain_letters(text: str) -> str:
    """Case folded, and Latin letters without their accents.

    A mark on a letter of another script stays: it may be a vowel.
    """
    if text.isascii():
        return text.casefold()
    folded = unicodedata.normalize("NFKD", text.casefold()).translate(_IN_ASCII).casefold()
    kept, marks_stay = [], False
    for character in unicodedata.normalize("NFKD", folded):
        if unicodedata.category(character)[0] != "M":
            kept.append(character)
            marks_stay = character.isalnum() and not character.isascii()
        elif marks_stay:
            kept.append(character)
    return unicodedata.normalize("NFC", "".join(kept))
