"""What the reader is told of each fabric: what to buy, why no less will do, and how it is cut.

Assorted fabrics are many prints, of which nobody knows how large they are: for them the strips stand as `strips` plans
them, and nothing is claimed to be least.
"""

from __future__ import annotations

from collections.abc import Mapping

from piecewright.exact import INCH_PER, Exact, decimal_text, fraction_text
from piecewright.kernel.build import Build, Fabric, Settings, Sold
from piecewright.kernel.buying import to_buy
from piecewright.plan.cloth.ways import ways
from piecewright.plan.cutlist import CutRow
from piecewright.plan.model import ClothPlan, Extent, SheetPlan, StripPlan
from piecewright.plan.rounding import cloth_size, cut_size, given_size, with_unit
from piecewright.plan.scene_cloth import cloth_figures
from piecewright.plan.strip_text import how_texts, pieces_text, sheet_name, sheets_text, strip_plans
from piecewright.plan.strips import Strips, strip_texts, strips_length
from piecewright.plan.words import listed, plural
from piecewright.plan.yardage import ClothCut, is_backing, lacking

_NO_BREAK = "\u00a0"


def cloth_plan(
    cut: ClothCut, rows: Mapping[int, CutRow], letters: Mapping[int, str], figure_id: str
) -> tuple[ClothPlan, tuple[StripPlan, ...]]:
    """The plan of one fabric, and its strips. `letters` of the rows in the drawings."""
    strips = strip_plans(cut, rows, letters)
    settings, mark = cut.settings, cut.mark
    by_length = cut.sold.step is not None
    remnant = None
    if cut.remnant is not None:
        remnant = Extent(width=cut_size(cut.remnant[0], settings), height=cut_size(cut.remnant[1], settings))
    heights = {strip.height.exact for strip in strips}
    plan = ClothPlan(
        fabric=cut.fabric.name,
        bought=given_size(cut.bought, settings) if by_length else None,
        bought_text=_bought_text(cut),
        length=cloth_size(mark * cut.plan.length, settings) if by_length else None,
        bound=given_size(cut.bound, settings) if by_length else None,
        any_bound=given_size(cut.any_bound, settings) if by_length else None,
        sheets=_sheets(cut, "sheet"),
        scraps=_sheets(cut, "scrap"),
        least=None if by_length else cut.bound.floor(),
        any_least=None if by_length else cut.any_bound.floor(),
        proved=cut.proved,
        waste=_percent(cut.waste),
        remnant=remnant,
        strips=sum(strip.strips for strip in strips),
        settings=len(heights),
        ways=ways(cut.plan),
        text=_texts(cut, rows, strips, remnant),
        how=how_texts(cut, rows),
        figures=cloth_figures(cut, strips, letters, figure_id),
        missing=lacking(cut),
    )
    return plan, strips


def assorted_plan(
    build: Build, fabric: Fabric, rows: tuple[CutRow, ...], planned: tuple[Strips, ...]
) -> tuple[ClothPlan, tuple[StripPlan, ...]]:
    """The same of an assorted fabric, whose prints are cut one by one."""
    settings = build.settings
    length = strips_length(build, planned)
    sold = fabric.sold or settings.sold
    bought = None if sold.step is None else assorted_length(build, fabric, planned)
    told = with_unit(cut_size(length, settings).shown, settings.units)
    if bought is not None:
        told = bought_text(sold, bought, settings)
    strips = strip_texts(build, rows, planned)
    plan = ClothPlan(
        fabric=fabric.name,
        bought=None if bought is None else given_size(bought, settings),
        bought_text=told,
        length=cloth_size(length, settings),
        bound=None,
        any_bound=None,
        sheets=(),
        scraps=(),
        least=None,
        any_least=None,
        proved=None,
        waste=0,
        remnant=None,
        strips=sum(strip.strips for strip in strips),
        settings=len({strip.height.exact for strip in strips}),
        ways=None,
        text=(f"All prints together are as much as {told} of one cloth.",),
        how=(),
        figures=(),
        missing=(),
    )
    return plan, strips


def assorted_length(build: Build, fabric: Fabric, planned: tuple[Strips, ...]) -> Exact:
    """How much of an assorted fabric is bought; where it is sold in sheets, how much of one cloth its prints are
    together. In inches."""
    length, sold = strips_length(build, planned), fabric.sold or build.settings.sold
    return length if sold.step is None else to_buy(length, fabric, sold.step)


def bought_text(sold: Sold, length: Exact, settings: Settings) -> str:
    """A length as it is asked for in the shop: `2¼ yd`, `130 cm`."""
    if sold.by == "yard":
        return f"{fraction_text(length / 36, typographic=True)}{_NO_BREAK}yd"
    if sold.by == "cm":
        return f"{decimal_text(length / INCH_PER['cm'])}{_NO_BREAK}cm"
    return with_unit(given_size(length, settings).shown, settings.units)


def _bought_text(cut: ClothCut) -> str:
    if cut.sold.step is not None:
        return bought_text(cut.sold, cut.bought, cut.settings) if cut.bought else "nothing"
    number = cut.bought.floor()
    return sheets_text(number, sheet_name(cut, "sheet", 0)) if number else "nothing"


def _sheets(cut: ClothCut, source: str) -> tuple[SheetPlan, ...]:
    """The sheets that are used, like ones together."""
    counts: dict[int, int] = {}
    for used in cut.plan.used:
        if used.source == source:
            counts[used.index] = counts.get(used.index, 0) + used.part.times
    found = []
    for index, count in sorted(counts.items()):
        if source == "sheet":
            across, down, name = cut.sold.across, cut.sold.down, cut.sold.name
        else:
            scrap = cut.fabric.scraps[index]
            across, down, name = scrap.across, scrap.down, scrap.name or "scrap"
        assert across is not None and down is not None
        sizes = given_size(across, cut.settings), given_size(down, cut.settings)
        found.append(SheetPlan(name=name, width=sizes[0], height=sizes[1], count=count))
    return tuple(found)


def _texts(
    cut: ClothCut, rows: Mapping[int, CutRow], strips: tuple[StripPlan, ...], remnant: Extent | None
) -> tuple[str, ...]:
    found = [_buy(cut)]
    if cut.plan.missing:
        what = listed([pieces_text(rows[index], count, cut.settings) for index, count in lacking(cut)])
        found.append(f"There is no cloth for {what}; this is the plan for the rest.")
    elif cut.bought:
        found.append(_why(cut, rows))
    if strips:
        count = sum(strip.strips for strip in strips)
        told = f"{plural(count, 'strip')}, {plural(len({strip.height.exact for strip in strips}), 'ruler setting')}"
        rest = f"{_percent(cut.waste)}% of the cloth is left over"
        if remnant is not None:
            size = with_unit(f"{remnant.width.shown} × {remnant.height.shown}", cut.settings.units)
            rest += f"; the largest piece left is {size}"
        found.append(f"{told}; {rest}.")
    return tuple(found)


def _buy(cut: ClothCut) -> str:
    """`Buy 2¼ yd.`, with what is used of scraps and what is more than is cut."""
    own = [
        sheets_text(one.count, one.name if one.name != "scrap" else f"scrap {one.width.shown} × {one.height.shown}")
        for one in _sheets(cut, "scrap")
    ]
    hand = f"{listed(own)} from what you have" if own else ""
    if not cut.bought:
        return f"Buy nothing: {hand or 'nothing is cut from it'}{' will do' if hand else ''}."
    text = f"Buy {_bought_text(cut)}"
    if cut.sold.step is None and cut.sold.name != "sheet":
        assert cut.sold.across is not None and cut.sold.down is not None
        across, down = (given_size(side, cut.settings).shown for side in (cut.sold.across, cut.sold.down))
        text += f" of {with_unit(f'{across} × {down}', cut.settings.units)}"
    text += f", and use {hand}." if hand else "."
    beyond = []
    if cut.fabric.shrinks:
        beyond.append(f"washing takes {_number(cut.fabric.shrinks * 100)}%")
    if cut.fabric.margin_part:
        beyond.append(f"{_number(cut.fabric.margin_part * 100)}% is margin")
    if cut.fabric.margin:
        margin = with_unit(given_size(cut.fabric.margin, cut.settings).shown, cut.settings.units)
        beyond.append(f"{margin} is margin")
    if beyond:
        text += f" In that, {listed(beyond)}."
    return text


def _why(cut: ClothCut, rows: Mapping[int, CutRow]) -> str:
    """Why no less will do, or how far from that the plan may be; said of the class of plans that the bound is of, and
    of rough pieces as large as they are. A backing could be pieced of other panels."""

    def told(least: Exact) -> str:
        if cut.sold.step is not None:
            return bought_text(cut.sold, least, cut.settings)
        return str(least.floor())

    less = "less" if cut.sold.step is not None else "fewer"
    if any(rows[one.row].lies is not None for one in cut.asking.asked):
        less += " for these rough pieces"
    if cut.any_bound == cut.bought:
        return f"No way of cutting needs {less}."
    backing = is_backing(rows[one.row] for one in cut.asking.asked)
    kind = "with straight strips" if not cut.asking.longs else "with long strips joined across the cloth or cut whole"
    plan = f"plan {kind}{' for these panels' if backing else ''}"
    other = f"no way of cutting{', and of piecing the backing,' if backing else ''}"
    other += f" needs {less} than {told(cut.any_bound)}"
    if cut.proved:
        return f"No {plan} needs {less}; {other}."
    if cut.bound == cut.any_bound:
        return f"A better plan may be found, but {other}."
    strips = f"no {plan} needs {less} than {told(cut.bound)}"
    return f"A better plan may be found, but {strips}; {other}."


def _percent(part: Exact) -> int:
    return (part * 100 + Exact(1, 2)).floor()


def _number(x: Exact) -> str:
    return fraction_text(x, typographic=True)

