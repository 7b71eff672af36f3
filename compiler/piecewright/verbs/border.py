"""`border WIDTH of FABRIC [on EDGES]` and `border PIECE [on EDGES]`"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact
from piecewright.kernel.action import Action
from piecewright.kernel.build import Supply
from piecewright.kernel.measure import edge_length, finished_size
from piecewright.kernel.unit import Unit
from piecewright.verbs import press
from piecewright.verbs.bands import Band, beside, spacers
from piecewright.verbs.cloth import LENGTHWISE, cut_from_cloth, supply
from piecewright.verbs.mitres import mitred
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.sewing import edge_of, sewn
from piecewright.verbs.words import OPPOSITE
from piecewright.verbs.work import Bench, Done, Refused, Work

ALL_ROUND = ("left", "right", "top", "bottom")


def run(bench: Bench, said: Said) -> Done:
    """Strips cut to each edge as it is by then, in the order named; with posts, top and bottom are no longer than the
    work and have a square at each end; mitred, all four meet on the diagonals of the corners."""
    work, band = bench.hand(), Band(bench, said)
    posts, mitre = said.clause("posts"), said.clause("mitred")
    for clause in (posts, mitre):
        if clause is not None and "EDGES" in said:
            raise Refused("corners-need-all", clause.at(), mitred=clause is mitre)
    if mitre is not None:
        if posts is not None:
            raise Refused("posts-and-mitres", posts.at())
        if band.is_units:
            raise Refused("mitre-of-units", mitre.at())
        return mitred(bench, said, band)
    _fills(bench, said, band, work.unit, posts is not None)
    return _butted(bench, said, band, work, posts)


def _butted(bench: Bench, said: Said, band: Band, work: Work, posts: Said | None) -> Done:
    unit = work.unit
    actions: list[Action] = []
    supplies: list[Supply] = []
    seam = 2 * bench.settings.seam
    post = None
    if posts is not None:
        post = cut_from_cloth(bench, "square", band.depth, band.depth, posts.word("FABRIC"))
    named = said.words("EDGES")
    across = {name: _finished(unit, name, "") + seam for name in ("top", "bottom")} if post is not None else {}
    for n, name in enumerate(named or ALL_ROUND):
        slot = f"EDGES[{n}]" if named else ""
        # from raw edge to raw edge at square corners; at others still the piece whose finished edge fits
        length = across.get(name) or _finished(unit, name, slot) + seam
        strip, taken = band.upright(length, slot) if name in ("left", "right") else band.lying(length, slot)
        if band.piece is not None and name in ("left", "right"):
            strip, taken = band.lying(length, slot)
        if post is not None and name in across:
            row = beside(bench, beside(bench, post, strip, "right"), post, "left")
            strip = replace(row, source=strip.source, name=strip.name)
        edge = edge_of(unit, name, slot)
        facing = OPPOSITE[name] if band.piece is None and name in ALL_ROUND else "bottom"
        second = edge_of(strip.unit, facing, "WIDTH")
        sew, pressing = sewn(bench, said, unit, work.words, edge, strip, second, slot=slot)
        actions += (sew, pressing)
        supplies.append(taken)
        unit = sew.result
    if post is not None:
        supplies.append(supply(post, 4))
    work = replace(work, unit=unit, words=_words(work, band))
    return Done(work=work, actions=tuple(actions), supplies=tuple(supplies))


def _words(work: Work, band: Band) -> tuple[str, ...]:
    return work.words if band.piece is None else tuple(dict.fromkeys((*work.words, *band.piece.words)))


def _finished(unit: Unit, name: str, slot: str) -> Exact:
    length: Exact = edge_length(unit, edge_of(unit, name, slot), finished=True)
    return length


def _fills(bench: Bench, said: Said, band: Band, unit: Unit, posts: bool) -> None:
    """`Refused` where units all round do not fill the edges, with the strips that would mend it."""
    if not band.is_units or "EDGES" in said:
        return
    seam = bench.settings.seam
    deep = Exact(0) if posts else (band.depth - 2 * seam) * 2
    size = finished_size(unit)
    for edge, length in (("sides", size[1]), ("top and bottom", size[0] + deep)):
        if not band.count(length):
            sides, ends = spacers(size, band.each, deep, seam)
            fitting = (length / band.each).floor()
            assert band.piece is not None
            raise Refused(
                "units-do-not-fill",
                "PIECE",
                piece=band.piece.name,
                each=band.each,
                edge=length,
                where=edge,
                fitting=fitting,
                rest=length - band.each * fitting,
                sides=sides,
                ends=ends,
            )


VERB = Verb(
    name="border",
    sentences=("border WIDTH of FABRIC [on EDGES]", "border PIECE [on EDGES]"),
    summary="strips or pieced work sewn to the edges named, as long as each is by then; to all four if none is",
    example="border 2 1/4 of dusk on left and right",
    clauses=(*press.CLAUSES, "posts of FABRIC", "mitred", LENGTHWISE),
    cuts_strips=True,
    run=run,
)
