"""A new board: a copy of the starter, made out to its keeper."""

import os
import shutil
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from swapboard.disk.contain import write_whole
from swapboard.disk.questions import Ask, Question, answer
from swapboard.disk.resources import starter_folder
from swapboard.problems import Problem
from swapboard.records.card import CARD_KEYS
from swapboard.records.header import Keys, read_header, write_post
from swapboard.records.maker import MAKER_KEYS, read_maker
from swapboard.settings import BoardSettings, Settings, read_settings, starter_toml
from swapboard.settings.checks import CHECKS
from swapboard.vocabulary.countries import countries_in
from swapboard.vocabulary.paper import paper_in
from swapboard.vocabulary.spelling import slug, tidy

_LEFT_OUT = shutil.ignore_patterns(
    "output", "private", ".swapboard", "__pycache__", "*.pyc", ".gitkeep", "board.toml"
)
_KEEPER = "The keeper"
_LOCALTIME = Path("/etc/localtime")
_NEW_OR_EMPTY = "must be a new or an empty folder"


@dataclass(frozen=True, slots=True)
class Answers:
    """What is known of a new board; None where nothing was said."""

    name: str | None = None
    maker: str | None = None
    country: str | None = None


def start_board(
    folder: Path,
    given: Answers | None = None,
    ask: Ask | None = None,
    time_zone: str | None = None,
) -> list[Problem]:
    """Make a board in `folder`, which must be new or empty, from the starter.

    What `given` leaves open is asked with `ask`, or has its default where there
    is nobody to ask. The paper follows from the country; `time_zone` is the
    system's if None. Nothing is written where there is a problem.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        return [
            Problem(str(folder), 0, "", _NEW_OR_EMPTY, None,
                    "name another folder; nothing was written")
        ]
    known, problems = _answered(given or Answers(), ask)
    if problems:
        return problems
    zone = time_zone or system_time_zone(os.environ)
    try:
        _write(folder, known, zone)
    except OSError as error:
        return [Problem(str(folder), 0, "", "must be a folder that can be written to",
                        error.strerror, "choose another place or mend its permissions")]
    return []


def _answered(given: Answers, ask: Ask | None) -> tuple[Answers, list[Problem]]:
    questions = (
        (given.name, Question("--name", "What is the board called?", BoardSettings().name,
                              CHECKS["board.name"])),
        (given.maker, Question("--maker", "What is your name, as swappers know you?", _KEEPER,
                               _maker_name)),
        (given.country, Question("--country", "Which country are you in? (Enter leaves it open)",
                                 "", _country)),
    )
    answers, problems = [], []
    for said, question in questions:
        value, problem = answer(question, said, ask)
        answers.append(value)
        problems += [problem] if problem else []
    return Answers(*answers), problems


def _maker_name(text: str) -> tuple[str | None, str, str]:
    name = tidy(text)
    if not name:
        return None, "must be a name", "write your name, or any name that swappers know you by"
    _, problems = read_maker("makers/keeper.md", write_post([("Name", name)]), Settings())
    for problem in problems:
        return None, problem.must, problem.fix
    return name, "", ""


def _country(text: str) -> tuple[str | None, str, str]:
    countries = countries_in(BoardSettings().language)
    fix = countries.suggest(text) or "write its English name or its two-letter code"
    found = countries.find(text) if text.strip() else ""
    return found, "must be a country", fix


def system_time_zone(environ: Mapping[str, str], localtime: Path = _LOCALTIME) -> str:
    """The time zone that this computer is set to: from the variable TZ, else from
    where the link `localtime` leads, else "UTC"."""
    places = [environ.get("TZ", "").removeprefix(":")]
    if localtime.is_symlink():
        places.append(os.path.realpath(localtime))
    for place in places:
        name = place.replace("\\", "/").rpartition("/zoneinfo/")[2]
        name = name.removeprefix("posix/").removeprefix("right/")
        zone = CHECKS["board.time_zone"](name)[0] if name else None
        if zone:
            return zone
    return "UTC"


def _write(folder: Path, known: Answers, time_zone: str) -> None:
    starter = starter_folder()
    shutil.copytree(starter, folder, ignore=_LEFT_OUT, dirs_exist_ok=True)
    for name in ("calls", "cards", "makers", "offers", "pages", "photos"):
        (folder / name).mkdir(exist_ok=True)
    private = folder / "private"
    private.mkdir(exist_ok=True)
    private.chmod(0o700)
    theirs = read_settings((starter / "board.toml").read_text("utf-8"))[0].board
    keeper = theirs.keeper if known.maker == _KEEPER else slug(known.maker)
    _make_out_posts(folder, theirs.keeper, keeper, known)
    # Last, since it is what makes a folder a board.
    text = starter_toml(
        known.name, keeper=keeper, about=theirs.about, time_zone=time_zone,
        paper=paper_in(countries_in(theirs.language).code(known.country)),
    )
    write_whole(folder / "board.toml", text.encode("utf-8"))


def _make_out_posts(folder: Path, before: str, keeper: str, known: Answers) -> None:
    """Put the keeper's name in place of the starter's."""
    old, new = folder / "makers" / f"{before}.md", folder / "makers" / f"{keeper}.md"
    text = _changed(old, MAKER_KEYS, {"Name": known.maker, "Country": known.country})
    old.unlink()
    write_whole(new, text.replace(f"`{before}`", f"`{keeper}`").encode("utf-8"))
    for card in sorted((folder / "cards").glob("*.md")):
        write_whole(card, _changed(card, CARD_KEYS, {"Maker": keeper}).encode("utf-8"))


def _changed(post: Path, keys: Keys, values: dict[str, str]) -> str:
    """The post's text with other values; keys that it lacks come after the first."""
    header, _ = read_header(post.name, post.read_text("utf-8"), keys)
    fields = [(field.key, values.get(field.key, field.value)) for field in header.fields.values()]
    there = {key for key, _ in fields}
    added = [(key, value) for key, value in values.items() if key not in there and value]
    return write_post([*fields[:1], *added, *fields[1:]], header.body)
