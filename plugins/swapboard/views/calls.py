"""Pages of swap calls: each call, and the list of open and closed ones."""

from datetime import date

from swapboard.records.call_phase import CLOSED, phase_of
from swapboard.records.types import Call
from swapboard.views.pages import CallList, CallPage, CallPerson
from swapboard.views.showing import Showing
from swapboard.views.types import CallTile, Moment


def call_tile(showing: Showing, name: str) -> CallTile:
    """A call as it stands in every list."""
    call = showing.board.calls[name]
    moments = _moments(showing, call)
    upcoming = next((moment for moment in moments if moment.state != "past"), None)
    return CallTile(
        name=name,
        path=showing.path("calls", name),
        title=call.title,
        theme=call.theme,
        host=showing.maker(call.host),
        by=call.by,
        send=call.send,
        receive=call.receive,
        places=call.places,
        places_taken=len(call.people),
        phase=phase_of(call, showing.today),
        moments=moments,
        next=upcoming,
        days_left=(upcoming.on - showing.today).days if upcoming else None,
        counted_on=showing.today if upcoming else None,
    )


def call_page(showing: Showing, name: str) -> CallPage:
    """What a call's own page shows."""
    call = showing.board.calls[name]
    return CallPage(
        tile=call_tile(showing, name),
        body=showing.writing(call.body),
        place=call.place,
        hour=call.hour,
        chosen_by=call.chosen_by,
        host_takes_part=call.host_takes_part,
        media=showing.facet_links("media", call.media),
        not_wanted=call.not_wanted,
        must_have=call.must_have,
        thickness=call.thickness,
        countries=call.countries,
        return_postage=call.return_postage,
        adults_only=call.adults_only,
        people=tuple(
            CallPerson(showing.maker(p.maker), p.cards, p.signed_up, p.arrived, p.note)
            for p in call.people
        ),
    )


def call_list(showing: Showing) -> CallList:
    """All calls: open ones by what is next, closed ones latest first."""
    tiles = [call_tile(showing, name) for name in sorted(showing.board.calls)]
    is_open = [tile for tile in tiles if tile.phase != CLOSED]
    closed = [tile for tile in tiles if tile.phase == CLOSED]
    return CallList(
        open=tuple(sorted(is_open, key=lambda t: t.next.on if t.next else date.max)),
        closed=tuple(sorted(closed, key=_last_day, reverse=True)),
        feed=showing.feed("index.html", showing.settings.board.name),
    )


def _moments(showing: Showing, call: Call) -> tuple[Moment, ...]:
    dated = (
        ("announced", call.date),
        ("sign up by", call.sign_up_by),
        ("arrive by", call.arrive_by),
        ("mail out by", call.mail_out_by),
    )
    return tuple(Moment(what, day, showing.when(day)) for what, day in dated if day)


def _last_day(tile: CallTile) -> date:
    return tile.moments[-1].on if tile.moments else date.min
