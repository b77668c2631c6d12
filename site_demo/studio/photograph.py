"""Lays cards on a table, lights them, takes the picture."""

from dataclasses import dataclass

import cv2
import numpy as np

from .camera import View, for_pixels, homography, placed, projected
from .grain import cloud
from .line import along, box
from .sheet import blurred, filled
from .sleeve import over_page, under_page
from .tables import TABLES

Array = np.ndarray
Random = np.random.Generator

FINE = 2
CORNER = 37.5


@dataclass(frozen=True, slots=True)
class Laid:
    """One card on the table: which, which side, where its middle lies and how it is turned."""

    card: str
    centre: tuple[float, float] = (0.0, 0.0)
    degrees: float = 0.0
    side: str = "front"


@dataclass(frozen=True, slots=True)
class Scene:
    """One photograph: the cards, the table, the camera and the light.

    `warmth` tints the light (above 0 towards lamp light, below towards the
    north window), `light` is the direction in degrees from which it falls, and
    `falloff` how much darker the far corner is. `quality` is the JPEG's; `sleeved`
    puts the cards into a nine-pocket page whose middle is the table's.
    """

    file: str
    laid: tuple[Laid, ...]
    table: str = "oak"
    view: View = View()
    warmth: float = 0.0
    light: float = 215.0
    falloff: float = 0.25
    exposure: float = 1.0
    noise: float = 0.006
    blur: float = 0.55
    seed: int = 1
    scan: bool = False
    stored: str = "plain"
    quality: int = 85
    sleeved: bool = False


def edge_mask(size: tuple[int, int], edge: str, rng: Random) -> Array:
    """The outline of the card stock itself, uint8-soft [height, width]: square, rounded or torn.

    Rounded corners have the usual radius of 1/8 in; a torn card has lost up to
    4 hundredths of an inch along its long bottom or right edge.
    """
    width, height = size
    mask = np.ones((height, width), np.float32)
    if edge == "rounded":
        small = filled(size, box(CORNER, CORNER, width - CORNER, height - CORNER))
        apart = cv2.distanceTransform((small < 0.5).astype(np.uint8), cv2.DIST_L2, 5)
        mask = np.clip(CORNER + 0.5 - apart, 0, 1)
    if edge == "torn":
        x = np.arange(width)
        ragged = 5 + 2.6 * cloud((width, 1), 120, rng, 5)[0] + 1.2 * rng.standard_normal(width)
        y = np.arange(height)[:, None]
        mask = np.clip(height - np.clip(ragged, 0, 12)[x] - y, 0, 1)
    return mask.astype(np.float32)


def table_under(scene: Scene, matrix: Array, rng: Random) -> Array:
    """The bare table as the camera sees it, FINE times the picture's size."""
    width, height = scene.view.size
    seen = projected(np.linalg.inv(matrix), box(0, 0, width, height))
    low, high = seen.min(0) - 20, seen.max(0) + 20
    scale = min(1.0, 1.1 * width / scene.view.span)
    size = tuple(int(v) for v in np.ceil((high - low) * scale))
    top = TABLES[scene.table](size, scale, rng)
    to_table = np.array([[1, 0, low[0]], [0, 1, low[1]], [0, 0, 1]])
    warp = for_pixels(matrix @ to_table, scale, FINE)
    return cv2.warpPerspective(top, warp, (width * FINE, height * FINE), flags=cv2.INTER_LINEAR,
                               borderMode=cv2.BORDER_REFLECT)


def shadow_of(scene: Scene, matrix: Array) -> Array:
    """How much light the cards take from the table, 0 to 1, FINE times the picture's size."""
    width, height = scene.view.size
    size = (width * FINE, height * FINE)
    grain_px = width * FINE / scene.view.span
    total = np.zeros(size[::-1], np.float32)
    away = np.array([np.cos(np.radians(scene.light)), np.sin(np.radians(scene.light))])
    for reach, soft, depth in ((3.0, 2.5, 0.5), (12.0, 12.0, 0.34), (26.0, 40.0, 0.22)):
        outlines = []
        for laid, (w, h) in ((one, card_size(one)) for one in scene.laid):
            at = matrix @ placed((w, h), laid.centre, laid.degrees)
            outlines.append(projected(at, along(box(0, 0, w, h), 60, True)) * FINE
                            - away * reach * grain_px)
        cast = blurred(filled(size, *outlines), soft * grain_px)
        total = 1 - (1 - total) * (1 - depth * cast)
    return total


def card_size(laid: Laid) -> tuple[int, int]:
    """The card's (width, height) in card px."""
    from .pictures import PICTURES

    return PICTURES[laid.card].size


def lit(picture: Array, scene: Scene) -> Array:
    """`picture` under the scene's light: falloff across the table, vignette and tint."""
    height, width = picture.shape[:2]
    y, x = np.mgrid[0:height, 0:width].astype(np.float32)
    x, y = x / width - 0.5, (y - height / 2) / width
    toward = x * np.cos(np.radians(scene.light)) + y * np.sin(np.radians(scene.light))
    shade = 1 - scene.falloff * (0.5 - toward) * 0.7 - 0.35 * scene.falloff * (x * x + y * y) * 2
    tint = np.array([1 + 0.09 * scene.warmth, 1.0 + 0.012 * scene.warmth, 1 - 0.13 * scene.warmth])
    linear = np.power(picture, 2.2) * (shade * scene.exposure)[:, :, None]
    return np.power(np.clip(linear * tint.astype(np.float32), 0, 1), 1 / 2.2)


def seen_card(face: Array, alpha: Array, warp: Array, size: tuple[int, int]) -> tuple[Array, Array]:
    """A card's face and its outline through the camera; the face is bled past its edge."""
    bled = cv2.copyMakeBorder(face, 4, 4, 4, 4, cv2.BORDER_REPLICATE)
    rim = cv2.copyMakeBorder(alpha, 4, 4, 4, 4, cv2.BORDER_CONSTANT, value=0)
    back = warp @ np.array([[1, 0, -4], [0, 1, -4], [0, 0, 1.0]])
    return (cv2.warpPerspective(bled, back, size, flags=cv2.INTER_LINEAR),
            cv2.warpPerspective(rim, back, size, flags=cv2.INTER_LINEAR))


def corners_of(scene: Scene) -> tuple[tuple[Laid, Array], ...]:
    """Each card with its true corners [4, 2], clockwise from its own top left, in the picture."""
    if scene.scan:
        (only,) = scene.laid
        return ((only, box(0, 0, *scene.view.size)),)
    matrix = homography(scene.view)
    found = []
    for laid in scene.laid:
        size = card_size(laid)
        found.append((laid, projected(matrix @ placed(size, laid.centre, laid.degrees),
                                      box(0, 0, *size))))
    return tuple(found)


def take(scene: Scene, faces: dict[tuple[str, str], Array], edges: dict[str, str]) -> Array:
    """The photograph, uint8 [height, width, 3]: `faces` by (card, side), `edges` by card.

    Drawn FINE times as large and averaged down, so that edges fall between pixels.
    """
    rng = np.random.default_rng(scene.seed)
    width, height = scene.view.size
    if scene.scan:
        face = faces[scene.laid[0].card, scene.laid[0].side]
        return as_bytes(cv2.resize(face, scene.view.size, interpolation=cv2.INTER_AREA))
    matrix = homography(scene.view)
    picture = table_under(scene, matrix, rng)
    if scene.sleeved:
        under_page(picture, matrix, FINE)
    picture *= (1 - shadow_of(scene, matrix))[:, :, None]
    for laid in scene.laid:
        face = faces[laid.card, laid.side]
        size = (face.shape[1], face.shape[0])
        alpha = edge_mask(size, edges[laid.card], np.random.default_rng(scene.seed + 77))
        warp = for_pixels(matrix @ placed(size, laid.centre, laid.degrees), 1.0, FINE)
        image, cover = seen_card(face, alpha, warp, (width * FINE, height * FINE))
        picture += (image - picture) * cover[:, :, None]
    if scene.sleeved:
        over_page(picture, matrix, FINE, np.random.default_rng(scene.seed + 5))
    picture = lit(cv2.resize(picture, (width, height), interpolation=cv2.INTER_AREA), scene)
    picture = blurred(picture, scene.blur)
    luminance = rng.standard_normal((height, width, 1)).astype(np.float32)
    picture += scene.noise * (luminance + 0.35 * rng.standard_normal(picture.shape))
    return as_bytes(picture)


def as_bytes(picture: Array) -> Array:
    """A float picture as uint8."""
    return np.uint8(np.clip(np.round(picture * 255), 0, 255))
