"""Which strips the pieces of assorted fabrics come from: a simple plan, one strip height at a time.

Prints are cut one by one, each only as large as it must be, so that no plan of one cloth serves. For each fabric and
each height, pieces are laid end to end along strips of the usable width, the longest
first, each into the first strip that still has room. Pieces lie along the strip on their longer side;
on a directional fabric they lie as cut. Of strips that are longer than the width one long strip is joined, from which
they are cut; any other piece that is longer lies along the cloth. Pieces cut at an angle have strips of their own, one
row of the cut list at a time.
"""

from __future__ import annotations

from dataclasses import replace

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.kernel.build import Build, Settings
from piecewright.plan.bends import bend_box
from piecewright.plan.cutlist import CutRow, is_assorted, is_directional, print_word, row_letters
from piecewright.plan.joining import Joint, may_join, together
from piecewright.plan.leaning import per_strip, slanted_text
from piecewright.plan.model import StripPlan
from piecewright.plan.rounding import cut_size, given_size, up_to_mark
from piecewright.plan.strip_text import FEW, joint_text, pieces_text
from piecewright.plan.words import listed, plural


@dataclass(frozen=True, slots=True, kw_only=True)
class Strips:
    """Strips of one fabric and height. `pieces`: index of a row and how many of it; `joint`: how those
    that are longer than the width are joined, None where there are none. `each`: how
    many a whole strip gives of pieces that are cut at an angle, else zero. Where prints are chosen from an assorted
    fabric, all this is for one of `batches` prints, which `print` names; `length` is what the pieces take of a strip
    when one is enough, else None."""

    fabric: str
    height: Exact
    count: int
    pieces: tuple[tuple[int, int], ...]
    joint: Joint | None = None
    each: int = 0
    print: str = ""
    batches: int = 1
    length: Exact | None = None


def strips(build: Build, rows: tuple[CutRow, ...]) -> tuple[Strips, ...]:
    """The strips for all rows of assorted fabrics; those of one stand together, strips from high to low."""
    loose = frozenset(fabric.name for fabric in build.fabrics if fabric.assorted)
    plain = [(index, row) for index, row in enumerate(rows) if row.batches is None and row.fabric in loose]
    planned = _planned(build, plain)
    for group in print_groups(rows):
        first = rows[group[0]]
        assert first.batches is not None
        one = [(index, replace(rows[index], units=(("", rows[index].each or 0),))) for index in group]
        planned += [replace(item, print=first.print, batches=first.batches) for item in _planned(build, one)]
    place = {fabric.name: i for i, fabric in enumerate(build.fabrics)}
    planned.sort(key=lambda item: item.height, reverse=True)
    planned.sort(key=lambda item: place.get(item.fabric, len(place)))
    return tuple(planned)


def print_groups(rows: tuple[CutRow, ...]) -> list[list[int]]:
    """The places of the rows that are cut from one print together."""
    groups: dict[tuple[object, ...], list[int]] = {}
    for index, row in enumerate(rows):
        if row.batches is not None:
            groups.setdefault((row.print, row.choosers, row.batches), []).append(index)
    return list(groups.values())


def _planned(build: Build, rows: list[tuple[int, CutRow]]) -> list[Strips]:
    """The strips for rows, each with its place in the cut list."""
    usable = {fabric.name: fabric.usable for fabric in build.fabrics}
    mark = build.settings.ruler
    groups: dict[tuple[str, Exact], list[tuple[int, Exact, int]]] = {}
    slanted: list[Strips] = []
    joining = frozenset(index for index, row in rows if may_join(row))
    for index, row in rows:
        if row.angle is not None:
            directional = is_directional(build, row.fabric)
            slanted.append(
                slanted_strips(index, row, usable.get(row.fabric, build.settings.usable), directional, build.settings)
            )
            continue
        sides = up_to_mark(row.width, mark), up_to_mark(row.height, mark)
        if row.radius is not None:
            box = bend_box(row.shape, row.radius, build.settings.seam)
            sides = up_to_mark(box[0], mark), up_to_mark(box[1], mark)
        if row.lies is not None:
            across, down, _ = row.lies
        elif row.shape == "strip":
            down, across = sides
        elif is_directional(build, row.fabric):
            across, down = sides
        else:
            down, across = sorted(sides)
            if across > usable.get(row.fabric, build.settings.usable) >= down and not may_join(row):
                down, across = across, down
        groups.setdefault((row.fabric, down), []).append((index, across, row.count))
    planned = [
        _strips(fabric, height, items, usable.get(fabric, build.settings.usable), build.settings, joining)
        for (fabric, height), items in groups.items()
    ]
    return planned + slanted


def strip_texts(build: Build, rows: tuple[CutRow, ...], planned: tuple[Strips, ...]) -> tuple[StripPlan, ...]:
    """The strips as they are printed."""
    usable = {fabric.name: fabric.usable for fabric in build.fabrics}
    return tuple(
        StripPlan(
            fabric=item.fabric,
            height=cut_size(item.height, build.settings),
            strips=strips_in_all(item, usable.get(item.fabric, build.settings.usable)),
            pieces=tuple((index, count * item.batches) for index, count in item.pieces),
            text=_text_of(build, item, rows, usable.get(item.fabric, build.settings.usable)),
            number=number,
            length=given_size(usable.get(item.fabric, build.settings.usable), build.settings),
        )
        for number, item in enumerate(planned, 1)
    )


def strips_length(build: Build, planned: tuple[Strips, ...]) -> Exact:
    """The length of cloth that strips take together, in inches."""
    usable = {fabric.name: fabric.usable for fabric in build.fabrics}
    counts = ((item, strips_in_all(item, usable.get(item.fabric, build.settings.usable))) for item in planned)
    return sum((item.height * count for item, count in counts), Exact(0))


def strips_in_all(item: Strips, usable: Exact) -> int:
    """So many strips across the width; what is cut from many prints is as much as so many, laid end to end."""
    if item.print and item.length is not None:
        return strips_needed({item.length: item.batches}, usable)
    return item.count * item.batches


def _strips(
    fabric: str,
    height: Exact,
    items: list[tuple[int, Exact, int]],
    usable: Exact,
    settings: Settings,
    joining: frozenset[int],
) -> Strips:
    """Items are the index of a row, the length along the strip and the count."""
    long = [(index, across, count) for index, across, count in items if across > usable and index in joining]
    joint = together(long, height, usable, settings.seam, settings.ruler) if long else None
    lengths: dict[Exact, int] = {}
    for end in joint.ends if joint else ():
        lengths[end] = lengths.get(end, 0) + 1
    for index, across, number in items:
        if joint is None or all(index != one for one, _, _ in long):
            lengths[across] = lengths.get(across, 0) + number
    count = (joint.full if joint else 0) + strips_needed(lengths, usable)
    taken = sum((across * number for _, across, number in items), Exact(0))
    return Strips(
        fabric=fabric,
        height=height,
        count=count,
        pieces=tuple((index, number) for index, _, number in items),
        joint=joint,
        length=taken if count == 1 else None,
    )


def slanted_strips(index: int, row: CutRow, usable: Exact, directional: bool, settings: Settings) -> Strips:
    """The strips for pieces cut at an angle; a piece that no strip holds is told elsewhere to be too large, and counts
    as a strip here."""
    each, _ = per_strip(row, usable, settings.ruler, directional)
    return Strips(
        fabric=row.fabric,
        height=up_to_mark(row.height, settings.ruler),
        count=-(-row.count // max(each, 1)),
        pieces=((index, row.count),),
        each=each,
    )


def strips_needed(lengths: dict[Exact, int], usable: Exact) -> int:
    """Strips of the usable width that hold so many of each length, first fit, longest first; of what is longer than
    they are, one strip for each."""
    room: list[Exact] = []  # what is left of each strip, in the order cut
    for length in sorted(lengths, reverse=True):
        left = lengths[length]
        for at, free in enumerate(room):
            if left and free >= length:
                taken = min(left, (free / length).floor())
                room[at] = free - length * taken
                left -= taken
        each = max((usable / length).floor(), 1)
        while left:
            taken = min(left, each)
            room.append(usable - length * taken)
            left -= taken
    return len(room)


def _text_of(build: Build, item: Strips, rows: tuple[CutRow, ...], usable: Exact) -> str:
    row = rows[item.pieces[0][0]]
    source, together = prints_source(build, item), ""
    if not item.print and is_assorted(build, item.fabric):
        together = f"{item.fabric}, assorted,"
    if row.angle is None:
        return _sentence(item, rows, usable, build.settings, source, together)
    if item.print:
        row = replace(row, units=(("", item.pieces[0][1]),))
    directional = is_directional(build, row.fabric)
    return slanted_text(together or source, item.count, row, item.each, build.settings, directional)


def prints_source(build: Build, item: Strips) -> str:
    """What the strips are cut from: `lights`, `one of lights`, `each of 20 prints of lights`."""
    if not item.print:
        return item.fabric
    word = print_word(build, item.print)
    if item.batches == 1:
        return f"one of {item.fabric}{word}"
    return f"each of {item.batches} prints of {item.fabric}{word}"


def _sentence(
    item: Strips, rows: tuple[CutRow, ...], usable: Exact, settings: Settings, source: str, together: str
) -> str:
    """Of an assorted fabric used `together`, every piece may be of another print, so that its strips only say how
    much cloth there must be."""
    height = cut_size(item.height, settings).shown
    strips = f"{plural(item.count, 'strip')} {height} by the width"
    if item.print and item.length is not None and item.length < usable:
        strips = f"a piece {height} × {cut_size(item.length, settings).shown}"
    longest = sorted(item.pieces, key=lambda one: max(rows[one[0]].width, rows[one[0]].height), reverse=True)
    told = [
        (index, count)
        for index, count in longest
        if rows[index].shape != "strip" or rows[index].height != usable
    ]
    letters = row_letters(rows) if len(told) > FEW else {}
    parts = [
        pieces_text(rows[index], count, settings) + (f" ({letters[index]})" if letters else "") for index, count in told
    ]
    if together and parts:
        text = f"From {together} cut {listed(parts)}; together they take {strips}."
    elif parts:
        them = "it" if item.count == 1 else "them"
        text = f"From {together or source} cut {strips}; from {them} cut {listed(parts)}."
    else:
        text = f"From {together or source} cut {strips}."
    if item.joint is not None:
        text += " " + joint_text(item.joint, settings)
    return text
