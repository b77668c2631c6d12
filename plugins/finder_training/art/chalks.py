"""Art of dry colours: crayon, chalk, coloured pencil, graphite, scratched wax, airbrush."""

import cv2
import numpy as np

from finder_training.art.colours import (
    blank,
    blend,
    dark_ink,
    done,
    one_of,
    palette,
    paper,
    ramp,
    through,
    white,
)
from finder_training.art.motifs import any_motif, draw
from finder_training.art.strokes import blob, field, hatch, path
from finder_training.noise import Random, cloud, speckle


def _tooth(width: int, height: int, rng: Random, strong: float) -> np.ndarray:
    """float32 [height, width] 0–1: how much of a dry colour the paper's grain takes."""
    rough = cv2.GaussianBlur(np.ascontiguousarray(speckle(width, height, rng)), (0, 0), 0.8)
    return np.clip(0.95 + rough * strong * 1.2, 0, 1)


def crayon(width: int, height: int, rng: Random) -> np.ndarray:
    """A child's scribbles: thick waxy lines to and fro, figures filled in over their outlines."""
    bare = white(rng) if rng.random() < 0.8 else paper(rng)
    drawn = blank(width, height, bare)
    colours = palette(rng, 5, one_of(rng, ["bright", "bright", "whole", "muted"]))
    thick = max(int(width * rng.uniform(0.01, 0.03)), 1)
    for _ in range(int(rng.integers(2, 8))):
        at, size = rng.uniform(0.1, 0.9, 2) * (width, height), width * rng.uniform(0.12, 0.4)
        colour = one_of(rng, colours)
        if rng.random() < 0.5:
            count = int(rng.integers(8, 26))
            run = np.linspace(-1, 1, count)
            side = np.where(np.arange(count) % 2, 1, -1) * rng.uniform(0.5, 1, count)
            turn = rng.uniform(0, np.pi)
            spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
            points = np.column_stack([run, side * 0.8]) @ spin.T * size + at
            cv2.polylines(drawn, [points.astype(np.int32)], False, colour, thick, cv2.LINE_AA)
        else:
            draw(drawn, any_motif(rng), at, size, palette(rng, 2) if rng.random() < 0.3 else [],
                 rng.normal() * 0.2, colour, thick)
    kept = _tooth(width, height, rng, rng.uniform(0.3, 1))[..., None]
    return done(bare + (drawn - bare) * kept)


def chalk(width: int, height: int, rng: Random) -> np.ndarray:
    """Soft pastels, smudged, on black, brown or any tinted paper."""
    base = rng.uniform(12, 60, 3) if rng.random() < 0.5 else palette(rng, 1, "muted")[0]
    card = np.full((height, width, 3), base, np.float32)
    colours = palette(rng, 5, one_of(rng, ["pale", "bright", "whole"]))
    tooth = _tooth(width, height, rng, 1.0)
    mask = np.zeros((height, width), np.uint8)
    for _ in range(int(rng.integers(2, 7))):
        mask[:] = 0
        at, size = rng.uniform(0.1, 0.9, 2) * (width, height), width * rng.uniform(0.1, 0.4)
        if rng.random() < 0.5:
            cv2.fillPoly(mask, [blob(at, size, rng)], 255)
        else:
            line = path(at, rng.uniform(0, 6.3), width * rng.uniform(0.4, 1.2), 0.2, rng)
            thick = max(int(size * 0.3), 2)
            cv2.polylines(mask, [line.astype(np.int32)], False, 255, thick, cv2.LINE_AA)
        soft = cv2.blur(mask, (int(size * rng.uniform(0.05, 0.8)) | 1,) * 2)
        blend(card, one_of(rng, colours), soft.astype(np.float32) / 255 * tooth)
    return done(card)


def coloured_pencil(width: int, height: int, rng: Random) -> np.ndarray:
    """Blobs and figures filled with slanting strokes that leave the paper to be seen."""
    card = blank(width, height, white(rng))
    colours, slant = palette(rng, 5), rng.uniform(0, np.pi)
    for _ in range(int(rng.integers(2, 6))):
        at, size = rng.uniform(0.1, 0.9, 2) * (width, height), width * rng.uniform(0.12, 0.5)
        outline = blob(at, size, rng, rng.uniform(0.1, 0.5))
        colour = one_of(rng, colours)
        for turn in (slant, slant + rng.normal() * 0.3)[: int(rng.integers(1, 3))]:
            hatch(card, outline, turn, width * rng.uniform(0.006, 0.016) + 1, colour,
                  max(int(width * 0.008), 1))
    if rng.random() < 0.6:
        draw(card, any_motif(rng), rng.uniform(0.3, 0.7, 2) * (width, height),
             width * rng.uniform(0.2, 0.42), [], 0, dark_ink(rng))
    return card


def graphite(width: int, height: int, rng: Random) -> np.ndarray:
    """A shaded pencil drawing in greys, smudged, dark or hardly there."""
    tone = np.zeros((height, width), np.uint8)
    size, at = width * rng.uniform(0.2, 0.5), rng.uniform(0.35, 0.65, 2) * (width, height)
    parts, turn = any_motif(rng), rng.normal() * 0.2
    draw(tone, parts, at, size, [[150], [80], [220], [120]], turn)
    soft = cv2.GaussianBlur(tone, (0, 0), width * rng.uniform(0.005, 0.04)).astype(np.float32)
    soft = soft * (0.7 + 0.6 * field(width, height, 6, rng, 3)) / 255
    lines = np.zeros((height, width), np.uint8)
    draw(lines, parts, at, size, [], turn, (int(rng.integers(90, 255)),))
    dark = np.maximum(soft * _tooth(width, height, rng, 0.6), lines.astype(np.float32) / 255)
    if rng.random() < 0.4:
        dark = dark + np.clip(cloud(width, height, 3, rng)[..., 0], 0, 1) * 0.25
    card = np.full((height, width, 3), white(rng), np.float32)
    blend(card, rng.uniform(30, 70, 3), np.clip(dark * np.float32(rng.uniform(0.25, 1)), 0, 1))
    return done(card)


def scratched(width: int, height: int, rng: Random) -> np.ndarray:
    """Black wax with lines scratched through to bright colours or to white."""
    below = through(ramp(palette(rng, 4, "bright"), rng), field(width, height, 2, rng, 2), 0.6)
    if rng.random() < 0.35:
        below = blank(width, height, white(rng))
    mask = np.zeros((height, width), np.uint8)
    for _ in range(int(rng.integers(1, 6))):
        at = rng.uniform(0.15, 0.85, 2) * (width, height)
        draw(mask, any_motif(rng), at, width * rng.uniform(0.15, 0.45), [], rng.normal() * 0.3,
             (255,), int(rng.integers(1, 4)))
    for _ in range(int(rng.integers(0, 25))):
        start = rng.uniform(0, 1, 2) * (width, height)
        line = path(start, rng.uniform(0, 6), width * 0.3, 0.2, rng)
        cv2.polylines(mask, [line.astype(np.int32)], False, 255, 1, cv2.LINE_AA)
    share = mask.astype(np.float32)[..., None] / 255
    wax = np.float32(rng.uniform(8, 45, 3))
    return done(wax + (below - wax) * share)


def furry(width: int, height: int, rng: Random) -> np.ndarray:
    """Many short strokes that stand out from a middle: fur, feathers, grass, hair."""
    colours = palette(rng, 5, one_of(rng, ["earth", "grey", "whole", "muted", "dark"]))
    card = blank(width, height, colours[0] if rng.random() < 0.6 else white(rng))
    middle = rng.uniform(0.3, 0.7, 2) * (width, height)
    reach = width * (2 if rng.random() < 0.5 else rng.uniform(0.25, 0.6))
    count = int(rng.integers(200, 600))
    far = np.sqrt(rng.random(count)) * min(reach, height * 0.75)
    turns = rng.uniform(0, 2 * np.pi, count)
    spread, bend = rng.normal(size=count) * 0.25, rng.normal() * 0.8
    starts = middle + np.column_stack([np.cos(turns), np.sin(turns)]) * far[:, None]
    ways = turns + spread + bend
    long = min(reach, width) * rng.uniform(0.12, 0.3)
    ends = starts + np.column_stack([np.cos(ways), np.sin(ways)]) * long
    lights = rng.uniform(0.6, 1.25, count)
    for one, two, light in zip(starts.astype(int).tolist(), ends.astype(int).tolist(), lights,
                               strict=True):
        tone = [min(v * light, 255) for v in one_of(rng, colours[1:])]
        cv2.line(card, one, two, tone, 1 + int(width > 180), cv2.LINE_AA)
    if rng.random() < 0.6:
        for side in (-1, 1):
            eye = (int(middle[0] + side * width * 0.13), int(middle[1] - width * 0.05))
            iris = one_of(rng, palette(rng, 2))
            cv2.circle(card, eye, max(width // 18, 2), iris, -1, cv2.LINE_AA)
            cv2.circle(card, eye, max(width // 32, 1), (15, 12, 12), -1, cv2.LINE_AA)
    return card


def sprayed(width: int, height: int, rng: Random) -> np.ndarray:
    """Airbrushed light: a night of stars and mists, glowing spots, rings."""
    card = np.full((height, width, 3), palette(rng, 1, "dark")[0], np.float32)
    for colour in palette(rng, int(rng.integers(2, 5)), one_of(rng, ["bright", "muted", "whole"])):
        mist = np.clip(field(width, height, rng.uniform(1.5, 4), rng, 4) * 1.4, 0, 1)
        blend(card, colour, mist * np.float32(rng.uniform(0.3, 0.9)))
    made = done(card)
    count = int(rng.integers(0, 200))
    for x, y in rng.uniform(0, 1, (count, 2)) * (width, height):
        made[int(y), int(x)] = 255
    for _ in range(int(rng.integers(0, 5))):
        at = (rng.uniform(0.1, 0.9, 2) * (width, height)).astype(int).tolist()
        size = max(int(width * rng.uniform(0.02, 0.25)), 2)
        cv2.circle(made, at, size, one_of(rng, palette(rng, 2)), -1, cv2.LINE_AA)
    if rng.random() < 0.4:
        x = np.arange(0, width + 6, 6)
        crest = height * rng.uniform(0.7, 0.95) + cloud(len(x), 1, 9, rng)[0, :, 0] * height * 0.06
        points = np.vstack([np.column_stack([x, crest]), [[width, height], [0, height]]])
        cv2.fillPoly(made, [points.astype(np.int32)], dark_ink(rng), cv2.LINE_AA)
    return made


CHALKED = (crayon, crayon, chalk, coloured_pencil, graphite, graphite, scratched, furry, sprayed)
"""What dry colours draw."""
