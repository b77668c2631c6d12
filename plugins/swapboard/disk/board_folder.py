"""A board's folder as texts: everything a keeper wrote, decoded, contained, capped."""

import os
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from swapboard.disk.contain import contained
from swapboard.disk.trouble import problem_of
from swapboard.problems import WARNING, Problem
from swapboard.records.deal_file import ENDING as DEAL_ENDING
from swapboard.records.deal_file import LARGEST as LARGEST_DEAL

POST_FOLDERS = ("calls", "cards", "makers", "offers", "pages")
LARGEST_TEXT = 256 * 1024  # bytes; the longest post anybody has reason to write is a tenth of it
BESIDE_CALLS = (".people.csv", DEAL_ENDING)
_NOISE = {"thumbs.db", "desktop.ini"}


@dataclass(frozen=True, slots=True)
class BoardTexts:
    """What was read: texts by path relative to the board, and the pictures' names."""

    texts: dict[str, str]
    photos: frozenset[str]


def read_texts(folder: Path) -> tuple[BoardTexts, list[Problem]]:
    """Read board.toml and every post of the board in `folder`.

    Files that cannot be used (wrong encoding, too large, a link that leads out
    of the board, an ending that is not read) are named, never just missing.
    """
    texts: dict[str, str] = {}
    problems: list[Problem] = []
    if not os.path.isfile(folder / "board.toml"):
        problem = Problem(
            "board.toml", 0, "", "must be in the board's folder", str(folder),
            "name the folder of a board, or make one with: swapboard start FOLDER",
        )
        return BoardTexts({}, frozenset()), [problem]
    _read_into(texts, problems, folder, "board.toml")
    for kind in POST_FOLDERS:
        is_inside = contained(folder, folder / kind)
        for name in _names(folder, kind, problems):
            path = f"{kind}/{name}"
            if name.endswith(".md") or (kind == "calls" and name.endswith(BESIDE_CALLS)):
                _read_into(texts, problems, folder, path, is_inside)
            else:
                problems.append(_not_read(path, (folder / path).is_dir()))
    return BoardTexts(texts, frozenset(_photos(folder, problems))), problems


def _names(board: Path, inner: str, problems: list[Problem]) -> list[str]:
    """Names in a folder of the board, sorted; those that systems and editors leave
    are passed over. A folder that is not there has none."""
    try:
        found = os.listdir(board / inner)
    except FileNotFoundError:
        if os.path.islink(board / inner):
            problems.append(_leads_out(inner))
        return []
    except NotADirectoryError:
        problems.append(
            Problem(inner, 0, "", "must be a folder", "a file",
                    "move the file away, and keep the posts or pictures in a folder of this name")
        )
        return []
    except OSError as error:
        problems.append(replace(problem_of(error, inner), path=inner))
        return []
    return sorted(
        name
        for name in found
        if not name.startswith((".", "~")) and not name.endswith("~") and name.lower() not in _NOISE
    )


def _photos(folder: Path, problems: list[Problem]) -> Iterator[str]:
    """Every file below photos/, relative to it."""
    for name in _names(folder, "photos", problems):
        path = folder / "photos" / name
        if not contained(folder, path):
            problems.append(_leads_out(f"photos/{name}"))
        elif os.path.isdir(path):
            for inner in _names(folder, f"photos/{name}", problems):
                if not contained(folder, path / inner):
                    problems.append(_leads_out(f"photos/{name}/{inner}"))
                elif os.path.isfile(path / inner):
                    yield f"{name}/{inner}"
        else:
            yield name


def _read_into(
    texts: dict[str, str],
    problems: list[Problem],
    folder: Path,
    path: str,
    is_inside: bool = False,
) -> None:
    """Read one file; `is_inside` says that its folder is known to lie in the board."""
    file = os.path.join(folder, path)
    if (not is_inside or os.path.islink(file)) and not contained(folder, Path(file)):
        problems.append(_leads_out(path))
        return
    try:
        # A pipe or a device would have the reader wait, or read, for ever.
        if not os.path.isfile(file):
            raise OSError("not a file")
        with open(file, "rb") as handle:
            most = LARGEST_DEAL if path.endswith(DEAL_ENDING) else LARGEST_TEXT
            data = handle.read(most + 1)
            size = os.fstat(handle.fileno()).st_size
    except OSError as error:
        problems.append(
            Problem(path, 0, "", "must be a file that can be read", error.strerror or str(error),
                    "check the file's permissions, or delete it")
        )
        return
    if len(data) > most:
        problems.append(
            Problem(path, 0, "", f"must be at most {most // 1024} kB",
                    f"{size // 1024} kB", "shorten it; pictures belong in photos/, not in the text")
        )
        return
    try:
        texts[path] = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        problems.append(
            Problem(path, line, "", "must be written in UTF-8", f"byte 0x{data[error.start]:02x}",
                    "save the file again with the encoding UTF-8")
        )


def _leads_out(path: str) -> Problem:
    return Problem(path, 0, "", "must lie inside the board's folder", "a link that leads out of it",
                   "put the file itself there in place of the link")


def _not_read(path: str, is_folder: bool) -> Problem:
    if is_folder:
        return Problem(path, 0, "", "is a folder, and posts are read from one level only", None,
                       "move the posts in it up one level", WARNING)
    return Problem(path, 0, "", "is not read, since its name does not end in .md", None,
                   "rename it to end in .md, or move it elsewhere", WARNING)
