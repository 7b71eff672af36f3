"""Borders whose corners are mitred: each seam runs on the diagonal of its corner.

A border that finishes b wide round a side of W is a trapezoid: its outer raw edge is W + 2b + 2 (1 + √2) s long, and
its ends run at 45 degrees. The first two are sewn to opposite sides and stop at the corners; each of the others is
sewn to its side and, round the two inner corners left there, to its neighbours' ends. Those seams are pressed open,
the ones along the sides as the step says.
"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact, Vector
from piecewright.kernel.action import Action, Press, Sew
from piecewright.kernel.build import Supply
from piecewright.kernel.chain import chain
from piecewright.kernel.cut import cut_off
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import edge_length, lies_straight
from piecewright.kernel.moves import settled, turned
from piecewright.kernel.rope import box
from piecewright.kernel.unit import Seam, Unit, roped
from piecewright.verbs.bands import Band
from piecewright.verbs.press import pressed
from piecewright.verbs.registry import Said
from piecewright.verbs.sewing import edge_of
from piecewright.verbs.work import Bench, Brought, Done, Refused

_ROOT = Exact.root(2)
_TURNS = {"left": 90, "right": -90, "top": 0, "bottom": 180}


def mitred(bench: Bench, said: Said, band: Band) -> Done:
    """All four borders, left, right, top and bottom."""
    work = bench.hand()
    unit, words = work.unit, work.words
    if not lies_straight(unit):
        raise Refused("mitre-needs-square", "mitred")
    seam = bench.settings.seam
    sides = {name: edge_length(unit, edge_of(unit, name, ""), finished=True) for name in _TURNS}
    actions: list[Action] = []
    supplies: list[Supply] = []
    for name in _TURNS:
        needed, mark = mitre_length(sides[name], band.depth, seam), bench.settings.ruler
        length = mark * (needed / mark).ceil()
        strip, taken = band.lying(length)
        strip = replace(strip, unit=turned(_trapezoid(strip.unit, length, needed, band.depth), _TURNS[name]))
        sew, pressing = _sewn(bench, said, unit, words, name, strip, corners=name in ("top", "bottom"))
        actions += (sew, pressing)
        supplies.append(taken)
        unit = sew.result
    if band.piece is not None:
        words = tuple(dict.fromkeys((*words, *band.piece.words)))
    return Done(work=replace(work, unit=unit, words=words), actions=tuple(actions), supplies=tuple(supplies))


def mitre_length(side: Exact, depth: Exact, seam: Exact) -> Exact:
    """How long the strip for a mitred border is cut: W + 2b + 2 (1 + √2) s for a finished side W, where the strip is
    b + 2s deep."""
    return side + (depth - seam * 2) * 2 + (1 + _ROOT) * 2 * seam


def _trapezoid(strip: Unit, length: Exact, needed: Exact, depth: Exact) -> Unit:
    """The strip with its ends cut at 45 degrees, longest at the top; what it is longer than needed falls away."""
    over = (length - needed) / 2
    down, up = Vector(_ROOT / 2, -_ROOT / 2), Vector(_ROOT / 2, _ROOT / 2)
    strip = settled(strip)
    try:
        return cut_off(cut_off(strip, Vector(over, depth), down), Vector(length - over - depth, Exact(0)), up)
    except SewingError as error:
        raise Refused(error.kind, "", **error.facts) from error


def _sewn(
    bench: Bench, said: Said, unit: Unit, words: tuple[str, ...], name: str, strip: Brought, *, corners: bool
) -> tuple[Sew, Press]:
    count, other = len(unit.corners), len(strip.unit.corners)
    mine, inner = edge_of(unit, name, ""), max(range(other), key=lambda n: _rank(strip.unit, n, name))
    toward, side = pressed(bench, said.clause("press"), unit, words, mine, strip, inner)
    edges, facing, k = (mine - 1, inner - 1, 3) if corners else (mine, inner, 1)
    edges, facing = edges % count, facing % other
    joined = chain(unit, edges, strip.unit, facing, k=k, tolerance=bench.settings.tolerance, pressed=side)
    ends = unit.corners[mine].finished, unit.corners[(mine + 1) % count].finished
    result = _pressed_open(joined.unit, (joined.seam, joined.seam + 2)) if corners else joined.unit
    sew = Sew(
        first=unit,
        second=joined.second,
        first_edges=tuple((edges + t) % count for t in range(k)),
        second_edges=tuple((joined.second_edge + t) % len(joined.second.corners) for t in range(k)),
        result=result,
        name=strip.name,
        eased=joined.eased,
        stops=ends,
    )
    # the seam along the side, not those of the mitres
    return sew, Press(result=result, seam=joined.seam + (1 if corners else 0), toward=toward)


def _pressed_open(unit: Unit, numbers: tuple[int, ...]) -> Unit:
    """The unit with some of its seams pressed open."""
    mitres = [unit.seam_rope[number] for number in numbers]

    def opened(seam: Seam) -> Seam:
        return replace(seam, pressed="open") if seam in mitres else seam

    seams = unit.seam_rope
    for mitre in mitres:
        seams = seams.changed(box((mitre.start, mitre.end)), opened)
    return roped(
        corners=unit.corners,
        directions=unit.directions,
        patches=unit.patch_rope,
        seams=seams,
        ledger=unit.accounts,
        allowance=unit.allowance,
        cloth=unit.cloth,
        spots=unit.spots,
    )


def _rank(strip: Unit, edge: int, name: str) -> Exact:
    """How far an edge of the strip faces the work that lies on its inner side."""
    outward = strip.directions[edge].right()
    return {"left": outward.x, "right": -outward.x, "top": -outward.y, "bottom": outward.y}[name]
