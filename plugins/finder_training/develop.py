"""From light to a stored picture: focus, exposure, colour, noise, JPEG."""

import cv2
import numpy as np

from finder_training.noise import Random, speckle
from finder_training.stage import Stage


def develop(stage: Stage, rng: Random, gentle: bool = False) -> np.ndarray:
    """The stage as a phone or scanner stores it, uint8 [h, w, 3]; `gentle` for scanners."""
    light = stage.picture
    if not gentle:
        light = _focus(light, stage.owner, rng)
    gain = rng.uniform(0.75, 1.25)
    if not gentle and rng.random() < 0.08:
        gain = rng.uniform(0.06, 0.35)
    elif not gentle and rng.random() < 0.08:
        gain = rng.uniform(1.25, 1.7)
    tint = 1 + rng.normal(size=3) * (0.01 if gentle else rng.choice([0.03, 0.09]))
    light = light * (gain * tint).astype(np.float32)
    height, width = light.shape[:2]
    rough = rng.uniform(0, 1.5) if gentle else rng.uniform(0.5, 6) * rng.uniform(0.3, 1)
    light = light + speckle(width, height, rng, 3) * np.float32(rough)
    if rng.random() < 0.25:
        sharp = cv2.GaussianBlur(light, (0, 0), 1.2)
        light = light + (light - sharp) * rng.uniform(0.2, 1.2)
    whole = np.clip(light, 0, 255).astype(np.uint8)
    if rng.random() < 0.12:
        grey = cv2.cvtColor(whole, cv2.COLOR_RGB2GRAY)[..., None]
        whole = np.clip(grey + (whole - grey.astype(np.float32)) * rng.uniform(0, 1.4), 0, 255)
        whole = whole.astype(np.uint8)
    quality = int(rng.integers(45, 97))
    _, packed = cv2.imencode(".jpg", whole, [cv2.IMWRITE_JPEG_QUALITY, quality])
    return cv2.imdecode(packed, cv2.IMREAD_COLOR)


def _focus(light: np.ndarray, owner: np.ndarray, rng: Random) -> np.ndarray:
    height, width = light.shape[:2]
    roll = rng.random()
    if roll < 0.25:
        return light
    if roll < 0.65:
        return cv2.GaussianBlur(light, (0, 0), rng.uniform(0.4, 1.4))
    if roll < 0.75:
        size = int(rng.integers(3, 11))
        smear = np.zeros((size, size), np.float32)
        end = rng.normal(size=2)
        end = end / np.hypot(*end) * size / 2
        middle = np.array([size / 2, size / 2])
        cv2.line(smear, tuple((middle - end).astype(int)), tuple((middle + end).astype(int)), 1.0)
        return cv2.filter2D(light, -1, smear / max(smear.sum(), 1))
    if roll < 0.85:
        less = rng.uniform(0.3, 0.7)
        small = cv2.resize(light, None, fx=less, fy=less, interpolation=cv2.INTER_AREA)
        return cv2.resize(small, (width, height), interpolation=cv2.INTER_CUBIC)
    soft = cv2.GaussianBlur(light, (0, 0), rng.uniform(1.5, 4))
    if roll < 0.93:
        far = np.abs(np.linspace(-rng.uniform(0, 1), 1, height, dtype=np.float32))[:, None, None]
    else:
        # A faked shallow depth: everything but what was taken for the subject.
        far = 1 - cv2.GaussianBlur((owner > 0).astype(np.float32), (0, 0), 3)[..., None]
    return light + (soft - light) * np.clip(far, 0, 1)
