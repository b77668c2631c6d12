"""Every published picture is a card, exactly in proportion, and nothing but pixels."""

import json
import re
import struct
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from boards import DEMO

# Exif 2.32 and XMP as they begin in files; ICC.1 profiles; the places of a camera's notes.
NOTES = (b"Exif\0\0", b"http://ns.adobe.com", b"<x:xmpmeta", b"ICC_PROFILE", b"<rdf:", b"Photoshop")


def jpeg_markers(data: bytes) -> list[int]:
    """Markers of a JPEG stream up to its first scan (ITU-T T.81, annex B)."""
    assert data[:2] == b"\xff\xd8"
    found, place = [], 2
    while True:
        marker = data[place + 1]
        found.append(marker)
        if marker == 0xDA:
            return found
        place += 2 + struct.unpack(">H", data[place + 2 : place + 4])[0]


def avif_boxes(data: bytes, inside=(b"meta", b"iprp", b"ipco", b"iinf")) -> list[bytes]:
    """Names of all boxes of an AVIF (ISO/IEC 14496-12), those inside `inside` too."""
    found, place = [], 0
    while place + 8 <= len(data):
        size, name = struct.unpack(">I4s", data[place : place + 8])
        size = size or len(data) - place
        found.append(name)
        if name in inside:
            skip = {b"meta": 12, b"iinf": 14}.get(name, 8)
            found += avif_boxes(data[place + skip : place + size], inside)
        place += size
    return found


def pictures(site: Path) -> list[Path]:
    found = sorted((site / "pictures").iterdir())
    assert found
    return found


def test_no_picture_holds_a_note(demo_site):
    """No Exif, GPS, XMP, comment, profile or thumbnail, read off the bytes themselves."""
    for file in pictures(demo_site):
        data = file.read_bytes()
        assert not [note for note in NOTES if note in data], file.name
        if file.suffix == ".jpg":
            # Quantisation, Huffman, frame, scan, restart interval, and the JFIF mark.
            assert set(jpeg_markers(data)) <= {0xE0, 0xDB, 0xC0, 0xC2, 0xC4, 0xDA, 0xDD}
        else:
            names = avif_boxes(data)
            assert b"av1C" in names, "the boxes were not read"
            assert b"infe" in names
            assert data.count(b"Exif") == 0 and data.count(b"mime") == 0
            assert b"thmb" not in data


def test_the_demo_has_notes_to_lose():
    """The check above is worth something: photos of the demo do hold place and serial."""
    held = b"".join(file.read_bytes() for file in sorted((DEMO / "photos").iterdir()))
    assert b"Exif\0\0" in held
    with_place = 0
    for file in sorted((DEMO / "photos").glob("*.jpg")):
        with Image.open(file) as image:
            with_place += bool(image.getexif().get_ifd(0x8825))
    assert with_place


def test_every_picture_has_the_proportion_of_a_card(demo_site):
    """Exactly 5:7 or 7:5 (2.5 × 3.5 in: common practice, no source), never upscaled."""
    for file in pictures(demo_site):
        with Image.open(file) as image:
            width, height = image.size
        assert width * 7 == height * 5 or width * 5 == height * 7, (file.name, image.size)
        named = int(re.search(r"-(\d+)\.", file.name)[1])
        assert named == width


def test_every_card_has_all_its_sizes(demo_site):
    """AVIF in up to four widths and one JPEG, and the page offers what there is."""
    by_card: dict[str, list[str]] = {}
    for file in pictures(demo_site):
        stem, kind = re.fullmatch(r"(.+)-\d+\.(avif|jpg)", file.name).groups()
        by_card.setdefault(stem, []).append(kind)
    for stem, kinds in by_card.items():
        assert kinds.count("jpg") == 1 and 2 <= kinds.count("avif") <= 4, stem
    fronts = {stem.rsplit("-", 1)[0] for stem in by_card}
    assert {post.stem for post in (DEMO / "cards").glob("*.md")} <= fronts


def area(quad) -> float:
    x, y = np.asarray(quad, float).T
    return abs(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))) / 2


def overlap(one, other) -> float:
    """Intersection over union of two convex quadrilaterals.

    Clipping by Sutherland & Hodgman, "Reentrant polygon clipping", 1974.
    """
    def signed(quad):
        x, y = np.asarray(quad, float).T
        return np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))

    clip = list(other) if signed(other) > 0 else list(reversed(other))
    shape = [tuple(point) for point in one]
    for (ax, ay), (bx, by) in zip(clip, clip[1:] + clip[:1], strict=True):
        def side(p, ax=ax, ay=ay, bx=bx, by=by):
            return (bx - ax) * (p[1] - ay) - (by - ay) * (p[0] - ax)

        cut = []
        for p, q in zip(shape, shape[1:] + shape[:1], strict=True):
            sp, sq = side(p), side(q)
            if sp >= 0:
                cut.append(p)
            if sp * sq < 0:
                t = sp / (sp - sq)
                cut.append((p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])))
        shape = cut
        if not shape:
            return 0.0
    both = area(shape)
    return both / (area(one) + area(other) - both)


def test_the_measure_of_overlap_is_right():
    """Worked by hand: unit squares half a side apart share 1/2 of 3/2; none share 0."""
    square = [(0, 0), (1, 0), (1, 1), (0, 1)]
    moved = [(0.5, 0), (1.5, 0), (1.5, 1), (0.5, 1)]
    assert overlap(square, moved) == pytest.approx(1 / 3)
    assert overlap(square, square) == pytest.approx(1)
    assert overlap(square, [(2, 2), (3, 2), (3, 3), (2, 3)]) == 0


def test_every_demo_card_is_cut_where_it_lies(demo_cache):
    """IoU of at least 0.97 with the known corners, and the card's own top left first.

    The truth is the camera's own: the photos were rendered through it. The first
    corner being right means that none is upside down, sideways or mirrored.
    """
    from swapboard.disk.cutting import cut_photos
    from swapboard.disk.load import load_board

    truth = json.loads((DEMO / "truth.json").read_text("utf-8"))
    loaded = load_board(demo_cache)
    cut, _ = cut_photos(loaded, 1, None)
    known = {(c["card"], c["side"]): c["corners"] for cards in truth.values() for c in cards}
    assert set(known) == set(cut)
    for key, corners in known.items():
        found = cut[key].found.corners
        assert overlap(found, corners) >= 0.97, key
        off = [np.hypot(x - corners[0][0], y - corners[0][1]) for x, y in found]
        assert int(np.argmin(off)) == 0, key
        assert not cut[key].found.doubtful, key
