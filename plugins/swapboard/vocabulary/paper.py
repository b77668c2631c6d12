"""Sizes in millimetres."""

# 2.5 × 3.5 in (common practice of the trade, no source), 25.4 mm to the inch.
CARD: tuple[float, float] = (63.5, 88.9)

# A4: ISO 216. Letter: 8.5 × 11 in (ANSI/ASME Y14.1).
PAPER: dict[str, tuple[float, float]] = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
