"""Light that wrinkled film throws into pockets: soft patches with bright rims, over card and table
alike."""

from dataclasses import replace
from typing import TYPE_CHECKING

import cv2
import numpy as np

from finder_training.noise import cloud

if TYPE_CHECKING:
    from finder_training.scenes import Scene

WIDE, TALL = 60, 84


def with_glints(scene: "Scene", rng: np.random.Generator) -> "Scene":
    """A page's scene in whose pockets, full ones and empty ones, film glints."""
    height, width = scene.picture.shape[:2]
    own = np.array([[0, 0], [WIDE, 0], [WIDE, TALL], [0, TALL]], np.float32)
    light = np.zeros((height, width), np.float32)
    often, strong = rng.uniform(0.3, 1.0), rng.uniform(25, 140)
    cells, rims = rng.uniform(1.5, 6), rng.random() < 0.5
    for quad in (*scene.quads, *scene.decoys):
        if rng.random() > often:
            continue
        field = cloud(WIDE, TALL, cells, rng)[..., 0]
        near = 1 - np.abs(field) / rng.uniform(0.08, 0.3) if rims else field - rng.uniform(0.1, 0.4)
        way = cv2.getPerspectiveTransform(own, np.float32(quad))
        glint = np.clip(near, 0, 1).astype(np.float32) * strong
        light = np.maximum(light, cv2.warpPerspective(glint, way, (width, height)))
    seen = scene.picture.astype(np.float32)
    seen += (255 - seen) * (light / 255)[..., None]
    return replace(scene, picture=np.clip(seen, 0, 255).astype(np.uint8))
