"""Pocket pages."""

import cv2
import numpy as np

from finder_training.layouts.binders import binder_page
from finder_training.layouts.places import put, stage_for
from finder_training.noise import Random, any_colour, cloud
from finder_training.stage import CARD, Look, Stage, corners_of, lay, project
from finder_training.table import clutter


def page(rng: Random, long: int, pictures: list) -> Stage:
    """A page of clear pockets, some of them empty."""
    return (_nine if rng.random() < 0.4 else binder_page)(rng, long, pictures)


def _nine(rng: Random, long: int, pictures: list) -> Stage:
    """Three by three pockets that fill the picture."""
    tall = 3 * 3.62 + 0.5
    scale = long * rng.uniform(0.5, 0.98) / tall
    stage = stage_for(rng, long, scale, pictures, steepest=22)
    narrow = min(1.0, 0.98 * stage.size[0] / (scale * 8.7))
    stage.onto = stage.onto @ np.diag([narrow, narrow, 1])
    turn = rng.normal() * 0.06 + (np.pi / 2 if stage.size[0] > stage.size[1] else 0)
    spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    _backing(stage, rng, turn, tall)
    pocket = np.array([rng.uniform(2.58, 2.75), rng.uniform(3.56, 3.7)])
    # Welds are lines, or bands between one pocket and the next.
    pitch = pocket + (rng.random() < 0.5) * rng.uniform(0.02, 0.2, 2)
    fill, slack = rng.choice([1.0, 0.85, 0.6, 0.4]), pocket - np.array(CARD)
    for row in range(3):
        for column in range(3):
            at = (np.array([column, row]) - 1) * pitch
            if rng.random() < fill:
                shift = slack * rng.uniform(-0.5, 0.5, 2)
                look = Look(float(rng.choice([0, 0.125])), soft=1.0, dark=rng.uniform(0, 0.35))
                size = CARD if rng.random() < 0.93 else (2.2, 3.1)
                put(stage, rng, spin @ (at + shift), turn + rng.normal() * 0.008, pictures, size,
                    None, look)
            else:
                empty = corners_of(spin @ at, tuple(pocket * rng.uniform(0.95, 1)), turn)
                stage.decoys.append(project(stage.onto, empty))
    _seams(stage, rng, pocket, pitch, spin)
    if rng.random() < 0.5:
        _streaks(stage, rng, pitch, spin)
    if rng.random() < 0.4:
        _holes(stage, rng, pitch, spin)
    clutter.falloff(stage, rng)
    return stage


def _backing(stage: Stage, rng: Random, turn: float, tall: float) -> None:
    """The page itself: clear, milky, or with a sheet behind it."""
    size = (8.6, tall)
    clear = np.full((8, 8, 3), rng.choice([30, 200, 245]) + rng.uniform(-20, 10), np.uint8)
    if rng.random() < 0.4:
        clear[:] = any_colour(rng)
    opaque = float(rng.choice([rng.uniform(0.03, 0.3), 1.0], p=[0.55, 0.45]))
    quad = project(stage.onto, corners_of(np.zeros(2), size, turn))
    lay(stage, clear, quad, size, Look(opacity=opaque, dark=rng.uniform(0, 0.4)), is_card=False)


def _seams(stage: Stage, rng: Random, pocket: np.ndarray, pitch: np.ndarray,
           spin: np.ndarray) -> None:
    """Welded lines about the pockets, open mouths, gloss and streaks of light."""
    drawn = stage.picture.copy()
    tone = tuple(float(v) for v in np.full(3, rng.choice([40, 150, 235, 255])))
    thick = int(rng.integers(1, 4))
    for row in range(3):
        for column in range(3):
            about = corners_of((np.array([column, row]) - 1) * pitch, tuple(pocket), 0.0)
            points = project(stage.onto, about @ spin.T)
            cv2.polylines(drawn, [np.int32(points * 16)], True, tone, thick, cv2.LINE_AA, 4)
    stage.picture += (drawn - stage.picture) * np.float32(rng.uniform(0.15, 0.8))
    if rng.random() < 0.5:
        width, height = stage.size
        gloss = np.clip(cloud(width, height, rng.uniform(3, 12), rng) - rng.uniform(0.2, 0.7), 0, 1)
        stage.picture += gloss * rng.uniform(20, 220)
    for card in stage.cards:
        if rng.random() < 0.12:
            clutter.glare(stage, card.quad, rng)


def _streaks(stage: Stage, rng: Random, pocket: np.ndarray, spin: np.ndarray) -> None:
    """Light broken by the film's waves, pocket by pocket, over cards and empty ones alike."""
    light = np.zeros(stage.owner.shape, np.uint8)
    for row in range(3):
        for column in range(3):
            if rng.random() < 0.4:
                continue
            at = (np.array([column, row]) - 1) * pocket
            way = rng.normal(size=2) * 0.35
            path = at + rng.uniform(-0.35, 0.35, 2) * pocket + np.cumsum(
                way + rng.normal(size=(int(rng.integers(2, 8)), 2)) * 0.25, axis=0)
            reach = pocket * 0.48
            path = np.clip(path, at - reach, at + reach)
            points = project(stage.onto, path @ spin.T).astype(np.int32)
            thick = max(int(stage.size[0] * rng.uniform(0.002, 0.015)), 1)
            cv2.polylines(light, [points], False, int(rng.integers(60, 256)), thick, cv2.LINE_AA)
    soft = cv2.GaussianBlur(light, (0, 0), float(rng.uniform(0.6, 6)))
    stage.picture += soft.astype(np.float32)[..., None] * np.float32(rng.uniform(0.2, 1.0))


def _holes(stage: Stage, rng: Random, pocket: np.ndarray, spin: np.ndarray) -> None:
    """What the rings of a binder go through."""
    tone = tuple(float(v) for v in np.full(3, rng.uniform(10, 245)))
    aside = -1.5 * pocket[0] - rng.uniform(0.15, 0.4)
    for share in np.linspace(-1.2, 1.2, int(rng.choice([2, 3, 4, 11]))):
        at = project(stage.onto, np.array([[aside, share * pocket[1]]]) @ spin.T)[0]
        size = max(int(stage.size[0] * rng.uniform(0.008, 0.016)), 2)
        cv2.circle(stage.picture, tuple(int(v) for v in at), size, tone, -1, cv2.LINE_AA)
