"""The day a build is for: an argument, not a reading of the clock in passing."""

import os
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError


def the_day(asked: date | None, time_zone: str, now: datetime | None = None) -> date:
    """`asked`, else SOURCE_DATE_EPOCH (seconds since 1970, UTC, as
    reproducible-builds.org has it), else `now`, in the board's zone.

    A SOURCE_DATE_EPOCH that is no such number counts as none."""
    if asked is not None:
        return asked
    moment = _moment(os.environ.get("SOURCE_DATE_EPOCH", "")) or now or datetime.now(UTC)
    try:
        zone = ZoneInfo(time_zone)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        zone = ZoneInfo("UTC")
    return moment.astimezone(zone).date()


def _moment(epoch: str) -> datetime | None:
    """The moment so many seconds after 1970; None where that is no number, or in
    no year that calendars and zones can be trusted with."""
    try:
        moment = datetime.fromtimestamp(int(epoch), UTC)
    except (ValueError, OverflowError, OSError):
        return None
    return moment if 1900 <= moment.year <= 9998 else None
