"""Cards that were found, seen a last time: each by itself and held against the others."""

from dataclasses import dataclass

import numpy as np

from swapboard.photo.equals import equalised
from swapboard.photo.frames import beyond_frames
from swapboard.photo.geometry import (
    from_top_left,
    intersection_over_union,
    is_convex,
    meet,
    side_lengths,
    sides_of,
)
from swapboard.photo.looking import Looks
from swapboard.photo.loupe import on_own_edges
from swapboard.photo.nearby import on_edges, out_of_frames
from swapboard.photo.pale import HELD, is_plain
from swapboard.photo.panels import held_together
from swapboard.photo.plane import table_of
from swapboard.photo.readings import PERHAPS, has_kin, is_sure
from swapboard.photo.refining import LastLook, Refined, last_look, refine
from swapboard.photo.shadows import out_of_shadows
from swapboard.photo.sides import fit_sides
from swapboard.photo.sleeves import out_of_sleeves
from swapboard.photo.surroundings import Surroundings, surroundings
from swapboard.photo.voting import Glances

RESIZED = 0.93
"""Overlap over union below which the size of others has made another card of it."""

ENOUGH = 5
"""Among more cards their common size says as much as a look at what is certain."""

REACH, FARTHEST = 0.004, 0.008
"""Of a card's length: so near a side its edge is looked for first, and so far from it at most that
may lie."""


@dataclass(frozen=True, slots=True)
class Seen:
    """A card the networks found.

    `refined` is its last straightening; `quad` [4, 2] px from the card's own top left, after
    the fit to the photo's own pixels; `rivals` the best `tight` among what was dropped in its
    favour but is not it; `kin` whether a likely card of the same size lies elsewhere in the
    picture; `around` what its surroundings say; `resized` whether it was given another size by
    far, for the others' sake; `paired` whether each half of it looks like a card; `plain` whether
    it looked like none from near, but plainly like one from afar.
    """

    refined: Refined
    quad: np.ndarray
    rivals: float
    kin: bool
    around: Surroundings
    resized: bool = False
    paired: bool = False
    plain: bool = False


def seen_last(
    picture: np.ndarray, looks: Looks, chosen: list[tuple[Refined, float]],
    pairs: list[np.ndarray], glances: Glances, focal: float | None,
) -> list[Seen]:
    """Each card chosen, its sides looked at once more and held against the others'.

    `pairs` [4, 2] px are cards that may be two; `focal` in px where known.
    """
    pyramid, size, networks = looks.pyramid, looks.size, looks.networks

    def look(quad: np.ndarray) -> Refined | None:
        return looks.reading(quad, rounds=2)

    def glance(quad: np.ndarray) -> Refined | None:
        return refine(pyramid, size, quad, networks, rounds=1)

    cards = [on_edges(refined, picture, look) for refined, _ in chosen]
    cards = out_of_frames(cards, picture, glance)
    cards = _beyond_frames(cards, looks, focal)
    many = len(cards) > ENOUGH
    last = [last_look(pyramid, size, refined, networks, many) for refined in cards]
    heard = [look.heard(refined) for look, refined in zip(last, cards, strict=True)]
    equal = _with_equals(heard, last, size, focal)
    quads = out_of_shadows(picture, out_of_sleeves(picture, equal, focal), heard, glance)
    known = [is_sure(one) for one in heard]
    quads = on_own_edges(quads, known, pyramid, networks, size, focal)
    likely = [one.tight > PERHAPS for one in heard]
    told = surroundings(pyramid, size, quads, likely, networks, glances)
    finished = held_together([_finished(picture, quad) for quad in quads], equal, likely)
    return [
        Seen(refined, from_top_left(quad), rivals, has_kin(refined, heard), about,
             intersection_over_union(last.quad, as_others) < RESIZED,
             any(intersection_over_union(quad, other) > RESIZED for other in pairs),
             is_plain(first, about.proposed))
        for refined, (first, rivals), last, as_others, quad, about
        in zip(heard, chosen, last, equal, finished, told, strict=True)
    ]


def _beyond_frames(cards: list[Refined], looks: Looks, focal: float | None) -> list[Refined]:
    """Cards seen by a frame drawn in them at the size of the sure ones."""
    if len(cards) < 2:
        return cards
    table = table_of([card.quad for card in cards], *looks.size, focal)
    return beyond_frames(cards, [is_sure(card) for card in cards], table, looks.reading)


def _with_equals(
    heard: list[Refined], looks: list[LastLook], size: tuple[int, int], focal: float | None,
) -> list[np.ndarray]:
    quads = [look.quad for look in looks]
    if len(quads) < 2:
        return quads
    sure = [is_sure(refined) for refined in heard]
    return equalised(looks, sure, table_of(quads, *size, focal))


def _finished(picture: np.ndarray, quad: np.ndarray) -> np.ndarray:
    """The card, each side on the edge of the photo's own pixels, where one lies all along and near:
    what the network sees is right more often, where edges lie elsewhere or only here and there."""
    long = float(side_lengths(quad).max())
    reach = max(REACH * long, 1.5)
    fit = fit_sides(picture, quad, (reach, max(reach / 2, 1.5), max(reach / 3, 1.5)))
    if fit is None:
        return quad
    lines, edges = sides_of(quad), sides_of(fit.quad)
    ends = np.stack([quad, np.roll(quad, -1, axis=0)])
    moved = np.abs((ends * edges[:, :2]).sum(axis=2) + edges[:, 2]).max(axis=0)
    near = (moved < max(FARTHEST * long, 1.0)) & (fit.held > HELD)
    corners = meet(np.where(near[:, None], edges, lines))
    return quad if corners is None or not is_convex(corners) else corners
