"""A card tried on other edges near its sides, where the network may have taken the wrong ones.

A frame drawn in a card has crisper sides than the card's own, where its paper has the table's
colour. The network sees a card in both; but it sees one in what is about a card's true edge only
if more of the card is there.
"""

from collections.abc import Sequence

import cv2
import numpy as np

from swapboard.photo.frames import Look, is_free
from swapboard.photo.geometry import (
    intersection_over_union,
    mean_sides,
    overlap,
    side_lengths,
    signed_area,
)
from swapboard.photo.refining import SETTLED, Refined, log_odds
from swapboard.photo.sides import Fit, fit_sides

QUITE_SURE, NEAR = 0.985, 0.015
"""A card less sure is tried on the edges so near its sides, as a share of its length."""

FEW = 3
"""Where no more cards were found they are tried on edges about them: more tell by their size."""

BORDERS, REACH = (0.04, 0.07), 0.02
"""So far beyond its sides a card's edge is looked for, and so near that, as shares of its length:
what is drawn along an edge mostly leaves a border of one width."""

LIKELY, HELD, LEAST_BORDER = 0.95, 0.8, 0.015
"""What an edge about a card must be: as sure; seen so far along each side; and on each side so far
from it, as a share of its length. A sleeve's rim is nearer."""

SURER = 1.0
"""Or so much surer than the card, in log-odds, wherever it lies about it."""

APART = 0.95
"""Overlap over union up to which it is another edge at all."""


def on_edges(card: Refined, picture: np.ndarray, look: Look) -> Refined:
    """A card that the network is not quite sure of with its sides on the edges near them, if it
    is surer of it then."""
    if card.tight > QUITE_SURE:
        return card
    fit = fitted(picture, card.quad, NEAR)
    moved = None if fit is None else look(fit.quad)
    return card if moved is None or moved.tight <= card.tight else moved


def out_of_frames(cards: Sequence[Refined], picture: np.ndarray, look: Look) -> list[Refined]:
    """Few cards, each as the one about it if what was seen is but a frame drawn in that; `look`
    goes one round."""
    if len(cards) > FEW:
        return list(cards)
    quads = [card.quad for card in cards]
    return [_about(card, picture, look, quads[:at] + quads[at + 1 :])
            for at, card in enumerate(cards)]


def _about(
    card: Refined, picture: np.ndarray, look: Look, others: list[np.ndarray]
) -> Refined:
    best, needed = card, log_odds(card.tight) + SURER
    for border in BORDERS:
        fit = fitted(picture, grown(card.quad, border), REACH)
        if fit is None or (fit.held.min() < HELD and needed >= log_odds(1)):
            continue
        seen = look(fit.quad)
        if seen is None or not _is_another(seen.quad, card.quad):
            continue
        if seen.moved >= SETTLED:
            seen = look(seen.quad)
        if seen is None or seen.tight < LIKELY or not _is_another(seen.quad, card.quad):
            continue
        size = picture.shape[1::-1]
        if seen.quad.min() < 0 or (seen.quad > size).any() or not is_free(seen, others):
            continue
        bordered = fit.held.min() >= HELD and _border(card.quad, seen.quad) > LEAST_BORDER
        surer = log_odds(seen.tight) > needed
        if (bordered or surer) and (best is card or seen.tight > best.tight):
            best = seen
    return best


def grown(quad: np.ndarray, border: float) -> np.ndarray:
    """The quadrilateral [4, 2] with a border about it, or cut off it if less than 0, as a share of
    its length, as if it lay flat."""
    wide, tall = mean_sides(quad)
    flat = np.array([[0, 0], [wide, 0], [wide, tall], [0, tall]])
    outward = border * max(wide, tall) * np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]])
    seen = cv2.getPerspectiveTransform(flat.astype(np.float32), quad.astype(np.float32))
    return cv2.perspectiveTransform((flat + outward)[None], seen)[0]


def fitted(picture: np.ndarray, quad: np.ndarray, near: float) -> Fit | None:
    """The quadrilateral [4, 2] px moved onto edges so near, as a share of its length; None where
    there are none."""
    reach = near * float(side_lengths(quad).max())
    return fit_sides(picture, quad, (reach, reach / 2, max(reach / 4, 1.5)))


def _is_another(outer: np.ndarray, quad: np.ndarray) -> bool:
    """Whether it lies about the other, on other edges."""
    within = overlap(outer, quad) > 0.97 * abs(signed_area(quad))
    return within and intersection_over_union(outer, quad) < APART


def _border(quad: np.ndarray, outer: np.ndarray) -> float:
    """How far the corners of one are within the other's sides at least, of its length."""
    along = np.roll(outer, -1, axis=0) - outer
    lengths = np.hypot(*along.T)
    normals = np.column_stack([-along[:, 1], along[:, 0]]) / lengths[:, None]
    within = ((quad[:, None] - outer) * normals).sum(axis=2)
    return float(within.min() / lengths.max())
