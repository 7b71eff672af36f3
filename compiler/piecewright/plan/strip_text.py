"""How the strips of a fabric are told: each kind of strip once, in cutting order, with what is cut from it.

A strip is a row of a sheet or of the cloth; what lies side by side in it are pieces, or segments from which pieces are
cut one above another or trimmed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import chain
from typing import Literal

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.kernel.build import Scrap, Settings
from piecewright.kernel.foundation import ROUGH
from piecewright.plan.bends import bend_words
from piecewright.plan.cloth.model import Part
from piecewright.plan.cutlist import CutRow
from piecewright.plan.joining import Joint
from piecewright.plan.leaning import slanted_how
from piecewright.plan.model import StripPlan
from piecewright.plan.needs import Asked
from piecewright.plan.rounding import cut_size, given_size
from piecewright.plan.words import listed, plural, shape_size
from piecewright.plan.yardage import ClothCut, cuts_of_sheet

FEW = 4
"""Of so many sizes in a sentence, each is told without its letter in the cut list."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """A kind of strip: `part`, in each of `sheets` pieces of cloth. `lengthwise`: cut along the selvage instead of
    across. `name`: what it is cut from, where that is not the cloth bought; `again`: as the kind of strip before."""

    part: Part
    sheets: int
    lengthwise: bool
    source: Literal["cloth", "sheet", "scrap"]
    name: str = ""
    again: bool = False

    @property
    def count(self) -> int:
        return self.part.times * self.sheets


def laid_strips(cut: ClothCut) -> tuple[Laid, ...]:
    """Every kind of strip, scraps first: what lies at hand is cut before cloth that is bought."""
    found: list[Laid] = []
    for used in sorted(cut.plan.used, key=lambda one: one.source == "sheet"):
        name = sheet_name(cut, used.source, used.index)
        columns = used.part.split == "columns"
        for number, part in enumerate(cuts_of_sheet(used.part)):
            found.append(
                Laid(
                    part=part,
                    sheets=used.part.times,
                    lengthwise=columns,
                    source=used.source,
                    name=name,
                    again=number > 0,
                )
            )
    if cut.plan.roll is not None:
        found += [
            Laid(part=part, sheets=1, lengthwise=False, source="cloth") for part in cuts_of_sheet(cut.plan.roll)
        ]
    return tuple(found)


def sheet_name(cut: ClothCut, source: str, index: int) -> str:
    """`fat quarter`, `sheet 18 × 20`, `scrap 9 × 21`."""
    if source == "sheet":
        if cut.sold.name != "sheet":
            return cut.sold.name
        assert cut.sold.across is not None and cut.sold.down is not None
        across, down = given_size(cut.sold.across, cut.settings), given_size(cut.sold.down, cut.settings)
        return f"sheet {across.shown} × {down.shown}"
    scrap: Scrap = cut.fabric.scraps[index]
    if scrap.name:
        return scrap.name
    across, down = given_size(scrap.across, cut.settings), given_size(scrap.down, cut.settings)
    return f"scrap {across.shown} × {down.shown}"


def sheets_text(count: int, name: str) -> str:
    """`2 fat quarters`, `3 scraps 9 × 21`."""
    word, _, size = name.partition(" ") if name.startswith(("sheet ", "scrap ")) else (name, "", "")
    return " ".join([plural(count, word), size]).strip()


def strip_plans(cut: ClothCut, rows: Mapping[int, CutRow], letters: Mapping[int, str]) -> tuple[StripPlan, ...]:
    """The strips as they are printed, numbered in cutting order. `rows` and their `letters` by their place in the cut
    list."""
    plans = []
    taken = [0] * len(cut.asking.asked)
    for number, laid in enumerate(laid_strips(cut), 1):
        part, mark = laid.part, cut.mark
        pieces: dict[int, int] = {}
        for place, count in _places(part):
            asked, some = cut.asking.asked[place], count * laid.count
            if asked.gives:
                pieces[asked.row] = pieces.get(asked.row, 0) + asked.gives * some
            for row in chain(*asked.begins[taken[place] : taken[place] + some]):
                pieces[row] = pieces.get(row, 0) + 1
            taken[place] += some
        high, long = (part.width, part.height) if laid.lengthwise else (part.height, part.width)
        plans.append(
            StripPlan(
                fabric=cut.fabric.name,
                height=cut_size(mark * high, cut.settings),
                strips=laid.count,
                pieces=tuple(sorted(pieces.items())),
                text=_sentence(cut, laid, rows, letters),
                number=number,
                length=cut_size(mark * long, cut.settings),
                source=laid.source,
            )
        )
    return tuple(plans)


def how_texts(cut: ClothCut, rows: Mapping[int, CutRow]) -> tuple[str, ...]:
    """What has to be said once beside the strips: what is joined, and how the ruler lies at an angle."""
    told: list[str] = []
    for joint in cut.asking.joints:
        told.append(joint_text(joint, cut.settings))
    for index in dict.fromkeys(one.row for one in cut.asking.asked if rows[one.row].angle is not None):
        row = rows[index]
        size = _size(row, cut.settings)
        how = slanted_how(row, cut.settings, cut.fabric.directional)
        told.append(f"{_named(row, row.count).capitalize()} {size}: {how[:1].lower()}{how[1:]}")
    return tuple(told)


def joint_text(joint: Joint, settings: Settings) -> str:
    """How strips are joined: `Sew the 7 strips 4½ wide end to end, seams pressed open; from the long strip cut 2
    lengths of 65½, then 2 of 56½.`"""
    ends = [f"a length of {cut_size(end, settings).shown}" for end in joint.ends]
    width = cut_size(joint.width, settings).shown
    if not joint.together:
        parts = [plural(joint.full, "full strip"), *ends] if joint.full else ends
        long = cut_size(joint.pieces[0][1], settings).shown
        return f"Each strip {width} × {long} is joined end to end from {listed(parts)}."
    after = joint.full - joint.before
    full = [f"{plural(joint.full, 'strip')} {width} wide"] if joint.full else []
    sewn = f"Sew {listed([*full, *ends])} end to end, seams pressed open"
    if joint.ends and full and not joint.before:
        sewn = f"Sew {listed([*ends, *full])} end to end, seams pressed open"
    elif joint.ends and 0 < joint.before < joint.full:
        first = f"{plural(joint.before, 'strip')} {width} wide"
        rest = f"{after} more {'strips' if after > 1 else 'strip'}"
        sewn = f"Sew {listed([first, *ends, rest])} end to end in this order, seams pressed open"
    lengths = [
        f"{plural(count, 'length')} of {cut_size(length, settings).shown}" if n == 0
        else f"{count} of {cut_size(length, settings).shown}"
        for n, (_, length, count) in enumerate(joint.pieces)
    ]
    return f"{sewn}; from the long strip cut {', then '.join(lengths)}."


def pieces_text(row: CutRow, count: int, settings: Settings) -> str:
    """`12 squares 6½`, `4 rectangles 2½ × 4½`, `2 lengths of 12½` where the piece is a strip of a strip set."""
    if row.shape == "strip":
        return f"{plural(count, 'length')} of {cut_size(row.height, settings).shown}"
    if row.radius is not None:
        return f"{plural(count, row.shape)} {bend_words(row.shape, row.radius, settings)}"
    return f"{count} {_named(row, count)} {_size(row, settings)}"


def _named(row: CutRow, count: int) -> str:
    return ("reversed " if row.reversed else "") + plural(count, row.shape).partition(" ")[2]


def _size(row: CutRow, settings: Settings) -> str:
    width, height = cut_size(row.width, settings).shown, cut_size(row.height, settings).shown
    return shape_size(row.shape, width, height, row.angle)


def _sentence(cut: ClothCut, laid: Laid, rows: Mapping[int, CutRow], letters: Mapping[int, str]) -> str:
    part, settings, mark = laid.part, cut.settings, cut.mark
    height = cut_size(mark * (part.width if laid.lengthwise else part.height), settings).shown
    way = "along the length" if laid.lengthwise else "by the width"
    lead = f"Cut {plural(part.times, 'strip')} {height} {way}"
    if laid.source != "cloth":
        each = f"the same {laid.name}" if laid.again else f"a {laid.name}"
        if laid.sheets > 1:
            each = f"each of {'the same ' if laid.again else ''}{sheets_text(laid.sheets, laid.name)}"
        lead = f"From {each} cut {plural(part.times, 'strip')} {height} {way}"
    from_it = "from it cut" if laid.count == 1 else "from each cut"
    if part.need is not None:
        asked = cut.asking.asked[part.need]
        row = rows[asked.row]
        if asked.what == "piece" and row.shape == "strip":
            return f"{lead}."
        if asked.what in ("full", "end"):
            return f"{lead}, to be joined."
        if asked.what == "slanted":
            return f"{lead}; {from_it} {asked.gives} {_named(row, asked.gives)}."
        return f"{lead}; {from_it} {_asked_text(asked, 1, rows, settings)}."
    inside = part.parts if part.split == "columns" or laid.lengthwise else (part,)
    return f"{lead}; {'; '.join(_inside(cut, inside, rows, letters, from_it))}."


def _inside(
    cut: ClothCut, parts: tuple[Part, ...], rows: Mapping[int, CutRow], letters: Mapping[int, str], lead: str
) -> list[str]:
    """What is done to a strip, in the order of its parts: whole pieces, pieces that are trimmed, and segments that are
    cut on."""
    found: list[tuple[str, str | dict[int, int]]] = []
    for part in parts:
        piece = single(part)
        if piece is None or piece.need is None:
            if part.parts:
                found.append(("", _segment(cut, part, rows, letters)))
            continue
        what = "" if part.need is not None else ", trimmed to size"
        if not found or found[-1][0] != what or isinstance(found[-1][1], str):
            found.append((what, {}))
        counts = found[-1][1]
        assert isinstance(counts, dict)
        counts[piece.need] = counts.get(piece.need, 0) + part.times
    told = [
        item if isinstance(item, str) else _pieces(cut, item, rows, letters, uncut=not what) + what
        for what, item in found
    ]
    return [f"{'cut' if place else lead} {text}" for place, text in enumerate(told)]


def single(part: Part) -> Part | None:
    """The one piece of a part, which is the part itself or what it is trimmed to; None where it gives more."""
    while part.need is None and len(part.parts) == 1 and part.parts[0].times == 1:
        part = part.parts[0]
    return None if part.need is None else part


def _pieces(
    cut: ClothCut,
    counts: Mapping[int, int],
    rows: Mapping[int, CutRow],
    letters: Mapping[int, str],
    *,
    uncut: bool = False,
) -> str:
    """`12 squares 6½ and 4 rectangles 2½ × 4½`; where there are many sizes, each with its letter in the cut list.
    `uncut`: rough pieces for a press stay together, in lengths; those that are as large are told together."""
    rough: dict[tuple[Exact, Exact], tuple[int, int]] = {}
    told: list[tuple[int, int]] = []
    for need, count in counts.items():
        row = rows[cut.asking.asked[need].row]
        if uncut and row.lies is not None and row.shape == ROUGH:
            first, before = rough.get((row.width, row.height), (need, 0))
            rough[row.width, row.height] = first, before + count
        else:
            told.append((need, count))
    lengths = [("a length for " if count > 1 else "", need, count) for need, count in rough.values()]
    texts = []
    for lead, need, count in (*lengths, *(("", need, count) for need, count in told)):
        asked = cut.asking.asked[need]
        letter = f" ({letters[asked.row]})" if len(counts) > FEW and not lead else ""
        texts.append(lead + _asked_text(asked, count, rows, cut.settings) + letter)
    return listed(texts)


def _segment(cut: ClothCut, part: Part, rows: Mapping[int, CutRow], letters: Mapping[int, str]) -> str:
    """`2 segments 4½ wide, each for 3 rectangles 2 × 4½ one above another`."""
    wide = cut_size(cut.mark * part.width, cut.settings).shown
    counts: dict[int, int] = {}
    for place, count in _places(part):
        counts[place] = counts.get(place, 0) + count
    lead = f"{part.times} segments {wide} wide, each" if part.times > 1 else f"a segment {wide} wide"
    how = "one above another" if part.split == "rows" else "side by side"
    if any(one.need is None for one in part.parts):
        how += ", trimmed to size"
    return f"{lead} for {_pieces(cut, counts, rows, letters)} {how}"


def _places(part: Part, times: int = 1) -> Iterator[tuple[int, int]]:
    if part.need is not None:
        yield part.need, times
    for one in part.parts:
        yield from _places(one, times * one.times)


def _asked_text(asked: Asked, count: int, rows: Mapping[int, CutRow], settings: Settings) -> str:
    row, mark, need = rows[asked.row], settings.ruler, asked.need
    if asked.what == "piece":
        return pieces_text(row, count, settings)
    long, wide = (need.height, need.width) if asked.downward else (need.width, need.height)
    shown = cut_size(mark * long, settings).shown
    if asked.what == "slanted":
        return f"{plural(count, 'length')} of {shown} for {asked.gives} {_named(row, asked.gives)}" + (
            " each" if count > 1 else ""
        )
    return f"{plural(count, 'length')} {cut_size(mark * wide, settings).shown} × {shown} to be joined"
