"""calls/NAME.deal.json: text → what is public of a call's deal, and back.

Written by commands alone. Read as sceptically as any post: it may have been edited,
merged or cut short.
"""

import json
import re
from collections.abc import Mapping
from dataclasses import asdict
from datetime import date
from typing import Any

from swapboard.problems import Problem
from swapboard.records.deal_types import DealRecord, EarlierDeal, Move, RepairRecord
from swapboard.records.fields import parse_date

ENDING = ".deal.json"
FORMAT, VERSION = "swapboard call deal", 1
LARGEST = 8 * 1024 * 1024  # bytes; a thousand people with fifty cards each
_DIGEST = re.compile(r"[0-9a-f]{64}")
_LIST = re.compile(
    "swapboard list 1\n"
    r"(?:(?:call|public|relax)\t[^\t\n]*\n|maker\t\d{1,6}\t[^\t\n]+\n"
    r"|met\t[^\t\n]+\t[^\t\n]+\n|apart\t[0-9a-f]{64}\n)*",
    re.ASCII,
)
_FIX = "put back the file as the command wrote it; it is never edited by hand."


class _Unfit(ValueError):
    """What a deal file must be and is not."""


def read_deal(path: str, text: str) -> tuple[DealRecord | None, list[Problem]]:
    """The deal in a file's text, or None and the problem with it."""
    try:
        data = json.loads(text)
        return _record(path, data), []
    except json.JSONDecodeError as error:
        must = "must be the JSON that the command wrote"
        return None, [Problem(path, error.lineno, "", must, error.msg, _FIX)]
    except _Unfit as unfit:
        return None, [Problem(path, 0, "", str(unfit), None, _FIX)]
    except RecursionError:
        return None, [Problem(path, 0, "", "must not be nested so deep", None, _FIX)]


def write_deal(record: DealRecord) -> str:
    """The text of a deal file; `read_deal` gives the same record back."""
    data: dict[str, Any] = {
        "format": FORMAT,
        "version": VERSION,
        "frozen": record.frozen.isoformat(),
        "dealt": record.dealt.isoformat() if record.dealt else None,
        "opened": record.opened.isoformat() if record.opened else None,
        "method": record.method,
        "guarantee": record.guarantee,
        "relaxed": list(record.relaxed),
        "proof": json.loads(record.proof),
        "repairs": [_plain(repair) for repair in record.repairs],
        "earlier": [_plain(earlier) for earlier in record.earlier],
    }
    return json.dumps(data, ensure_ascii=False, indent=1) + "\n"


def _plain(one: RepairRecord | EarlierDeal) -> dict[str, Any]:
    found = asdict(one)
    found.pop("moves", None)  # they stand in the record that its digest was made of
    return {key: v.isoformat() if isinstance(v, date) else v for key, v in found.items()}


def _record(path: str, data: Any) -> DealRecord:
    if not isinstance(data, dict) or (data.get("format"), data.get("version")) != (FORMAT, VERSION):
        raise _Unfit(f"must be a deal file of version {VERSION}")
    proof = _of(data, "proof", dict)
    opened = _day(data, "opened")
    if bool(opened) != (proof.get("opened") is True):
        raise _Unfit("must say alike in opened and in its proof whether the deal is open")
    text = _of(proof, "list", str)
    if not _LIST.fullmatch(text):
        raise _Unfit("must hold a frozen list as the command wrote it")
    digests = {key: _digest(proof, key) for key in ("list_sha256", "commitment")}
    repairs = tuple(_repair(each, bool(opened)) for each in _of(data, "repairs", list))
    cards = {(giver, number): taker for giver, number, taker in _cards(proof)} if opened else {}
    for repair in repairs:
        for move in repair.moves:
            cards[move.giver, move.number] = move.to
    frozen = _day(data, "frozen")
    if frozen is None:
        raise _Unfit("must say when the list was frozen")
    return DealRecord(
        path=path,
        frozen=frozen,
        dealt=_day(data, "dealt"),
        opened=opened,
        proof=json.dumps(proof, ensure_ascii=False),
        list_text=text,
        public_value=_of(proof, "public_value", str),
        method=_of(data, "method", str),
        guarantee=_of(data, "guarantee", str),
        relaxed=_texts(data, "relaxed"),
        cards=tuple(sorted((g, n, taker) for (g, n), taker in cards.items() if taker)),
        repairs=repairs,
        earlier=tuple(_earlier(each) for each in _of(data, "earlier", list)),
        **digests,
    )


def _of(data: Mapping, key: str, kind: type) -> Any:
    value = data.get(key) if isinstance(data, dict) else None
    if not isinstance(value, kind) or isinstance(value, bool):
        names = {dict: "an object", list: "a list", str: "a text", int: "a whole number"}
        raise _Unfit(f"must have {names[kind]} in {key}")
    return value


def _day(data: Mapping, key: str) -> date | None:
    if data.get(key) is None:
        return None
    day = parse_date(_of(data, key, str))
    if day is None:
        raise _Unfit(f"must have a date like 2026-09-28 in {key}")
    return day


def _digest(data: Mapping, key: str) -> str:
    value = _of(data, key, str)
    if not _DIGEST.fullmatch(value):
        raise _Unfit(f"must have 64 hexadecimal digits in {key}")
    return value


def _texts(data: Mapping, key: str) -> tuple[str, ...]:
    found = _of(data, key, list)
    if not all(isinstance(text, str) for text in found):
        raise _Unfit(f"must have texts in {key}")
    return tuple(found)


def _cards(proof: Mapping) -> list[tuple[str, int, str]]:
    found = []
    for card in _of(proof, "cards", list):
        if not (isinstance(card, list) and [type(cell) for cell in card] == [str, int, str]):
            raise _Unfit("must have cards of giver, number and taker in its proof")
        found.append(tuple(card))
    return found


def _repair(data: Any, opened: bool) -> RepairRecord:
    on = _day(data, "on") if isinstance(data, dict) else None
    if on is None:
        raise _Unfit("must say of each repair on which day it was made")
    record = _of(data, "record", str)
    return RepairRecord(
        on=on,
        reason=_of(data, "reason", str),
        envelopes=_of(data, "envelopes", int),
        sealed=_of(data, "sealed", int),
        spares=_of(data, "spares", int),
        relaxed=_texts(data, "relaxed"),
        digest=_digest(data, "digest"),
        record=record,
        moves=moves_in(record) if opened else (),
    )


def moves_in(record: str) -> tuple[Move, ...]:
    """The moves in a repair's record; a ValueError where it is none."""
    try:
        rows = json.loads(record)["moves"]
        if not all([type(cell) for cell in row] == [str, int, str, str] for row in rows):
            raise TypeError
        return tuple(Move(*row) for row in rows)
    except (ValueError, TypeError, KeyError):
        raise _Unfit("must have the moves of each repair in its record") from None


def _earlier(data: Any) -> EarlierDeal:
    day = _day(data, "frozen") if isinstance(data, dict) else None
    if day is None:
        raise _Unfit("must say of each earlier list when it was frozen")
    return EarlierDeal(
        day, _digest(data, "commitment"), _digest(data, "list_sha256"), _of(data, "reason", str)
    )
