"""Sizes in millimetres, and which paper a country prints on."""

# 2.5 × 3.5 in (common practice of the trade, no source), 25.4 mm to the inch.
CARD: tuple[float, float] = (63.5, 88.9)

# A4: ISO 216. Letter: 8.5 × 11 in (ANSI/ASME Y14.1).
PAPER: dict[str, tuple[float, float]] = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}

# Unicode CLDR 46 (2024), supplemental measurementData, paperSize "US-Letter".
_LETTER_COUNTRIES = frozenset("BZ CA CL CO CR GT MX NI PA PH PR SV US VE".split())


def paper_in(country: str | None) -> str:
    """The name of the paper used in a country, by its two letters (ISO 3166): "A4"
    where it is unknown."""
    return "Letter" if country in _LETTER_COUNTRIES else "A4"
