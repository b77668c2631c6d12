"""A line as it is drawn from left to right: right-to-left words turned, Arabic letters joined.

Neither the PDF library nor the picture library does so by itself everywhere. The order is
that of Unicode Standard Annex #9 (revision 50, 2024) for one line without explicit marks
of direction; letters take the form that their neighbours ask for (The Unicode Standard
16.0, section 9.2), told by the presentation forms' own decompositions.
"""

import unicodedata
from functools import cache

_STRONG = frozenset(("L", "R", "AL"))
_MARKS_OF_DIRECTION = frozenset(
    map(chr, (0x061C, 0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A)))
)
FROM_LEFT, FROM_RIGHT = chr(0x200E), chr(0x200F)
_BRACKETS = {"(": ")", "[": "]", "{": "}"}
_MIRRORED = str.maketrans("()[]{}<>«»‹›≤≥", ")(][}{><»«›‹≥≤")
_JOINER, _NON_JOINER, _TATWEEL, _LAM = "\u200d", "\u200c", "\u0640", "\u0644"
_NEUTRAL = frozenset(("B", "S", "WS", "ON", "BN"))
_DIRECTED = frozenset(("L", "R", "EN", "AN"))


def from_the_right(line: str) -> bool:
    """Whether a line is read from the right, as its first letter is (P2, P3)."""
    first = next((kind for c in line if (kind := unicodedata.bidirectional(c)) in _STRONG), "L")
    return first != "L"


def as_drawn(line: str) -> str:
    """`line` in the order in which it is drawn from left to right; the same line, where
    nothing in it is written from the right.

    A line goes the way of its first letter; a mark of direction before that decides it
    otherwise, and is not drawn.
    """
    base = int(from_the_right(line))
    bare = "".join(c for c in line if c not in _MARKS_OF_DIRECTION)
    if not any(unicodedata.bidirectional(c) in ("R", "AL", "AN") for c in bare):
        return bare
    letters = _joined(bare)
    levels = _levels(letters, base)
    # Fonts draw the points of right-to-left letters ahead of where they are put, and other
    # marks back over what was drawn: so the former come before their letter.
    clusters: list[tuple[str, int]] = []
    for character, level in zip(letters, levels, strict=True):
        if clusters and unicodedata.bidirectional(character) == "NSM":
            shown, own = clusters[-1]
            clusters[-1] = (character + shown if own % 2 else shown + character, own)
        else:
            shown = character.translate(_MIRRORED) if level % 2 else character
            clusters.append((shown, level))
    for level in range(max(levels, default=0), 0, -1):
        clusters = _turned(clusters, level)
    return "".join(shown for shown, _ in clusters)


def _turned(clusters: list[tuple[str, int]], least: int) -> list[tuple[str, int]]:
    """Every run of at least this level the other way round (L2)."""
    found: list[tuple[str, int]] = []
    run: list[tuple[str, int]] = []
    for cluster in clusters:
        if cluster[1] >= least:
            run.append(cluster)
        else:
            found += [*run[::-1], cluster]
            run = []
    return found + run[::-1]


def _levels(letters: str, base: int) -> list[int]:
    """The level of each character; odd ones are read from the right, as the line is
    where `base` is 1."""
    kinds = [unicodedata.bidirectional(c) for c in letters]
    outside = "R" if base else "L"
    kinds = _bracketed(letters, _weak(kinds, outside), outside)
    kinds = _neutral(kinds, outside)
    levels = []
    for kind in kinds:
        if base:
            levels.append(1 if kind == "R" else 2)
        else:
            levels.append({"L": 0, "R": 1}.get(kind, 2))
    for place in range(len(letters) - 1, -1, -1):
        if not letters[place].isspace():
            break
        levels[place] = base
    return levels


def _weak(kinds: list[str], outside: str) -> list[str]:
    """Numbers, and what stands between them (W1 to W7)."""
    kinds, before, strong = list(kinds), outside, outside
    for place, kind in enumerate(kinds):
        if kind == "NSM":
            kinds[place] = kind = before
        if kind in _STRONG:
            strong = kind
        elif kind == "EN" and strong == "AL":
            kinds[place] = kind = "AN"
        before = kind
    kinds = ["R" if kind == "AL" else kind for kind in kinds]
    for place in range(1, len(kinds) - 1):
        left, kind, right = kinds[place - 1 : place + 2]
        if left == right == "EN" and kind in ("ES", "CS") or left == right == "AN" and kind == "CS":
            kinds[place] = left
    for order in (range(len(kinds)), range(len(kinds) - 1, -1, -1)):
        beside = ""
        for place in order:
            if kinds[place] == "ET" and beside == "EN":
                kinds[place] = "EN"
            beside = kinds[place]
    strong = outside
    for place, kind in enumerate(kinds):
        strong = kind if kind in ("L", "R") else strong
        if kind == "EN" and strong == "L":
            kinds[place] = "L"
        elif kind in ("ET", "ES", "CS"):
            kinds[place] = "ON"
    return kinds


def _bracketed(letters: str, kinds: list[str], outside: str) -> list[str]:
    """Pairs of brackets go with what they hold, or with what is before them (N0)."""
    kinds, pairs, begun = list(kinds), [], []
    for place, character in enumerate(letters):
        if character in _BRACKETS and kinds[place] == "ON":
            begun.append(place)
        elif character in _BRACKETS.values() and kinds[place] == "ON":
            matching = [at for at in begun if _BRACKETS[letters[at]] == character]
            if matching:
                pairs.append((matching[-1], place))
                begun = begun[: begun.index(matching[-1])]
    for first, last in sorted(pairs):
        held = {_side(kind) for kind in kinds[first + 1 : last] if kind in _DIRECTED}
        before = next((_side(k) for k in reversed(kinds[:first]) if k in _DIRECTED), outside)
        if held:
            kinds[first] = kinds[last] = outside if outside in held else before
    return kinds


def _neutral(kinds: list[str], outside: str) -> list[str]:
    """What has no direction takes that of both its sides, or of the line (N1, N2)."""
    kinds, place = list(kinds), 0
    while place < len(kinds):
        end = place
        while end < len(kinds) and kinds[end] in _NEUTRAL:
            end += 1
        if end > place:
            left = _side(kinds[place - 1]) if place else outside
            right = _side(kinds[end]) if end < len(kinds) else outside
            kinds[place:end] = [left if left == right else outside] * (end - place)
        place = max(end, place + 1)
    return kinds


def _side(kind: str) -> str:
    return "L" if kind == "L" else "R"


@cache
def _forms() -> dict[str, dict[str, str]]:
    """The forms of each Arabic letter, and of lam with alef, by where they stand."""
    forms: dict[str, dict[str, str]] = {}
    for code in (*range(0xFB50, 0xFE00), *range(0xFE70, 0xFEFD)):
        where, *parts = unicodedata.decomposition(chr(code)).split() or [""]
        base = "".join(chr(int(part, 16)) for part in parts)
        single = len(base) == 1 or len(base) == 2 and base[0] == _LAM and base[1] in "آأإا"
        if single and where in ("<isolated>", "<final>", "<initial>", "<medial>"):
            forms.setdefault(base, {}).setdefault(where, chr(code))
    return forms


def _joined(letters: str) -> str:
    """Arabic letters in the forms that they take beside each other."""
    forms, found, place = _forms(), [], 0
    joins = False  # whether what came before reaches out to what follows
    while place < len(letters):
        base = letters[place : place + 2]
        base = base if base in forms else letters[place]
        place += len(base)
        own = forms.get(base)
        if own is None:
            if unicodedata.bidirectional(base) != "NSM":
                joins = base in (_TATWEEL, _JOINER)
            found.append(base if base not in (_JOINER, _NON_JOINER) else "")
            continue
        before = joins and "<final>" in own
        after = "<initial>" in own and _reaches_back(letters, place, forms)
        where = ("<medial>" if after else "<final>") if before else (
            "<initial>" if after else "<isolated>")  # fmt: skip
        found.append(own.get(where, base))
        joins = "<initial>" in own
    return "".join(found)


def _reaches_back(letters: str, place: int, forms: dict[str, dict[str, str]]) -> bool:
    """Whether the next letter, marks passed over, joins to what is before it."""
    while place < len(letters) and unicodedata.bidirectional(letters[place]) == "NSM":
        place += 1
    following = letters[place : place + 1]
    return following in (_TATWEEL, _JOINER) or "<final>" in forms.get(following, {})
