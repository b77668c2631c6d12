"""The sheet for a swap in person: who comes, to be ticked at the door; and, once the cards
are dealt, the deal to be read out. For the host alone, so it is kept in private/."""

from datetime import date
from html import escape
from pathlib import Path

from swapboard.disk.call_edit import open_call
from swapboard.disk.commitments import committed
from swapboard.disk.deals import Cards, cards_now, made_deal
from swapboard.disk.private_file import write_private
from swapboard.problems import Problem
from swapboard.records.call_cards import piles
from swapboard.records.call_phase import taking_part, waiting
from swapboard.records.types import Board, Call, Person

FOLDER = "private/tables"
_STYLE = """
@page { margin: 15mm }
body { font: 12pt/1.5 Georgia, serif; max-width: 44rem; margin: 2rem auto; padding: 0 1rem }
table { width: 100%; border-collapse: collapse }
th, td { text-align: start; padding: .45rem .75rem .45rem 0; border-bottom: 1px solid #999 }
.box { display: inline-block; width: 1em; height: 1em; border: 1.5px solid; vertical-align: -.1em }
section + section { break-before: page }
li { break-inside: avoid; margin-bottom: .4rem }
"""


def write_table_sheet(
    board: Path, name: str, today: date | None = None
) -> tuple[Path, list[Problem]]:
    """Write private/tables/NAME.html; its path. Raises `CallRefused` and OSError."""
    on_disk = open_call(board, name, today)
    known = committed(on_disk)
    cards: Cards = ()
    if known and known.record.dealt:
        cards = cards_now(made_deal(known), known.secret)
    path = f"{FOLDER}/{on_disk.call.name}.html"
    write_private(board, path, sheet_text(on_disk.loaded.board, on_disk.call, cards))
    return board / path, list(on_disk.problems)


def sheet_text(board: Board, call: Call, cards: Cards) -> str:
    """The sheet as one page of HTML that needs nothing else."""
    where = ", ".join(each for each in (call.place, str(call.arrive_by or ""), call.hour) if each)
    parts = [
        f"<!DOCTYPE html><html lang=en><meta charset=utf-8><title>{escape(call.title)}</title>"
        f"<style>{_STYLE}</style><section><h1>{escape(call.title)}</h1><p>{escape(where)}",
        "<p>Tick who is there, and write how many cards they lay on the table.",
        "<table><tr><th>There<th>Maker<th>Said<th>Brought",
        *(_row(board, person) for person in (*taking_part(call), *waiting(call))),
        "</table></section>",
    ]
    if cards:
        parts.append("<section><h1>The deal</h1><ol>")
        parts += [*_read_out(board, call, cards), "</ol></section>"]
    return "\n".join(parts) + "\n"


def _row(board: Board, person: Person) -> str:
    mark = "✓" if person.arrived else "<span class=box></span>"
    brought = str(person.cards) if person.arrived else ""
    note = " (waits for a place)" if person.standing == "waiting" else ""
    name = escape(_name(board, person.maker)) + note
    return f"<tr><td>{mark}<td>{name}<td>{person.cards}<td>{brought}"


def _read_out(board: Board, call: Call, cards: Cards) -> list[str]:
    """A line for each taker, in the order of their names."""
    names, lines = piles(board, call), []
    for taker in sorted({card[2] for card in cards}, key=lambda maker: _name(board, maker)):
        own = []
        for giver, number, to in cards:
            if to == taker:
                title = board.cards[names[giver, number]].title if (giver, number) in names else ""
                card = "" if call.by_maker else f" {number}"
                own.append(_name(board, giver) + card + (f", “{title}”" if title else ""))
        lines.append(f"<li><b>{escape(_name(board, taker))}</b>: {escape('; '.join(own))}")
    return lines


def _name(board: Board, maker: str) -> str:
    known = board.makers.get(maker)
    return known.title if known else maker
