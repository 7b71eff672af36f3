"""How large figures are drawn: one scale for all that belong together."""

from __future__ import annotations

from piecewright.emit.layout import lay_out, lines_of
from piecewright.plan.model import Figure, Panel

WIDEST = 468.0  # points, 165 mm
TALLEST = 330.0
PAGE = 600.0  # as tall as a page with its heading has room for, A4 or letter

# Points to the inch, largest first. A ladder, so that a small change of one step seldom changes the scale,
# and with it every other figure, of a unit.
LADDER = (
    28.0, 24.0, 20.0, 17.0, 14.0, 12.0, 10.0, 8.5, 7.0, 6.0, 5.0, 4.25, 3.5, 3.0, 2.5, 2.0, 1.5, 1.2, 1.0, 0.8, 0.6,
)  # fmt: skip


def group_scales(figures: tuple[Figure, ...]) -> dict[str, float]:
    """The scale of each group, in points to the inch: the largest of the ladder at which all its figures
    fit the page."""
    scales: dict[str, float] = {}
    for figure in figures:
        rung = LADDER.index(scales.get(figure.scale_group, LADDER[0]))
        across = _inches_across(figure)
        while rung < len(LADDER) - 1 and LADDER[rung] * across > WIDEST:
            rung += 1
        while rung < len(LADDER) - 1 and not _fits(figure, LADDER[rung]):
            rung += 1
        scales[figure.scale_group] = LADDER[rung]
    return scales


def _inches_across(figure: Figure) -> float:
    """What the outlines alone take, side by side: no scale is worth a trial at which they do not fit."""
    return max(sum(map(_width, line)) for line in lines_of(figure))


def _width(panel: Panel) -> float:
    xs = [p[0] for s in panel.strokes if s.role == "raw" for p in s.points]
    return max(xs, default=0.0) - min(xs, default=0.0)


def _fits(figure: Figure, scale: float) -> bool:
    sheet = lay_out(figure, scale)
    return sheet.width <= WIDEST and sheet.height <= (PAGE if figure.whole_page else TALLEST)
