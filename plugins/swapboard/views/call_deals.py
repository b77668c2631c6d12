"""A call's deal as its pages show it: what binds the host, and who got what once it is open."""

import json
from urllib.parse import unquote

from swapboard.records.call_cards import cards_of, piles
from swapboard.records.call_phase import opened_on, taking_part
from swapboard.records.deal_types import DealRecord, RepairRecord
from swapboard.records.types import Call
from swapboard.views.call_pages import (
    DealShown,
    DealtTo,
    EarlierShown,
    MovedCard,
    RepairShown,
    VerifyPage,
)
from swapboard.views.showing import Showing
from swapboard.views.types import CardTile, Link


def deal_shown(showing: Showing, call: Call) -> DealShown | None:
    """The deal of a call as far as it is public; None where nothing is frozen."""
    record = call.deal
    if record is None:
        return None
    lines = [line.split("\t") for line in record.list_text.split("\n")]
    counts = [int(line[1]) for line in lines if line[0] == "maker"]
    proof = json.loads(record.proof)
    return DealShown(
        frozen=record.frozen,
        dealt=record.dealt,
        opened=record.opened,
        makers=len(counts),
        cards=sum(counts),
        commitment=record.commitment,
        list_sha256=record.list_sha256,
        value_name=unquote(next((line[1] for line in lines if line[0] == "public"), "")),
        value=record.public_value,
        method=record.method,
        guarantee=record.guarantee,
        relaxed=record.relaxed,
        apart=sum(line[0] == "apart" for line in lines),
        told=len(proof.get("apart", ())) if record.opened else 0,
        repairs=tuple(_repair(showing, repair) for repair in record.repairs),
        earlier=tuple(
            EarlierShown(each.frozen, each.commitment, each.reason) for each in record.earlier
        ),
        envelopes=_envelopes(showing, call, record) if record.opened else (),
        verify=f"verify/{call.name}.html",
    )


def gallery(showing: Showing, call: Call) -> tuple[CardTile, ...]:
    """The cards of an opened swap, by their names; of the others nobody sees any."""
    if opened_on(call) is None:
        return ()
    return tuple(showing.tile(card.name) for card in cards_of(showing.board, call))


def numbers(showing: Showing, call: Call) -> tuple[int, ...]:
    """(makers, cards, countries) of an opened swap."""
    if opened_on(call) is None:
        return ()
    people = [person for person in taking_part(call) if person.arrived or person.maker == call.host]
    makers = showing.board.makers
    countries = {makers[p.maker].country for p in people if p.maker in makers} - {""}
    return len(people), sum(person.cards for person in people), len(countries)


def verify_page(showing: Showing, call: Call) -> VerifyPage | None:
    """The page on which a call's deal is verified; None where nothing is frozen."""
    deal = deal_shown(showing, call)
    if deal is None or call.deal is None:
        return None
    secret = json.loads(call.deal.proof).get("secret", "") if call.deal.opened else ""
    return VerifyPage(
        title=call.title,
        call=Link(call.title, showing.path("calls", call.name)),
        deal=deal,
        list_text=call.deal.list_text,
        secret=str(secret),
        proof=f"verify/{call.name}.json",
        script=f"verify/{call.name}.js",
    )


def proof_files(call: Call) -> dict[str, str]:
    """The published proof as files: for programs, and for the page that checks it.

    A script, since a page that is a file may not ask for another file.
    """
    record = call.deal
    if record is None:
        return {}
    repairs = [
        {"on": repair.on.isoformat(), "digest": repair.digest, "record": repair.record}
        for repair in record.repairs
    ]
    # What the deal file holds beyond the proof's own keys is not published.
    data = {**_public(json.loads(record.proof)), "repairs": repairs}
    text = json.dumps(data, ensure_ascii=False)
    return {
        f"verify/{call.name}.json": text + "\n",
        f"verify/{call.name}.js": f"globalThis.swapboardProof = {text};\n",
    }


_BEFORE = (
    "format", "version", "list", "list_sha256", "commitment", "public_value", "opened",
)  # fmt: skip
_OPENED = ("secret", "apart", "method", "table", "cards")


def _public(proof: dict) -> dict:
    keys = (*_BEFORE, *_OPENED) if proof.get("opened") is True else _BEFORE
    return {key: proof[key] for key in keys if key in proof}


def _envelopes(showing: Showing, call: Call, record: DealRecord) -> tuple[DealtTo, ...]:
    names = piles(showing.board, call)
    found: dict[str, list[tuple[Link, int, Link | None]]] = {}
    for giver, number, taker in record.cards:
        name = names.get((giver, number))
        card = Link(showing.board.cards[name].title, showing.path("cards", name)) if name else None
        shown = 0 if call.by_maker else number
        found.setdefault(taker, []).append((showing.maker(giver), shown, card))
    return tuple(DealtTo(showing.maker(taker), tuple(found[taker])) for taker in sorted(found))


def _repair(showing: Showing, repair: RepairRecord) -> RepairShown:
    def of(maker: str) -> Link | None:
        return showing.maker(maker) if maker else None

    moves = tuple(
        MovedCard(showing.maker(move.giver), move.number, of(move.left), of(move.to))
        for move in repair.moves
    )
    return RepairShown(
        repair.on, repair.reason, repair.envelopes, repair.sealed, repair.relaxed, repair.digest,
        moves,
    )  # fmt: skip
