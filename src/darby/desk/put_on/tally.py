"""Tally marks as the crew strikes them: four strokes, the fifth across; a short one for a part."""

from __future__ import annotations

from django.utils.safestring import SafeString, mark_safe

FIVE, STEP, APART, HIGH = 5, 7, 12, 24
MOST = 60
"""More strokes than these nobody counts: the figure stands alone."""


def tally(strokes: int, *, part: bool) -> SafeString:
    """So many strokes as a drawing; the figure beside it says the same to whoever cannot see it."""
    if strokes > MOST or not (strokes or part):
        return mark_safe("")
    x, path = 4, []
    for n in range(strokes):
        if n % FIVE == FIVE - 1:
            path.append(f"M{x - 4 * STEP - 3} {HIGH - 5}L{x - STEP + 4} 5")
            x += APART - STEP
        else:
            path.append(f"M{x} 3L{x + (1 if n % 2 else -1)} {HIGH - 3}")
            x += STEP
    if part:
        path.append(f"M{x} {HIGH // 2}L{x} {HIGH - 3}")
        x += STEP
    return mark_safe(
        f'<svg class="tally" width="{x + 4}" height="{HIGH}" viewBox="0 0 {x + 4} {HIGH}" aria-hidden="true">'
        f'<path d="{"".join(path)}"/></svg>'
    )
