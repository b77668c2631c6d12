"""A photo without what the camera noted: place, owner, serial numbers, thumbnails.

The picture itself is kept as it is, to the bit, where its format allows.
"""

import struct
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np

# Exif 2.32: orientation, and the focal length that tells true proportions.
_ORIENTATION, _EXIF_FOLDER, _FOCAL_LENGTH_35_MM = 0x0112, 0x8769, 0xA405
_HAS_NO_LENGTH = {0x01, *range(0xD0, 0xD8)}  # ITU-T T.81, table B.1
_START_OF_SCAN, _END_OF_IMAGE = 0xDA, 0xD9
_KEPT = {*range(0xC0, 0xD0), 0xDB, 0xDD}  # tables, frame and restart interval
_PNG = b"\x89PNG\r\n\x1a\n"  # PNG, third edition, 5.2
KEPT_QUALITY = 95


def without_notes(file: Path, pixels: "np.ndarray | None" = None) -> tuple[bytes, str]:
    """The picture in `file` without notes, and the ending its name should have.

    A JPEG keeps its very pixels, its colour profile, its orientation and focal
    length. A PNG is written anew without loss; any other format becomes a JPEG
    of high quality, made from `pixels` where they are known already: the upright
    picture in sRGB, uint8 [h, w, 3]. Raises OSError or ValueError, and whatever
    else a decoder may, where the picture is broken.
    """
    from PIL import Image
    from pillow_heif import register_heif_opener

    register_heif_opener()
    data = file.read_bytes()
    if data[:2] == b"\xff\xd8":
        return bare_jpeg(data), ".jpg"
    if pixels is not None and not data.startswith(_PNG):
        out = BytesIO()
        upright = Image.fromarray(pixels)
        upright.save(out, "JPEG", quality=KEPT_QUALITY, subsampling=0)
        bare = out.getvalue()
        return bare[:2] + _small_exif(data, upright=True) + bare[2:], ".jpg"
    with Image.open(BytesIO(data)) as image:
        from PIL import ImageOps

        profile = image.info.get("icc_profile")
        kind = "PNG" if image.format == "PNG" else "JPEG"
        upright = ImageOps.exif_transpose(image)
        if kind == "JPEG" and upright.mode != "RGB":
            upright = upright.convert("RGB")
        if "transparency" in upright.info:
            upright = upright.convert("RGBA")
        upright.info = {}
        out = BytesIO()
        options = {"quality": KEPT_QUALITY, "subsampling": 0} if kind == "JPEG" else {}
        upright.save(out, kind, icc_profile=profile if upright.mode == image.mode else None,
                     **options)
    return out.getvalue(), ".png" if kind == "PNG" else ".jpg"


def bare_jpeg(data: bytes) -> bytes:
    """A JPEG stream (ITU-T T.81, annex B) with only what decoding it needs.

    Kept: tables, frames and scans; JFIF and Adobe markers (they say how colours
    are coded); ICC profiles; a new Exif block of two values. Everything after
    the first picture's end is dropped: some phones append a second picture or
    a film. Raises ValueError where the stream is broken.
    """
    kept = [b"\xff\xd8", _small_exif(data)]
    place = 2
    while place + 4 <= len(data):
        if data[place] != 0xFF:
            raise ValueError("a JPEG marker is missing")
        marker = data[place + 1]
        if marker == 0xFF:  # fill byte
            place += 1
            continue
        if marker == _END_OF_IMAGE:
            return b"".join([*kept, b"\xff\xd9"])
        if marker in _HAS_NO_LENGTH:
            kept.append(data[place : place + 2])
            place += 2
            continue
        end = place + 2 + struct.unpack(">H", data[place + 2 : place + 4])[0]
        segment = data[place:end]
        if _is_needed(marker, segment):
            kept.append(segment)
        place = end
        if marker == _START_OF_SCAN:
            scan_end = _end_of_scan(data, place)
            kept.append(data[place:scan_end])
            place = scan_end
    if data[place : place + 2] == b"\xff\xd9":
        return b"".join([*kept, b"\xff\xd9"])
    raise ValueError("the JPEG ends too early")


def _is_needed(marker: int, segment: bytes) -> bool:
    if marker in _KEPT or marker == _START_OF_SCAN:
        return True
    name = segment[4:16]
    return (
        (marker == 0xE0 and name.startswith(b"JFIF\0") and len(segment) == 18)
        or (marker == 0xE2 and name.startswith(b"ICC_PROFILE\0"))
        or (marker == 0xEE and name.startswith(b"Adobe"))
    )


def _end_of_scan(data: bytes, place: int) -> int:
    """Where the next marker after entropy-coded data starts."""
    while True:
        place = data.find(b"\xff", place)
        if place < 0 or place + 1 >= len(data):
            return len(data)
        following = data[place + 1]
        if following == 0 or 0xD0 <= following <= 0xD7:  # a stuffed byte or a restart
            place += 2
            continue
        return place


def _small_exif(data: bytes, upright: bool = False) -> bytes:
    """An APP1 segment that holds orientation and focal length alone, or only the
    latter where the picture has been turned `upright`."""
    from PIL import Image

    try:
        with Image.open(BytesIO(data)) as image:
            exif = image.getexif()
            orientation = int(exif.get(_ORIENTATION, 1))
            focal = exif.get_ifd(_EXIF_FOLDER).get(_FOCAL_LENGTH_35_MM)
    except Exception:  # damaged notes are no loss
        return b""
    new = Image.Exif()
    if 2 <= orientation <= 8 and not upright:
        new[_ORIENTATION] = orientation
    if focal and 0 < float(focal) < 1000:
        new[_EXIF_FOLDER] = {_FOCAL_LENGTH_35_MM: round(float(focal))}
    if not len(new):
        return b""
    body = new.tobytes()
    return b"\xff\xe1" + struct.pack(">H", len(body) + 2) + body
