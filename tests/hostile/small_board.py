"""Small boards without photos, built in a moment, for tests to attack."""

from collections.abc import Mapping
from datetime import date
from pathlib import Path

from swapboard.problems import ERROR
from swapboard.site.build import Built, build_board

DAY = date(2026, 10, 10)
SMALL = {
    "board.toml": 'format = 1\n\n[board]\nname = "Small board"\n',
    "makers/keeper.md": "Name: The keeper\n",
    "makers/ada.md": "Name: Ada\n\nHello.\n",
    "cards/heron.md": "Title: Heron\n",
    "cards/fog.md": "Title: Fog\nMaker: ada\n",
}


def make(folder: Path, files: Mapping[str, str | bytes] | None = None) -> Path:
    """A board in `folder`: the small one where there is none, and `files` in it, in place
    of its own."""
    start = {} if (folder / "board.toml").exists() else SMALL
    for path, content in {**start, **(files or {})}.items():
        file = folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content.encode("utf-8") if isinstance(content, str) else content)
    return folder


def build(board: Path, **options) -> Built:
    """Build it for the tests' day, in this process alone."""
    return build_board(board, today=DAY, workers=1, **options)


def errors_of(built: Built) -> list[str]:
    """The errors, as the keeper reads them."""
    return [str(problem) for problem in built.problems if problem.severity == ERROR]
