"""`offer`: what has happened to an offer becomes a dated line of its post."""

import os
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from swapboard.disk.load import Loaded, load_board
from swapboard.disk.lock import BoardBusy, board_lock
from swapboard.disk.together import write_together
from swapboard.disk.trouble import problem_of
from swapboard.problems import WARNING, Problem, did_you_mean, errors
from swapboard.records.board import read_board
from swapboard.records.names import Names
from swapboard.records.offer_lines import ONE_SIDED, step_problem, told_of, with_line
from swapboard.records.overtaken import states
from swapboard.records.types import Board, Offer, OfferState
from swapboard.settings import Settings

BOM = b"\xef\xbb\xbf"


@dataclass(frozen=True, slots=True)
class Step:
    """What is said to have happened: `by` and `on` as given, empty where they were not."""

    offer: str
    what: str
    by: str = ""
    on: date | None = None


@dataclass(frozen=True, slots=True)
class Told:
    """An offer's post with its new line, and the words for it."""

    path: str
    text: str
    words: str


def write_step(
    board: Path, step: Step, today: date | None = None
) -> tuple[Told | None, list[Problem]]:
    """Write the dated line of a step into offers/NAME.md, which is else kept to the byte.

    An impossible step, and one by which the board would get an error, is refused with
    what to do instead, and nothing is written.
    """
    loaded = load_board(board, today)
    if not os.path.isfile(board / "board.toml"):
        return None, errors(loaded.problems)
    try:
        with board_lock(board / ".swapboard"):
            loaded = load_board(board, today)
            told, problems = tell(loaded, loaded.texts.texts, step)
            if told is None:
                return None, problems
            data = as_bytes(loaded.folder, told.path, told.text)
            wrong = write_together(loaded.folder, {told.path: data}, set())
            return (None, wrong) if wrong else (told, problems)
    except BoardBusy as busy:
        return None, [busy.problem]
    except OSError as error:
        return None, [problem_of(error, str(board))]


def tell(
    loaded: Loaded, texts: dict[str, str], step: Step
) -> tuple[Told | None, list[Problem]]:
    """The offer's text with the step's line in it, against a board of these `texts`;
    else None and why. With it may come warnings."""
    board, settings, before = read_board(texts, loaded.texts.photos, today=loaded.today)
    offer, by, problem = _meant(board, before, step)
    if problem:
        return None, [problem]
    on = step.on or loaded.today
    if problem := step_problem(offer, step.what, by, on, loaded.today):
        return None, [problem]
    text = with_line(texts[offer.path], on, told_of(step.what, by))
    after = read_board({**texts, offer.path: text}, loaded.texts.photos, today=loaded.today)[2]
    new = [problem for problem in errors(after) if problem not in before]
    if new:
        return None, new
    words = f"{offer.path}: {on}: {told_of(step.what, by)}"
    return Told(offer.path, text, words), _notices(board, settings, offer, step, loaded.today)


def as_bytes(folder: Path, path: str, text: str) -> bytes:
    """A post's text as it goes into its file, with the mark at its beginning that the
    file has now."""
    file = folder / path
    marked = file.is_file() and file.read_bytes()[:3] == BOM
    return (BOM if marked else b"") + text.encode("utf-8")


def _meant(
    board: Board, problems: list[Problem], step: Step
) -> tuple[Offer | None, str, Problem | None]:
    """The offer and the maker that a step names."""
    names = Names(board.offers)
    name = names.find(step.offer.removeprefix("offers/").removesuffix(".md"))
    if name is None:
        broken = [p for p in errors(problems) if p.path == f"offers/{step.offer}.md"]
        if broken:
            return None, "", broken[0]
        fix = did_you_mean(step.offer, names) or "name a file of offers/ without its ending."
        must = "must be an offer of this board"
        return None, "", Problem("offers", 0, "", must, step.offer, fix)
    offer = board.offers[name]
    if not step.by:
        return offer, _only_one(offer, step.what), None
    makers = (offer.from_maker, offer.to_maker)
    called = {board.makers[maker].title: maker for maker in makers if maker in board.makers}
    by = Names(makers).find(step.by) or called.get(Names(called).find(step.by) or "")
    if by is None:
        must, fix = "must be one of the two makers", f"name {makers[0]} or {makers[1]}."
        return offer, "", Problem(offer.path, 0, "by", must, step.by, fix)
    return offer, by, None


def _only_one(offer: Offer, what: str) -> str:
    """The one maker who can have done it, where the other has already; else ""."""
    done = {event.by for event in offer.events if event.what == what}
    if offer.round:
        done.add(offer.to_maker if what == "mailed" else offer.from_maker)
    left = [maker for maker in (offer.from_maker, offer.to_maker) if maker not in done]
    return left[0] if what in ONE_SIDED and len(left) == 1 else ""


def _notices(
    board: Board, settings: Settings, offer: Offer, step: Step, today: date
) -> list[Problem]:
    state = states(board, today, settings.swaps.offer_days)[offer.name]
    if step.what == "agreed" and state == OfferState.EXPIRED:
        fix = "nothing, if both still want it."
        must = "had expired before it was agreed"
        return [Problem(offer.path, 0, "agreed", must, None, fix, WARNING)]
    return []
