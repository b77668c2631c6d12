"""Cards that lie open: panels that run on over a fold, each in its own light."""

import cv2
import numpy as np

from finder_training.art.cards import draw_card, words
from finder_training.layouts.frames import lay_whole, on_table
from finder_training.layouts.places import PLAIN, finish, single, stage_for
from finder_training.noise import Random, any_colour
from finder_training.stage import (
    CARD,
    Laid,
    Look,
    Stage,
    any_look,
    corners_of,
    lay,
    lifted,
    project,
)

BOW = 0.009
"""How far, at most, a fold's end lies off the line between the outer corners, of that side."""


def folded(rng: Random, long: int, pictures: list) -> Stage:
    """One card of two to four panels lying open, or as long as two without any fold."""
    roll = rng.random()
    if roll < 0.25:
        return _creased(rng, long, pictures)
    if roll < 0.4:
        size = [(5.0, 3.5), (2.5, 7.0), (3.5, 5.0), (7.0, 2.5)][int(rng.integers(4))]
        art = draw_card(int(size[0] * 80), int(size[1] * 80), rng, pictures)
        ground = str(rng.choice(PLAIN + ("any",) * 10))
        return single(rng, long, pictures, ground, size, art)
    return _bent(rng, long, pictures)


def _bent(rng: Random, long: int, pictures: list) -> Stage:
    """Panels that stand off the table a little along their folds."""
    count = int(rng.choice([2, 3, 4], p=[0.86, 0.1, 0.04]))
    panel = CARD if rng.random() < 0.6 else CARD[::-1]
    size = (panel[0] * count, panel[1])
    scale = long * 10 ** rng.uniform(-0.5, -0.05) / max(size)
    ground = str(rng.choice(PLAIN + ("any",) * 14))
    stage = stage_for(rng, long, scale, pictures, ground, 30)
    turn = float(rng.integers(4)) * np.pi / 2 + rng.normal() * rng.choice([0.05, 0.3, 1.0])
    _made_to_fit(stage, size, turn, rng)
    middle = on_table(stage, np.array(stage.size) * rng.uniform(0.47, 0.53, 2))
    lines = _fold_lines(stage, rng, middle, panel, count, turn)
    art = _over_folds(rng, panel, count, pictures)
    _lay_panels(stage, rng, art, lines, panel)
    if rng.random() < 0.2:
        lay_whole(stage, rng, CARD, pictures, turn + rng.normal() * 0.2)
    return finish(stage, rng)


def _made_to_fit(stage: Stage, size: tuple, turn: float, rng: Random) -> None:
    """The camera further off, where a thing of `size` inches would leave the frame."""
    for _ in range(3):
        middle = on_table(stage, np.array(stage.size) / 2)
        quad = project(stage.onto, corners_of(middle, size, turn))
        span = np.ptp(quad, axis=0) / stage.size
        less = min(1.0, rng.uniform(0.8, 0.92) / max(span))
        stage.onto = stage.onto @ np.diag([less, less, 1])


def _fold_lines(stage: Stage, rng: Random, middle: np.ndarray, panel: tuple, count: int,
                turn: float) -> np.ndarray:
    """Ends [count + 1, 2, 2] px of the outer sides and the folds between them, upper end first.

    Each panel leans by 2–12 degrees, or by less where the outer sides would bow too much.
    """
    signs = np.where(np.arange(count) % 2, -1, 1) * rng.choice([-1, 1])
    lean = np.radians(rng.uniform(2, 12, count)) * signs
    if rng.random() < 0.15:
        lean *= 0
    spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    for _ in range(8):
        along = np.concatenate([[0], np.cumsum(np.cos(lean))]) * panel[0]
        up = np.concatenate([[0], np.cumsum(np.sin(lean))]) * panel[0]
        ends = []
        for y in (-panel[1] / 2, panel[1] / 2):
            flat = np.column_stack([along - along[-1] / 2, np.full(count + 1, y)]) @ spin.T + middle
            ends.append(lifted(stage, np.column_stack([flat, up - up.min()])))
        lines = np.stack(ends, axis=1)
        most = max(_bowed(lines[:, 0]), _bowed(lines[:, 1]))
        if most < BOW:
            break
        lean *= 0.9 * BOW / most
    return lines


def _bowed(points: np.ndarray) -> float:
    """How far the points [n, 2] px lie off the line from first to last, of its length."""
    whole = points[-1] - points[0]
    to = points - points[0]
    return float(np.abs(whole[0] * to[:, 1] - whole[1] * to[:, 0]).max() / (whole @ whole))


def _lay_panels(stage: Stage, rng: Random, art: np.ndarray, lines: np.ndarray,
                panel: tuple) -> None:
    """The panels drawn one after another and entered as one card."""
    count = len(lines) - 1
    outer = np.array([lines[0, 0], lines[-1, 0], lines[-1, 1], lines[0, 1]])
    size = (panel[0] * count, panel[1])
    scale = float(np.sqrt(cv2.contourArea(outer.astype(np.float32)) / (size[0] * size[1])))
    look, wide = any_look(rng, scale), art.shape[1] // count
    # Beneath all of them once: what their shared shadow is of, and what shows in no gap.
    under = Look(soft=look.soft, dark=look.dark, lift=look.lift, lit=look.lit, dim=look.dim)
    lay(stage, art, outer, size, under, is_card=False)
    for place in range(count):
        (one, low), (two, down) = lines[place], lines[place + 1]
        part = art[:, place * wide : (place + 1) * wide]
        quad = np.array([one, two, down, low])
        lay(stage, part, quad, panel, Look(dark=0.0), is_card=False)
    outline = np.concatenate([lines[:, 0], lines[::-1, 1]])
    shown = np.zeros_like(stage.owner)
    cv2.fillPoly(shown, [np.int32(outline * 16)], 1, shift=4)
    stage.cards.append(Laid(outer, size, float(shown.sum())))
    stage.owner[shown > 0], stage.over[shown > 0] = len(stage.cards), 0


def _over_folds(rng: Random, panel: tuple, count: int, pictures: list) -> np.ndarray:
    """The open card uint8 [h, w, 3] drawn flat: art, blank and written panels, and light."""
    wide, tall = int(panel[0] * 90), int(panel[1] * 90)
    if rng.random() < 0.35:
        art = draw_card(wide * count, tall, rng, pictures)
    else:
        art = np.hstack(_each_alone(rng, wide, tall, count, pictures))
    light = np.ones((1, wide * count, 1), np.float32)
    x = np.arange(wide * count, dtype=np.float32)
    way = rng.choice([-1, 1])
    for place in range(count):
        light[0, place * wide : (place + 1) * wide] *= 1 + way * rng.uniform(0, 0.14)
        way = -way
    for place in range(1, count):
        _fold_light(light[0, :, 0], x - place * wide, rng)
    return np.clip(art * light, 0, 255).astype(np.uint8)


def _each_alone(rng: Random, wide: int, tall: int, count: int, pictures: list) -> list:
    """Panels of one paper: art on it, nothing, or writing."""
    paper = np.clip(rng.uniform(205, 254) + rng.uniform(-14, 2, 3), 0, 255)
    if rng.random() < 0.2:
        paper = any_colour(rng)
    ink = (40, 45, 70) if paper.mean() > 110 else (225, 220, 210)
    parts = []
    for _ in range(count):
        part = np.full((tall, wide, 3), paper, np.uint8)
        # Three or more with art to their edges would be a row of cards that touch.
        edge, roll = int(wide * rng.uniform(0.05, 0.15)), rng.random()
        if roll < 0.35 and count == 2:
            part = draw_card(wide, tall, rng, pictures)
        elif roll < 0.5:
            inner = draw_card(wide - 2 * edge, tall - 2 * edge, rng, pictures)
            part[edge : tall - edge, edge : wide - edge] = inner
        elif roll < 0.75:
            size = int(rng.integers(3, 9))
            words(part[2 * edge : tall - int(edge * rng.uniform(1, 9)), edge : wide - edge], rng,
                  ink, size)
        parts.append(part)
    return parts


def _fold_light(light: np.ndarray, x: np.ndarray, rng: Random) -> None:
    """What a fold at x = 0 does to the light along the card: shade or gleam, and a thin line."""
    soft = rng.uniform(2, 22)
    shade = np.exp(-((x / soft) ** 2))
    if rng.random() < 0.6:
        shade = shade * (x > 0 if rng.random() < 0.5 else x < 0)
    light *= 1 - shade * rng.choice([rng.uniform(0.02, 0.3), -rng.uniform(0.02, 0.15)])
    if rng.random() < 0.45:
        light *= 1 - np.exp(-((x / rng.uniform(0.5, 1.3)) ** 2)) * rng.uniform(-0.3, 0.5)


def _creased(rng: Random, long: int, pictures: list) -> Stage:
    """Two or three flat panels with a line drawn along each crease."""
    panels = int(rng.choice([2, 3], p=[0.9, 0.1]))
    beside = rng.random() < 0.6
    size = (2.5 * panels, 3.5) if beside else (2.5, 3.5 * panels)
    art = _panels(rng, panels, beside, pictures) if rng.random() < 0.65 else None
    if rng.random() < 0.5:
        size, art = size[::-1], art if art is None else np.rot90(art).copy()
        beside = not beside
    stage = single(rng, long, pictures, str(rng.choice(PLAIN + ("any",))), size, art)
    quad, drawn = stage.cards[-1].quad, stage.picture.copy()
    tone = tuple(float(v) for v in any_colour(rng))
    for panel in range(1, panels):
        share = panel / panels
        one, two = (quad[[0, 1]], quad[[3, 2]]) if beside else (quad[[0, 3]], quad[[1, 2]])
        ends = [a * (1 - share) + b * share for a, b in (one, two)]
        cv2.line(drawn, *[tuple(int(v) for v in e) for e in ends], tone, 1, cv2.LINE_AA)
    stage.picture += (drawn - stage.picture) * np.float32(rng.uniform(0.0, 0.8))
    return stage


def _panels(rng: Random, count: int, beside: bool, pictures: list) -> np.ndarray:
    """Panels side by side or one below the other: some drawn on, some bare, each in its light."""
    paper = rng.uniform(215, 252) + rng.uniform(-12, 2, 3)
    parts = []
    for _ in range(count):
        part = np.full((350, 250, 3), np.clip(paper, 0, 255), np.uint8)
        if rng.random() < 0.65:
            part = draw_card(250, 350, rng, pictures)
        elif rng.random() < 0.6:
            words(part, rng, (50, 45, 60), int(rng.integers(2, 7)))
        parts.append(np.clip(part * rng.uniform(0.85, 1.05), 0, 255).astype(np.uint8))
    return np.hstack(parts) if beside else np.vstack(parts)
