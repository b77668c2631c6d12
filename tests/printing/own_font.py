"""A TrueType font that draws a few letters which the usual one lacks."""

import struct

from swapboard.disk.print_fonts import fonts
from swapboard.printing.paper import REGULAR, _font


def font_with(letters: str) -> bytes:
    """The usual font with another table of letters: each of these looks like an H."""
    data = fonts().regular
    glyph = _font(REGULAR, data).face.charToGlyph[ord("H")]
    table = _table({ord(letter): glyph for letter in letters})
    count = struct.unpack(">H", data[4:6])[0]
    made = bytearray(data + b"\0" * (-len(data) % 4))
    for number in range(count):
        at = 12 + 16 * number
        if data[at : at + 4] == b"cmap":
            made[at + 8 : at + 16] = struct.pack(">II", len(made), len(table))
    return bytes(made + table)


def _table(glyphs: dict[int, int]) -> bytes:
    """A table of letters of format 4 (OpenType 1.9, chapter cmap), a segment for each."""
    codes = [*sorted(glyphs), 0xFFFF]
    deltas = [(glyphs.get(code, 0) - code) % 65536 if code in glyphs else 1 for code in codes]
    size = len(codes)
    rows = [codes, [0], codes, deltas, [0] * size]
    body = b"".join(struct.pack(f">{len(row)}H", *row) for row in rows)
    head = struct.pack(">HHHHHHH", 4, 14 + len(body), 0, 2 * size, 0, 0, 0)
    return struct.pack(">HHHHI", 0, 1, 3, 1, 12) + head + body
