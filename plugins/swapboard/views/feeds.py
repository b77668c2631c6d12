"""Feeds of the board, of each theme and medium, and of each maker."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date

from swapboard.facets.calendar import BOARD_CALENDAR
from swapboard.facets.feeds import MOST_ENTRIES, Feed, FeedEntry, feed_path
from swapboard.facets.grouping import Group
from swapboard.views.calendar import board_days
from swapboard.views.pages import FeedsPage
from swapboard.views.showing import Showing
from swapboard.views.types import Link

FRONT = "index.html"


def feeds(showing: Showing) -> Iterator[Feed]:
    """Every feed of the board."""
    name = showing.settings.board.name
    yield Feed(feed_path(FRONT), FRONT, name, _board_entries(showing))
    if "cards" in showing.sections:
        for group in (*showing.themes, *showing.media):
            yield _card_feed(showing, group.path, f"{name}: {group.name}", group.cards)
    if "makers" in showing.sections:
        for maker, record in sorted(showing.board.makers.items()):
            cards = showing.cards_by_maker.get(maker, ())
            yield _card_feed(showing, f"makers/{maker}.html", f"{name}: {record.title}", cards)


def feeds_page(showing: Showing) -> FeedsPage:
    """Every feed of the board by name, themes and media with most cards first."""
    has_cards = "cards" in showing.sections
    makers = showing.board.makers if "makers" in showing.sections else {}
    named = sorted(makers, key=lambda name: (makers[name].title.casefold(), name))
    front = Link(showing.settings.board.name, feed_path(FRONT))
    return FeedsPage(
        board=front,
        themes=_of_groups(showing.themes) if has_cards else (),
        media=_of_groups(showing.media) if has_cards else (),
        makers=tuple(Link(makers[n].title, feed_path(f"makers/{n}.html")) for n in named),
        feed=front,
        calendar=_calendar(showing),
    )


def _calendar(showing: Showing) -> Link | None:
    is_there = {"calendar", "calls"} <= showing.sections and board_days(showing)
    return Link(showing.settings.board.name, BOARD_CALENDAR) if is_there else None


def _of_groups(groups: Iterable[Group]) -> tuple[Link, ...]:
    return tuple(Link(group.name, feed_path(group.path)) for group in groups)


def _card_feed(showing: Showing, page: str, title: str, cards: Sequence[str]) -> Feed:
    shown = cards[:MOST_ENTRIES] if "cards" in showing.sections else ()
    return Feed(feed_path(page), page, title, tuple(_card(showing, card) for card in shown))


def _board_entries(showing: Showing) -> tuple[FeedEntry, ...]:
    """Cards and calls together, newest first."""
    entries = []
    if "cards" in showing.sections:
        entries += [_card(showing, name) for name in showing.order[:MOST_ENTRIES]]
    if "calls" in showing.sections:
        entries += [_call(showing, name) for name in sorted(showing.board.calls)]
    return tuple(sorted(entries, key=lambda entry: entry.on or date.min, reverse=True))


def _card(showing: Showing, name: str) -> FeedEntry:
    card = showing.board.cards[name]
    return FeedEntry(
        path=f"cards/{name}.html",
        title=card.title,
        by=showing.maker(card.maker).text,
        on=card.date,
        words=(*card.themes, *card.media),
        picture=showing.picture(name),
    )


def _call(showing: Showing, name: str) -> FeedEntry:
    call = showing.board.calls[name]
    words = (call.theme,) if call.theme else ()
    return FeedEntry(
        f"calls/{name}.html", call.title, showing.maker(call.host).text, call.date, words
    )
