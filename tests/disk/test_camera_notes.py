"""Photos are stored without place, owner and serial number, and without loss."""

from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from swapboard.disk.camera_notes import bare_jpeg, without_notes

SECRETS = (b"SECRET-SERIAL", b"SECRET-OWNER", b"SECRET-COMMENT", b"SECRET-XMP")


def noisy(width=64, height=48):
    """A picture in which every pixel counts; seeded."""
    return np.random.default_rng(7).integers(0, 256, (height, width, 3), dtype=np.uint8)


def exif_with_secrets(orientation=6, nested=True):
    exif = Image.Exif()
    exif[0x0112] = orientation
    exif[0x010E] = "SECRET-COMMENT"
    exif[0x013B] = "SECRET-OWNER"
    if nested:
        exif[0x8769] = {0xA430: "SECRET-OWNER", 0xA431: "SECRET-SERIAL", 0xA405: 26}
        exif[0x8825] = {1: "N", 2: (47.0, 16.0, 7.0), 3: "E", 4: (11.0, 23.0, 36.0)}
    return exif


def photo(tmp_path, kind, **more):
    file = tmp_path / f"photo.{kind.lower()}"
    exif = exif_with_secrets(nested=kind != "TIFF")  # Pillow writes no nested notes there
    Image.fromarray(noisy()).save(file, kind, exif=exif, **more)
    return file


def with_jpeg_extras(data):
    """The same JPEG with a comment, an XMP packet and a second picture behind it."""
    comment = b"\xff\xfe" + (2 + 14).to_bytes(2, "big") + b"SECRET-COMMENT"
    xmp = b"http://ns.adobe.com/xap/1.0/\0SECRET-XMP"
    packet = b"\xff\xe1" + (len(xmp) + 2).to_bytes(2, "big") + xmp
    return data[:2] + comment + packet + data[2:] + data


@pytest.mark.parametrize("progressive", [False, True])
def test_a_jpeg_keeps_its_very_pixels_and_loses_its_notes(tmp_path, progressive):
    """Segments are dropped, nothing is compressed again."""
    file = photo(tmp_path, "JPEG", quality=92, progressive=progressive, comment=b"SECRET-COMMENT",
                 icc_profile=b"not a real profile but kept")
    file.write_bytes(with_jpeg_extras(file.read_bytes()))
    bare, ending = without_notes(file)
    assert ending == ".jpg"
    assert not any(secret in bare for secret in SECRETS)
    with Image.open(file) as before, Image.open(BytesIO(bare)) as after:
        assert np.array_equal(np.asarray(before), np.asarray(after))
        exif = after.getexif()
        # Exif 2.32: 0x0112 orientation, 0xA405 focal length, 0x8825 GPS
        assert exif[0x0112] == 6
        assert exif.get_ifd(0x8769) == {0xA405: 26}
        assert not exif.get_ifd(0x8825)
        assert after.info["icc_profile"] == b"not a real profile but kept"
    assert bare.count(b"\xff\xd8\xff") == 1, "a second picture is left"


@pytest.mark.parametrize("kind", ["PNG", "WEBP", "TIFF", "AVIF"])
def test_other_formats_lose_their_notes_too(tmp_path, kind):
    """Written anew, upright, without any notes."""
    bare, ending = without_notes(photo(tmp_path, kind))
    assert ending == (".png" if kind == "PNG" else ".jpg")
    assert not any(secret in bare for secret in SECRETS)
    with Image.open(BytesIO(bare)) as after:
        assert after.size == (48, 64), "orientation 6 stands a picture on its side"
        assert not dict(after.getexif())
        if kind == "PNG":
            assert np.array_equal(np.asarray(after), np.rot90(noisy(), -1))


@pytest.mark.parametrize("cut", [3, 20, 200, -2])
def test_a_cut_off_jpeg_is_refused(tmp_path, cut):
    """A stream that ends too early is an error, not half a picture."""
    data = photo(tmp_path, "JPEG").read_bytes()
    with pytest.raises(ValueError, match="JPEG|too early"):
        bare_jpeg(data[:cut])
