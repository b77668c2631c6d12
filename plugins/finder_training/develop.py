"""From light to a stored picture: focus, exposure, what a phone makes of it, colour, JPEG."""

import cv2
import numpy as np

from finder_training.noise import Random, cloud, speckle
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
    if not gentle and rng.random() < 0.3:
        made = (_smeared, _blown, _local_contrast, _haloes, _hazy)[int(rng.integers(5))]
        light = made(light, rng)
    if rng.random() < 0.25:
        sharp = cv2.GaussianBlur(light, (0, 0), 1.2)
        light = light + (light - sharp) * rng.uniform(0.2, 1.2)
    whole = np.clip(_exposed(light), 0, 255).astype(np.uint8)
    if rng.random() < 0.12:
        grey = cv2.cvtColor(whole, cv2.COLOR_RGB2GRAY)[..., None]
        whole = np.clip(grey + (whole - grey.astype(np.float32)) * rng.uniform(0, 1.4), 0, 255)
        whole = whole.astype(np.uint8)
    if rng.random() < 0.12:
        whole = _passed_on(whole, rng)
    return _packed(whole, int(rng.integers(14, 45) if rng.random() < 0.1 else
                              rng.integers(45, 97)))


def _exposed(light: np.ndarray) -> np.ndarray:
    """As a camera's meter leaves it: not so bright or dark that most of the picture is lost."""
    level = float(np.median(light[4::9, 4::9]))
    return light * np.float32(np.clip(level, 5, 244) / level if level > 1 else 1)


def _packed(whole: np.ndarray, quality: int) -> np.ndarray:
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
    if roll < 0.94:
        far = _depth(width, height, rng)[..., None]
    else:
        # A faked shallow depth: everything but what was taken for the subject.
        far = 1 - cv2.GaussianBlur((owner > 0).astype(np.float32), (0, 0), 3)[..., None]
    return light + (soft - light) * np.clip(far, 0, 1)


def _depth(width: int, height: int, rng: Random) -> np.ndarray:
    """How far out of focus, float32 [h, w]: sharp along a line, less so to one side or both."""
    turn = rng.choice([0, np.pi / 2, np.pi, -np.pi / 2]) + rng.normal() * 0.2
    x = np.linspace(-1, 1, width, dtype=np.float32)
    y = np.linspace(-1, 1, height, dtype=np.float32)[:, None]
    along = np.float32(np.cos(turn)) * x + np.float32(np.sin(turn)) * y
    away = (along - np.float32(rng.uniform(-0.8, 0.4))) * np.float32(rng.uniform(0.6, 1.6))
    return np.abs(away) if rng.random() < 0.4 else np.maximum(away, 0)


def _broad(light: np.ndarray, wide: float) -> np.ndarray:
    """Blurred over `wide` px, by way of a quarter of the size."""
    height, width = light.shape[:2]
    small = cv2.resize(light, (width // 4, height // 4), interpolation=cv2.INTER_AREA)
    soft = cv2.GaussianBlur(small, (0, 0), wide / 4)
    return cv2.resize(soft, (width, height), interpolation=cv2.INTER_LINEAR)


def _smeared(light: np.ndarray, rng: Random) -> np.ndarray:
    """Too little light: dim and blotched, then rubbed smooth till fine detail is gone."""
    height, width = light.shape[:2]
    dim = light * np.float32(rng.uniform(0.25, 0.9))
    dim += cloud(width, height, rng.uniform(60, 200), rng, 3) * rng.uniform(3, 16)
    dim += speckle(width, height, rng, 3) * np.float32(rng.uniform(4, 16))
    rubbed = np.clip(dim, 0, 255).astype(np.uint8)
    rubbed = cv2.medianBlur(rubbed, int(rng.choice([3, 5]))).astype(np.float32)
    return rubbed + (dim - rubbed) * np.float32(rng.uniform(0, 0.35))


def _blown(light: np.ndarray, rng: Random) -> np.ndarray:
    """Too much light: pale things clip to white, and the white spills over their edges."""
    bright = light * np.float32(rng.uniform(1.05, 1.45))
    spill = np.maximum(_broad(bright, rng.uniform(5, 25)) - rng.uniform(150, 230), 0)
    return bright + spill * np.float32(rng.uniform(0.2, 0.8))


def _local_contrast(light: np.ndarray, rng: Random) -> np.ndarray:
    """Shadows raised and lights lowered over wide parts, detail kept: as phones flatten light."""
    soft = _broad(light, rng.uniform(12, 50))
    level = 128 + (soft - 128) * np.float32(rng.uniform(0.25, 0.7))
    return level + (light - soft) * np.float32(rng.uniform(1.0, 1.7))


def _haloes(light: np.ndarray, rng: Random) -> np.ndarray:
    """Sharpened by far too much: bright and dark lines beside every edge."""
    soft = cv2.GaussianBlur(light, (0, 0), rng.uniform(1.2, 3.5))
    most = np.float32(rng.uniform(25, 90))
    return light + np.clip((light - soft) * np.float32(rng.uniform(0.8, 2.5)), -most, most)


def _hazy(light: np.ndarray, rng: Random) -> np.ndarray:
    """A greasy lens or light from the front: no black is left."""
    veil = (rng.uniform(60, 200) + rng.normal(size=3) * 8).astype(np.float32)
    share = np.float32(rng.uniform(0.15, 0.55))
    if rng.random() < 0.4:
        way = np.linspace(0, 2, light.shape[1], dtype=np.float32)[None, :, None]
        share = share * (way if rng.random() < 0.5 else way[:, ::-1])
    return light + (veil - light) * share


def _passed_on(whole: np.ndarray, rng: Random) -> np.ndarray:
    """Made small and large again, packed in between: a screenshot, a picture out of a chat."""
    height, width = whole.shape[:2]
    less = rng.uniform(0.4, 0.95)
    ways = (cv2.INTER_AREA, cv2.INTER_LINEAR, cv2.INTER_NEAREST, cv2.INTER_CUBIC)
    size = (max(int(width * less), 8), max(int(height * less), 8))
    small = cv2.resize(whole, size, interpolation=ways[int(rng.choice(4, p=[0.5, 0.3, 0.1, 0.1]))])
    small = _packed(small, int(rng.integers(30, 92)))
    return cv2.resize(small, (width, height), interpolation=ways[int(rng.choice([1, 1, 2, 3, 3]))])
