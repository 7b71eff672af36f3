"""`fill sides and corners of FABRIC`"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from piecewright.exact import Exact, Vector
from piecewright.kernel.action import Lay
from piecewright.kernel.build import Supply
from piecewright.kernel.moves import turned
from piecewright.kernel.on_point import SEEN, corner_square, end_strip, least_square, side_square
from piecewright.kernel.polygon import ZERO
from piecewright.kernel.setting import Course, Laid, Row
from piecewright.kernel.unit import Pressed
from piecewright.verbs.cloth import cut_from_cloth, pooled, supply
from piecewright.verbs.on_point import END, Pieces, Pointed, crossing, level, seen, triangle
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.setting import laid_out, refuse_pressing
from piecewright.verbs.work import Bench, Brought, Done, Refused, Work


def run(bench: Bench, said: Said) -> Done:
    """Triangles cut from quartered and halved squares, so that the edges of the quilt do not stretch. When all are
    named, the table is sewn and its edges are trimmed."""
    pointed = bench.hand().pointed
    if pointed is None:
        raise Refused("fill-nowhere")
    targets = said.words("TARGETS")
    pointed = _named(bench, said, pointed, targets)
    lattice, seam = pointed.lattice, bench.settings.seam
    named, squares = dict(pointed.filled), _squares(bench, pointed)
    supplies: list[Supply] = []
    if "sides" in targets:
        supplies.append(supply(squares["sides"], -(-2 * (lattice.columns + lattice.rows - 2) // 4)))
    if "corners" in targets:
        supplies.append(supply(squares["corners"], 2))
    strip: Brought | None = None
    beside = "sides" if "sides" in (*named, *pointed.lacking) else "corners"
    if lattice.sash and pointed.floats is not None and beside in named:
        long = end_strip(lattice.sash, seam, pointed.floats)
        strip = cut_from_cloth(bench, "rectangle", long, lattice.sash + seam * 2, named[beside])
        strip = replace(strip, name=f"{named[beside]}{END}")
        if beside in targets:
            supplies.append(supply(strip, 2 * (lattice.columns + lattice.rows)))
    if pointed.lacking:
        refuse_pressing(said, "fill")
        action = seen(pointed, squares, strip)
        return Done(work=Work(unit=action.result, pointed=pointed), actions=(action,), supplies=tuple(supplies))
    is_open = said.clause("press") is not None or bench.settings.press == "open"
    action = _sewn(bench, pointed, squares, strip, is_open)
    words = tuple(dict.fromkeys(word for row in pointed.cells for cell in row for word in cell.words))
    return Done(work=Work(unit=action.result, words=words), actions=(action,), supplies=pooled(supplies))


def _named(bench: Bench, said: Said, pointed: Pointed, targets: tuple[str, ...]) -> Pointed:
    """The table with what a line says of its triangles."""
    named = dict(pointed.filled)
    for number, target in enumerate(targets):
        slot = f"TARGETS[{number}]"
        if target in named or target in targets[:number]:
            raise Refused("filled-already", slot, place=target)
        if target not in pointed.lacking:
            raise Refused("point-no-sides", slot)
        named[target] = said.word("FABRIC")
    beyond, cut = said.clause("float"), said.clause("squares")
    floats = beyond.length("SIZE") if beyond is not None else None
    if pointed.filled and floats != pointed.floats:
        slot = beyond.at() if beyond is not None else ""
        raise Refused("fill-floats-differ", slot, first=pointed.floats, second=floats)
    pointed = replace(pointed, filled=tuple(named.items()), floats=floats)
    if cut is None:
        return pointed
    if len(targets) > 1:
        raise Refused("squares-of-one-size", cut.at(), fabric=said.word("FABRIC"), size=cut.length("SIZE"))
    (target,), size = targets, cut.length("SIZE")
    least = least_square(pointed.lattice, target, bench.settings.seam, pointed.floats)
    if size < least:
        raise Refused(
            "squares-too-small",
            cut.at("SIZE"),
            target=target,
            size=size,
            least=least,
            block=pointed.lattice.block,
            floats=floats,
        )
    return replace(pointed, given=(*pointed.given, (target, size)))


def _squares(bench: Bench, pointed: Pointed) -> dict[str, Brought]:
    """What the triangles named so far are cut from, by sides and corners."""
    lattice, seam, given = pointed.lattice, bench.settings.seam, dict(pointed.given)
    found: dict[str, Brought] = {}
    for target, cloth in pointed.filled:
        square = side_square if target == "sides" else corner_square
        size = given.get(target) or square(lattice.beside(target, pointed.floats), seam, pointed.floats or ZERO)
        found[target] = cut_from_cloth(bench, "square", size, size, cloth)
    return found


def _sewn(
    bench: Bench, pointed: Pointed, squares: Mapping[str, Brought], strip: Brought | None, is_open: bool
) -> Lay:
    """All of it, sewn in diagonal rows and trimmed."""
    lattice = pointed.lattice
    courses: list[Course] = []
    pieces: list[list[Brought]] = []

    def add(row: Pieces, low: Exact | None, high: Exact | None, pressed: Sequence[Pressed], above: Pressed) -> None:
        laid = [one for _, one in row]
        # ends of a row have no seam line of their own beyond them
        laid = [
            replace(one, left=None if n == 0 else laid[n - 1].right, right=None if n + 1 == len(laid) else one.right)
            for n, one in enumerate(laid)
        ]
        lies: list[Pressed] = ["open"] * len(pressed) if is_open else list(pressed)
        courses.append(
            Course(
                row=Row(pieces=tuple(laid), pressed=tuple(lies)),
                at=Vector(ZERO, ZERO),
                bottom=low,
                top=high,
                above="open" if is_open else above,
            )
        )
        pieces.append([piece for piece, _ in row])

    def cross(q: int) -> None:
        """The row of sashes above row `q`, where there are sashes; every seam toward its strips, which are also those
        at its ends."""
        if lattice.sash:
            row = crossing(pointed, q, strip)
            odd: Pressed
            even: Pressed
            even, odd = ("right", "left") if strip is None else ("left", "right")
            toward: list[Pressed] = [odd if n % 2 else even for n in range(len(row) - 1)]
            add(row, lattice.high(q), lattice.high(q) + lattice.sash, toward, "right")

    def end(q: int, beside: Exact | None, *, right: bool = False) -> tuple[Brought, Laid]:
        """The triangle at an end of a row, and the seam line between it and the row."""
        ((piece, unit),) = triangle(pointed, q, squares, right=right)
        return piece, Laid(unit=unit, at=Vector(ZERO, ZERO), left=None, right=beside)

    above, below = lattice.highest + 1, lattice.lowest - 1
    add([end(above, None)], lattice.low(above), None, (), "open")
    for number, q in enumerate(range(lattice.highest, below, -1)):
        cross(q)
        row = level(pointed, q)
        row = [end(q, row[0][1].left), *row, end(q, None, right=True)]
        if lattice.sash:
            inner: list[Pressed] = ["right" if n % 2 else "left" for n in range(len(row) - 3)]
            add(row, lattice.low(q), lattice.high(q), ("right", *inner, "left"), "left")
        else:
            by_turns: Pressed = "left" if number % 2 else "right"
            add(row, lattice.low(q), lattice.high(q), (by_turns,) * (len(row) - 1), "right")
    cross(below)
    add([end(below, None)], None, lattice.high(below), (), "left" if lattice.sash else "right")
    action = laid_out(tuple(courses), lattice.frame(bench.settings.seam, pointed.outside), pieces)
    return replace(
        action,
        rows=tuple(tuple(turned(unit, SEEN) for unit in row) for row in action.rows),
        row_units=tuple(turned(unit, SEEN) for unit in action.row_units),
        result=turned(action.result, SEEN),
        along=Vector.at(SEEN),
        trimmed=(pointed.floats or ZERO) + bench.settings.seam,
    )


VERB = Verb(
    name="fill",
    sentences=("fill TARGETS of FABRIC",),
    summary="side and corner triangles round a table on point, which is then sewn in diagonal rows and trimmed",
    example="fill sides and corners of dusk, float 1/2",
    clauses=("float SIZE", "squares SIZE", "press open"),
    quilt_only=True,
    run=run,
)
