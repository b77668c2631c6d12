"""`add card`: a post for every card found in some pictures."""

import os
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from warnings import catch_warnings, simplefilter

from swapboard.disk.camera_notes import without_notes
from swapboard.disk.finder import find_cards
from swapboard.disk.load import Loaded, load_board
from swapboard.disk.lock import BoardBusy, board_lock
from swapboard.disk.pictures import read_picture
from swapboard.disk.together import write_together
from swapboard.disk.trouble import problem_of
from swapboard.photo.find import Found
from swapboard.problems import Problem, errors
from swapboard.records.header import write_post
from swapboard.records.names import Names
from swapboard.settings import PhotoSettings
from swapboard.vocabulary.spelling import slug, stem_of


@dataclass(frozen=True, slots=True)
class Added:
    """A post that was written, and in words what stands out about its card."""

    path: str
    words: str


@dataclass(frozen=True, slots=True)
class Cut:
    """A picture as it is stored, its name's ending, and the cards found in it in reading
    order; width and height in px, upright."""

    data: bytes
    ending: str
    found: tuple[Found, ...]
    width: int
    height: int


def add_cards(
    board: Path, pictures: Sequence[Path], maker: str = "", call: str = ""
) -> tuple[list[Added], list[Problem]]:
    """Store each picture without camera notes and write a post per card in it.

    Several cards in a picture are each bound to their place in it, in reading
    order. No file is ever overwritten; a picture that cannot be used is named,
    and the others are still added. A picture and its posts are written together.
    """
    loaded = load_board(board)
    if not os.path.isfile(board / "board.toml"):
        return [], errors(loaded.problems)
    if maker:
        known = Names(loaded.board.makers)
        if (found := known.find(maker)) is None:
            hint = known.suggest(maker) or "add makers/NAME.md first"
            return [], [Problem("--maker", 0, "", "must be a maker of this board", maker, hint)]
        maker = found
    if call:
        calls = Names(loaded.board.calls)
        if (found := calls.find(call)) is None:
            hint = calls.suggest(call) or "add it first: swapboard add call TITLE"
            return [], [Problem("--call", 0, "", "must be a call of this board", call, hint)]
        call = found
    said = [(key, value) for key, value in (("Maker", maker), ("Call", call)) if value]
    added: list[Added] = []
    problems: list[Problem] = []
    try:
        with board_lock(board / ".swapboard"):
            for picture in pictures:
                posts, wrong = _add_picture(loaded, picture, said)
                added += posts
                problems += wrong
    except BoardBusy as busy:
        problems.append(busy.problem)
    except OSError as error:
        problems.append(problem_of(error, str(board)))
    return added, problems


def _add_picture(
    loaded: Loaded, picture: Path, said: Sequence[tuple[str, str]]
) -> tuple[list[Added], list[Problem]]:
    cut, problems = cut_picture(picture, str(picture), loaded.settings.photos)
    if cut is None:
        return [], problems
    folder = loaded.folder
    photos = [file.name for file in (folder / "photos").glob("*")]
    posts = [file.stem for file in (folder / "cards").glob("*")]
    stem = free_stem(stem_of(picture.stem), cut, photos, posts)
    made = posts_of(cut, stem, said)
    files = {f"cards/{name}.md": text.encode("utf-8") for name, text, _ in made}
    files[f"photos/{stem}{cut.ending}"] = cut.data
    if refused := write_together(folder, files, set(files)):
        return [], [*problems, *refused]
    return [Added(f"cards/{name}.md", words) for name, _, words in made], problems


def cut_picture(
    picture: Path, name: str, limits: PhotoSettings
) -> tuple[Cut | None, list[Problem]]:
    """A picture without camera notes and the cards in it; `name` is how problems call it.

    None where it cannot be used, and then at least one problem is an error.
    """
    pixels, focal, problems = read_picture(picture, name, limits)
    if pixels is None:
        return None, problems
    try:
        with catch_warnings():
            simplefilter("ignore")  # of sizes, which were checked against the board's limit
            data, ending = without_notes(picture, pixels)
    except Exception as error:  # a damaged file can make a decoder raise anything
        return None, [Problem(name, 0, "", "must be a whole, undamaged picture",
                              str(error) or type(error).__name__,
                              "copy the photo again from where it came")]
    height, width = pixels.shape[:2]
    return Cut(data, ending, tuple(find_cards(pixels, focal)), width, height), problems


def posts_of(
    cut: Cut, stem: str, said: Sequence[tuple[str, str]]
) -> list[tuple[str, str, str]]:
    """For each card of a picture that is stored as photos/STEM: the name of its post, the
    text, and in words what stands out. A picture without a card is one post as well.
    `said` has (key, value) of what stands in each post beside title and photo."""
    found = cut.found
    names = [stem] if len(found) < 2 else [f"{stem}-{n}" for n in range(1, len(found) + 1)]
    made = []
    for place, name in enumerate(names):
        card = found[place] if found else None
        at = _centre(card, cut.width, cut.height) if card and len(found) > 1 else ""
        made.append((name, _post(name, f"{stem}{cut.ending}{at}", said), words_for(card)))
    return made


def _post(name: str, photo: str, said: Sequence[tuple[str, str]]) -> str:
    title = name.replace("-", " ").replace("_", " ").capitalize()
    return write_post([("Title", title), *said, ("Photo", photo)])


def _centre(card: Found, width: int, height: int) -> str:
    """The point where the card's diagonals meet, as shares of the picture."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = card.corners
    denominator = (ax - cx) * (by - dy) - (ay - cy) * (bx - dx)
    along = ((ax - bx) * (by - dy) - (ay - by) * (bx - dx)) / denominator
    x, y = ax + along * (cx - ax), ay + along * (cy - ay)
    return f" at {100 * x / width:.0f}% {100 * y / height:.0f}%"


def words_for(card: Found | None) -> str:
    """What stands out about a card that was looked for in a picture."""
    if card is None:
        return "no card was made out; say where it is with Cut out at"
    if card.doubtful:
        return f"one card, doubtful: {'; '.join(card.reasons)}"
    return "one card"


def free_stem(stem: str, cut: Cut, photos: Iterable[str], posts: Iterable[str]) -> str:
    """`stem`, or with a number after it the first that is free for all files: beside the
    names in photos/ and those of the cards' posts.

    Photos are compared without regard to case, as some file systems do, posts by
    the addresses that their pages have."""
    photos = {name.casefold() for name in photos}
    posts = {slug(name) for name in posts}

    def is_free(name: str) -> bool:
        numbered = (f"{name}-{n}" for n in range(1, max(1, len(cut.found)) + 1))
        wanted = {slug(part) for part in [name, *numbered]}
        return f"{name}{cut.ending}".casefold() not in photos and not posts & wanted

    if is_free(stem):
        return stem
    number = 2
    while not is_free(f"{stem}-{number}"):
        number += 1
    return f"{stem}-{number}"
