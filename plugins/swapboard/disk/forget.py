"""`forget MAKER`: take one person off a board, and leave the others' facts standing."""

import re
from dataclasses import dataclass
from pathlib import Path

from swapboard.disk.forget_journal import FOLDER, begin, go_on
from swapboard.disk.load import Loaded
from swapboard.disk.lock import BoardBusy, board_lock
from swapboard.disk.one_maker import OneMaker, find_maker
from swapboard.disk.private_tables import Table, table_of
from swapboard.disk.trouble import problem_of
from swapboard.problems import WARNING, Problem, errors
from swapboard.records.board import read_board
from swapboard.records.people import ENDING
from swapboard.records.standing import standing
from swapboard.vocabulary import slug

LEFT = "a-maker-who-left"
_LEFT_POST = "Name: A maker who left\n"


@dataclass(frozen=True, slots=True)
class Forgetting:
    """What forgetting a maker would do: `gone` are paths taken away, `written` new texts
    by path, `kept` sentences on what stays and why."""

    maker: str
    gone: tuple[str, ...]
    written: dict[str, str]
    kept: tuple[str, ...]


def plan_forgetting(loaded: Loaded, asked: str) -> tuple[Forgetting | None, list[Problem]]:
    """What it takes to forget a maker. Nothing is written.

    Their post, cards and pictures go, and so do offers that they were in; the other's
    cards keep the state that the offer gave them. Calls and their lists name "a maker
    who left" in their place, but for a call whose list is frozen for a deal: its proof
    would fail. The plan is refused where it would break the board.
    """
    one, problems = find_maker(loaded, asked)
    if one is None or errors(problems):
        return None, problems
    if one.name == loaded.settings.board.keeper:
        fix = "name another keeper in board.toml first."
        return None, [Problem("board.toml", loaded.settings.lines.get("board.keeper", 0), "keeper",
                              "must not be forgotten", one.name, fix)]
    gone = [f"makers/{one.name}.md", *(f"cards/{n}.md" for n in one.cards),
            *(f"offers/{n}.md" for n in one.offers), *one.photos]
    there = [path for path in gone if (loaded.folder / path).is_file()]
    written, kept = _calls_without(loaded, one)
    written |= _cards_as_they_stand(loaded, one)
    written |= {path: others.text() for path, (_, others) in one.private.items()}
    kept += [f"{path} shows cards of others too: cover theirs, or take a new picture."
             for path in one.shared_photos]
    kept += [f"{path} names them, and a deal needs it." for path in one.mentions]
    kept += _still_named(loaded, one, there, written)
    plan = Forgetting(one.name, tuple(there), dict(sorted(written.items())), tuple(kept))
    return plan, _broken_by(loaded, plan)


def forget(board: Path, plan: Forgetting) -> list[Problem]:
    """Carry out a plan, all of it or nothing: `forget_journal` says how. The built site
    and the photo cache still hold what is forgotten until the board is built again."""
    try:
        with board_lock(board / ".swapboard"):
            begin(board, plan.gone, plan.written)
            go_on(board)
    except BoardBusy as busy:
        return [busy.problem]
    except OSError as error:
        return [problem_of(error, str(board))]
    return []


def finish_forgetting(board: Path) -> list[Problem]:
    """Go on with a forgetting that was cut short; a warning says so."""
    if not (board / FOLDER).is_dir():
        return []
    try:
        with board_lock(board / ".swapboard"):
            pass  # whoever holds it has finished it
    except BoardBusy as busy:
        return [busy.problem]
    except OSError as error:
        return [problem_of(error, str(board))]
    must = "held a forgetting that was cut short; it is finished now"
    return [Problem(FOLDER, 0, "", must, None, "nothing.", WARNING)]


def _calls_without(loaded: Loaded, one: OneMaker) -> tuple[dict[str, str], list[str]]:
    written, kept = {}, []
    texts = loaded.texts.texts
    for call in one.hosts:
        path = f"calls/{call}.md"
        written[path] = _with_key(texts[path], "Host", LEFT)
    for call in one.lists:
        path = f"calls/{call}{ENDING}"
        if (loaded.folder / f"private/deals/{call}.json").exists():
            kept.append(f"{path} keeps their public name: the list is frozen for a deal.")
        else:
            written[path] = _anonymous(table_of(texts[path]), one.names)
    if written and f"makers/{LEFT}.md" not in texts:
        written[f"makers/{LEFT}.md"] = _LEFT_POST
    return written, kept


def _anonymous(table: Table, names: frozenset[str]) -> str:
    at = table.columns.index("maker")
    note = table.columns.index("note") if "note" in table.columns else None
    taken = {slug(row[at]) for row in table.rows[1:]}
    name = next(n for n in (LEFT, *(f"{LEFT}-{i}" for i in range(2, 1002))) if n not in taken)
    rows = []
    for row in table.rows:
        if slug(row[at]) in names:
            cells = list(row)
            cells[at] = name
            if note is not None and note < len(cells):
                cells[note] = ""
            row = tuple(cells)
        rows.append(row)
    return table.text(tuple(rows))


def _cards_as_they_stand(loaded: Loaded, one: OneMaker) -> dict[str, str]:
    """Cards of others that their offers held or moved, with that said in the post."""
    days = loaded.settings.swaps.offer_days
    before = standing(loaded.board, loaded.today, days)
    written = {}
    for offer in one.offers:
        swap = loaded.board.offers[offer]
        for name in (*swap.gives, *swap.asks):
            card = loaded.board.cards.get(name)
            if card is None or card.maker == one.name:
                continue
            state, copies = before[name]
            text = loaded.texts.texts[card.path]
            if copies and copies != card.copies_left:
                written[card.path] = _with_key(text, "Copies left", str(copies))
            elif state != card.state:
                written[card.path] = _with_key(text, "State", state.value)
    return written


def _with_key(text: str, key: str, value: str) -> str:
    """A post's text with a line of its header set, or put before the first."""
    head, blank, rest = text.partition("\n\n")
    line = re.compile(rf"^{re.escape(key)}[ \t]*:.*$(?:\n[ \t]+.*$)*", re.M | re.I)
    if line.search(head):
        head = line.sub(lambda _: f"{key}: {value}", head, count=1)
    else:
        first, end, others = head.partition("\n")
        head = f"{first}\n{key}: {value}{end}{others}"
    return head + blank + rest if blank else head.rstrip("\n") + "\n"


def _still_named(
    loaded: Loaded, one: OneMaker, gone: list[str], written: dict[str, str]
) -> list[str]:
    maker = loaded.board.makers.get(one.name)
    words = {one.name, maker.title if maker else one.name}
    found = []
    for path, text in sorted({**loaded.texts.texts, **written}.items()):
        if path not in gone and not path.endswith(ENDING) and any(word in text for word in words):
            found.append(f"{path} still says their name: read it, and decide.")
    return found


def _broken_by(loaded: Loaded, plan: Forgetting) -> list[Problem]:
    """Errors that the board would have after the plan and has not now."""
    texts = {p: t for p, t in loaded.texts.texts.items() if p not in plan.gone}
    texts |= {p: t for p, t in plan.written.items() if not p.startswith("private/")}
    photos = [name for name in loaded.texts.photos if f"photos/{name}" not in plan.gone]
    after = read_board(texts, photos, today=loaded.today)[2]
    known = {(p.path, p.field, p.must) for p in loaded.problems}
    return [p for p in errors(after) if (p.path, p.field, p.must) not in known]
