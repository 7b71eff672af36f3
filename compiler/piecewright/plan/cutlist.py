"""The cut list: like pieces of one fabric in one row, from large to small.

Pieces are alike when fabric, shape and size are. As is the custom, a rectangle is written narrow side
first, however it will lie; on a directional fabric it is written across first, since it must not be
turned. Reversed pieces stand apart only where a mirrored piece cannot be turned to lie like the first.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.kernel.alike import has_hands, piece_shape, written_size
from piecewright.kernel.build import Build, Settings
from piecewright.kernel.curve import Bend
from piecewright.kernel.demand import Cutting
from piecewright.plan.bends import bend_words
from piecewright.plan.curves import hollow_note, hollows, letters
from piecewright.plan.model import CutPlan
from piecewright.plan.quartered import quartered
from piecewright.plan.rounding import cut_size, given_size
from piecewright.plan.words import times


@dataclass(frozen=True, slots=True, kw_only=True)
class CutRow:
    """Like pieces, still in exact inches: `width` and `height` as they are written; of a strip its width
    and its length. `units`: key of each unit and how many it takes; `angle` of a piece cut from a strip at one.
    Of a print chosen from `fabric`, `print` is its name and `batches` how many prints there are, equally many pieces of
    each, chosen in turn by the units `choosers`. `lengthwise`: the long side along the selvage. `joins`:
    strips of borders and sashes longer than the cloth is wide, which may be joined from several. Of a piece with
    a round edge `radius` is that of its seam; `hollows` are the curved seams for which cloth is cut away later.
    `halved`: how a square becomes triangles, in words. `lies`, of what is cut larger for a press: across and
    down as it lies on the cloth, and whether it may be turned."""

    fabric: str
    shape: str
    width: Exact
    height: Exact
    reversed: bool
    units: tuple[tuple[str, int], ...]
    angle: int | None = None
    print: str = ""
    batches: int | None = None
    choosers: tuple[str, ...] = ()
    radius: Exact | None = None
    hollows: tuple[Bend, ...] = ()
    lengthwise: bool = False
    joins: bool = False
    halved: str = ""
    lies: tuple[Exact, Exact, bool] | None = None

    @property
    def count(self) -> int:
        return sum(count for _, count in self.units)

    @property
    def each(self) -> int | None:
        """How many of each print, where prints are chosen."""
        return None if self.batches is None else self.count // self.batches


def cut_rows(build: Build, cuttings: tuple[Cutting, ...]) -> tuple[CutRow, ...]:
    """The cuttings gathered into rows: by fabric in the order of the pattern, then from large to small."""
    gathered: dict[tuple[object, ...], list[CutRow]] = {}
    hollowed, halved = hollows(build), quartered(build)
    for cutting in cuttings:
        at = cutting.key, cutting.piece
        row = replace(_row(build, cutting), hollows=hollowed.get(at, ()), halved=halved.get(at, ""))
        alike: tuple[object, ...] = (row.fabric, row.shape, row.width, row.height, cutting.piece.angle, row.reversed)
        alike = (*alike, row.print, row.choosers, row.radius, row.hollows, row.lengthwise, row.joins, row.halved)
        gathered.setdefault(alike, []).append(row)
    rows = [_together(group) for group in gathered.values()]
    place = {fabric.name: i for i, fabric in enumerate(build.fabrics)}
    rows.sort(key=lambda row: (row.shape, row.angle or 0, row.reversed, row.hollows, row.halved))
    rows.sort(key=lambda row: (row.width * row.height, max(row.width, row.height)), reverse=True)
    rows.sort(key=lambda row: place.get(row.fabric, len(place)))
    return tuple(rows)


def cut_plans(
    build: Build, rows: tuple[CutRow, ...], titles: Mapping[str, str], ids: Mapping[str, str]
) -> tuple[CutPlan, ...]:
    """The rows as they are printed. `titles` and `ids`: of each unit, by key."""
    known, named = letters(build), row_letters(rows)
    return tuple(
        CutPlan(
            fabric=row.fabric,
            shape=row.shape,
            width=cut_size(row.width, build.settings),
            height=cut_size(row.height, build.settings),
            count=row.count,
            reversed=row.reversed,
            label="; ".join(filter(None, (*_notes(row, titles, build.settings), hollow_note(row.hollows, known)))),
            units=tuple(dict.fromkeys(ids[key] for key, _ in row.units)),
            angle=row.angle,
            each=row.each,
            batches=row.batches,
            prints=prints_text(build, row),
            radius=None if row.radius is None else given_size(row.radius, build.settings),
            bend="" if row.radius is None else bend_words(row.shape, row.radius, build.settings),
            template="" if row.radius is None else known[Bend(row.shape, row.radius)][0],
            letter=named[index],
        )
        for index, row in enumerate(rows)
    )


def row_letters(rows: tuple[CutRow, ...]) -> dict[int, str]:
    """What each row is called in the drawing of its fabric: `a`, `b`, … `z`, `aa`. Templates have capital letters."""
    counts: dict[str, int] = {}
    found: dict[int, str] = {}
    for index, row in enumerate(rows):
        number = counts.get(row.fabric, 0)
        counts[row.fabric] = number + 1
        first, last = divmod(number, 26)
        found[index] = (chr(ord("a") + first - 1) if first else "") + chr(ord("a") + last)
    return found


def prints_text(build: Build, row: CutRow) -> str:
    """Which prints the pieces are cut from, where the fabric is assorted: `from one of lights: 4; 20 times`."""
    if row.batches is not None:
        return f"from one of {row.fabric}{print_word(build, row.print)}: {row.each}; {times(row.batches)}"
    return f"from {row.fabric}, assorted" if is_assorted(build, row.fabric) else ""


def print_word(build: Build, name: str) -> str:
    """` (light)`, what the pattern calls a chosen print, where others are chosen from the same fabric; else nothing."""
    of = {fabric.name: fabric.of for fabric in build.fabrics}
    return f" ({name.partition('/')[2]})" if sum(one == of[name] for one in of.values()) > 1 else ""


def is_directional(build: Build, fabric: str) -> bool:
    return any(known.directional for known in build.fabrics if known.name == fabric)


def is_assorted(build: Build, fabric: str) -> bool:
    return any(known.assorted for known in build.fabrics if known.name == fabric)


def _row(build: Build, cutting: Cutting) -> CutRow:
    piece = cutting.piece
    directional = is_directional(build, piece.fabric)
    shape = piece_shape(piece, cutting.width)
    width, height = written_size(shape, cutting.width, piece.height, directional)
    of, usable = next(
        ((fabric.of, fabric.usable) for fabric in build.fabrics if fabric.name == piece.fabric),
        ("", build.settings.usable),
    )
    return CutRow(
        fabric=of or piece.fabric,
        shape=shape,
        width=width,
        height=height,
        reversed=piece.reversed and has_hands(piece, directional),
        units=((cutting.key, cutting.count),),
        angle=piece.angle,
        print=piece.fabric if of else "",
        batches=cutting.batches,
        choosers=cutting.choosers,
        radius=piece.radius,
        lengthwise=piece.lengthwise,
        joins=piece.joins and max(width, height) > usable,
    )


def _together(group: list[CutRow]) -> CutRow:
    units: dict[str, int] = {}
    for row in group:
        for key, count in row.units:
            units[key] = units.get(key, 0) + count
    return replace(group[0], units=tuple(units.items()))


def _notes(row: CutRow, titles: Mapping[str, str], settings: Settings) -> tuple[str, ...]:
    return _label(row, titles), _grain(row, settings), row.halved


def _grain(row: CutRow, settings: Settings) -> str:
    if row.shape == "panel":
        return f"{cut_size(row.height, settings).shown} along the selvage"
    return "long side along the selvage" if row.lengthwise and row.width != row.height else ""


def _label(row: CutRow, titles: Mapping[str, str]) -> str:
    """What the pieces are for: `lantern`, or `12 for lantern; 4 for corner`."""
    counts: dict[str, int] = {}
    for key, count in row.units:
        counts[titles[key]] = counts.get(titles[key], 0) + count
    if len(counts) == 1:
        return next(iter(counts))
    return "; ".join(f"{count} for {title}" for title, count in counts.items())
