"""What the print commands put on paper, from a board's folder to PDF bytes."""

from collections import defaultdict
from dataclasses import replace
from pathlib import Path

from swapboard.disk.addresses import PATH, read_addresses
from swapboard.disk.deals import FOLDER, deal_call
from swapboard.disk.load import Loaded, load_board
from swapboard.disk.print_fonts import fonts_of, not_in_fonts, words_of
from swapboard.printing.flyer import flyer
from swapboard.printing.labels import Address, address_lines, labels
from swapboard.printing.lists import Section, tick_list
from swapboard.printing.paper import Fonts
from swapboard.problems import ERROR, WARNING, Problem, did_you_mean, errors
from swapboard.records.types import Board, Call
from swapboard.views.announcement import announcement
from swapboard.views.showing import Showing
from swapboard.vocabulary import slug
from swapboard.vocabulary.countries import countries_in
from swapboard.vocabulary.counts import counted
from swapboard.vocabulary.label_sheets import LABEL_SHEETS, USUAL
from swapboard.vocabulary.postal import CUSTOMS, Envelope, estimate, said_of, uneven

Printed = tuple[bytes | None, list[Problem]]


def print_labels(board: Path, call: str, sheet: str, first: int) -> Printed:
    """Labels for all addresses, or for the people of one call, sorted by maker.

    Whoever has no address is an error for a call: an envelope would be forgotten.
    """
    loaded, problems = _loaded(board)
    if problems:
        return None, problems
    own = loaded.settings.board
    chosen = LABEL_SHEETS[sheet or USUAL.get(own.paper, "63.5x38.1mm")]
    if not 1 <= first <= chosen.count:
        must = f"must be a label of the sheet, from 1 to {chosen.count}"
        return None, [Problem("--first", 0, "", must, str(first), "count along the rows.")]
    found, problems = read_addresses(board, own.language)
    wanted = dict(sorted(found.items()))
    if call:
        if problem := _no_call(loaded.board, call):
            return None, [problem]
        wanted, missing = _of_call(loaded.board, loaded.board.calls[call], found)
        problems += missing
    has, wrong = fonts_of(board, loaded.settings)
    problems += wrong + _not_in_font(wanted, has)
    if errors(problems) or not wanted:
        none = [] if errors(problems) else [
            Problem(PATH, 0, "", "must hold an address", None, "add a line for each maker.")]
        return None, [*problems, *none]
    return labels(list(wanted.values()), chosen, has, first), problems


def print_pick_list(board: Path, call: str, value: str, paper: str, envelope: str) -> Printed:
    """Each envelope of a dealt call: what goes into it, and about what it weighs."""
    loaded, problems = _loaded(board)
    if problems or (problem := _no_call(loaded.board, call)):
        return None, problems or [problem]
    one, kept = loaded.board.calls[call], f"{FOLDER}/{call}.json"
    # Printing must never be what draws a deal.
    if not (board / kept).is_file() or one.deal is None or one.deal.dealt is None:
        fix = f"deal it first: swapboard deal {call}."
        return None, [Problem(kept, 0, "", "must be there: who gets what is kept in it", None, fix)]
    made = deal_call(board, call, value)
    if made.deal is None or not made.deal.possible:
        fix = f"see what stands in its way: swapboard deal {call}."
        return None, made.problems or [Problem(kept, 0, "", "must hold a deal", None, fix)]
    sections = _envelopes(loaded, one, made.cards, made.names, envelope)
    title = f"Pick list: {one.title}"
    under = "Who gets what: for the host alone until the call is opened."
    has, wrong = fonts_of(board, loaded.settings)
    words = "\n".join([title, *(w for s in sections for w in (s.heading, *s.ticks, *s.notes))])
    wrong += not_in_fonts(words, has, one.path, "on paper", WARNING)
    pdf = tick_list(title, under, sections, paper or loaded.settings.board.paper, has)
    return pdf, [*made.problems, *wrong]


def print_flyer(board: Path, call: str, paper: str) -> Printed:
    """A call on one page; without the board's address there is no code on it."""
    loaded, problems = _loaded(board)
    if problems or (problem := _no_call(loaded.board, call)):
        return None, problems or [problem]
    told = announcement(Showing(loaded.board, loaded.settings, {}, loaded.today), call)
    if not told.address:
        must, fix = "must be known for a code", "set it in board.toml; this flyer has no code."
        problems = [Problem("board.toml", 0, "address", must, None, fix, WARNING)]
    has, wrong = fonts_of(board, loaded.settings)
    path = loaded.board.calls[call].path
    problems += wrong + not_in_fonts(words_of(told), has, path, "on paper", WARNING)
    over = f"Swap call · {told.board}"
    on = paper or loaded.settings.board.paper
    return flyer(told.title, over, told.facts, told.body, told.address, on, has), problems


def _envelopes(
    loaded: Loaded, call: Call, cards, names: dict[tuple[str, int], str], envelope: str
) -> list[Section]:
    board, by_taker = loaded.board, defaultdict(list)
    for giver, number, taker in cards:
        by_taker[taker].append((giver, number))
    host = board.makers.get(call.host)
    code = countries_in(loaded.settings.board.language).code(host.country) if host else None
    sections = []
    for taker in sorted(by_taker, key=lambda name: (_title(board, name).casefold(), name)):
        own = sorted(by_taker[taker])
        ticks = []
        words: list[str] = []
        for giver, number in own:
            card = board.cards.get(names.get((giver, number), ""))
            title = f", “{card.title}”" if card else ""
            words += [*card.media, card.made_on] if card else []
            ticks.append(f"{_title(board, giver)}, card {number}{title}")
        notes = _notes(estimate(len(own), envelope=envelope), code, words or list(call.media))
        ticks.append("sealed, stamped, address on")
        count = counted(len(own), "card")
        sections.append(Section(f"{_title(board, taker)}: {count}", tuple(ticks), notes))
    return [*sections, Section("Abroad", (), (CUSTOMS,))]


def _notes(guess: Envelope, code: str | None, words: list[str]) -> tuple[str, ...]:
    notes = [f"About {guess.grams:g} g and {guess.thick:g} mm (±10 %), sleeved.",
             *said_of(guess, code)]
    if uneven(words):
        notes.append("Stiff or uneven contents: such letters often cost more; ask.")
    return tuple(notes)


def _loaded(board: Path) -> tuple[Loaded, list[Problem]]:
    loaded = load_board(board)
    return loaded, errors(loaded.problems)


def _no_call(board: Board, call: str) -> Problem | None:
    if call in board.calls:
        return None
    fix = did_you_mean(call, board.calls) or "name a file of calls/ without its ending."
    return Problem("calls", 0, "", "must be a call of this board", call, fix)


def _title(board: Board, maker: str) -> str:
    return board.makers[maker].title if maker in board.makers else maker


def _of_call(
    board: Board, call: Call, found: dict[str, Address]
) -> tuple[dict[str, Address], list[Problem]]:
    wanted, problems = {}, []
    # Who only waited gets nothing; who left may get back what had come of theirs.
    mailed = {p.maker: not p.standing for p in call.people if not p.standing or p.arrived}
    for maker, is_in_it in sorted(mailed.items()):
        keys = (slug(maker), slug(_title(board, maker)))
        address = next((found[key] for key in keys if key in found), None)
        if address is not None:
            wanted[maker] = address
        elif is_in_it and maker != call.host:
            fix = "ask them for it, and add a line."
            must = f"must have an address for everybody in {call.path}"
            problems.append(Problem(PATH, 0, "maker", must, maker, fix))
    return wanted, problems


def _not_in_font(addresses: dict[str, Address], has: Fonts) -> list[Problem]:
    """An error for each address that would arrive with signs that nobody can read."""
    return [
        replace(problem, got=f"{maker}: {problem.got}")
        for maker, address in addresses.items()
        for problem in not_in_fonts("\n".join(address_lines(address)), has, PATH, "maker", ERROR)
    ]
