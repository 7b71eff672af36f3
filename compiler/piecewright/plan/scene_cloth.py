"""The drawings of how a fabric is cut: strips one under another to scale, like strips once, what is left over hatched.

y is up, as in every scene; strips hang down from y = 0. Letters name the rows of the cut list, the numbers beside the
strips are those of the instructions.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from piecewright.dataclass import dataclass
from piecewright.plan.cloth.model import Part
from piecewright.plan.model import (
    Arrow,
    Badge,
    Cloth,
    Dimension,
    Figure,
    Label,
    Panel,
    Point,
    Side,
    StripPlan,
    Stroke,
)
from piecewright.plan.needs import Asking
from piecewright.plan.rounding import cut_size, drawn, given_size
from piecewright.plan.strip_text import sheet_name, sheets_text, single
from piecewright.plan.yardage import ClothCut, cuts_of_sheet, rests

# Inches, for cloth 40 wide, drawn at about seven points to the inch; of wider cloth, two sheets side by side or
# very high strips, which are drawn smaller, so much more (see `_coarse`).
TALLEST = 30.0  # of strips in one figure; more are drawn in the next
GAP = 1.3  # between two kinds of strips, to show that they are not drawn as often as they are cut
ROOM = 1.9  # a letter stands only where pieces are as wide and high together
THIN = 1.1  # and over the edges of strips as thin as this, beside which there is a gap
NARROW = 22.0  # inches: sheets as narrow stand two to a figure
PAIR = 2.7  # how much of the width of a figure such a sheet takes, with its sizes, to one that stands alone
TALLER = 1.25
GRAIN = 4.0  # inches, the arrow beside the cloth
BESIDE = 1.4  # inches from the cloth to that arrow


@dataclass(frozen=True, slots=True, kw_only=True)
class _Run:
    """Like pieces side by side, one every `pitch`, in inches from the top left corner of their strip. `rows` of the cut
    list that they are for, several of a strip that is joined to others."""

    x: float
    y: float
    width: float
    height: float
    times: int
    pitch: float
    rows: tuple[int, ...]


def cloth_figures(
    cut: ClothCut, strips: Sequence[StripPlan], letters: Mapping[int, str], figure_id: str
) -> tuple[Figure, ...]:
    """The figures of one fabric: first the scraps and sheets, then the cloth bought."""
    panels: list[list[Panel]] = []
    number = 0
    for used in sorted(cut.plan.used, key=lambda one: one.source == "sheet"):
        count = len(cuts_of_sheet(used.part))
        width = float(cut.mark) * used.part.width
        wide = width * PAIR if width <= NARROW else width
        (shown,) = _drawn(cut, used.part, 0, strips[number : number + count], letters, wide, float("inf"))
        words = sheets_text(used.part.times, sheet_name(cut, used.source, used.index))
        one = replace(shown, words=words, lead="and")
        if panels and len(panels[-1]) == 1 and max(width, _wide(panels[-1][0])) <= NARROW:
            panels[-1].append(one)
        else:
            panels.append([one])
        number += count
    if cut.plan.roll is not None:
        left = (cut.washed / cut.mark).floor() - cut.plan.roll.height
        width = float(cut.mark) * cut.plan.roll.width
        tallest = TALLEST * max(1.0, width / 40)
        panels += [[one] for one in _drawn(cut, cut.plan.roll, left, strips[number:], letters, width, tallest)]
    name = cut.fabric.name
    return tuple(
        Figure(
            id=f"{figure_id}-{place}" if place > 1 else figure_id,
            title=f"How {name} is cut{f', part {place} of {len(panels)}' if len(panels) > 1 else ''}.",
            description=" ".join(strip.text for strip in strips) if place == 1 else f"More strips of {name}.",
            panels=tuple(group),
            scale_group=f"{figure_id}-{place}",
            kind="cutting",
        )
        for place, group in enumerate(panels, 1)
    )


def _wide(panel: Panel) -> float:
    return max(x for cloth in panel.cloth for x, _ in cloth.outline)


def _coarse(wide: float, high: float) -> float:
    """How many times smaller than cloth 40 wide something is drawn, at most; `wide` with what stands beside it."""
    return max(1.0, wide / 40, high / TALLEST)


def _drawn(
    cut: ClothCut,
    part: Part,
    left: int,
    strips: Sequence[StripPlan],
    letters: Mapping[int, str],
    wide: float,
    tallest: float,
) -> Iterator[Panel]:
    """The strips, so many to a panel as fit in `tallest` inches; after the last of them what is left of the length,
    `left` marks more than the part is high. `wide`: how much of a figure's width it takes."""
    mark = float(cut.mark)
    parts = cuts_of_sheet(part)
    left += part.height - sum(one.height * one.times for one in parts)
    heights = [one.height * mark for one in parts] + ([left * mark] if left > 0 else [])
    if tallest == float("inf"):
        coarse = _coarse(wide, sum(heights) + GAP * len(heights))
    else:
        coarse = _coarse(wide, max(heights))
    sheet = _Sheet(cut, letters, part.width * mark, coarse)
    for one, strip in zip(parts, strips, strict=True):
        if sheet.y and sheet.y + sheet.gap + one.height * mark > tallest:
            yield sheet.panel()
            sheet = _Sheet(cut, letters, part.width * mark, coarse)
        sheet.strip(one, strip)
    if left > 0:
        # a rest says little by itself, so that a panel may be somewhat taller for it
        if sheet.y and sheet.y + sheet.gap + left * mark > max(tallest, TALLEST * coarse) * TALLER:
            yield sheet.panel()
            sheet = _Sheet(cut, letters, part.width * mark, coarse)
        sheet.left_over(left * mark, cut_size(cut.mark * left, cut.settings).shown)
    yield sheet.panel()


class _Sheet:
    """A panel while it is drawn from the top down; `y` is how far."""

    def __init__(self, cut: ClothCut, letters: Mapping[int, str], width: float, coarse: float) -> None:
        self.cut, self.letters, self.width = cut, letters, width
        self.y = 0.0
        self.coarse = coarse
        self.gap, self.room, self.thin = GAP * coarse, ROOM * coarse, THIN * coarse
        self.cloth: list[Cloth] = []
        self.strokes: list[Stroke] = []
        self.dimensions: list[Dimension] = []
        self.badges: list[Badge] = []
        self.labels: list[Label] = []

    def strip(self, part: Part, strip: StripPlan) -> None:
        mark = float(self.cut.mark)
        self.y += self.gap if self.y else 0
        high, top = part.height * mark, self.y
        self._one(part, part.width * mark, high)
        self.y += high
        shown = cut_size(self.cut.mark * part.height, self.cut.settings).shown
        text = shown if part.times == 1 else f"{part.times} of {shown}"
        self.dimensions.append(_dimension((0, -top), (0, -top - high), "left", text))
        self.badges.append(Badge(at=(drawn(self.width), drawn(-top - high / 2)), side="right", text=str(strip.number)))

    def left_over(self, high: float, shown: str) -> None:
        """Cloth left at the end of the length, or of the sheet."""
        self.y += self.gap if self.y else 0
        top = self.y
        box = _box(0, -top, self.width, high)
        self.cloth.append(Cloth(outline=box, fabric="", line=0, fallen=True))
        self.strokes.append(Stroke(points=box, role="raw", closed=True))
        self.dimensions.append(_dimension((0, -top), (0, -top - high), "left", f"left {shown}"))
        self.y += high

    def _one(self, part: Part, wide: float, high: float) -> None:
        fabric, mark, top = self.cut.fabric.name, float(self.cut.mark), self.y
        for run in _runs(part, self.cut.asking, mark, 0.0, 0.0):
            for n in range(run.times):
                box = _box(run.x + n * run.pitch, -top - run.y, run.width, run.height)
                self.cloth.append(Cloth(outline=box, fabric=fabric, line=0))
                self.strokes.append(Stroke(points=box, role="edge", closed=True))
            alone = run.height == high
            long = run.pitch * (run.times - 1) + run.width
            whole = self.room * len(run.rows)
            if long >= whole and run.height >= (self.thin if alone else self.room):
                middle = run.pitch * ((run.times - 1) // 2) + run.width / 2 if run.width >= whole else long / 2
                for n, row in enumerate(run.rows):
                    x = run.x + middle + self.room * (n - (len(run.rows) - 1) / 2)
                    at = drawn(x), drawn(-top - run.y - run.height / 2)
                    self.labels.append(Label(at=at, text=self.letters[row]))
        for x, y, w, h in rests(part):
            box = _box(x * mark, -top - y * mark, w * mark, h * mark)
            self.cloth.append(Cloth(outline=box, fabric="", line=0, fallen=True))
        if wide < self.width:  # a strip that is cut shorter than the cloth is wide
            box = _box(wide, -top, self.width - wide, high)
            self.cloth.append(Cloth(outline=box, fabric="", line=0, fallen=True))
        self.strokes.append(Stroke(points=_box(0, -top, self.width, high), role="raw", closed=True))

    def panel(self) -> Panel:
        settings = self.cut.settings
        across = given_size(self.cut.mark * round(self.width / float(self.cut.mark)), settings).shown
        top = _dimension((0, 0), (self.width, 0), "top", across)
        x = self.width + BESIDE * self.coarse
        long = min(GRAIN * self.coarse, max(self.y, 1.5))
        grain = Arrow(start=(drawn(x), drawn(0)), end=(drawn(x), drawn(-long)), role="grain")
        return Panel(
            cloth=tuple(self.cloth),
            strokes=tuple(self.strokes),
            arrows=(grain,),
            dimensions=(top, *self.dimensions),
            badges=tuple(self.badges),
            labels=tuple(self.labels),
        )


def _runs(part: Part, asking: Asking, mark: float, x: float, y: float) -> Iterator[_Run]:
    """The pieces of one such part, like ones side by side together."""
    if part.need is not None:
        yield _run(part, asking, mark, x, y, 1, 0.0)
        return
    for one in part.parts:
        wide, high = one.width * mark, one.height * mark
        piece = single(one)
        if piece is not None and part.split == "columns":
            yield _run(piece, asking, mark, x, y, one.times, wide)
            x += wide * one.times
            continue
        for _ in range(one.times):
            yield from _runs(one, asking, mark, x, y)
            if part.split == "columns":
                x += wide
            else:
                y += high


def _run(piece: Part, asking: Asking, mark: float, x: float, y: float, times: int, pitch: float) -> _Run:
    assert piece.need is not None
    wide, high = piece.width * mark, piece.height * mark
    return _Run(x=x, y=y, width=wide, height=high, times=times, pitch=pitch or wide, rows=asking.rows_of(piece.need))


def _box(x: float, y: float, width: float, height: float) -> tuple[Point, ...]:
    """A rectangle that hangs down from its top left corner."""
    left, right, low, high = drawn(x), drawn(x + width), drawn(y - height), drawn(y)
    return (left, low), (right, low), (right, high), (left, high)


def _dimension(start: Point, end: Point, side: Side, text: str) -> Dimension:
    ends = tuple((drawn(x), drawn(y)) for x, y in (start, end))
    return Dimension(start=ends[0], end=ends[1], side=side, row=0, text=text, beyond=side == "left")
