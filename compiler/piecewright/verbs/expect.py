"""`expect`: what the designer states, and the compiler proves or answers with the difference."""

from __future__ import annotations

from piecewright.exact import Exact
from piecewright.kernel.alike import plain_piece
from piecewright.kernel.build import Expect, Piece
from piecewright.kernel.errors import SewingError
from piecewright.kernel.measure import edge_length, finished_size, height, width
from piecewright.kernel.places import fabric_at
from piecewright.kernel.unit import Unit
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.sewing import edge_of
from piecewright.verbs.work import Bench, Done, Refused, Work


def run(bench: Bench, said: Said) -> Done:
    """About the work as it lies, raw edges included, unless it says finished."""
    work = bench.hand()
    finished = said.clause("finished") is not None
    if "PIECE" in said:
        return _done(_pieces(bench, work, said))
    if "COUNT" in said:
        return _done(_copies(work, said))
    if "PLACE" in said:
        return _done(_shows(bench, work.unit, said))
    leeway = "SIZE-2" if "MEASURE" in said else "SIZE"
    within = said.length(leeway) if leeway in said else None
    if "MEASURE" in said:
        word, wanted = said.word("MEASURE"), said.length("SIZE")
        _sensible(within, (wanted,), leeway)
        if work.usable is not None and word != "height":
            raise Refused("strip-no-ends", "MEASURE")
        there = _measure(work.unit, word, finished)
        _compare(work, said, (there,), (wanted,), within, finished, ("SIZE",))
        return _done(Expect(measure=word, values=(wanted,), within=within, finished=finished))
    if work.usable is not None:
        raise Refused("strip-no-ends", "ACROSS")
    there_now = _size(work.unit, finished)
    sizes = said.length("ACROSS"), said.length("DOWN")
    _sensible(within, sizes, leeway)
    _compare(work, said, there_now, sizes, within, finished, ("ACROSS", "DOWN"))
    return _done(Expect(measure="size", values=sizes, within=within, finished=finished))


def _done(expect: Expect) -> Done:
    return Done(expects=(expect,))


def _copies(work: Work, said: Said) -> Expect:
    wanted = said.count("COUNT")
    there = work.copies * (work.segments if work.segments is not None else 1)
    if there != wanted:
        raise Refused("other-copies", "COUNT", there=there, wanted=wanted)
    return Expect(measure="copies", values=(Exact(wanted),))


def _pieces(bench: Bench, work: Work, said: Said) -> Expect:
    """How many of a unit, however it is turned, or of a piece of cloth one of the work has in it."""
    wanted, brought = said.count("COUNT"), said.piece()
    source = brought.source
    if isinstance(source, Piece):
        if brought.usable is not None:
            raise Refused("strips-not-counted", "PIECE")
        source = plain_piece(source, bench.fabrics[source.fabric].directional)
    counts, copies = bench.used(), work.copies
    there = counts.get(source, 0)
    if there != wanted * copies:
        others = [(one, count) for one, count in counts.items() if one != source and _near(one, source)]
        others.sort(key=lambda other: not _in_mirror(other[0], source))
        raise Refused(
            "other-pieces", "COUNT", there=there, wanted=wanted, copies=copies, source=source, others=tuple(others)
        )
    return Expect(measure="pieces", values=(Exact(wanted),), source=source)


def _near(one: Piece | str, other: Piece | str) -> bool:
    """Whether one may have been meant for the other: the same unit handed other things or reversed, or the same piece
    in another fabric or size."""
    if isinstance(one, str) or isinstance(other, str):
        return isinstance(one, str) and isinstance(other, str) and _called(one) == _called(other)
    size = (one.shape, one.width, one.height, one.angle) == (other.shape, other.width, other.height, other.angle)
    return size or (one.shape, one.fabric) == (other.shape, other.fabric)


def _in_mirror(one: Piece | str, other: Piece | str) -> bool:
    if isinstance(one, str) and isinstance(other, str):
        return other in (f"{one} reversed", one.removesuffix(" reversed"))
    return False


def _called(key: str) -> str:
    return key.partition("(")[0].removesuffix(" reversed")


def _shows(bench: Bench, unit: Unit, said: Said) -> Expect:
    """A print also shows the assorted fabric it was chosen from."""
    fabric, place = said.word("FABRIC"), said.word("PLACE")
    try:
        there = fabric_at(unit, place)
    except SewingError as error:
        raise Refused(error.kind, "PLACE", **{"place": place, **error.facts}) from error
    if fabric not in (there, bench.print_of(there)):
        raise Refused("other-fabric", "FABRIC", there=there, wanted=fabric, place=place)
    return Expect(measure="shows", values=(), words=(fabric, place))


def _size(unit: Unit, finished: bool) -> tuple[Exact, Exact]:
    return finished_size(unit) if finished else (width(unit), height(unit))


def _measure(unit: Unit, word: str, finished: bool) -> Exact:
    if word == "width":
        return _size(unit, finished)[0]
    if word == "height":
        return _size(unit, finished)[1]
    return edge_length(unit, edge_of(unit, word, "MEASURE"), finished=finished)


def _sensible(within: Exact | None, wanted: tuple[Exact, ...], slot: str) -> None:
    """What is allowed for is less than the size; else work of no size at all would do."""
    if within is not None and within >= min(wanted):
        raise Refused("within-all", slot, within=within, least=min(wanted))


def _compare(
    work: Work,
    said: Said,
    there: tuple[Exact, ...],
    wanted: tuple[Exact, ...],
    within: Exact | None,
    finished: bool,
    slots: tuple[str, ...],
) -> None:
    """`Refused` at the first size that does not hold, with all numbers; `other` is what the same sizes are
    finished or raw, for whoever mistook the one for the other."""
    leave = within or Exact(0)
    for slot, one, other in zip(slots, there, wanted, strict=True):
        if abs(one - other) > leave:
            raise Refused(
                "other-size",
                slot,
                there=there,
                wanted=wanted,
                within=within,
                finished=finished,
                measure=said.word("MEASURE") if "MEASURE" in said else "",
                seams=work.unit.allowance * 2,
            )


VERB = Verb(
    name="expect",
    sentences=(
        "expect COUNT copies",
        "expect FABRIC at PLACE",
        "expect ACROSS by DOWN [within SIZE]",
        "expect MEASURE SIZE [within SIZE]",
        "expect COUNT of PIECE",
    ),
    summary="states what is true of the work now; it is proved, and printed where it stands",
    example="expect 9 by 9",
    clauses=("finished",),
    role="remark",
    on_strips=True,
    on_layers=True,
    run=run,
)
