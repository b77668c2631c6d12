"""A small good board, and ways to change it; everything on it is invented."""

from collections.abc import Mapping

from swapboard.problems import Problem
from swapboard.records.board import read_board
from swapboard.records.types import Board

PHOTOS = frozenset(["heron.jpg", "table.jpg", "moth.png"])

GOOD = {
    "board.toml": 'format = 1\n[board]\nname = "Reed Street"\nkeeper = "ines-okafor"\n',
    "makers/ines-okafor.md": (
        "Name: Inés Okafor\nCountry: Portugal\nMedia: linocut, watercolor\n"
        "Likes: theme birds and medium linocut, up to 2, dearly\n    moths, no cats\n"
        "Rather not: cats\nTakes up to: 6\nLinks: https://reeds.example/\n\nI carve at night.\n"
    ),
    "makers/tom-varga.md": "Country: UK\n\nSmall prints.\n",
    "cards/night-heron.md": (
        "Title: Night heron\nPhoto: heron.jpg\nThemes: birds, night\nMedia: linocut\n"
        "Kind: print 3/20\nCopies left: 2\nMade: 2026-08-01\nDate: 2026-09-01\n\nTwo blocks.\n"
    ),
    "cards/moth.md": (
        "Maker: tom-varga\nPhoto: table.jpg at 41% 22%\nThemes: Moths\nEdge: torn or burnt\n"
        "Wants: maker ines-okafor but not theme cats\n"
    ),
    "cards/fern.md": "Title: Fern\nMaker: tom-varga\n",
    "offers/heron-for-moth.md": (
        "From: ines-okafor\nTo: tom-varga\nGives: night-heron\nAsks: moth\n"
        "2026-09-28: proposed\n2026-09-28: agreed\n2026-09-30 mailed by tom-varga\n"
    ),
    "calls/small-lights.md": (
        "Theme: Small lights\nHost: tom-varga\nSend: 4\nReceive: 3\nPlaces: 2\nDate: 2026-09-01\n"
        "Sign up by: 2026-10-01\nArrive by: 2026-11-01\nMail out by: 2026-11-20\n"
        "Return postage: Germany: two international reply stamps\n    USA: none\n"
    ),
    "calls/small-lights.people.csv": (
        "maker,cards,signed up,arrived,note\nInes Okafor,4,2026-09-05,2026-09-20,\n"
        'A guest,4,2026-09-06,,"late, but sure"\n'
    ),
    "pages/about.md": "Title: About\n\nHello.\n",
}


def read_with(changes: Mapping[str, str | None]) -> tuple[Board, list[Problem]]:
    """The good board with files replaced, added, or (None) taken away."""
    texts = {path: text for path, text in (GOOD | dict(changes)).items() if text is not None}
    board, _, problems = read_board(texts, PHOTOS)
    return board, problems


def messages(changes: Mapping[str, str | None]) -> list[str]:
    """The problems of the changed board as people read them."""
    return [str(problem) for problem in read_with(changes)[1]]


def changed(path: str, old: str, new: str) -> dict[str, str]:
    """One change: in a file of the good board, one text for another."""
    assert old in GOOD[path]
    return {path: GOOD[path].replace(old, new)}
