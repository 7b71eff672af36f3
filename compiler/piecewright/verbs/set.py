"""`set PIECE into PLACES`"""

from __future__ import annotations

from dataclasses import replace

from piecewright.kernel.action import Action, Press, Sew
from piecewright.kernel.chain import chain
from piecewright.kernel.errors import SewingError
from piecewright.kernel.gaps import corner_that_fits, inner_corner, middle
from piecewright.kernel.places import CORNERS
from piecewright.verbs import press
from piecewright.verbs.cloth import supply
from piecewright.verbs.press import pressed_round
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.work import Bench, Done, Refused


def run(bench: Bench, said: Said) -> Done:
    """One piece to each place, in the order written. The middle is that of the work before the first."""
    work, brought = bench.hand(), said.piece()
    piece, tolerance = brought.unit, bench.settings.tolerance
    named = said.words("PLACES")
    places = [(way, n) for n, name in enumerate(named) for way in (CORNERS if name == "corners" else (name,))]
    unit, words, centre = work.unit, work.words, middle(work.unit)
    actions: list[Action] = []
    for way, n in places:
        slot = f"PLACES[{n}]"
        try:
            corner = inner_corner(unit, way, centre)
            mine = ((corner - 1) % len(unit.corners), corner)
            j = corner_that_fits(unit, corner, piece, tolerance)
            theirs = (j, (j + 1) % len(piece.corners))
            toward, side = pressed_round(bench, said.clause("press"), unit, words, mine, brought, theirs)
            joined = chain(unit, mine[0], piece, j, k=2, tolerance=tolerance, pressed=side)
        except SewingError as error:
            raise Refused(error.kind, slot, **{"piece": brought.name, "place": way, **error.facts}) from error
        actions.append(
            Sew(
                first=unit,
                second=joined.second,
                first_edges=mine,
                second_edges=theirs,
                result=joined.unit,
                name=brought.name,
                eased=joined.eased,
                stops=(unit.corners[corner].finished,),
            )
        )
        actions += [Press(result=joined.unit, seam=joined.seam + t, toward=toward) for t in (0, 1)]
        unit = joined.unit
        words = tuple(dict.fromkeys((*words, *brought.words)))
    return Done(
        work=replace(work, unit=unit, words=words),
        actions=tuple(actions),
        supplies=(supply(brought, len(places)),),
    )


VERB = Verb(
    name="set",
    sentences=("set PIECE into PLACES",),
    summary="a set-in seam: sews a piece into the inner corner that opens that way",
    example="set square 3 3/8 of sky into corners",
    clauses=press.CLAUSES,
    run=run,
)
