"""Feeds of the board, of each theme and medium, and of each maker."""

from collections.abc import Iterator
from datetime import date

from swapboard.facets.feeds import Feed, FeedEntry
from swapboard.views.showing import Showing

BOARD_FEED = "feeds/board.xml"


def feed_path(page: str) -> str:
    """The feed that belongs to a page: themes/birds.html has feeds/themes/birds.xml."""
    return f"feeds/{page.removesuffix('.html')}.xml"


def feeds(showing: Showing) -> Iterator[Feed]:
    """Every feed of the board."""
    name = showing.settings.board.name
    yield Feed(BOARD_FEED, "index.html", name, _board_entries(showing))
    if "cards" in showing.sections:
        for group in (*showing.themes, *showing.media):
            yield _card_feed(showing, group.path, f"{name}: {group.name}", group.cards)
    if "makers" in showing.sections:
        for maker, record in sorted(showing.board.makers.items()):
            cards = showing.cards_by_maker.get(maker, ())
            yield _card_feed(showing, f"makers/{maker}.html", f"{name}: {record.title}", cards)


def _card_feed(showing: Showing, page: str, title: str, cards) -> Feed:
    shown = cards if "cards" in showing.sections else ()
    return Feed(feed_path(page), page, title, tuple(_card(showing, card) for card in shown))


def _board_entries(showing: Showing) -> tuple[FeedEntry, ...]:
    """Cards and calls together, newest first."""
    entries = []
    if "cards" in showing.sections:
        entries += [_card(showing, name) for name in showing.order]
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
