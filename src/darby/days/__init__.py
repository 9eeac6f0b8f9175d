"""When: trips, dates, access, who keeps it damp, and what the weather and the law forbid."""

from darby.days.access import choose, platform
from darby.days.cautions import cautions
from darby.days.visits import visits

__all__ = ["cautions", "choose", "platform", "visits"]
