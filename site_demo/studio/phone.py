"""What a phone writes into a file besides the picture: place, owner, serial number, thumbnail.

One demo photograph is stored like that, lying on its side, so that a board
built from it shows that none of this is published. Every value is made up; the
place is in the open sea.
"""

import struct

import numpy as np

ASCII, SHORT, LONG, RATIONAL = 2, 3, 4, 5
WIDTHS = {ASCII: 1, SHORT: 2, LONG: 4, RATIONAL: 8}
SERIAL = "SN-DEMO-0042-7731"
OWNER = "Halvard Myrtun"


def packed(kind: int, value) -> bytes:
    """One tag's value as little-endian bytes."""
    if kind == ASCII:
        return value.encode("ascii") + b"\0"
    if kind == SHORT:
        return struct.pack("<H", value)
    if kind == LONG:
        return struct.pack("<I", value)
    return b"".join(struct.pack("<II", top, bottom) for top, bottom in value)


def directory(tags: list[tuple[int, int, object]], start: int, following: int = 0) -> bytes:
    """An image file directory that begins at byte `start`, with its longer values behind it.

    TIFF 6.0 (1992), section 2: entries of 12 bytes in order of tag; a value of up
    to four bytes lies in the entry itself.
    """
    behind = start + 2 + 12 * len(tags) + 4
    entries, values = b"", b""
    for tag, kind, value in sorted(tags, key=lambda entry: entry[0]):
        data = packed(kind, value)
        count = len(data) // WIDTHS[kind]
        if len(data) <= 4:
            place = data.ljust(4, b"\0")
        else:
            place = struct.pack("<I", behind + len(values))
            values += data + b"\0" * (len(data) % 2)
        entries += struct.pack("<HHI", tag, kind, count) + place
    return struct.pack("<H", len(tags)) + entries + struct.pack("<I", following) + values


def exif_block(thumbnail: bytes, orientation: int) -> bytes:
    """An Exif block (Exif 2.32) with orientation, owner, serial number, place and thumbnail."""
    camera = [(0xA430, ASCII, OWNER), (0xA431, ASCII, SERIAL),
              (0x9003, ASCII, "2026:09:19 17:42:10"), (0xA405, SHORT, 26)]
    place = [(1, ASCII, "N"), (2, RATIONAL, ((47, 1), (12, 1), (3360, 100))),
             (3, ASCII, "W"), (4, RATIONAL, ((31, 1), (5, 1), (1120, 100)))]

    def first(camera_at: int, place_at: int, following: int) -> bytes:
        tags = [(0x010E, ASCII, "two boats, on the kitchen table"),
                (0x0110, ASCII, "Pocket camera of the demo"), (0x0112, SHORT, orientation),
                (0x013B, ASCII, OWNER), (0x8769, LONG, camera_at), (0x8825, LONG, place_at)]
        return directory(tags, 8, following)

    camera_at = 8 + len(first(0, 0, 0))
    place_at = camera_at + len(directory(camera, camera_at))
    small_at = place_at + len(directory(place, place_at))
    small = [(0x0103, SHORT, 6), (0x0201, LONG, 0), (0x0202, LONG, len(thumbnail))]
    data_at = small_at + len(directory(small, small_at))
    small[1] = (0x0201, LONG, data_at)
    return (b"Exif\0\0II*\0\x08\0\0\0" + first(camera_at, place_at, small_at)
            + directory(camera, camera_at) + directory(place, place_at)
            + directory(small, small_at) + thumbnail)


def sideways(picture: np.ndarray) -> np.ndarray:
    """An upright picture as orientation 6 stores it: a viewer turns it clockwise to see it."""
    return np.ascontiguousarray(np.rot90(picture, 1))
