"""The default sentences of what puts work together: starting, taking, turning, laying out, sewing, pressing.

Sizes are those of the cut list and of the figures, made by the same rounding; a piece is written as
the cut list writes it, narrow side first unless its fabric is directional.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from piecewright.kernel.action import AWAY_FROM_SEWN, TOWARD_SEWN, CutPiece, Finish, Lay, Press, Sew, Take, Turn
from piecewright.kernel.alike import plain_piece
from piecewright.kernel.build import Piece, Step
from piecewright.kernel.unit import Pressed, Unit
from piecewright.plan.borders import border_texts, has_corners
from piecewright.plan.inner_seams import finish_text, part_text, set_text, step_text, stop_text
from piecewright.plan.letters import Letters
from piecewright.plan.on_point_text import END, LONGER, OPEN, is_filler, sashes_text, set_out_text
from piecewright.plan.places import edges_in_order, facing, is_edge
from piecewright.plan.tongue import Source, Tongue, brought, piece_named
from piecewright.plan.words import article, listed, sentence, times, typographic

_ORDER = ("first", "second", "third", "fourth")


def start_text(action: CutPiece, tongue: Tongue) -> str:
    """`Start with a dusk square 5½.`"""
    endless = action.shape == "strip"
    width = None if endless else action.width
    piece = Piece(
        shape=action.shape, width=width, height=action.height, fabric=action.fabric, angle=action.angle
    )
    lies = ""
    if action.shape == "rectangle" and action.fabric not in tongue.directional and action.width != action.height:
        lies = ", standing up" if action.width < action.height else ", lying across"
    return sentence(f"start with {article(tongue.piece(piece))}{lies}")


def take_text(action: Take, step: Step, tongue: Tongue) -> str:
    """`Take one framed.`"""
    sources = [source for source in brought(step) if isinstance(source, str)]
    return sentence(f"take one {tongue.called(sources[0] if sources else None, action.name)}")


def turn_text(action: Turn) -> str:
    """`Turn the work a quarter to the left.`"""
    degrees = (action.degrees + 180) % 360 - 180
    if abs(degrees) == 180:
        return "Turn the work halfway round."
    part = {90: "a quarter", 45: "an eighth"}.get(abs(degrees), f"{abs(degrees)} degrees")
    return f"Turn the work {part} to the {'left' if degrees > 0 else 'right'}."


def lay_text(action: Lay, step: Step, tongue: Tongue, letters: Letters | None) -> tuple[str, tuple[str, ...]]:
    """What is laid out, in which order it is sewn and how it is pressed; and the rows in words, by letters where
    there are some."""
    cells = _cells(action, step, tongue)
    meaning: tuple[str, ...] = ()
    if letters is not None:
        cells = letters.told()
        meaning = () if letters.is_each_once else (sentence("; ".join(letters.key())),)
    if not action.sewn and not action.is_level:
        return set_out_text(action), (*meaning, *_rows_text([_together(row) for row in cells]))
    if not action.sewn:
        text, rows = _set_out_text(cells)
        return text, (*meaning, *rows)
    if len(cells) == 1:
        text = f"Lay out {len(cells[0])} side by side, as the figure shows. Sew them together from left to right."
        return f"{text} {lay_pressing(action)}", (sentence(f"from left to right: {_together(cells[0])}"),)
    if all(len(row) == 1 for row in cells):
        text = f"Lay out {len(cells)} one below the other, as the figure shows. Sew them together from top to bottom."
        column = sentence(f"from the top: {_together([row[0] for row in cells])}")
        return f"{text} {lay_pressing(action)}", (*meaning, column)
    of = f" of {len(cells[0])}" if len({len(row) for row in cells}) == 1 else ""
    text = f"Lay out {len(cells)} rows{of}, as the figure shows. Sew each row together, then the rows to each other."
    return f"{text} {lay_pressing(action)}", (*meaning, *_rows_text([_together(row) for row in cells]))


def _cells(action: Lay, step: Step, tongue: Tongue) -> list[list[str]]:
    """What each piece of a table is called."""
    keys = action.keys or tuple(("",) * len(row) for row in action.names)
    return [
        [
            name if is_filler(name) else tongue.called(key or piece_named(name, cell, step), name)
            for key, name, cell in zip(*row, strict=True)
        ]
        for row in zip(keys, action.names, action.rows, strict=True)
    ]


def rows_text(action: Lay, step: Step, tongue: Tongue, letters: Letters | None) -> tuple[str, ...]:
    """The rows of a table, one line for each different one; of a piece of cloth its size where there are several.
    Blocks go by the letters that they have, which are told again."""
    cells = _cells(action, step, tongue)
    told: dict[str, set[str]] = {}
    for names, row in zip(action.names, cells, strict=True):
        for name, cell in zip(names, row, strict=True):
            told.setdefault(name, set()).add(cell)
    known = {} if letters is None else {what: letter for letter, what, _ in letters.names}

    def called(key: str, name: str, cell: str) -> str:
        if key:
            what = tongue.called(key, "")
            return cell.replace(what, known.get(what, what), 1)
        if name.endswith(END):
            return name
        if name.endswith(LONGER):
            return f"longer {name.removesuffix(LONGER)} post"
        return _by_its_name(cell, name) if len(told[name]) > 1 else typographic(name)

    rows = (zip(*each, strict=True) for each in zip(action.keys, action.names, cells, strict=True))
    plain = [[called(key, name, cell) for key, name, cell in row] for row in rows]
    meaning = () if letters is None else (sentence("; ".join(letters.key())),)
    return (*meaning, *_rows_text(["; ".join(_paired(row)) for row in plain]))


def _by_its_name(cell: str, name: str) -> str:
    """A strip is called one also where it is told with its size."""
    return cell.replace(" rectangle ", " strip ", 1) if name.endswith(" strip") else cell


def _paired(cells: Sequence[str]) -> list[str]:
    """A row in words, where two take turns as `3 times glow strip and lantern`."""
    found: list[str] = []
    at = 0
    while at < len(cells):
        pair = list(cells[at : at + 2])
        step = 1 if len(set(pair)) == 1 else 2
        turns = 1
        while pair[:step] == list(cells[at + turns * step : at + (turns + 1) * step]):
            turns += 1
        if turns > 1:
            found.append(f"{turns} times {' and '.join(pair[:step])}")
        else:
            turns, step = 1, 1
            found.append(cells[at])
        at += turns * step
    return found


def _set_out_text(cells: Sequence[Sequence[str]]) -> tuple[str, tuple[str, ...]]:
    """`Lay out 2 rows of 2, as the figure shows; do not sew them yet.`"""
    later = "as the figure shows; do not sew them yet."
    if len(cells) == 1:
        told = f"Lay out {len(cells[0])} side by side, {later}" if len(cells[0]) > 1 else "Lay out one."
        return told, (sentence(f"from left to right: {_together(cells[0])}"),)
    if len(cells[0]) == 1:
        column = [row[0] for row in cells]
        return f"Lay out {len(cells)} one below the other, {later}", (sentence(f"from the top: {_together(column)}"),)
    return f"Lay out {len(cells)} rows of {len(cells[0])}, {later}", tuple(_rows_text([_together(r) for r in cells]))


def sash_text(action: Lay, step: Step, tongue: Tongue) -> str:
    """`Lay the sashes with them, as the figure shows: 4 ground strips 2½ × 6½ and 1 claw square 2½. Sew …`"""
    counts: dict[Source, int] = {}
    for supply in step.supplies:
        source = supply.source
        if isinstance(source, Piece):  # upright and lying strips are cut alike
            source = plain_piece(source, source.fabric in tongue.directional)
        counts[source] = counts.get(source, 0) + supply.count
    if not action.is_level:
        return sashes_text(list(counts.items()), action, tongue)
    named = [
        tongue.counted(source, count, noun="strip" if isinstance(source, Piece) and source.shape == "rectangle" else "")
        for source, count in counts.items()
    ]
    text = f"Lay the sashes with them, as the figure shows: {listed(named)}."
    if len(action.rows) == 1:
        text += " Sew all together from left to right."
    elif all(len(row) == 1 for row in action.rows):
        text += " Sew all together from top to bottom."
    else:
        text += " Sew each row together, then the rows to each other."
    is_open = all(_last(unit) in ("open", None) for unit in (*action.row_units, action.result))
    return f"{text} {OPEN if is_open else 'Press as the arrows show.'}"


def sew_text(actions: Sequence[Sew | Press | Finish], step: Step, tongue: Tongue) -> tuple[str, tuple[str, ...]]:
    """What is sewn on which edges, in order, and how it is pressed; of a repeat also the sizes of each round."""
    sews = [action for action in actions if isinstance(action, Sew)]
    presses = [action for action in actions if isinstance(action, Press)]
    several = len(sews) > 1
    if not sews:
        finished = finish_text() if len(presses) < len(actions) else ""
        return f"{finished} {_pressing(presses)}".strip(), ()
    whole = border_texts(sews, step, tongue) if step.verb == "border" else ()
    if whole:
        outward = all(press.result.seam_rope[press.seam].pressed == "right" for press in presses)
        told_of = "the seams along the edges" if has_corners(sews, step) else "every seam"
        pressing = f"Press {told_of} toward the border." if outward else _pressing(presses, told_of, several=several)
        more = whole[1:] if len(set(whole)) > 1 else ()
        return f"{whole[0]} {pressing}", tuple(f"Round {number}: {text}" for number, text in enumerate(more, 2))
    rounds = _rounds(brought(step), len(sews), step.times)
    varied = len(set(rounds)) > 1
    first = rounds[0] if rounds else (None,) * len(sews)
    told = [_second(sew, source, step, tongue, sized=not varied) for sew, source in zip(sews, first, strict=True)]
    edges = [edge for edge in step.places if is_edge(edge)]
    if len(edges) != len(sews):
        edges = [facing(sew.first, sew.first_edges[0]) for sew in sews]
    phrases: list[str] = []
    for start, end in _equal_runs(told):
        each = " of each" if step.copies > 1 else ""
        comma = "," if "," in told[start] else ""
        phrases.append(f"{told[start]}{comma} to {edges_in_order(edges[start:end])}{each}{_rider(sews[start], tongue)}")
    if step.verb == "set":
        text = set_text(told[0], step, step.copies)
    else:
        text = f"{sentence('sew ' + ', then '.join(phrases))} {stop_text(sews, tongue.settings)}".strip()
    if any(sew.eased for sew in sews):
        text += " Ease in the small difference between the edges."
    return f"{text} {_pressing(presses, several=several)}".strip(), _rounds_text(rounds, tongue) if varied else ()


def _rider(sew: Sew, tongue: Tongue) -> str:
    """How far an edge is sewn, or where a strip begins, where that is not the common way."""
    if sew.part:
        return part_text(sew)
    return step_text(sew, tongue.settings) if sew.step is not None else ""


def _second(sew: Sew, source: Source | None, step: Step, tongue: Tongue, *, sized: bool) -> str:
    if isinstance(source, Piece):
        return article(tongue.piece(source, "strip" if step.verb == "border" else "", sized=sized))
    if source is not None:
        return f"one {tongue.called(source, sew.name)}"
    return article(sew.name)


def _rounds(sources: tuple[Source, ...], each: int, times: int) -> list[tuple[Source | None, ...]]:
    """What is brought in each round of a repeat; one round where nothing is repeated, none where unknown."""
    if len(sources) == each:
        return [sources]
    if len(sources) == each * times:
        return [sources[i : i + each] for i in range(0, len(sources), each)]
    return [sources * each] if len(sources) == 1 else []


def _rounds_text(rounds: list[tuple[Source | None, ...]], tongue: Tongue) -> tuple[str, ...]:
    return tuple(
        sentence(f"round {number}: {listed([tongue.size(source) for source in sources if isinstance(source, Piece)])}")
        for number, sources in enumerate(rounds, 1)
    )


def _pressing(presses: Sequence[Press], seams_all: str = "every seam", *, several: bool = False) -> str:
    """How seams lie, `seams_all` where they are alike; `several`: more than one piece was sewn on."""
    ways = list(dict.fromkeys(press.toward for press in presses))
    if not ways:
        return ""
    if len(ways) > 1:
        seams = [_ORDER[i] if i < len(_ORDER) else f"{i + 1}th" for i in range(len(presses))]
        return sentence(
            "press " + ", ".join(f"the {nth} seam {press.toward}" for nth, press in zip(seams, presses, strict=True))
        )
    if len(presses) == 1:
        return "Press the seam open." if ways[0] == "open" else f"Press {ways[0]}."
    if several and ways[0] in (TOWARD_SEWN, AWAY_FROM_SEWN):
        ways[0] = ways[0].replace("piece", "pieces")
    return f"Press {'both seams' if len(presses) == 2 else seams_all} {ways[0]}."


def lay_pressing(action: Lay) -> str:
    """How the seams of a table lie. The last seam of a unit is the one sewn last."""
    pressed = [_last(row) for row, cells in zip(action.row_units, action.rows, strict=True) if len(cells) > 1]
    if _last(action.result) == "open":
        return OPEN
    if len(pressed) > 1 and all(one != next_ for one, next_ in pairwise(pressed)):
        return "Press the seams of each row the other way from those of the row above."
    return "Press as the arrows show."


def _last(unit: Unit) -> Pressed | None:
    """How the seam that was sewn last is pressed."""
    return next((seam.pressed for seam in reversed(unit.seam_rope)), None)


def _together(cells: Sequence[str]) -> str:
    """Cells in order, like neighbours counted, `2 times corner; goose`, and what comes round again told once."""
    for period in range(2, len(cells) // 3 + 1):
        if len(cells) % period == 0 and all(one == cells[at % period] for at, one in enumerate(cells)):
            return f"{_together(cells[:period])}; the same {times(len(cells) // period)} in all"
    return "; ".join(
        cells[start] if end == start + 1 else f"{end - start} times {cells[start]}" for start, end in _equal_runs(cells)
    )


def _rows_text(rows: Sequence[str]) -> list[str]:
    """One line for each different row: `Rows 1 and 3: …`."""
    where: dict[str, list[str]] = {}
    for number, row in enumerate(rows, 1):
        where.setdefault(row, []).append(str(number))
    return [sentence(f"{'row' if len(at) == 1 else 'rows'} {listed(at)}: {row}") for row, at in where.items()]


def _equal_runs(items: Sequence[str]) -> list[tuple[int, int]]:
    """Where equal neighbours begin and end."""
    runs: list[tuple[int, int]] = []
    for at, item in enumerate(items):
        if runs and items[runs[-1][0]] == item:
            runs[-1] = (runs[-1][0], at + 1)
        else:
            runs.append((at, at + 1))
    return runs
