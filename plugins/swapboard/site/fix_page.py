"""The keeper's own page for putting corners right: written beside the cache, never published."""

from collections.abc import Callable, Iterable
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from swapboard.disk.contain import contained, write_whole
from swapboard.disk.cutting import requests_of, wanted_in
from swapboard.disk.load import Loaded, load_board
from swapboard.disk.photo_cache import Request, results
from swapboard.disk.photo_copies import copies_of
from swapboard.disk.photo_work import PhotoResult
from swapboard.disk.resources import theme_folder
from swapboard.problems import Problem, errors
from swapboard.records.types import LeftOut
from swapboard.views.fix_page import Asked, Copy, Crop, FixPage, corner_line, crops_in, fix_data
from swapboard.views.fix_page import in_order as crops_in_order

MOST_SURE_PHOTOS = 200
"""Photos without doubt beyond so many get no copy: each takes about 1 MB and 0.2 s."""

SHEETS = ("tokens.css", "reset.css", "base.css", "fix.css")
SCRIPTS = ("fix_geometry.js", "fix.js", "fix_drawing.js", "fix_handles.js")

Progress = Callable[[int, int], None]


def write_fix_page(
    board: Path, progress: Progress | None = None, most_sure_photos: int = MOST_SURE_PHOTOS
) -> tuple[Path | None, list[Problem]]:
    """Write BOARD/.swapboard/fix/index.html with all it needs; its path, and problems.

    None where the board has no card with a photo, or where the page cannot be
    put there. `progress(done, total)` counts photos copied. Raises OSError
    where the folder cannot be written to. Copies of photos that did not change
    since are kept, those no longer shown are removed.
    """
    loaded = load_board(board)
    folder = board / ".swapboard" / "fix"
    if not requests_of(loaded.board):
        return None, []
    if not contained(board, folder) or not contained(folder, folder / "photos"):
        must, fix = "must lie inside the board's folder", "remove the link that leads out of it"
        return None, [Problem(".swapboard/fix", 0, "", must, "a link", fix)]
    crops, unshown = _crops(loaded)
    shown = _photos_to_show(crops, most_sure_photos)
    told = copies_of(board, shown, folder / "photos", loaded.settings.photos, progress)
    copies = {photo: Copy(copy.name, copy.size) for photo, copy in told.items()}
    unshown += [(p, "the photo could not be read again") for p in shown if p not in copies]
    page = FixPage(
        board=loaded.settings.board.name,
        language=loaded.settings.board.language,
        crops=crops_in_order(crop for crop in crops if crop.photo in copies),
        unshown=tuple(sorted(unshown)),
        left_out=len({crop.photo for crop in crops}) - len(shown),
    )
    _write(folder, page, copies)
    return folder / "index.html", []


def _crops(loaded: Loaded) -> tuple[list[Crop], list[tuple[str, str]]]:
    """All crops of the board, and (file, why) of what cannot be shown."""
    by_photo: dict[str, list[Request]] = {}
    for request in wanted_in(loaded):
        by_photo.setdefault(request.spot.file, []).append(request)
    unshown = [_left_out(loaded, left) for left in loaded.board.left_out]
    crops: list[Crop] = []
    for result in results(loaded.folder, by_photo, loaded.settings.photos):
        path = f"photos/{result.name}"
        if result.size is None:
            unshown += [(p.path, f"{p.must}; {p.fix}") for p in errors(result.problems)]
        else:
            asked = _asked(loaded, by_photo[result.name], result)
            crops.extend(crops_in(path, result.size, result.found or (), asked))
    return crops, unshown


def _left_out(loaded: Loaded, left: LeftOut) -> tuple[str, str]:
    """A post with an error and what is to be mended in it, where that is known."""
    told = [f"{p.must}; {p.fix}" for p in errors(loaded.problems) if p.path == left.path]
    return left.path, " ".join(told) or left.why


def _asked(loaded: Loaded, requests: list[Request], result: PhotoResult) -> list[Asked]:
    asked = []
    for request, cut in zip(requests, result.cuts, strict=True):
        title = loaded.board.cards[request.card].title
        told = [p for p in errors(result.problems) if p.path == request.path]
        trouble = tuple(f"{problem.must}; {problem.fix}" for problem in told)
        found = None if cut is None else cut.found
        asked.append(Asked(request.path, title, request.side, request.panels, found, trouble))
    return asked


def _photos_to_show(crops: Iterable[Crop], most_sure: int) -> list[str]:
    """Every photo with a doubtful crop, and of the others as many as are copied, by name."""
    doubtful = {crop.photo for crop in crops if crop.doubtful}
    sure = sorted({crop.photo for crop in crops} - doubtful)
    return sorted([*doubtful, *sure[:most_sure]])


def _write(folder: Path, page: FixPage, copies: dict[str, Copy]) -> None:
    theme = theme_folder()
    for kind, names in (("css", SHEETS), ("js", SCRIPTS)):
        for name in names:
            write_whole(folder / name, (theme / "static" / kind / name).read_bytes())
    write_whole(folder / "data.js", fix_data(page, copies).encode("ascii"))
    # A file's name may hold bytes that are no text at all.
    write_whole(folder / "index.html", draw(page, theme).encode("utf-8", "backslashreplace"))


def draw(page: FixPage, theme: Path) -> str:
    """The page as HTML, by the template fix.html of the folder `theme`."""
    environment = Environment(
        loader=FileSystemLoader(theme / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        extensions=["jinja2.ext.i18n"],
    )
    environment.install_null_translations(newstyle=True)
    environment.filters["corner_line"] = corner_line
    return environment.get_template("fix.html").render(
        view=page, scripts=(*SCRIPTS, "data.js"), sheets=SHEETS
    )
