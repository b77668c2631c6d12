"""Random calls of all sorts, from a seed: what several tests and the bench deal."""

import random

from swapboard.dealing import Deal

# Names that sort otherwise by UTF-16 than by code point, and names of a script's own fields.
NAMES = (
    "ada", "Zoë", "\U0001f426 bird", "\uffee x", "müller", "b", "B", "a b", "ada2", "__proto__",
    "constructor", "10", "9", "z z",
)  # fmt: skip


def random_call(number: int, most_people: int = 8) -> dict:
    """The arguments of one deal; a few have no answer, many have to relax something."""
    chance = random.Random(number)
    makers = chance.sample(NAMES, chance.randint(1, most_people))
    flat = chance.choice((None, None, 1, 2, 3))

    def pairs(share: float) -> list[tuple[str, str]]:
        return [(a, b) for a in makers for b in makers if chance.random() < share]

    return {
        "sent": {maker: flat or chance.choice((0, 1, 1, 2, 2, 3, 4)) for maker in makers},
        "apart": pairs(chance.choice((0, 0, 0.05, 0.2))),
        "met": pairs(chance.choice((0, 0, 0.1, 0.4))),
        "relax": chance.choice([("met", "double", "apart")] * 3 + [("double", "met"), ()]),
        "seed": chance.randbytes(chance.choice((0, 3, 32, 100))),
    }


def for_browser(call: dict) -> dict:
    """The same arguments as JSON has them."""
    return {**call, "sent": list(call["sent"].items()), "seed": call["seed"].hex()}


def as_lists(made: Deal) -> dict:
    """A deal as the browser gives it."""
    return {
        "possible": made.possible,
        "table": [[giver, taker, count] for (giver, taker), count in made.table.items()],
        "cards": [[card.giver, card.number, card.taker] for card in made.cards],
        "method": made.method,
    }
