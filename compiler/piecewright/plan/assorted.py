"""Assorted fabrics: how many prints a pattern asks for, how much of each, and what a chosen print is called.

Within the plan a print chosen from an assorted fabric is a fabric of its own, `lights/light`. Whoever reads the plan
finds it under the word the pattern calls it by, and drawn as the fabric it was chosen from.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace

from piecewright.kernel.build import Build
from piecewright.plan.cutlist import CutRow, is_assorted, print_word
from piecewright.plan.model import Cloth, Figure, Panel, StepPlan, UnitPlan
from piecewright.plan.rounding import cut_size
from piecewright.plan.strip_text import pieces_text
from piecewright.plan.strips import Strips, print_groups
from piecewright.plan.words import listed, plural


def prints_needed(build: Build, rows: tuple[CutRow, ...], planned: tuple[Strips, ...]) -> dict[str, tuple[str, ...]]:
    """Of each assorted fabric: how many different prints there may be, and how much is cut from each.

    Two prints may happen to be the same, so there is no need of more than one, or of more than a unit chooses by
    different names.
    """
    found: dict[str, tuple[str, ...]] = {}
    groups = print_groups(rows)
    for fabric in build.fabrics:
        if not is_assorted(build, fabric.name):
            continue
        free = [row for row in rows if row.fabric == fabric.name and row.batches is None]
        chosen = [group for group in groups if rows[group[0]].fabric == fabric.name]
        most = sum(row.count for row in free) + sum(rows[group[0]].batches or 0 for group in chosen)
        if not most:
            continue
        least = max(len({rows[group[0]].print for group in chosen}), 1)
        told = [f"{least} to {most} different prints" if least < most else f"{plural(most, 'different print')}"]
        told += [_of_each(build, rows, group, planned) for group in chosen]
        if free:
            told.append(f"{listed([pieces_text(row, row.count, build.settings) for row in free])} of any prints")
        found[fabric.name] = tuple(told)
    return found


def _of_each(build: Build, rows: tuple[CutRow, ...], group: list[int], planned: tuple[Strips, ...]) -> str:
    """`20 prints, each 4 squares 2½ (a piece 2½ × 10)`."""
    first = rows[group[0]]
    pieces = listed([pieces_text(rows[i], rows[i].each or 0, build.settings) for i in group])
    own = [item for item in planned if item.print and item.pieces[0][0] in group]
    cloth = listed([_cloth(build, item) for item in own])
    word = print_word(build, first.print)
    return f"{plural(first.batches or 0, 'print')}{word}, each {pieces} ({cloth})"


def _cloth(build: Build, item: Strips) -> str:
    height = cut_size(item.height, build.settings).shown
    if item.length is None:
        return f"{plural(item.count, 'strip')} {height} by the width"
    return f"a piece {height} × {cut_size(item.length, build.settings).shown}"


class Words:
    """Puts the words of a pattern in place of the names of its chosen prints."""

    def __init__(self, build: Build) -> None:
        self._of = {fabric.name: fabric.of for fabric in build.fabrics if fabric.of}
        self._assorted = frozenset(fabric.name for fabric in build.fabrics if fabric.assorted)
        # where several prints are chosen from one fabric, each but the first is drawn in its own way
        self._look: dict[str, tuple[str, int]] = {}
        counts: dict[str, int] = {}
        for name, of in self._of.items():
            counts[of] = counts.get(of, 0) + 1
            if counts[of] > 1:
                self._look[name] = (of, counts[of])
        self._many = frozenset(of for of, count in counts.items() if count > 1)
        names = sorted(self._of, key=len, reverse=True)
        self._pattern = re.compile(rf"(?<![\w-])({'|'.join(map(re.escape, names))})(?![\w-])") if names else None

    def text(self, text: str) -> str:
        """A sentence with every print called by its word."""
        if self._pattern is None or "/" not in text:
            return text
        return self._pattern.sub(lambda match: match[1].partition("/")[2], text)

    def seen(self, fabrics: Iterable[str], prints: frozenset[str]) -> tuple[str, ...]:
        """Fabrics, each once, with the assorted fabric in place of a print that is none of `prints`."""
        return tuple(dict.fromkeys(name if name in prints else self._of.get(name, name) for name in fabrics))

    def unit(self, unit: UnitPlan, prints: frozenset[str]) -> UnitPlan:
        """A unit for its readers. `prints` are those that it chooses or is handed; of any other, only units that it
        is made of know, and here they are the assorted fabric."""
        if not self._assorted:
            return unit
        return replace(
            unit,
            title=self.text(unit.title),
            whole=self.text(unit.whole),
            arguments=tuple((name, self.text(value)) for name, value in unit.arguments),
            fabrics=tuple(dict.fromkeys(self._of.get(name, name) for name in unit.fabrics)),
            steps=tuple(self._step(step, prints) for step in unit.steps),
            coloured=self.figure(unit.coloured, prints) if unit.coloured else None,
            uncoloured=self.figure(unit.uncoloured, prints) if unit.uncoloured else None,
        )

    def _step(self, step: StepPlan, prints: frozenset[str]) -> StepPlan:
        return replace(
            step,
            text=self.text(step.text),
            details=tuple(map(self.text, step.details)),
            measures=tuple(map(self.text, step.measures)),
            figure=self.figure(step.figure, prints),
        )

    def figure(self, figure: Figure, prints: frozenset[str]) -> Figure:
        """A figure with chosen prints drawn as the fabric they are of, and words for them beside the samples."""
        seen = dict.fromkeys(cloth.fabric for panel in figure.panels for cloth in panel.all_cloth() if cloth.fabric)
        legend: dict[str, tuple[str, list[str]]] = {}
        drawn: dict[str, str] = {}
        looks: dict[str, tuple[str, str, int]] = {}
        for name in seen:
            of = self._of.get(name, "")
            if name in self._assorted or (of and name not in prints):
                whole = drawn[name] = of or name
                legend.setdefault(whole, (whole, []))[1].insert(0, f"{whole}, assorted")
            elif of:
                drawn[name] = of
                if name in self._look:
                    number = self._look[name][1]
                    drawn[name] = f"{of} {number}"
                    looks[drawn[name]] = (drawn[name], of, number)
                legend.setdefault(drawn[name], (of, []))[1].append(name.partition("/")[2])
        if not legend:
            return figure
        panels = figure.panels
        if not self._of.keys().isdisjoint(seen):
            panels = tuple(_recoloured(panel, drawn) for panel in panels)
        return replace(
            figure,
            title=self.text(figure.title),
            description=self.text(figure.description),
            panels=panels,
            legend=tuple((name, _beside(of, words, of in self._many)) for name, (of, words) in legend.items()),
            looks=tuple(looks.values()),
            key=tuple(map(self.text, figure.key)),
        )


def _recoloured(panel: Panel, drawn: Mapping[str, str]) -> Panel:
    """The panel with other names for fabrics."""

    def cloth(one: tuple[Cloth, ...]) -> tuple[Cloth, ...]:
        return tuple(replace(c, fabric=drawn.get(c.fabric, c.fabric)) for c in one)

    shapes = {id(one.shape): one.shape for one in panel.placed}
    new = {number: replace(shape, cloth=cloth(shape.cloth)) for number, shape in shapes.items()}
    placed = tuple(replace(one, shape=new[id(one.shape)]) for one in panel.placed)
    return replace(panel, cloth=cloth(panel.cloth), placed=placed)


def _beside(fabric: str, words: list[str], many: bool) -> str:
    """`one of lights`, or `pale, one of lights` where the pattern has many; `lights, assorted`."""
    whole = f"{fabric}, assorted"
    chosen = [word for word in dict.fromkeys(words) if word != whole]
    told = [whole] if whole in words else []
    if len(chosen) == 1:
        told.append(f"{chosen[0]}, one of {fabric}" if many else f"one of {fabric}")
    elif chosen:
        told.append(f"{listed(chosen)}, each one of {fabric}")
    return "; ".join(told)
