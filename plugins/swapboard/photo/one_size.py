"""Cards of the size that sure ones have, where nothing of that size was seen.

A proposal may begin so far off that the refiner settles on half of a card and some of the table,
or on two cards at once; of cards that lie edge to edge, some have none of their own. Where sure
cards tell how large a card is, it is looked for at that size: beside each of them, where the
proposer sees that something lies; and at what was seen of another size, begun anew from each of
its corners, of which one is mostly the card's.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from swapboard.photo.frames import is_free
from swapboard.photo.geometry import (
    covered,
    intersection_over_union,
    is_within,
    mean_sides,
    overlap,
    signed_area,
)
from swapboard.photo.looking import Looks
from swapboard.photo.plane import Table, table_of
from swapboard.photo.readings import PERHAPS, WHOLLY, WITHIN, choose, is_likely, open_like
from swapboard.photo.refining import Refined
from swapboard.photo.voting import LIKELY, Glances

SAY_SIZE = 2
"""So many sure cards say how large a card is, also where nothing touches them."""

ALIKE, NEARLY = 0.05, 0.2
"""Relative differences of sides: of cards of one size, seen well; and of what is the card, if not
to its very edge or but by a frame drawn in it."""

PART, TWO = 0.4, 2.3
"""Of a card's sides: what is shorter or longer than that is neither part of one, nor two."""

TAKEN = 0.3
"""Of what was seen, how much of it lies on sure cards where it is only another look at them."""

SAME = 0.9
"""Overlap over union with what was seen there before, from which nothing new comes of it."""

FEW, NO_BARE_PLACE = 3, 0.2
"""Beside so many sure cards at most the witness is asked too, where the proposer sees nothing, for
of cards pushed together that may see one; and how likely a card must lie there for it to be looked
for."""

BESIDE, NEARLY_TWO = 3, 0.08
"""So many cards beside it say of which size it is too, if it was seen so; and how far off two of
them, as a logarithm, each of its sides may be where it is two. (In 2,150 pictures by other hands
that mended 10 of 27 cards seen rightly that another reading was preferred to, and spoilt none.)"""

MOST = 5
"""So many places at most are begun anew: beyond that it is no oversight."""


@dataclass(slots=True)
class Sized:
    """Sure cards of one `size` (short, long) on their table: `taken` [4, 2] px are all of them,
    `found` those that were not known before."""

    table: Table
    size: np.ndarray
    taken: list[np.ndarray]
    found: list[Refined]

    def level(self, quad: np.ndarray) -> np.ndarray:
        """A quad [4, 2] px as it lies on the table."""
        return self.table.level(quad[None])[0]

    def is_taken(self, quad: np.ndarray, more: list[np.ndarray] | None = None) -> bool:
        """Whether sure cards, or others [4, 2] px, lie on some of it."""
        others = self.taken if more is None else more
        return covered(quad, others) > TAKEN

    def has_size(self, quad: np.ndarray) -> bool:
        """Whether a quad [4, 2] px has the size of the sure ones."""
        off = np.log(np.sort(mean_sides(self.level(quad))) / self.size)
        return bool(np.abs(off).max() <= ALIKE)

    def add(self, seen: Refined | None) -> None:
        """Keep what was seen, if it is one more of that size beside the others."""
        if seen is None or not (is_likely(seen) and is_free(seen, self.taken)):
            return
        if self.has_size(seen.quad):
            self.found.append(seen)
            self.taken.append(seen.quad)


def of_one_size(looks: Looks, glances: Glances, focal: float | None) -> list[Refined]:
    """Further sure cards of the size that sure ones have; `focal` in px where known."""
    chosen = [one for one, _ in choose(looks.looked)]
    sized = _sized([one.quad for one in chosen if is_likely(one) and not open_like(one.quad)],
                   looks.size, focal)
    if sized is None:
        return []
    known = len(sized.taken)

    def may_lie(quad: np.ndarray) -> bool:
        if glances.share_on(quad) > LIKELY:
            return True
        return known <= FEW and is_within(quad, looks.size) and looks.may_hold(quad, NO_BARE_PLACE)

    for quad in sized.taken:
        # What is added on the way has neighbours too.
        for beside in _beside(sized, quad):
            if not sized.is_taken(beside) and may_lie(beside):
                sized.add(looks.reading(beside, least=0.0))
    if known >= SAY_SIZE:
        for quad in _places(chosen, looks.lost, sized)[:MOST]:
            before = [quad]
            for begun in _at_corners(sized, quad):
                if sized.is_taken(begun) or glances.share_on(begun) < LIKELY:
                    continue
                seen = looks.reading(begun, rounds=1, least=0.0)
                if seen is None or seen.tight < PERHAPS or _is_there(seen.quad, before):
                    continue
                before.append(seen.quad)
                sized.add(looks.reading(seen.quad))
    return sized.found


def held_to_size(
    looked: list[Refined], size: tuple[int, int], focal: float | None
) -> list[Refined]:
    """The readings without those of another size, where several cards beside say how large one
    is: parts of what was seen at that size too, or two cards taken for one."""
    likely = [one.quad for one in looked if is_likely(one)]
    chosen = [one.quad for one, _ in choose(looked) if is_likely(one) and not open_like(one.quad)]
    sized = _sized(chosen, size, focal)
    if sized is None or len(sized.taken) < BESIDE:
        return looked
    of_size = [quad for quad in likely if sized.has_size(quad)]
    return [one for one in looked if sized.has_size(one.quad) or not _is_known(
        one.quad, [quad for quad in of_size if overlap(quad, one.quad) > 0], sized)]


def _is_known(quad: np.ndarray, of_size: list[np.ndarray], sized: Sized) -> bool:
    """Whether one of the readings of the right size [4, 2] px is what a quad shows part of, or one
    of the two that it shows; with enough other cards beside both."""
    def beside(place: np.ndarray) -> int:
        return sum(overlap(one, place) < TAKEN * abs(signed_area(one)) for one in sized.taken)

    if beside(quad) < BESIDE:
        return False
    pair = _is_pair(quad, sized)
    return any(
        overlap(one, quad) > WITHIN * abs(signed_area(quad)) and beside(one) >= BESIDE
        or pair and overlap(one, quad) > WHOLLY * abs(signed_area(one)) for one in of_size)


def _is_pair(quad: np.ndarray, sized: Sized) -> bool:
    """Whether it is as large as two of the cards, side by side."""
    short, long = sized.size
    sides = np.sort(mean_sides(sized.level(quad)))
    twice = np.sort([[2 * short, long], [short, 2 * long]])
    return bool(np.abs(np.log(sides / twice)).max(axis=1).min() <= NEARLY_TWO)


def of_same_size(sure: list[np.ndarray], size: tuple[int, int], focal: float | None) -> int:
    """How many of the sure cards [4, 2] px in a picture of `size` px share a size; none, if fewer
    than half of them do."""
    sized = _sized(sure, size, focal)
    return 0 if sized is None else len(sized.taken)


def sharing_size(
    quads: Sequence[np.ndarray], size: tuple[int, int], focal: float | None = None
) -> np.ndarray:
    """Which of the cards [4, 2] px in a picture of `size` px share a size, bool [n, n]: each with
    itself too."""
    if not len(quads):
        return np.zeros((0, 0), bool)
    return _near(np.array(quads), table_of(quads, *size, focal))[0]


def _near(quads: np.ndarray, table: Table) -> tuple[np.ndarray, np.ndarray]:
    """Which of the quads [n, 4, 2] px share a size on their table, bool [n, n], and all sizes
    [n, 2], (short, long)."""
    sizes = np.array([np.sort(mean_sides(quad)) for quad in table.level(quads)])
    return np.abs(np.log(sizes[:, None] / sizes)).max(axis=2) < ALIKE, sizes


def _is_there(quad: np.ndarray, others: list[np.ndarray]) -> bool:
    return any(intersection_over_union(quad, other) > SAME for other in others)


def _sized(
    sure: list[np.ndarray], size: tuple[int, int], focal: float | None
) -> Sized | None:
    """The sure cards [4, 2] px that share a size; None where too few do."""
    if not sure:
        return None
    table = table_of(sure, *size, focal)
    near, sizes = _near(np.array(sure), table)
    alike = near[int(near.sum(axis=1).argmax())]
    if alike.sum() < len(sure) / 2:
        return None
    taken = [quad for quad, is_one in zip(sure, alike, strict=True) if is_one]
    return Sized(table, np.median(sizes[alike], axis=0), taken, [])


def _beside(sized: Sized, quad: np.ndarray) -> Iterator[np.ndarray]:
    """The four places [4, 2] px where others would lie edge to edge with a card."""
    level = sized.level(quad)
    for way in (level[1] - level[0], level[3] - level[0]):
        for step in (-way, way):
            yield sized.table.seen((level + step)[None])[0]


def _places(chosen: list[Refined], lost: list[np.ndarray], sized: Sized) -> list[np.ndarray]:
    """What was seen of another size, or only proposed, beside the sure cards, each place once."""
    places: list[np.ndarray] = []
    for quad in [one.quad for one in chosen if not _is_nearly(one, sized)] + lost:
        if not sized.is_taken(quad) and not sized.is_taken(quad, places):
            places.append(quad)
    return places


def _is_nearly(one: Refined, sized: Sized) -> bool:
    off = np.log(np.sort(mean_sides(sized.level(one.quad))) / sized.size)
    return is_likely(one) and float(np.abs(off).max()) < NEARLY


def _at_corners(sized: Sized, quad: np.ndarray) -> Iterator[np.ndarray]:
    """Quads [4, 2] px of the size, each with one corner where the quad has it and sides along its
    own; its better way up first."""
    level = sized.level(quad)
    sides = np.array(mean_sides(level))
    right = (level[1] - level[0] + level[2] - level[3]) / 2
    low = (level[3] - level[0] + level[2] - level[1]) / 2
    ways = sorted((sized.size, sized.size[::-1]), key=lambda way: np.abs(np.log(way / sides)).sum())
    for way in ways:
        if not ((sides > PART * way) & (sides < TWO * way)).all():
            continue
        across, down = right * way[0] / sides[0], low * way[1] / sides[1]
        box = np.array([np.zeros(2), across, across + down, down])
        for corner in range(4):
            yield sized.table.seen((box - box[corner] + level[corner])[None])[0]
