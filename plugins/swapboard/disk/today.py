"""The day a build is for: an argument, not a reading of the clock in passing."""

import os
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError


def the_day(asked: date | None, time_zone: str, now: datetime | None = None) -> date:
    """`asked`, else SOURCE_DATE_EPOCH (seconds since 1970, UTC, as
    reproducible-builds.org has it), else `now`, in the board's zone."""
    if asked is not None:
        return asked
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    if epoch.strip().lstrip("-").isdigit():
        moment = datetime.fromtimestamp(int(epoch), UTC)
    else:
        moment = now or datetime.now(UTC)
    try:
        zone = ZoneInfo(time_zone)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        zone = ZoneInfo("UTC")
    return moment.astimezone(zone).date()
