"""Broken and odd pictures on their way through a whole build."""

import struct
import zlib
from io import BytesIO

import numpy as np
import pytest
from PIL import Image, ImageCms

from hostile.small_board import build, errors_of, make


def card_photo(width=300, height=400):
    """A pale card on a dark table."""
    pixels = np.full((height, width, 3), 50, np.uint8)
    pixels[60:-60, 60:-60] = 235
    pixels[120:200, 100:180] = (200, 40, 40)
    return pixels


def saved(image, kind, **options):
    out = BytesIO()
    image.save(out, kind, **options)
    return out.getvalue()


def png_that_says(width, height):
    """A PNG of a few bytes that claims any size (PNG, third edition, 11.2.1)."""

    def chunk(kind, data):
        crc = zlib.crc32(kind + data)
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", crc)

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(
        b"IDAT", zlib.compress(b"\0" * 1000)) + chunk(b"IEND", b"")


def plain():
    return Image.fromarray(card_photo())


BROKEN = {
    "a truncated JPEG": lambda: saved(plain(), "JPEG")[:900],
    "a text": lambda: b"this is no picture\n" * 50,
    "an empty file": lambda: b"",
    "a web page": lambda: b"<!doctype html><script>alert(1)</script>",
    "a drawing with a script": lambda: b"<svg xmlns='http://www.w3.org/2000/svg' onload='x()'/>",
    "an archive": lambda: b"PK\x03\x04" + bytes(2000),
    "a bomb": lambda: png_that_says(60_000, 60_000),
    "a bomb beyond all": lambda: png_that_says(2**31 - 1, 2**31 - 1),
    "less than its size": lambda: png_that_says(3000, 3000),
    "a strip": lambda: saved(Image.new("RGB", (1, 20_000)), "PNG"),
    "a dot": lambda: saved(Image.new("RGB", (1, 1)), "PNG"),
    "only a beginning": lambda: b"\xff\xd8\xff\xe0",
    "an AVIF of nothing": lambda: b"\0\0\0\x1cftypavif\0\0\0\0avifmif1" + bytes(100),
    "a GIF": lambda: saved(plain(), "GIF"),
}
ODD = {
    "CMYK": lambda: saved(plain().convert("CMYK"), "JPEG"),
    "grey": lambda: saved(plain().convert("L"), "JPEG"),
    "sixteen bits": lambda: saved(
        Image.fromarray(card_photo()[..., 0].astype(np.uint16) * 257), "PNG"),
    "a palette with clear parts": lambda: saved(
        plain().convert("P", palette=Image.Palette.ADAPTIVE), "PNG", transparency=0),
    "clear": lambda: saved(Image.new("RGBA", (300, 400)), "PNG"),
    "animated": lambda: saved(
        plain(), "WEBP", save_all=True, append_images=[Image.new("RGB", (300, 400))]),
    "one bit": lambda: saved(plain().convert("1"), "TIFF"),
    "many pages": lambda: saved(plain(), "TIFF", save_all=True, append_images=[plain()]),
    "a broken profile": lambda: saved(plain(), "JPEG", icc_profile=b"no profile" * 20),
    "another profile": lambda: saved(plain(), "JPEG", icc_profile=ImageCms.ImageCmsProfile(
        ImageCms.createProfile("XYZ")).tobytes()),
    "a long strip": lambda: saved(Image.new("RGB", (4000, 64), "white"), "PNG"),
    "broken notes": lambda: saved(plain(), "JPEG", exif=b"Exif\0\0II*\0\xff\xff\xff\xff"),
}


@pytest.mark.parametrize("kind", BROKEN)
def test_a_broken_picture_is_named_and_the_rest_can_be_built(tmp_path, kind):
    """The error is the picture's; with --set-aside its card alone stays out."""
    board = make(tmp_path, {
        "cards/heron.md": "Title: Heron\nPhoto: x.jpg\n", "photos/x.jpg": BROKEN[kind](),
    })
    built = build(board)
    assert not built.done
    assert [e for e in errors_of(built) if e.startswith("photos/x.jpg")], built.problems
    rest = build(board, set_aside=True)
    assert rest.done
    assert "cards/heron.md" in " ".join(rest.left_out)
    assert (board / "output" / "cards" / "fog.html").is_file()
    assert not (board / "output" / "cards" / "heron.html").exists()


@pytest.mark.parametrize("kind", ODD)
def test_an_odd_picture_is_shown_or_named(tmp_path, kind):
    """Every colour mode and number of pages ends as a plain AVIF, or in words."""
    board = make(tmp_path, {
        "cards/heron.md": "Title: Heron\nPhoto: x.png\n", "photos/x.png": ODD[kind](),
    })
    built = build(board)
    if not built.done:
        assert [e for e in errors_of(built) if e.startswith("photos/x.png")], built.problems
        return
    made = list((board / "output" / "pictures").iterdir())
    assert made
    for file in made:
        with Image.open(file) as image:
            image.load()
            assert image.mode == "RGB" and getattr(image, "n_frames", 1) == 1
            assert not image.getexif() and "icc_profile" not in image.info
