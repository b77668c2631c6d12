"""A swap call on one page, with a QR code (ISO/IEC 18004) that leads to its own."""

from functools import lru_cache

from swapboard.printing.paper import BOLD, REGULAR, Fonts, Sheet

_EDGE = 18.0
_QR = 46.0
_KEY = 40.0
QUIET = 4  # modules left white around the code, as ISO/IEC 18004 asks


def flyer(
    title: str, over: str, facts: tuple[tuple[str, str], ...], body: str, address: str,
    paper: str, fonts: Fonts,
) -> bytes:
    """One page. Text that is too long for its part gets smaller; none is cut. Each line
    of `body` is one of its own.

    The code is 46 mm wide with its quiet zone; without an `address` there is none.
    """
    sheet = Sheet(paper, fonts, title)
    inner = sheet.width - 2 * _EDGE
    foot = sheet.height - _EDGE - _QR
    sheet.block(_EDGE, _EDGE, inner, 8, [over], 12)
    y = sheet.block(_EDGE, _EDGE + 10, inner, 34, [title], 34, BOLD) + 6
    sheet.line(_EDGE, y, _EDGE + inner, y, 0.5)
    y = _facts(sheet, y + 5, inner, (foot - y) * 0.62, facts)
    if lines := body.strip().splitlines():
        sheet.block(_EDGE, y + 5, inner, foot - y - 9, lines, 12)
    sheet.line(_EDGE, foot - 2, _EDGE + inner, foot - 2, 0.5)
    if address:
        _code(sheet, _EDGE, foot, address)
        sheet.block(_EDGE + _QR + 6, foot + 6, inner - _QR - 6, _QR - 10, [over, address], 12)
    else:
        sheet.block(_EDGE, foot + 6, inner, _QR - 10, [over], 12)
    return sheet.pdf()


@lru_cache(maxsize=2)  # a call's flyers on both kinds of paper have the same code
def code_modules(address: str) -> tuple[tuple[bool, ...], ...]:
    """The code's modules in rows, black True, its quiet zone included; error correction M."""
    import segno

    made = segno.make(address, error="m", micro=False, boost_error=False)
    return tuple(tuple(map(bool, row)) for row in made.matrix_iter(border=QUIET))


def _facts(
    sheet: Sheet, y: float, inner: float, height: float, facts: tuple[tuple[str, str], ...]
) -> float:
    """Facts in two columns, all in one size, the largest that fits."""
    from swapboard.printing.paper import LEADING, POINT, wrap

    size = 13.0
    while True:
        rows = [(wrap(key, _KEY - 3, size, BOLD), wrap(value, inner - _KEY, size, REGULAR))
                for key, value in facts]
        step = size * LEADING * POINT
        total = sum(max(len(key), len(value)) * step + step / 3 for key, value in rows)
        if total <= height or size <= 2:
            break
        size -= 0.5
    for key, value in rows:
        for at, words, font in ((_EDGE, key, BOLD), (_EDGE + _KEY, value, REGULAR)):
            for number, line in enumerate(words):
                sheet.text(at, y + number * step + size * POINT, line, size, font)
        y += max(len(key), len(value)) * step + step / 3
    return y


def _code(sheet: Sheet, x: float, y: float, address: str) -> None:
    modules = code_modules(address)
    side = _QR / len(modules)
    for row, line in enumerate(modules):
        start = None
        # Runs of one row are one box: hairlines between modules would show in print.
        for column, black in enumerate([*line, False]):
            if black and start is None:
                start = column
            elif not black and start is not None:
                sheet.box(x + start * side, y + row * side, (column - start) * side, side, True)
                start = None
