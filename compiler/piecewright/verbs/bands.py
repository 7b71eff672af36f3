"""What lies along an edge: a strip of cloth, a length of a strip set, or units side by side."""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact
from piecewright.kernel.build import Piece, Supply
from piecewright.kernel.chain import chain
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import edge_length, height
from piecewright.kernel.moves import turned
from piecewright.kernel.unit import Pressed
from piecewright.verbs.cloth import LENGTHWISE, cut_from_cloth, supply
from piecewright.verbs.registry import Said
from piecewright.verbs.sewing import edge_of
from piecewright.verbs.work import Bench, Brought, Refused


class Band:
    """What a border or a sash is made of. `depth` is its raw height as it lies left to right, top outward."""

    def __init__(self, bench: Bench, said: Said) -> None:
        self._bench = bench
        self.piece = said.piece() if "PIECE" in said else None
        lengthwise = said.clause(LENGTHWISE)
        self._lengthwise = lengthwise is not None
        if lengthwise is not None and self.piece is not None:
            raise Refused("lengthwise-pieced", lengthwise.at())
        source = self.piece.source if self.piece is not None else None
        if isinstance(source, Piece) and source.width is None:
            raise Refused("strip-is-cut-anyway", "PIECE", width=source.height, fabric=source.fabric)
        if self.piece is None:
            self._fabric = said.word("FABRIC")
            self.depth = said.length("WIDTH")
        else:
            self.depth = height(self.piece.unit)

    @property
    def is_units(self) -> bool:
        """Units that have their ends, so that only so many fit."""
        return self.piece is not None and self.piece.cut is None

    def lying(self, length: Exact, slot: str = "") -> tuple[Brought, Supply]:
        """So long from raw end to raw end, lying left to right. `Refused` where units do not fill it."""
        piece = self.piece
        if piece is None:
            strip = self._cloth(length, self.depth)
            return strip, supply(strip)
        if piece.cut is not None:
            strip = piece.cut(length)
            return strip, supply(strip)
        count = self.count(length - 2 * self._bench.settings.seam)
        if not count:
            raise self._unfilled(length, slot)
        row = piece
        for _ in range(count - 1):
            row = beside(self._bench, row, piece, "right")
        return replace(row, source=piece.source, name=piece.name if count == 1 else f"{count} {piece.name}"), Supply(
            source=piece.source, count=count
        )

    def upright(self, length: Exact, slot: str = "") -> tuple[Brought, Supply]:
        """So long, standing with its top to the left."""
        if self.piece is None:
            strip = self._cloth(self.depth, length)
            return strip, supply(strip)
        strip, taken = self.lying(length, slot)
        return replace(strip, unit=turned(strip.unit, 90), name=f"{strip.name} turned left"), taken

    def _cloth(self, across: Exact, down: Exact) -> Brought:
        strip = cut_from_cloth(
            self._bench, "rectangle", across, down, self._fabric, lengthwise=self._lengthwise, joins=True
        )
        return replace(strip, name=f"{self._fabric} strip")

    def count(self, finished: Exact) -> int:
        """How many units fill a finished length; 0 where they do not."""
        assert self.piece is not None
        each = self.each
        count = (finished / each + Exact(1, 2)).floor()
        return count if count and abs(each * count - finished) <= self._bench.settings.tolerance else 0

    def fills_exactly(self, finished: Exact) -> None:
        """`Refused` where units fill a finished length only within the tolerance, or not at all."""
        count = self.count(finished)
        if not count:
            raise self._unfilled(finished + self._bench.settings.seam * 2, "PIECE")
        if self.each * count != finished:
            assert self.piece is not None
            raise Refused(
                "point-units-eased", "PIECE", piece=self.piece.name, count=count, each=self.each, edge=finished
            )

    @property
    def each(self) -> Exact:
        """How long one unit finishes along the edge."""
        assert self.piece is not None
        across: Exact = edge_length(self.piece.unit, edge_of(self.piece.unit, "bottom", "PIECE"), finished=True)
        return across

    def _unfilled(self, length: Exact, slot: str) -> Refused:
        finished = length - 2 * self._bench.settings.seam
        assert self.piece is not None
        fitting = (finished / self.each).floor()
        return Refused(
            "units-do-not-fill",
            slot or "PIECE",
            piece=self.piece.name,
            each=self.each,
            edge=finished,
            fitting=fitting,
            rest=finished - self.each * fitting,
        )


def beside(bench: Bench, first: Brought, second: Brought, pressed: Pressed) -> Brought:
    """Two pieces sewn side by side, the second on the right of the first, as one."""
    i, j = edge_of(first.unit, "right", "PIECE"), edge_of(second.unit, "left", "PIECE")
    side: Pressed = "open" if bench.settings.press == "open" else pressed
    try:
        joined = chain(first.unit, i, second.unit, j, tolerance=bench.settings.tolerance, pressed=side)
    except SewingError as error:
        raise Refused(error.kind, "PIECE", **{"piece": second.name, **error.facts}) from error
    words = tuple(dict.fromkeys((*first.words, *second.words)))
    return Brought(unit=joined.unit, source=first.source, name=first.name, words=words)


def spacers(work: tuple[Exact, Exact], each: Exact, deep: Exact, seam: Exact) -> tuple[Exact, Exact]:
    """How wide strips at the sides, and at top and bottom, have to be cut for whole units to fill all edges round
    them; 0 for none. `work`: its finished size; `deep`: how much longer the rows at top and bottom are."""

    def strip(length: Exact) -> Exact:
        lacking = each * (length / each).ceil() - length
        return lacking / 2 + seam * 2 if lacking else lacking

    return strip(work[0] + deep), strip(work[1])
