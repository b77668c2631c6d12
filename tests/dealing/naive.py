"""Three ways to deal that seem fair and are not; each gives a table of ones."""

import random


def retry_each_person(counts: list[int], chance: random.Random):
    """Person after person draws from the pile until the hand is fine; if stuck, all anew."""
    people = range(len(counts))
    while True:
        left, table = list(counts), [[0] * len(counts) for _ in people]
        for taker in people:
            may = [giver for giver in people if giver != taker and left[giver]]
            if len(may) < counts[taker]:
                break
            for giver in chance.sample(may, counts[taker]):
                left[giver] -= 1
                table[giver][taker] = 1
        else:
            return tuple(map(tuple, table))


def repair_by_swapping(counts: list[int], chance: random.Random):
    """The whole pile shuffled once, then bad cards swapped with random others."""
    pile = [giver for giver, count in enumerate(counts) for _ in range(count)]
    slots = list(pile)
    ends = [sum(counts[: taker + 1]) for taker in range(len(counts))]
    hands = [slice(ends[taker] - counts[taker], ends[taker]) for taker in slots]
    chance.shuffle(pile)

    def bad(place: int) -> bool:
        giver = pile[place]
        return giver == slots[place] or pile[hands[place]].count(giver) > 1

    while (one := next(filter(bad, range(len(pile))), None)) is not None:
        other = chance.randrange(len(pile))
        pile[one], pile[other] = pile[other], pile[one]
    table = [[0] * len(counts) for _ in counts]
    for giver, taker in zip(pile, slots, strict=True):
        table[giver][taker] = 1
    return tuple(map(tuple, table))


def one_big_circle(counts: list[int], chance: random.Random):
    """Everybody in a random circle; each sends to the next ones along it."""
    circle = list(range(len(counts)))
    chance.shuffle(circle)
    table = [[0] * len(counts) for _ in counts]
    for place, giver in enumerate(circle):
        for step in range(1, counts[giver] + 1):
            table[giver][circle[(place + step) % len(circle)]] = 1
    return tuple(map(tuple, table))
