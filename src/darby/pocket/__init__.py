"""The pocket sheet: one HTML file for the phone that works sums at the wall with tables exported by the core.

It holds no rule and no figure of its own. ``pocket_sheet`` writes it; ``docs/pocket.md`` says what stands in it.
"""

from darby.pocket.sheet import MOST_BYTES, TooLarge, pocket_sheet, write_sheet

__all__ = ["MOST_BYTES", "TooLarge", "pocket_sheet", "write_sheet"]
