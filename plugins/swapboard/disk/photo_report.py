"""What was found in each photo, as data for programs and as text for people.

The data, `"version": 1`:

    {"version": 1,
     "photos": [{"file": …, "size": [w, h] or null,
                 "cards": [{"corners": [[x, y] × 4], "proportion": …, "kind": …,
                            "confidence": …, "doubtful": …, "reasons": […]}]}],
     "problems": [{"path", "line", "field", "must", "got", "fix", "severity"}]}

`size` is that of the upright picture, in px, and null where the file could
not be read; corners are px in it, clockwise from the card's own top left.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import asdict
from pathlib import Path

from swapboard.disk.photo_cache import Request, results
from swapboard.photo.choose import middle_of
from swapboard.photo.find import Found
from swapboard.problems import Problem, in_order
from swapboard.settings import PhotoSettings
from swapboard.vocabulary.counts import counted

VERSION = 1


def report_files(files: Sequence[Path], limits: PhotoSettings = PhotoSettings()) -> dict:
    """What is found in any picture files, inside a board or not, in the order given.

    Nothing is cached or written.
    """
    from swapboard.disk.finder import find_cards
    from swapboard.disk.pictures import read_picture

    photos, problems = [], []
    for path in files:
        picture, focal, told = read_picture(path, path.as_posix(), limits)
        problems.extend(told)
        if picture is None:
            photos.append(_photo(path.as_posix(), None, ()))
        else:
            size = (picture.shape[1], picture.shape[0])
            photos.append(_photo(path.as_posix(), size, find_cards(picture, focal)))
    return _report(photos, problems)


def report_board(
    board_folder: Path,
    wanted: Sequence[Request],
    limits: PhotoSettings,
    *,
    workers: int | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> dict:
    """What is found in the photos of a board, by name, and in what its posts ask of them.

    Takes from the photo cache and adds to it.
    """
    by_photo: dict[str, list[Request]] = {}
    for request in wanted:
        by_photo.setdefault(request.spot.file, []).append(request)
    photos, problems = [], []
    for result in results(board_folder, by_photo, limits, workers=workers, progress=progress):
        problems.extend(result.problems)
        photos.append(_photo(f"photos/{result.name}", result.size, result.found or ()))
    return _report(photos, problems)


def text(report: dict) -> str:
    """The report for people: photos with doubtful crops first, then the rest by name."""
    lines: list[str] = []
    photos = sorted(report["photos"], key=lambda photo: (not _doubtful(photo), photo["file"]))
    for photo in photos:
        lines.extend(_photo_lines(photo))
    problems = [Problem(**problem) for problem in report["problems"]]
    if problems:
        lines.extend(["", *(str(problem) for problem in problems)])
    doubtful = sum(card["doubtful"] for photo in photos for card in photo["cards"])
    cards = sum(len(photo["cards"]) for photo in photos)
    told = f"{counted(len(photos), 'photo')}, {counted(cards, 'card')}"
    lines.extend(["", f"{told}, {doubtful} of them doubtful"])
    return "\n".join(lines) + "\n"


def _report(photos: list[dict], problems: Iterable[Problem]) -> dict:
    told = [asdict(problem) for problem in in_order(problems)]
    return {"version": VERSION, "photos": photos, "problems": told}


def _photo(name: str, size: tuple[int, int] | None, found: Sequence[Found]) -> dict:
    cards = []
    for card in found:
        corners = [list(corner) for corner in card.corners]
        cards.append({**asdict(card), "corners": corners, "reasons": list(card.reasons)})
    return {"file": name, "size": None if size is None else list(size), "cards": cards}


def _doubtful(photo: dict) -> bool:
    """Nothing found is the greatest doubt of all."""
    return not photo["cards"] or any(card["doubtful"] for card in photo["cards"])


def _photo_lines(photo: dict) -> list[str]:
    if photo["size"] is None:
        return [f"{photo['file']}: could not be read"]
    width, height = photo["size"]
    count = len(photo["cards"])
    found = "no card found" if count == 0 else counted(count, "card")
    lines = [f"{photo['file']}: {width} × {height} px, {found}"]
    for card in sorted(photo["cards"], key=lambda card: not card["doubtful"]):
        lines.append(_card_line(card, (width, height)))
    return lines


def _card_line(card: dict, size: tuple[int, int]) -> str:
    corners = tuple((x, y) for x, y in card["corners"])
    found = Found(**{**card, "corners": corners, "reasons": tuple(card["reasons"])})
    x, y = middle_of(found, size)
    mark = "  ? " if card["doubtful"] else "    "
    sure = f"{card['confidence'] * 100:.0f} % sure"
    line = f"{mark}at {x * 100:.0f}% {y * 100:.0f}%: {card['kind']}, {sure}"
    return f"{line}; {'; '.join(card['reasons'])}" if card["reasons"] else line
