"""A board as its pages see it: looked up once, shown many times."""

import re
from collections.abc import Iterable, Mapping
from datetime import date, timedelta
from functools import cached_property

from swapboard.facets.feeds import feed_path
from swapboard.facets.grouping import Group, groups, newest_first
from swapboard.matching.types import Matching, Swap
from swapboard.records.overtaken import Overtaking, last_day, overtaken, states
from swapboard.records.standing import standing
from swapboard.records.types import Board, Card, Offer, OfferState
from swapboard.settings import Settings
from swapboard.views.likings import liked
from swapboard.views.types import (
    CardTile,
    Link,
    Moment,
    OfferTile,
    Picture,
    SwapParcel,
    SwapTile,
    Writing,
)

SECTIONS = frozenset({
    "cards", "calls", "offers", "makers", "swaps", "filters", "feeds", "compose", "calendar",
    "announcements",
})
_POST_LINK = re.compile(r"\b(cards|calls|makers|offers|pages)/([^\s()<>\[\]\"'#/]+)\.(?:md|html)\b")


class Showing:
    """Everything pages are made from, with the look-ups that they share.

    `pictures` holds each cut card by (card name, "front" or "back");
    `sections` the kinds of page that this site has: names of the others are
    shown without a link. `matching` says who could swap with whom; None says nothing.
    """

    def __init__(
        self,
        board: Board,
        settings: Settings,
        pictures: Mapping[tuple[str, str], Picture],
        today: date,
        sections: frozenset[str] = SECTIONS,
        matching: Matching | None = None,
    ) -> None:
        self.board, self.settings, self.today = board, settings, today
        self.sections = sections
        self.matching = matching if "swaps" in sections else None
        self._pictures = pictures
        self._standing = standing(board, today, settings.swaps.offer_days)
        self._states = states(board, today, settings.swaps.offer_days)
        self._tiles: dict[str, CardTile] = {}
        self._offer_tiles: dict[str, OfferTile] = {}

    @cached_property
    def order(self) -> list[str]:
        """Names of all cards, newest first."""
        return newest_first(self.board.cards.values())

    @cached_property
    def themes(self) -> list[Group]:
        """Cards by theme."""
        return groups("themes", self.order, {n: c.themes for n, c in self.board.cards.items()})

    @cached_property
    def media(self) -> list[Group]:
        """Cards by medium."""
        return groups("media", self.order, {n: c.media for n, c in self.board.cards.items()})

    @cached_property
    def cards_by_series(self) -> dict[str, list[str]]:
        """Names of each series' cards by day; those without a day come last, by date."""
        found: dict[str, list[str]] = {}
        for name in reversed(self.order):
            if self.board.cards[name].series:
                found.setdefault(self.board.cards[name].series.casefold(), []).append(name)
        for names in found.values():
            days = {name: self.board.cards[name].day for name in names}
            names.sort(key=lambda name: (days[name] is None, days[name] or 0))
        return found

    @cached_property
    def cards_by_maker(self) -> dict[str, list[str]]:
        """Names of each maker's cards, newest first."""
        found: dict[str, list[str]] = {}
        for name in self.order:
            found.setdefault(self.board.cards[name].maker, []).append(name)
        return found

    @cached_property
    def offers_by_card(self) -> dict[str, list[str]]:
        """Names of the offers that each card is in, latest first."""
        found: dict[str, list[str]] = {}
        for name in self.offer_order:
            offer = self.board.offers[name]
            for card in dict.fromkeys(offer.gives + offer.asks):
                found.setdefault(card, []).append(name)
        return found

    @cached_property
    def offers_by_maker(self) -> dict[str, list[str]]:
        """Names of the offers that each maker is in, latest first."""
        found: dict[str, list[str]] = {}
        for name in self.offer_order:
            offer = self.board.offers[name]
            for maker in dict.fromkeys((offer.from_maker, offer.to_maker)):
                found.setdefault(maker, []).append(name)
        return found

    @cached_property
    def calls_by_maker(self) -> dict[str, list[str]]:
        """Names of the calls that each maker hosts or takes part in."""
        found: dict[str, list[str]] = {}
        for name, call in sorted(self.board.calls.items()):
            for maker in dict.fromkeys((call.host, *(person.maker for person in call.people))):
                found.setdefault(maker, []).append(name)
        return found

    @cached_property
    def swaps(self) -> tuple[SwapTile, ...]:
        """The swaps proposed on this board, in their order."""
        proposed = self.matching.proposals.swaps if self.matching else ()
        return tuple(self._swap(swap) for swap in proposed)

    @cached_property
    def swaps_by_maker(self) -> dict[str, tuple[SwapTile, ...]]:
        """The proposed swaps that each maker is in, by the maker's file."""
        found: dict[str, tuple[SwapTile, ...]] = {}
        proposed = self.matching.proposals.swaps if self.matching else ()
        for swap, tile in zip(proposed, self.swaps, strict=True):
            for name in swap.makers:
                found[name] = (*found.get(name, ()), tile)
        return found

    @cached_property
    def swaps_by_card(self) -> dict[str, tuple[SwapTile, ...]]:
        """The proposed swaps that each card is in."""
        found: dict[str, tuple[SwapTile, ...]] = {}
        for tile in self.swaps:
            for name in dict.fromkeys(one.tile.name for p in tile.parcels for one in p.cards):
                found[name] = (*found.get(name, ()), tile)
        return found

    def swaps_path(self, maker: str) -> str:
        """The page of who could swap with a maker; "" where there is nobody."""
        page = self.matching.people.get(maker) if self.matching else None
        return f"swaps/{maker}.html" if page and (page.proposals or page.worth_writing) else ""

    @cached_property
    def offer_order(self) -> list[str]:
        """Names of all offers, the one something happened to last first."""
        names = sorted(self.board.offers)
        return sorted(names, key=lambda n: self._latest_day(self.board.offers[n]), reverse=True)

    def facet_links(self, kind: str, names: tuple[str, ...]) -> tuple[Link, ...]:
        """Links to the pages of some themes or media; plain text where there is none."""
        return tuple(Link(name, self._facet_paths[kind].get(name, "")) for name in names)

    def maker(self, name: str) -> Link:
        """A maker's public name, linked to their page; a name not on the board as it is."""
        maker = self.board.makers.get(name)
        if maker is None:
            return Link(name)
        return Link(maker.title, self.path("makers", name))

    def feed(self, page: str, title: str) -> Link | None:
        """The feed that belongs to a page, where this site has feeds."""
        return Link(title, feed_path(page)) if "feeds" in self.sections else None

    def path(self, kind: str, name: str) -> str:
        """The page of a post; "" where this site has no such pages."""
        return f"{kind}/{name}.html" if kind in self.sections else ""

    def picture(self, card: str, side: str = "front") -> Picture | None:
        """A cut card, or None where the post has no photo of that side."""
        return self._pictures.get((card, side))

    def tile(self, name: str) -> CardTile:
        """A card as it stands in every list."""
        if name not in self._tiles:
            card: Card = self.board.cards[name]
            state, copies = self._standing[name]
            self._tiles[name] = CardTile(
                name=name,
                path=self.path("cards", name),
                title=card.title,
                maker=self.maker(card.maker),
                picture=self.picture(name),
                state=state.value,
                edition=(card.kind.word, card.kind.number, card.kind.total),
                copies_left=copies,
                panels=card.panels,
            )
        return self._tiles[name]

    def tiles(self, names: Iterable[str]) -> tuple[CardTile, ...]:
        """Several cards, in the order given."""
        return tuple(self.tile(name) for name in names)

    def offer(self, name: str) -> OfferTile:
        """An offer as it stands in every list."""
        if name not in self._offer_tiles:
            offer = self.board.offers[name]
            been = [moment for moment in self.moments(offer) if moment.what != "open until"]
            self._offer_tiles[name] = OfferTile(
                name=name,
                path=self.path("offers", name),
                title=offer.title,
                from_maker=self.maker(offer.from_maker),
                to_maker=self.maker(offer.to_maker),
                gives=self.tiles(offer.gives),
                asks=self.tiles(offer.asks),
                state=self._states[name].value,
                latest=been[-1] if been else None,
                themes=self._facets_of("themes", offer.gives + offer.asks),
                media=self._facets_of("media", offer.gives + offer.asks),
                round=tuple(self.maker(maker) for maker in offer.round),
            )
        return self._offer_tiles[name]

    def moments(self, offer: Offer) -> tuple[Moment, ...]:
        """An offer's line of dates: what has happened, then until when a proposal is open,
        or what became of it unanswered."""
        told = [
            Moment(e.what, e.on, self.when(e.on), self.maker(e.by) if e.by else None)
            for e in offer.events
        ]
        state = self._states[offer.name]
        last = last_day(offer, self.settings.swaps.offer_days)
        if state == OfferState.PROPOSED:
            told.append(Moment("open until", last, self.when(last)))
        elif state == OfferState.EXPIRED:
            expired = last + timedelta(1)
            told.append(Moment("expired", expired, self.when(expired)))
        elif state == OfferState.OVERTAKEN:
            on = self.overtaken[offer.name].on
            told.append(Moment("overtaken", on, self.when(on)))
        return tuple(told)

    @cached_property
    def overtaken(self) -> dict[str, Overtaking]:
        """What overtook each overtaken proposal, by the proposal's name."""
        return overtaken(self.board)

    def when(self, day: date) -> str:
        """Where a day lies, seen from the day of the build."""
        if day == self.today:
            return "today"
        return "past" if day < self.today else "to come"

    def writing(self, text: str) -> Writing:
        """A post's text with its links to other posts looked up, so that a
        page changes when a post it points to comes or goes."""
        links = {}
        for match in _POST_LINK.finditer(text):
            kind, name = match[1], match[2]
            if name in getattr(self.board, kind) and (kind == "pages" or self.path(kind, name)):
                links[match[0]] = f"{kind}/{name}.html"
        return Writing(text, tuple(sorted(links.items())))

    @cached_property
    def _facet_paths(self) -> dict[str, dict[str, str]]:
        if "cards" not in self.sections:
            return {"themes": {}, "media": {}}
        return {
            "themes": {group.name: group.path for group in self.themes},
            "media": {group.name: group.path for group in self.media},
        }

    def _facets_of(self, kind: str, cards: Iterable[str]) -> tuple[Link, ...]:
        held = [self.board.cards[name] for name in cards]
        names = dict.fromkeys(name for card in held for name in getattr(card, kind))
        return self.facet_links(kind, tuple(names))

    def _swap(self, swap: Swap) -> SwapTile:
        cards = [move.card for parcel in swap.parcels for move in parcel.moves]
        return SwapTile(
            parcels=tuple(
                SwapParcel(
                    self.maker(parcel.giver),
                    self.maker(parcel.taker),
                    liked(self.board, self.tile, parcel.moves),
                )
                for parcel in swap.parcels
            ),
            count=swap.count,
            themes=self._facets_of("themes", cards),
            media=self._facets_of("media", cards),
        )

    def _latest_day(self, offer: Offer) -> date:
        return offer.events[-1].on if offer.events else date.min
