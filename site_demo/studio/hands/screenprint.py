"""Screenprint: flat inks through a mesh, one screen a colour, never quite in register."""

import cv2
import numpy as np

from ..cartoon import Cartoon, brightness
from ..grain import cloud, paper, speckle
from ..sheet import blurred, colour, shifted

Array = np.ndarray
Random = np.random.Generator


def screenprinted(art: Cartoon, seed: int, stock: str = "#f3ecdc", margin: int = 40,
                  stray: float = 3.2, fades: dict[str, tuple[float, float]] | None = None) -> Array:
    """The design pulled ink by ink, the lightest first; the ground is an ink unless it is `stock`.

    `stray` px of misregistration. `fades` breaks an ink into halftone dots, from the share of
    its upper edge to that of its lower, 0 to 1.
    """
    rng = np.random.default_rng(seed)
    sheet = paper(art.size, colour(stock), rng, 0.018)
    plate, tints = art.labels()
    frame = np.zeros(art.size[::-1], np.float32)
    frame[margin:-margin, margin:-margin] = 1
    for tint in sorted(tints, key=brightness, reverse=True):
        if tint == stock:
            continue
        stencil = trapped(plate, tints, tint, stock) * frame
        if fades and tint in fades:
            stencil = halftone(stencil, *fades[tint])
        offset = rng.normal(0, stray, 2)
        pull(sheet, shifted(blurred(stencil, 0.7), *offset), tint, rng)
    return np.clip(sheet, 0, 1)


def trapped(plate: Array, tints: list[str], tint: str, stock: str) -> Array:
    """The stencil of one ink, let out a little under the inks that are darker than it."""
    own = (plate == tints.index(tint)).astype(np.uint8)
    wide = cv2.dilate(own, np.ones((9, 9), np.uint8))
    darker = np.isin(plate, [number for number, other in enumerate(tints)
                             if brightness(other) < brightness(tint) and other != stock])
    return np.where(darker, wide, own).astype(np.float32)


def halftone(stencil: Array, top: float, bottom: float, pitch: float = 13.0) -> Array:
    """The stencil in dots on a lattice at 45 degrees, growing from `top` to `bottom` cover."""
    height, width = stencil.shape
    y, x = np.mgrid[0:height, 0:width].astype(np.float32)
    rows = np.flatnonzero(stencil.max(1) > 0.5)
    if len(rows) == 0:
        return stencil
    share = top + (bottom - top) * np.clip((y - rows[0]) / max(1, rows[-1] - rows[0]), 0, 1)
    wave = np.cos((x + y) * np.pi / pitch) * np.cos((x - y) * np.pi / pitch)
    return stencil * np.clip((wave - (1 - 2 * share)) * 4 + 0.5, 0, 1)


def pull(sheet: Array, stencil: Array, tint: str, rng: Random) -> None:
    """One pass of the squeegee, in place: an even film, the mesh showing where it ran thin."""
    size = (stencil.shape[1], stencil.shape[0])
    thin = np.clip(cloud(size, 300, rng, 3) - 1.5, 0, 1)
    pin = np.clip(speckle(size, 0.8, rng) - 2.3 + thin * 2.2, 0, 1)
    film = stencil * (1 - pin) * (0.965 + 0.01 * cloud(size, 200, rng, 2))
    ink = colour(tint) * (1 + 0.012 * speckle(size, 0.9, rng))[:, :, None]
    lapped = ink * (0.62 + 0.38 * np.clip(sheet / 0.93, 0, 1))
    sheet += (lapped - sheet) * np.clip(film, 0, 1)[:, :, None]
