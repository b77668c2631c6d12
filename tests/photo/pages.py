"""Invented photographs of nine-pocket pages, some pockets empty, drawn apart from the training."""

from dataclasses import dataclass

import cv2
import numpy as np

from photo.scenes import (
    any_tilt,
    card_art,
    developed,
    draw_table,
    light_over,
    paper_for,
    read_upright,
    with_card,
)

POCKET, CARD, FILM = (67.0, 92.0), (63.5, 88.9), (225.0, 286.0)
"""mm: a pocket, a card of 2.5 × 3.5 in, a page; but for the card common practice, no source."""

SCALE = 3.6
"""px for a millimetre: the page fills most of 1050 × 1400 px."""


@dataclass(frozen=True, slots=True)
class Page:
    """`picture` uint8 [h, w, 3]; `quads` [n, 4, 2] px of its cards, `empty` of its pockets without
    one."""

    picture: np.ndarray
    quads: np.ndarray
    empty: np.ndarray


def page(seed: int, cards: int) -> Page:
    """A page 3 × 3 of clear film on a table, with so many cards in its pockets."""
    rng = np.random.default_rng([seed, cards])
    width, height = 1050, 1400
    table = draw_table(str(rng.choice(["easy", "wood", "grid"])), width, height, rng)
    tilt = any_tilt(rng, width, height)
    middle = np.array([width, height]) / 2

    def seen(x: float, y: float, size: tuple) -> np.ndarray:
        half = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * size / 2
        flat = ((half + (x, y)) * SCALE + middle)[None]
        return cv2.perspectiveTransform(flat, tilt)[0]

    # The holes for a binder's rings take some of the left.
    picture, quads, empty = _film(table, seen(-6, 0, FILM), 0.25), [], []
    full = set(rng.permutation(9)[:cards].tolist())
    for place in range(9):
        x, y = (place % 3 - 1) * (POCKET[0] + 2), (place // 3 - 1) * (POCKET[1] + 1)
        if place in full:
            loose = rng.uniform(-1, 1, 2) * (1.5, 1.2)
            quads.append(read_upright(seen(x + loose[0], y + loose[1], CARD)))
            art = card_art(rng, paper_for("easy", np.zeros(3), rng))
            picture = with_card(picture, art, quads[-1], rng)
        else:
            empty.append(seen(x, y, POCKET))
        _weld(picture, seen(x, y, POCKET), rng)
    lit = picture * light_over(width, height, rng)[..., None]
    places = (np.array(some).reshape(-1, 4, 2) for some in (quads, empty))
    return Page(developed(lit, rng), *places)


def _film(table: np.ndarray, quad: np.ndarray, share: float) -> np.ndarray:
    """The page's own film: what lies under it is seen paler."""
    cover = np.zeros(table.shape[:2], np.float32)
    cv2.fillConvexPoly(cover, np.round(quad * 256).astype(np.int32), share, cv2.LINE_AA, shift=8)
    return np.ascontiguousarray(table + (235 - table) * cover[..., None], dtype=np.float32)


def _weld(picture: np.ndarray, quad: np.ndarray, rng: np.random.Generator) -> None:
    """The line along which two sheets of film are welded about a pocket."""
    line = picture.copy()
    points = [np.round(quad * 256).astype(np.int32)]
    cv2.polylines(line, points, True, (245.0, 245.0, 245.0), 2, cv2.LINE_AA, shift=8)
    picture += (line - picture) * np.float32(rng.uniform(0.3, 0.7))
