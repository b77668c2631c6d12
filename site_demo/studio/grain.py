"""Noise, paper tooth, weave and wood: the materials under every hand."""

import cv2
import numpy as np

Array = np.ndarray
Random = np.random.Generator


def cloud(size: tuple[int, int], scale: float, rng: Random, octaves: int = 4,
          stretch: tuple[float, float] = (1.0, 1.0)) -> Array:
    """Smooth noise [height, width], mean 0 and standard deviation 1.

    `size` is (width, height), `scale` the size in px of the largest lumps and
    `stretch` how much longer they are along x and along y. Each octave halves
    the lumps and their strength (value noise, cubic between lattice points).
    """
    width, height = size
    field = np.zeros((height, width), np.float32)
    for octave in range(octaves):
        lump = max(scale / 2**octave, 1.0)
        columns = max(2, int(width / (lump * stretch[0])) + 3)
        rows = max(2, int(height / (lump * stretch[1])) + 3)
        lattice = rng.standard_normal((rows, columns)).astype(np.float32)
        layer = cv2.resize(lattice, (width, height), interpolation=cv2.INTER_CUBIC)
        field += layer * 0.5**octave
    field -= field.mean()
    return field / max(float(field.std()), 1e-6)


def speckle(size: tuple[int, int], blur: float, rng: Random) -> Array:
    """Fine even noise [height, width], mean 0 and standard deviation 1, blurred by `blur` px."""
    field = rng.standard_normal((size[1], size[0])).astype(np.float32)
    if blur > 0:
        field = cv2.GaussianBlur(field, (0, 0), blur)
    field -= field.mean()
    return field / float(field.std())


def tooth(size: tuple[int, int], rng: Random, coarse: float = 3.0) -> Array:
    """The hills and hollows of drawing paper, 0 to 1: pigment sits in the low ones."""
    field = speckle(size, coarse * 0.45, rng) * 0.7 + speckle(size, coarse, rng) * 0.5
    return np.clip(0.5 + field * 0.22, 0, 1)


def paper(size: tuple[int, int], colour: Array, rng: Random, rough: float = 0.015) -> Array:
    """A blank sheet of `colour` with tooth, faint clouding and a few fibres."""
    relief = tooth(size, rng)
    shade = 1 + (cv2.Sobel(relief, cv2.CV_32F, 1, 1) * 0.5 + relief - 0.5) * rough * 2
    shade += cloud(size, 300, rng, 3) * rough * 0.4
    sheet = colour[None, None, :] * shade[:, :, None]
    return np.clip(sheet * fibres(size, rng, 60)[:, :, None], 0, 1).astype(np.float32)


def fibres(size: tuple[int, int], rng: Random, count: int, strength: float = 0.05) -> Array:
    """A multiplier [height, width] with `count` short curled fibres a shade darker."""
    plate = np.zeros((size[1], size[0]), np.uint8)
    for _ in range(count):
        x, y = rng.uniform(0, size[0]), rng.uniform(0, size[1])
        turn = rng.uniform(0, 2 * np.pi) + np.cumsum(rng.normal(0, 0.25, 12))
        points = np.cumsum(np.stack([np.cos(turn), np.sin(turn)], 1) * 3, 0) + (x, y)
        cv2.polylines(plate, [np.int32(points * 16)], False, int(rng.uniform(90, 255)), 1,
                      cv2.LINE_AA, 4)
    return 1 - plate.astype(np.float32) / 255 * strength


def weave(size: tuple[int, int], pitch: float, rng: Random) -> Array:
    """Plain weave [height, width], 0 in the gaps to about 1 on the threads; `pitch` px a thread."""
    width, height = size
    y, x = np.mgrid[0:height, 0:width].astype(np.float32)
    x += cloud(size, 60, rng, 3, (1, 4)) * pitch * 0.14
    y += cloud(size, 60, rng, 3, (4, 1)) * pitch * 0.14
    across, down = x / pitch, y / pitch
    over = (np.floor(across) + np.floor(down)) % 2
    warp = np.sin(np.pi * (across % 1)) ** 0.6 * (0.72 + 0.28 * np.sin(np.pi * (down % 1)))
    weft = np.sin(np.pi * (down % 1)) ** 0.6 * (0.72 + 0.28 * np.sin(np.pi * (across % 1)))
    slub = 1 + 0.06 * cloud(size, 40, rng, 3, (1, 12)) + 0.06 * cloud(size, 40, rng, 3, (12, 1))
    return (np.where(over > 0, warp, weft) * slub).astype(np.float32)


def wood(size: tuple[int, int], light: Array, dark: Array, rng: Random,
         ring: float = 42.0, lift: float = 0.5) -> Array:
    """A planed board, its grain along x: rings `ring` px apart, pores, a slow drift of colour."""
    width, height = size
    y = np.mgrid[0:height, 0:width][0].astype(np.float32)
    bend = cloud(size, 380, rng, 3, (7.0, 0.8)) * ring * 0.9
    drift = cloud(size, 16, rng, 2, (30, 1.0)) * ring * 0.06
    phase = (y + bend + drift) / ring
    late = (phase % 1) ** 3
    figure = late * 0.42 + cloud(size, 9, rng, 2, (40, 1)) * 0.10 + 0.2
    pores = np.clip(cloud(size, 2.4, rng, 1, (26, 1)) - 1.35, 0, 1.5)
    amount = np.clip(figure * lift * 1.6 + pores * 0.35 + cloud(size, 500, rng, 2) * 0.05, 0, 1)
    return (light + (dark - light) * amount[:, :, None]).astype(np.float32)
