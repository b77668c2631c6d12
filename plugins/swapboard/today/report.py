"""Errands as data for programs and as text for the keeper.

The data, `"version": 1`:

    {"version": 1, "day": "2026-10-10",
     "errands": [{"due": DAY or null, "overdue": BOOL, "about": "offers/NAME.md" or "",
                  "who": [MAKER, …], "what": SENTENCE, "since": DAY or null,
                  "draft": {"to": [MAKER, …], "mail": {MAKER: ADDRESS, …},
                            "subject": LINE, "body": TEXT} or null}, …]}

`who` has to do it, the keeper where it is empty; `mail` has the addresses known of
`to` from private/mail.csv. A draft goes to each of its makers in a mail of its own.
"""

import textwrap
from collections.abc import Mapping, Sequence
from datetime import date

from swapboard.today.types import Draft, Errand

VERSION = 1
MOST_PROPOSED = 10
WIDTH = 76
"""characters of a line of a mail, as it is shown"""

Mails = Mapping[str, Sequence[str]]


def as_data(errands: Sequence[Errand], day: date, mails: Mails) -> dict:
    """The errands as JSON has them; `mails` has the known addresses by maker."""
    return {
        "version": VERSION,
        "day": day.isoformat(),
        "errands": [
            {
                "due": errand.due.isoformat() if errand.due else None,
                "overdue": is_overdue(errand, day),
                "about": errand.about,
                "who": list(errand.who),
                "what": errand.what,
                "since": errand.since.isoformat() if errand.since else None,
                "draft": _draft_data(errand.draft, mails),
            }
            for errand in errands
        ],
    }


def as_text(
    errands: Sequence[Errand], day: date, mails: Mails, drafts: bool, reader: str = ""
) -> str:
    """The errands to be read by the keeper, or by another maker named `reader`: what is
    theirs to do, what to chase, what is waited for, what the board proposes; with `drafts`
    each with its mail."""
    groups: dict[str, list[Errand]] = {
        "For you to do": [], "To chase": [], "Waiting for": [], "Swaps to propose": [],
    }  # fmt: skip
    for errand in errands:
        groups[_group(errand, day, reader)].append(errand)
    lines: list[str] = []
    for heading, found in groups.items():
        if not found:
            continue
        shown = found if drafts or heading != "Swaps to propose" else found[:MOST_PROPOSED]
        lines += [heading, ""]
        for errand in shown:
            lines += _lines(errand, reader)
            if drafts and errand.draft:
                lines += ["", *_draft_lines(errand.draft, mails), ""]
        if len(shown) < len(found):
            lines.append(f"  and {len(found) - len(shown)} more: swapboard match")
        lines.append("")
    if not drafts and any(errand.draft for errand in errands):
        lines += ["With the mails that go with these: swapboard today --drafts", ""]
    return "\n".join(lines) if lines else "Nothing is to be done today.\n"


def is_overdue(errand: Errand, day: date) -> bool:
    """Whether the day it was due has passed."""
    return errand.due is not None and errand.due < day


def _group(errand: Errand, day: date, reader: str) -> str:
    if not errand.about:
        return "Swaps to propose"
    if errand.who in ((), (reader,)) or errand.at_board:
        return "For you to do"
    return "To chase" if is_overdue(errand, day) else "Waiting for"


def _lines(errand: Errand, reader: str) -> list[str]:
    if not errand.about:
        first, *others = errand.what.split("; ")
        return [f"  {first}", *(f"  {other}" for other in others[:-1]), f"      {others[-1]}"]
    told = f"{errand.about}: {errand.what}"
    others = [who for who in errand.who if who != reader and who not in errand.what]
    days = [f"{who}, whose call it is" for who in others]
    days += [f"since {errand.since}"] if errand.since else []
    if errand.due and errand.due != errand.since:
        days.append(f"due {errand.due}")
    return [f"  {told} ({', '.join(days)})" if days else f"  {told}"]


def _draft_data(draft: Draft | None, mails: Mails) -> dict | None:
    if draft is None:
        return None
    known = {maker: mails[maker][0] for maker in draft.to if mails.get(maker)}
    return {"to": list(draft.to), "mail": known, "subject": draft.subject, "body": draft.body}


def _draft_lines(draft: Draft, mails: Mails) -> list[str]:
    to = [f"{maker} <{mails[maker][0]}>" if mails.get(maker) else
          f"{maker} (no address in private/mail.csv)" for maker in draft.to]  # fmt: skip
    lines = [f"    To: {each}" for each in to]
    if len(draft.to) > 1:
        lines.append("    (a mail to each alone: neither has the other's address yet)")
    lines += [f"    Subject: {draft.subject}", ""]
    return lines + [f"    {line}".rstrip() for line in _folded(draft.body)]


def _folded(text: str) -> list[str]:
    """The lines of a mail, none longer than a terminal is wide; what is indented stays so."""
    made: list[str] = []
    for line in text.rstrip("\n").split("\n"):
        indent = " " * (len(line) - len(line.lstrip(" ")))
        made += textwrap.wrap(line, WIDTH, subsequent_indent=indent, break_long_words=False,
                              break_on_hyphens=False) or [""]  # fmt: skip
    return made
