"""Steps made by hand from the kernel alone: a framed square cut and rejoined, a strip set, a table."""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact, Vector
from piecewright.kernel.action import Action, CutPiece, Lay, Press, Sew, Subcut, Take, Trim, Turn
from piecewright.kernel.build import Piece, Settings, Step, Supply
from piecewright.kernel.chain import chain
from piecewright.kernel.cut import cut
from piecewright.kernel.measure import bounds, edge_length
from piecewright.kernel.moves import moved, turned
from piecewright.kernel.pieces import rectangle
from piecewright.kernel.places import edge, line
from piecewright.kernel.trim import SeamFrom, SeamOnDiagonal, trim
from piecewright.kernel.unit import Pressed, Unit
from piecewright.plan.figures import finished_figure, step_figure
from piecewright.plan.model import FabricPlan, Figure

SEAM = Exact(1, 4)
OPPOSITE = {"left": "right", "right": "left", "top": "bottom", "bottom": "top", "long-edge": "long-edge"}
SETTINGS = Settings(
    title="By hand",
    edition="1",
    seam=SEAM,
    units="inch",
    ruler=Exact(1, 8),
    tolerance=Exact(1, 16),
    usable=Exact(40),
    press="toward darker",
)


def fabric(name: str, colour: str, texture: str) -> FabricPlan:
    return FabricPlan(
        name=name,
        text="",
        colour=colour,
        texture=texture,
        value="medium",
        assorted=False,
        directional=False,
        stand_in=False,
    )


FABRICS = (
    fabric("ember", "#d98f4e", "dots"),
    fabric("frost", "#eef2f4", "plain"),
    fabric("moss", "#5f6f3a", "waves"),
    fabric("night", "#20263f", "crosses"),
)


def rect(width: Exact, height: Exact, cloth: str) -> Unit:
    return rectangle(width, height, fabric=cloth, allowance=SEAM)


def sew(unit: Unit, place: str, other: Unit, pressed: Pressed = "right") -> tuple[Sew, Press]:
    """The other sewn on at a place of the unit, by its edge that faces it."""
    mine, theirs = edge(unit, place), edge(other, OPPOSITE[place])
    joined = chain(unit, mine, other, theirs, pressed=pressed)
    action = Sew(
        first=unit,
        second=joined.second,
        first_edges=(mine,),
        second_edges=(theirs,),
        result=joined.unit,
        name="piece",
        eased=joined.eased,
    )
    return action, Press(result=joined.unit, seam=joined.seam, toward="where it is said")


def border(unit: Unit, width: Exact, cloth: str, places: tuple[str, ...]) -> tuple[Action, ...]:
    actions: list[Action] = []
    for place in places:
        length = edge_length(unit, edge(unit, place), finished=True) + 2 * SEAM
        sides = (width, length) if place in ("left", "right") else (length, width)
        sewn, pressing = sew(unit, place, rect(*sides, cloth))
        actions += (sewn, pressing)
        unit = sewn.result
    return tuple(actions)


def halved(unit: Unit) -> Subcut:
    start, end = line(unit, "diagonal")
    parts = tuple(reversed(cut(unit, start, (end - start).unit())))
    return Subcut(before=unit, lines=((start, end),), parts=parts, kept=parts[:1], distance=None)


def sliced(unit: Unit, distance: Exact) -> Subcut:
    left, bottom, _, top = bounds(unit)
    start, end = Vector(left + distance, bottom), Vector(left + distance, top)
    parts = cut(unit, start, Vector(0, 1))
    names = ("slim", "broad")
    return Subcut(before=unit, lines=((start, end),), parts=parts, kept=parts, distance=distance, names=names)


def trimmed(unit: Unit, size: Exact, *alignments: object) -> Trim:
    found = trim(unit, size, size, alignments)
    return Trim(before=unit, ruler=found.ruler, width=size, height=size, off=found.off, result=found.unit)


def table(cells: tuple[tuple[Unit, ...], ...]) -> Lay:
    """Cells in rows, sewn; every cell has the same height within its row."""
    rows: list[Unit] = []
    placed: list[list[Unit]] = []
    for row in cells:
        unit, units = row[0], [row[0]]
        for cell in row[1:]:
            joined, _ = sew(unit, "right", cell, "left" if len(rows) % 2 else "right")
            unit = joined.result
            units.append(joined.second)
        rows.append(unit)
        placed.append(units)
    whole = rows[0]
    units_of_rows = [whole]
    for number, row in enumerate(rows[1:], 1):
        joined, _ = sew(whole, "bottom", row)
        by = joined.second.corners[0].finished - row.corners[0].finished
        placed[number] = [moved(cell, by) for cell in placed[number]]
        units_of_rows.append(joined.second)
        whole = joined.result
    return Lay(
        rows=tuple(tuple(row) for row in placed),
        names=tuple(tuple("cell" for _ in row) for row in placed),
        result=whole,
        row_units=tuple(units_of_rows),
    )


def framed_steps() -> tuple[tuple[Action, ...], ...]:
    square = rect(Exact(11, 2), Exact(11, 2), "ember")
    sides = border(square, Exact(9, 4), "night", ("left", "right"))
    ends = border(sides[-1].result, Exact(9, 4), "night", ("top", "bottom"))
    piece = CutPiece(shape="square", width=Exact(11, 2), height=Exact(11, 2), fabric="ember", unit=square)
    return (piece,), sides, ends


def lantern_steps() -> tuple[tuple[Action, ...], ...]:
    framed = framed_steps()[-1][-1].result
    half = halved(framed)
    plain = halved(rect(Exact(9), Exact(9), "frost"))
    whole = sew(half.kept[0], "long-edge", plain.kept[0], "open")
    square = trimmed(whole[0].result, Exact(8), SeamOnDiagonal(rising=False))
    turn = Turn(degrees=-45, before=square.result, result=turned(square.result, -45))
    return (Take(name="framed", unit=framed),), (half,), whole, (square,), (turn,)


def all_round() -> tuple[tuple[Action, ...], ...]:
    """One step with four borders, a trim with numbered lines, and a cut into unlike parts."""
    square = rect(Exact(3), Exact(4), "moss")
    framed = border(square, Exact(3, 2), "frost", ("left", "right", "top", "bottom"))
    whole = framed[-1].result
    trim_by_seams = trimmed(
        whole, Exact(9, 2), SeamFrom(distance=Exact(1), side="left"), SeamFrom(distance=Exact(3, 4), side="top")
    )
    return framed, (trim_by_seams,), (sliced(trim_by_seams.result, Exact(3, 2)),)


def strip_steps() -> tuple[tuple[Action, ...], ...]:
    length, width = Exact(15, 2), Exact(5, 2)
    first = rect(length, width, "night")
    steps: list[tuple[Action, ...]] = [
        (CutPiece(shape="strip", width=length, height=width, fabric="night", unit=first),)
    ]
    unit = first
    for cloth in ("frost", "moss"):
        sewn = sew(unit, "bottom", rect(length, width, cloth))
        unit = sewn[0].result
        steps.append(sewn)
    lines: list[tuple[Vector, Vector]] = []
    parts: list[Unit] = []
    left, bottom, _, top = bounds(unit)
    rest = unit
    for number in (1, 2):
        x = left + width * number
        part, rest = cut(rest, Vector(x, bottom), Vector(0, 1))
        lines.append((Vector(x, bottom), Vector(x, top)))
        parts.append(part)
    steps.append(
        (Subcut(before=unit, lines=tuple(lines), parts=(*parts, rest), kept=(parts[0],), distance=width),)
    )
    return tuple(steps)


def patch_table() -> Lay:
    size = Exact(5, 2)
    a, b = rect(size, size, "night"), rect(size, size, "frost")
    return table(((a, b, a), (b, a, b), (a, b, a)))


def step(actions: tuple[Action, ...], line: int, *, verb: str = "join", strips: bool = False, copies: int = 1) -> Step:
    piece = Piece(shape="strip", width=None, height=Exact(5, 2), fabric="night")
    return Step(
        verb=verb,
        file="by-hand.piece",
        line=line,
        actions=actions,
        copies=copies,
        supplies=(Supply(source=piece, count=1),) if strips else (),
    )


def figure(made: Step, group: str, number: int) -> Figure:
    return step_figure(
        made,
        id=f"{group}-step-{number}",
        title=f"{group}, step {number}",
        description="What is done & what comes of it.",
        group=group,
        settings=SETTINGS,
    )


def figures() -> tuple[Figure, ...]:
    """A figure of every kind."""
    found: list[Figure] = []
    for group, steps in (("framed", framed_steps()), ("lantern", lantern_steps()), ("round", all_round())):
        for number, actions in enumerate(steps, 1):
            copies = 2 if isinstance(actions[0], Subcut) and not actions[0].names else 1
            found.append(figure(step(actions, number + 1, verb="cut", copies=copies), group, number))
    for number, actions in enumerate(strip_steps(), 1):
        verb = "subcut" if isinstance(actions[0], Subcut) else "join"
        found.append(figure(step(actions, number, verb=verb, strips=verb == "join"), "strips", number))
    lay = patch_table()
    found.append(figure(step((lay,), 3, verb="lay"), "table", 1))
    one_row = table((lay.rows[0],))
    found.append(figure(step((one_row,), 3, verb="lay"), "row", 1))
    repeated = step(framed_steps()[1], 5)
    last = border(framed_steps()[-1][-1].result, Exact(9, 4), "moss", ("left", "right"))
    found.append(figure(replace(repeated, times=4, round=1, last=last), "rounds", 1))
    for outline in (False, True):
        name = "outlines" if outline else "finished"
        found.append(
            finished_figure(
                lay.result,
                id=f"table-{name}",
                title="Table",
                description="The finished table.",
                group="table-finished",
                outline=outline,
                settings=SETTINGS,
                line=1,
            )
        )
    return tuple(found)
