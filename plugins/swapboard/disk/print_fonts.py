"""The fonts that everything printed is set in: DejaVu Sans, free to embed and pass on, and
one of the keeper's own for letters that it lacks."""

from functools import cache
from pathlib import Path

from swapboard.disk.contain import contained
from swapboard.disk.load import Loaded
from swapboard.printing.paper import Fonts, is_font, lacking
from swapboard.problems import WARNING, Problem
from swapboard.settings import Settings
from swapboard.settings.tables import PATH
from swapboard.views.announcement import Announcement, announcement
from swapboard.views.showing import Showing

FOLDER = Path(__file__).resolve().parents[1] / "printing" / "fonts"
_LARGEST = 40 * 1024 * 1024
_SHOWN = 8


@cache
def fonts() -> Fonts:
    """The usual fonts: Latin, Greek, Cyrillic, Armenian, Georgian, Hebrew and Arabic."""
    return Fonts((FOLDER / "DejaVuSans.ttf").read_bytes(),
                 (FOLDER / "DejaVuSans-Bold.ttf").read_bytes())


def fonts_of(board: Path, settings: Settings) -> tuple[Fonts, list[Problem]]:
    """The usual fonts and the board's own, which board.toml names."""
    name = settings.board.font
    if not name:
        return fonts(), []
    file = board / name
    fix = "put a TrueType font (.ttf, not .otf) there, or leave the setting empty."
    problem = Problem(PATH, settings.lines.get("board.font", 0), "font",
                      "must be a TrueType font in the board's folder", name, fix)
    try:
        if not contained(board, file) or not file.is_file() or file.stat().st_size > _LARGEST:
            return fonts(), [problem]
        data = file.read_bytes()
    except OSError:
        return fonts(), [problem]
    if not is_font(data):
        return fonts(), [problem]
    return Fonts(fonts().regular, fonts().bold, data), []


def not_in_fonts(text: str, has: Fonts, path: str, field: str, severity: str) -> list[Problem]:
    """A problem for a text that paper cannot show whole: which letters, and what to do."""
    missing = lacking(text, has)
    if not missing:
        return []
    shown = " ".join(missing[:_SHOWN]) + (" …" if len(missing) > _SHOWN else "")
    must = "must be in letters that the fonts of paper have and can join"
    fix = ('put a TrueType font that has them into the board\'s folder and name it in board.toml: '
           'font = "own.ttf"; or write it in Latin letters, or by hand.')  # fmt: skip
    return [Problem(path, 0, field, must, shown, fix, severity)]


def paper_problems(loaded: Loaded) -> list[Problem]:
    """What is wrong with the board's own font, and a warning for each call that cannot be
    announced on paper in all its letters."""
    has, problems = fonts_of(loaded.folder, loaded.settings)
    showing = Showing(loaded.board, loaded.settings, {}, loaded.today)
    for name, call in sorted(loaded.board.calls.items()):
        told = announcement(showing, name)
        problems += not_in_fonts(words_of(told), has, call.path, "on paper", WARNING)
    return problems


def words_of(told: Announcement) -> str:
    """All that is set on a call's flyer and picture."""
    facts = "\n".join(f"{key} {value}" for key, value in told.facts)
    return "\n".join((told.board, told.title, facts, told.body, told.address))
