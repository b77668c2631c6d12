"""Countries by their names and codes (ISO 3166, as Babel's locale data has them)."""

from functools import lru_cache

from swapboard.problems import Suggestions
from swapboard.vocabulary.spelling import bare

# Codes of CLDR's that name no country: unions, outlying places, tests, "unknown".
_NO_COUNTRY = frozenset(["EU", "EZ", "QO", "UN", "XA", "XB", "ZZ"])

# What people write for a country that ISO 3166 calls otherwise; from memory.
_ALSO = {
    "usa": "US",
    "u s a": "US",
    "america": "US",
    "united states of america": "US",
    "uk": "GB",
    "u k": "GB",
    "great britain": "GB",
    "britain": "GB",
    "england": "GB",
    "scotland": "GB",
    "wales": "GB",
    "northern ireland": "GB",
    "holland": "NL",
    "the netherlands": "NL",
    "czech republic": "CZ",
    "turkey": "TR",
    "south korea": "KR",
    "republic of ireland": "IE",
    "burma": "MM",
    "ivory coast": "CI",
    "uae": "AE",
}


class Countries:
    """Every country, named in one language; looked up in that one and in English."""

    def __init__(self, language: str = "en") -> None:
        here, english = _territories(language), _territories("en")
        self._names = {code: here.get(code, name) for code, name in english.items()}
        self._by_word = {bare(word): code for word, code in _ALSO.items()}
        for table in (english, self._names):
            self._by_word.update((bare(name), code) for code, name in table.items())
        self._by_word.update((code.casefold(), code) for code in english)
        self.names: tuple[str, ...] = tuple(sorted(self._names.values()))
        self._suggestions = Suggestions({*self.names, *english.values()}, most=None)

    def find(self, text: str) -> str | None:
        """The country's name in this language, or None where it is unknown."""
        code = self.code(text)
        return None if code is None else self._names[code]

    def code(self, text: str) -> str | None:
        """The two letters of ISO 3166 for a name or a code, or None."""
        return self._by_word.get(bare(text))

    def suggest(self, text: str) -> str:
        """A "did you mean" sentence, or ""."""
        return self._suggestions.near(text)


@lru_cache(maxsize=8)
def countries_in(language: str = "en") -> Countries:
    """The countries named in a language (a tag such as "en-US")."""
    return Countries(language)


def _territories(language: str) -> dict[str, str]:
    from babel import Locale, UnknownLocaleError

    try:
        names = Locale.parse(language, sep="-").territories
    except (UnknownLocaleError, ValueError):
        names = Locale.parse("en").territories
    return {
        code: name
        for code, name in sorted(names.items())
        if len(code) == 2 and code.isalpha() and code not in _NO_COUNTRY
    }
