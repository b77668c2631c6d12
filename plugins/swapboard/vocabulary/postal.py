"""What an envelope of cards weighs, roughly, and the limits of some posts.

Every figure is an estimate of ±10 % or a limit that its post may have changed since
the day it was looked at: whoever is near one weighs the envelope, and asks.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from swapboard.vocabulary.paper import CARD

# A card stock of 110 lb cover is 297.45 g/m² (ISO 536 defines grammage; computed).
CARD_GRAMMAGE = 298.0
# Common practice, no source: a soft sleeve, an envelope's paper, how thick they are.
SLEEVE_GRAMS, SLEEVE_MM = 0.45, 0.1
ENVELOPE_GRAMMAGE, FLAP_FACTOR, ENVELOPE_MM = 90.0, 1.2, 0.25
CARD_MM = 0.4
ACCURACY = 0.1

# Millimetres. C6, DL, B6: ISO 269; A2 is 4⅜ × 5¾ in.
ENVELOPES: dict[str, tuple[float, float]] = {
    "A2": (111.125, 146.05), "B6": (125.0, 176.0), "C6": (114.0, 162.0), "DL": (110.0, 220.0),
}  # fmt: skip
_UNEVEN = (
    "assemblage", "bead", "button", "embroid", "encaustic", "fabric", "felt", "metal",
    "mosaic", "needle", "sewing", "sewn", "shell", "stitch", "wax", "wire",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Limit:
    """One class of letter: at most so many grams and millimetres thick. `seen` is the
    day of the rule that was read, `source` who published it."""

    country: str
    name: str
    grams: float
    thick: float
    seen: str
    source: str


# Of one country the smallest comes first. The German classes were compared with what the
# press told of them on 12 February 2025, the British sizes with those of the regulator
# (ask.ofcom.org.uk, no day given), the American ones with the manual's edition of 4 January
# 2010, which has the same. All envelopes above are within the lengths and widths of them all.
LIMITS: tuple[Limit, ...] = (
    Limit("DE", "Standardbrief", 20.0, 5.0, "2025", "Deutsche Post, retail pages"),
    Limit("DE", "Kompaktbrief", 50.0, 10.0, "2025", "Deutsche Post, by the press"),
    Limit("GB", "letter", 100.0, 5.0, "2025", "Royal Mail, retail pages"),
    Limit("GB", "large letter", 750.0, 25.0, "2025", "Royal Mail, retail pages"),
    Limit("US", "first ounce of a letter", 28.35, 6.35, "2021-01-24",
          "Domestic Mail Manual 101.1"),
    Limit("US", "letter", 99.22, 6.35, "2021-01-24", "Domestic Mail Manual 101.1"),
)  # fmt: skip
# That there are two forms, for less and for more worth: WCO-UPU Postal Customs Guide, June
# 2014, IV j. The worth is left out: it is in units of a currency that few can reckon in.
CUSTOMS = (
    "Abroad, goods may need a customs form: CN 22 and CN 23 are those of the Universal Postal"
    " Union. Whether yours does, your post office says."
)


@dataclass(frozen=True, slots=True)
class Envelope:
    """An estimate: grams and millimetres thick."""

    grams: float
    thick: float


def estimate(
    cards: int, *, sleeved: bool = True, envelope: str = "C6", grammage: float = CARD_GRAMMAGE
) -> Envelope:
    """What so many cards weigh in an envelope, and how thick they lie, within ±10 %.

    Cards are 63.5 × 88.9 mm of `grammage` g/m², laid on one another in two piles side
    by side, as they fit an envelope. Raises KeyError for an unknown envelope.
    """
    area = CARD[0] * CARD[1] / 1e6
    width, height = ENVELOPES[envelope]
    paper = width * height / 1e6 * 2 * FLAP_FACTOR * ENVELOPE_GRAMMAGE
    each = area * grammage + (SLEEVE_GRAMS if sleeved else 0)
    thick = CARD_MM * grammage / CARD_GRAMMAGE + (SLEEVE_MM if sleeved else 0)
    piled = (cards + 1) // 2 if cards > 1 else cards
    return Envelope(round(cards * each + paper, 1), round(piled * thick + ENVELOPE_MM, 1))


def said_of(envelope: Envelope, country: str | None) -> list[str]:
    """Sentences on the limits that an envelope is near or over, of the post of `country`
    (ISO 3166); the smallest class that surely takes it is named, too."""
    found = []
    for limit in (one for one in LIMITS if one.country == country):
        most = f"{limit.grams:g} g, {limit.thick:g} mm"
        where = f"{limit.name} ({most}; {limit.source}, {limit.seen})"
        high, low = 1 + ACCURACY, 1 - ACCURACY
        if envelope.grams * high <= limit.grams and envelope.thick * high <= limit.thick:
            return [*found, f"Goes as {where}."]
        if envelope.grams * low > limit.grams or envelope.thick * low > limit.thick:
            found.append(f"Too much for {where}.")
        else:
            found.append(f"Near the limit of {where}: weigh it; ask your post office.")
    return found or ["No limits are known here for your post: weigh it; ask your post office."]


def uneven(words: Iterable[str]) -> bool:
    """Whether media or a base make an envelope stiff or uneven (wax, stitching, metal):
    posts often ask more for those (common practice, no source)."""
    folded = [word.casefold() for word in words]
    # "wood" is a base; a woodcut is as flat as any print.
    return any(part in word for word in folded for part in _UNEVEN) or "wood" in folded
