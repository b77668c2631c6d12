"""Pages of swap calls: each call, and the list of open and closed ones."""

from datetime import date

from swapboard.records.call_phase import (
    OVER,
    marks_of,
    phase_of,
    places_taken,
    taking_part,
    waiting,
)
from swapboard.records.types import Call, Person
from swapboard.views.call_deals import deal_shown, gallery, numbers
from swapboard.views.call_pages import CallPage, CallPerson
from swapboard.views.pages import CallList
from swapboard.views.showing import Showing
from swapboard.views.types import CallTile, Moment

_PLANNED = ("sign up by", "arrive by", "in person", "mail out by")


def call_tile(showing: Showing, name: str) -> CallTile:
    """A call as it stands in every list."""
    call = showing.board.calls[name]
    phase = phase_of(call, showing.today)
    moments = _moments(showing, call)
    upcoming = next(filter(_is_ahead, moments), None)
    if phase in OVER:
        upcoming = None
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
        places_taken=places_taken(call),
        phase=phase,
        moments=moments,
        next=upcoming,
        days_left=(upcoming.on - showing.today).days if upcoming else None,
        counted_on=showing.today if upcoming else None,
        marks=marks_of(call, showing.today),
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
        people=tuple(_person(showing, call, person) for person in taking_part(call)),
        guardian=call.guardian,
        two_places=call.two_places,
        by_maker=call.by_maker,
        waiting=tuple(_person(showing, call, person) for person in waiting(call)),
        deal=deal_shown(showing, call),
        gallery=gallery(showing, call),
        numbers=numbers(showing, call),
    )


def _person(showing: Showing, call: Call, person: Person) -> CallPerson:
    envelope, since = "", None
    for code in ("received", "lost", "mailed", "sealed"):
        if day := getattr(person, code):
            envelope, since = code, day
            break
    return CallPerson(
        showing.maker(person.maker), person.cards, person.signed_up, person.arrived,
        person.note, person.places, envelope, since,
    )  # fmt: skip


def call_list(showing: Showing) -> CallList:
    """All calls: open ones by what is next, closed ones latest first."""
    tiles = [call_tile(showing, name) for name in sorted(showing.board.calls)]
    is_open = [tile for tile in tiles if tile.phase not in OVER]
    closed = [tile for tile in tiles if tile.phase in OVER]
    return CallList(
        open=tuple(sorted(is_open, key=lambda t: t.next.on if t.next else date.max)),
        closed=tuple(sorted(closed, key=_last_day, reverse=True)),
        feed=showing.feed("index.html", showing.settings.board.name),
    )


def _moments(showing: Showing, call: Call) -> tuple[Moment, ...]:
    """The line of dates: those that were set, and what has happened since."""
    is_meeting = call.by == "in person"
    dated = [
        ("announced", call.date),
        ("sign up by", call.sign_up_by),
        ("in person" if is_meeting else "arrive by", call.arrive_by),
        ("mail out by", call.mail_out_by),
        ("dealt", call.deal.dealt if call.deal else None),
        ("opened", call.deal.opened if call.deal else None),
    ]
    happened = ("run short", "dealt", "opened", "closed", "cancelled")
    dated += [(event.what, event.on) for event in call.events if event.what in happened]
    known = [(what, day) for what, day in dict.fromkeys(dated) if day]
    if ended := [day for what, day in known if what in OVER]:
        # What was planned for after its end no longer comes.
        known = [(what, day) for what, day in known if day <= ended[0]]
    known.sort(key=lambda one: one[1])
    return tuple(Moment(what, day, showing.when(day)) for what, day in known)


def _is_ahead(moment: Moment) -> bool:
    """Whether one still looks forward to it: what was planned for today is not over, what has
    happened today is."""
    return moment.state == "to come" or moment.state == "today" and moment.what in _PLANNED


def _last_day(tile: CallTile) -> date:
    return tile.moments[-1].on if tile.moments else date.min
