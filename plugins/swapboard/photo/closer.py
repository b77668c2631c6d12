"""A closer look at parts of a picture, where the proposer may have overlooked cards from afar.

It sees the picture at 512 px. A page, cards laid edge to edge, white cards on a scanner's white
lid look to it like one large card, or like nothing; from nearer, it sees them.
"""

from collections.abc import Iterable, Sequence
from itertools import compress

import numpy as np

from swapboard.photo.geometry import (
    covered,
    intersection_over_union,
    overlap,
    signed_area,
)
from swapboard.photo.looking import Looks
from swapboard.photo.one_size import of_same_size
from swapboard.photo.panels import FILL, are_apart, are_halves, halves_of
from swapboard.photo.readings import (
    PANELS,
    PERHAPS,
    WHOLLY,
    choose,
    has_kin,
    is_likely,
    is_sure,
    of_usual_size,
    open_like,
    side_by_side,
)
from swapboard.photo.refining import Refined
from swapboard.photo.voting import LIKELY, TAKEN, Glances

FEW, LARGE = 2, 0.07
"""So many cards at most, as large at least as a share of the picture, may be sheets with cards on
them."""

ON_SHEET = 0.05
"""Of what looks like one card, what each of the cards there is at least: a ninth of a page, less of
a binder's cover under it; panels drawn in a card may be smaller."""

MANY, MOSTLY = 4, 0.6
"""Among so many sure cards others may be overlooked, unless most of them say how large one is."""

PANEL = 0.6
"""Of an open card's area, a panel at most."""

QUARTER = 0.62
"""Of a picture's sides, a quarter of it: a card of a fourth of its length is whole in one or
another."""


def on_sheets(looks: Looks, glances: Glances, wholes: Sequence[Refined] = ()) -> list[Refined]:
    """Cards on what looks like one large card, where few were found, but is none of the wholes."""
    chosen = [one for one, _ in choose(looks.looked)]
    if len(chosen) > FEW:
        return []
    large = [one.quad for one in chosen if abs(signed_area(one.quad)) > LARGE * np.prod(looks.size)
             and all(one is not whole for whole in wholes)]
    near = (quad for sheet in large for quad in glances.quads_on(sheet, looks.pyramid))
    seen = [one for one in _seen_in(near, looks)
            if all(signed_area(one.quad) > ON_SHEET * signed_area(quad) for quad in large)]
    for quad in large:
        seen = _without_panels(seen, quad)
    return seen


def _without_panels(seen: list[Refined], whole: np.ndarray) -> list[Refined]:
    """What was seen without the halves [4, 2] px of what looks like one card, unless they are
    apart."""
    halves = halves_of(whole)
    best = [max(seen, key=lambda one: intersection_over_union(one.quad, half), default=None)
            for half in halves]
    quads = [one.quad for one in best if one is not None]
    if len(quads) < 2 or not are_halves(quads, whole) or are_apart(quads, whole):
        return seen
    return [one for one in seen
            if all(intersection_over_union(one.quad, half) < FILL for half in halves)]


def overlooked(looks: Looks, glances: Glances, focal: float | None) -> list[Refined]:
    """Cards anywhere, where the proposer does not see what surely is one: of few, if it has its
    like, or few may be one and none surely is; among many, if most are of no one size, else more of
    that are found beside them."""
    likely = [one for one, _ in choose(looks.looked) if one.tight > PERHAPS]
    sure = [one for one in likely if is_sure(one)]
    unseen = [one for one in sure if glances.share_on(one.quad) <= LIKELY]
    if len(sure) < MANY:
        missed = any(has_kin(one, sure) for one in unseen) or (not sure and len(likely) < MANY)
    elif not unseen:
        return []
    else:
        alike = of_same_size([one.quad for one in sure], looks.size, focal)
        missed = alike <= MOSTLY * len(sure)
    known = [one.quad for one in sure]
    near = (quad for part in quarters(*looks.size) for quad in glances.quads_within(part))
    return _seen_in(near, looks, known) if missed else []


def quarters(width: int, height: int) -> list[np.ndarray]:
    """The four quarters [4, 2] px of a picture w × h px, each with a little of the others."""
    size, box = np.array([width, height]), np.array([[0, 0], [1, 0], [1, 1], [0, 1]])
    return [size * (box * QUARTER + corner * (1 - QUARTER)) for corner in box]


def _seen_in(
    proposed: Iterable[np.ndarray], looks: Looks, known: Sequence[np.ndarray] = ()
) -> list[Refined]:
    """What surely are cards among what was proposed from nearer [4, 2] px, beside the known ones,
    if others as large lie elsewhere: what is drawn in a card is seldom so, cards on a sheet are."""
    more = looks.sure_ones(quad for quad in proposed if covered(quad, known) <= TAKEN)
    usual = [one for one in more if of_usual_size(one.quad)]
    alike = [one for one in usual if has_kin(one, looks.looked + usual)]
    in_one = [in_open_card(one.quad, looks.looked) for one in alike]
    if len(side_by_side(list(compress(alike, in_one)))) > PANELS:
        return alike
    return [one for one, panel in zip(alike, in_one, strict=True) if not panel]


def in_open_card(quad: np.ndarray, looked: list[Refined]) -> bool:
    """Whether it is hardly more than a panel of what is likely a card that lies open."""
    area = abs(signed_area(quad))
    return any(
        is_likely(one) and open_like(one.quad) and area < PANEL * one.area
        and overlap(quad, one.quad) > WHOLLY * area for one in looked)
