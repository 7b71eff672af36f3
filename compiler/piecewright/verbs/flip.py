"""`flip PIECE at CORNERS`"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact, Vector
from piecewright.kernel.action import AWAY_FROM_CORNER, TOWARD_CORNER, Flip
from piecewright.kernel.errors import SewingError
from piecewright.kernel.flip import flip
from piecewright.kernel.layers import Placed, Stitch, face_down, square_corner, stretch
from piecewright.kernel.measure import height, raw_outline, width
from piecewright.kernel.places import CORNERS
from piecewright.kernel.unit import Unit
from piecewright.verbs import press
from piecewright.verbs.cloth import supply
from piecewright.verbs.place import corners_of, require_straight_seams
from piecewright.verbs.press import SeamSides, decided, lengths_beside, pressed_to
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Brought, Done, Refused, Work


def run(bench: Bench, said: Said) -> Done:
    """Stitch and flip, corner after corner; one square to each."""
    work, brought = bench.hand(), said.piece()
    if brought.usable is not None:
        raise Refused("strip-no-ends", "PIECE")
    require_straight_seams(work.unit, brought.unit)
    size = _side(brought.unit)
    if size is None:
        raise Refused("flip-no-square", "PIECE", piece=brought.name)
    if size > min(width(work.unit), height(work.unit)):
        raise Refused("piece-hangs-over", "PIECE", width=size, height=size)
    corners = corners_of(said)
    actions: list[Flip] = []
    words = work.words
    for n, corner in enumerate(corners):
        slot = "CORNERS" if "corners" in said.words("CORNERS") else f"CORNERS[{n}]"
        action = _flipped(bench, said, replace(work, words=words), brought, corner, size, slot)
        actions.append(action)
        work = replace(work, unit=action.result)
        words = tuple(dict.fromkeys((*words, *brought.words)))
    return Done(
        work=replace(work, words=words), actions=tuple(actions), supplies=(supply(brought, len(corners)),)
    )


def _side(unit: Unit) -> Exact | None:
    """The side of a square that lies straight; None for any other piece."""
    square = width(unit) == height(unit) and len(raw_outline(unit)) == len(CORNERS)
    return width(unit) if square and all(square_corner(unit, corner) is not None for corner in CORNERS) else None


def _flipped(
    bench: Bench, said: Said, work: Work, brought: Brought, corner: str, size: Exact, slot: str
) -> Flip:
    unit = work.unit
    line = _seam_line(unit, corner, size, slot)
    start, along = line
    piece = face_down(unit, Placed(piece=brought.unit, corner=corner), (line,))
    try:
        result = flip(unit, piece, start, along, "open")
    except SewingError as error:
        raise Refused(error.kind, slot, **error.facts) from error
    seam = len(result.seams) - 1
    sides = SeamSides(
        along=along,
        words=work.words,
        other_words=brought.words,
        told=(AWAY_FROM_CORNER, TOWARD_CORNER),
        lengths=lambda: lengths_beside(result, result.seams[seam:]),
    )
    toward, side = decided(bench, said.clause("press"), sides)
    beyond = start + along.right() * unit.allowance
    cut = stretch(unit, beyond, along)
    assert cut is not None  # the seam line runs farther inside
    return Flip(
        before=unit,
        piece=piece,
        line=(result.seams[seam].start, result.seams[seam].end),
        cut=cut,
        result=pressed_to(result, (seam,), side),
        seam=seam,
        toward=toward,
        name=brought.name,
        corner=corner,
    )


def _seam_line(unit: Unit, corner: str, size: Exact, slot: str) -> Stitch:
    """Corner to corner of the square that lies in a corner of the work; the work is left of it."""
    spot = square_corner(unit, corner)
    if spot is None:
        raise Refused("no-such-corner", slot, place=corner, piece=False)
    across = Vector(size if corner.endswith("left") else -size, 0)
    up = Vector(0, size if corner.startswith("bottom") else -size)
    along = (up - across).unit()
    if along.cross(-across) > 0:  # the corner itself lies left of it
        return spot + up, -along
    return spot + across, along


VERB = Verb(
    name="flip",
    sentences=("flip PIECE at CORNERS",),
    summary="stitch and flip: a square in a corner of the work, sewn corner to corner, trimmed and opened",
    example="flip square 2 1/2 of sky at top-left",
    clauses=press.CLAUSES,
    run=run,
)
