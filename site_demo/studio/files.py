"""Arrays and records to files: photos/ and truth.json."""

import io
import json
from pathlib import Path

import numpy as np

from .phone import exif_block, sideways
from .photograph import Scene, corners_of, take
from .pictures import PICTURES
from .scenes import SCENES

Array = np.ndarray
EDGES = {name: picture.edge for name, picture in PICTURES.items()}


def seed_of(card: str) -> int:
    """A card's own seed, the same on every machine: its name's letters, weighted by place."""
    return sum((place + 1) * ord(letter) for place, letter in enumerate(card))


def face_of(card: str, side: str) -> Array:
    """One side of a card, drawn."""
    picture = PICTURES[card]
    draw = picture.draw if side == "front" else picture.back
    return draw(seed_of(card)).astype(np.float32)


def render(scene: Scene) -> Array:
    """A photograph with its cards drawn for it: uint8 [height, width, 3], upright."""
    faces = {(laid.card, laid.side): face_of(laid.card, laid.side) for laid in scene.laid}
    return take(scene, faces, EDGES)


def encoded(picture: Array, scene: Scene) -> bytes:
    """The photograph as its file's bytes, in the format that its name says."""
    from PIL import Image

    kind = scene.file.rsplit(".", 1)[1]
    held = io.BytesIO()
    if scene.stored == "sideways":
        small = io.BytesIO()
        Image.fromarray(picture).resize((160, 120)).save(small, "JPEG", quality=60)
        Image.fromarray(sideways(picture)).save(held, "JPEG", quality=85,
                                                exif=exif_block(small.getvalue(), 6))
        return held.getvalue()
    image = Image.fromarray(picture)
    if kind == "heic":
        import pillow_heif

        pillow_heif.from_pillow(image).save(held, quality=62)
    elif kind == "png":
        flat = image.quantize(160, dither=Image.Dither.NONE)
        flat.save(held, "PNG", optimize=True)
    elif kind == "webp":
        image.save(held, "WEBP", quality=86, method=4)
    else:
        image.save(held, "JPEG", quality=scene.quality, optimize=True)
    return held.getvalue()


def truth() -> dict[str, list[dict]]:
    """Where each card lies in each photograph, known from the camera: by file, in scene order.

    Corners are clockwise from the card's own top left, in px of the upright
    picture, on the continuous plane ((0, 0) is the outer corner of the first pixel).
    """
    return {scene.file: [{"card": laid.card, "side": laid.side,
                          "corners": [[round(float(v), 3) for v in point] for point in points]}
                         for laid, points in corners_of(scene)]
            for scene in sorted(SCENES, key=lambda one: one.file)}


def write_photo(scene: Scene, folder: Path) -> int:
    """Draw, photograph and save one scene; returns the file's size in bytes."""
    data = encoded(render(scene), scene)
    (folder / scene.file).write_bytes(data)
    return len(data)


def write_truth(path: Path) -> None:
    """Save `truth`, one card a line."""
    lines = []
    for file, cards in truth().items():
        rows = ",\n".join("    " + json.dumps(card) for card in cards)
        lines.append(f"  {json.dumps(file)}: [\n{rows}\n  ]")
    path.write_text("{\n" + ",\n".join(lines) + "\n}\n", encoding="utf-8")
