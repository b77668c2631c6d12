"""Cards by theme and by medium, and the pages that such groups have."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from swapboard.records.types import Card
from swapboard.vocabulary.spelling import slug


@dataclass(frozen=True, slots=True)
class Group:
    """All cards of one theme or medium, newest first; `path` is its first page."""

    name: str
    path: str
    cards: tuple[str, ...]


def newest_first(cards: Iterable[Card]) -> list[str]:
    """Names of cards by date, the newest first; ties and cards without a date by name."""
    by_name = sorted(cards, key=lambda card: card.name)
    dated = sorted(by_name, key=lambda card: card.date or date.min, reverse=True)
    return [card.name for card in dated]


def groups(folder: str, order: Iterable[str], names: Mapping[str, Iterable[str]]) -> list[Group]:
    """Groups of cards, most cards first, then by name.

    `order` is the names of all cards, newest first; `names` gives each card's
    themes (or media); `folder` is "themes" or "media". One pass, whatever the
    number of groups.
    """
    members: dict[str, list[str]] = {}
    for card in order:
        for name in dict.fromkeys(names[card]):
            members.setdefault(name, []).append(card)
    made = [Group(n, f"{folder}/{slug(n)}.html", tuple(cards)) for n, cards in members.items()]
    return sorted(made, key=lambda group: (-len(group.cards), group.name.casefold(), group.name))


def page_path(first: str, number: int, of: int) -> str:
    """The path of page `number` of a list whose newest page is at `first`.

    A dot keeps it apart from every name: slugs hold none.
    """
    return first if number == of else f"{first.removesuffix('.html')}.page-{number}.html"
