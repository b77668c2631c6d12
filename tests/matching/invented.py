"""Invented boards for matching: records made straight, without files."""

import random
from datetime import date

from swapboard.matching.market import market_of
from swapboard.matching.types import Market
from swapboard.records.types import Board, Card, Maker, Part, Want

DAY = date(2026, 10, 10)
THEMES = [f"theme {number}" for number in range(40)]
MEDIA = [f"medium {number}" for number in range(24)]


def want(*parts: Part, no: tuple[Part, ...] = (), up_to: int = 1, weight: int = 2) -> Want:
    """A want that is understood."""
    return Want("as invented", 1, parts, no, up_to, weight)


def cards_named(*names: str, up_to: int = 1, weight: int = 2) -> Want:
    """A want for any of some cards."""
    return want(Part("card", names), up_to=up_to, weight=weight)


def board_of(makers: list[Maker], cards: list[Card]) -> Board:
    """A board of these."""
    return Board(
        {card.name: card for card in sorted(cards, key=lambda card: card.name)},
        {maker.name: maker for maker in sorted(makers, key=lambda maker: maker.name)},
        {}, {}, {},
    )


def market(makers: list[Maker], cards: list[Card]) -> Market:
    """Their market."""
    return market_of(board_of(makers, cards), DAY, 14)


def maker(name: str, *likes: Want, **more) -> Maker:
    """A maker who likes this."""
    return Maker(name, f"makers/{name}.md", name, likes=likes, **more)


def card(name: str, owner: str, **more) -> Card:
    """A card of a maker."""
    return Card(name, f"cards/{name}.md", name, owner, **more)


def named_wants(
    makers: int, cards: int = 20, wants: int = 12, near: int = 40, seed: int = 1,
    favourites: bool = True,
):
    """A big market of wants for one named card each, of some makers of like taste. With
    favourites a few cards of each maker are wanted by many, and most by nobody."""
    chance = random.Random(seed)
    owners = [f"maker-{number:05}" for number in range(makers)]
    made = [card(f"{owner}-card-{n:02}", owner) for owner in owners for n in range(cards)]
    people = []
    for number, name in enumerate(owners):
        likes = []
        for _ in range(wants):
            other = (number + chance.randint(1, near)) % makers
            if chance.random() < 0.5:
                other = (number - chance.randint(1, near)) % makers
            which = chance.expovariate(0.3) if favourites else chance.random() * cards
            picked = f"{owners[other]}-card-{min(int(which), cards - 1):02}"
            likes.append(cards_named(picked, weight=chance.choice((1, 2, 2, 3))))
        people.append(maker(name, *likes))
    return market(people, made)


def mixed_wants(
    makers: int, cards: int = 20, wants: int = 5, seed: int = 1, own: float = 0.1,
    themes: int = 40, media: int = 24,
):
    """A big market of every kind of want, with counts, limits and cards with wants of their own."""
    chance = random.Random(seed)
    owners = [f"maker-{number:05}" for number in range(makers)]

    def one() -> Want:
        kind = chance.random()
        theme = Part("theme", (chance.choice(THEMES[:themes]),))
        medium = Part("medium", (chance.choice(MEDIA[:media]),))
        up_to, weight = chance.choice((1, 1, 1, 2, 3)), chance.choice((1, 2, 2, 3))
        if kind < 0.5:
            return want(theme, medium, up_to=up_to, weight=weight)
        if kind < 0.7:
            return want(Part("maker", (chance.choice(owners),)), up_to=up_to, weight=weight)
        if kind < 0.9:
            named = f"{chance.choice(owners)}-card-{chance.randrange(cards):02}"
            return cards_named(named, weight=weight)
        return want(theme, medium, no=(Part("theme", (chance.choice(THEMES[:themes]),)),),
                    up_to=up_to, weight=weight)

    made, some = [], max(1, themes // 5)
    for owner in owners:
        favourites = chance.sample(MEDIA[:media], 2)
        for number in range(cards):
            made.append(card(
                f"{owner}-card-{number:02}", owner,
                themes=tuple(chance.sample(THEMES[:themes], chance.choice((1, 2)))),
                media=(chance.choice(favourites),),
                wants=(want(Part("theme", tuple(chance.sample(THEMES[:themes], some)))),)
                if chance.random() < own else (),
            ))
    people = []
    for name in owners:
        refused = (want(Part("theme", (chance.choice(THEMES[:themes]),))),)
        people.append(maker(
            name, *(one() for _ in range(wants)),
            rather_not=refused if chance.random() < 0.3 else (),
            takes_up_to=chance.choice((None, None, 3, 6)),
        ))
    return market(people, made)
