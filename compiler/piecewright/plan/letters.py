"""Letters for the blocks of a table, where several different ones are laid out: on the cloth, and in the words."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from string import ascii_uppercase

from piecewright.dataclass import dataclass
from piecewright.kernel.action import Lay
from piecewright.kernel.build import Made, Step
from piecewright.kernel.measure import finished_outline
from piecewright.plan.model import Figure, Label
from piecewright.plan.onto_paper import middle
from piecewright.plan.scene_lay import cell_shifts
from piecewright.plan.table import moved
from piecewright.plan.tongue import Tongue, piece_named
from piecewright.plan.words import turning


@dataclass(frozen=True, slots=True, kw_only=True)
class Letters:
    """`rows[r][c]` is the letter of a cell and how it is turned, in words or empty. `names` are the letters in the
    order in which they first stand in the table, each with what it is and how many of it are there."""

    rows: tuple[tuple[tuple[str, str], ...], ...]
    names: tuple[tuple[str, str, int], ...]

    @property
    def is_each_once(self) -> bool:
        return all(count == 1 for _, _, count in self.names)

    def key(self) -> tuple[str, ...]:
        """`A: churn-dash, 4 in all`; without the count where each stands once."""
        return tuple(
            f"{letter}: {name}" if self.is_each_once else f"{letter}: {name}, {count} in all"
            for letter, name, count in self.names
        )

    def told(self) -> list[list[str]]:
        """Each cell in words: `A, turned right`; where each stands once, `A (churn-dash)`."""
        names = {letter: f"{letter} ({name})" if self.is_each_once else letter for letter, name, _ in self.names}
        return [[f"{names[letter]},{how}" if how else names[letter] for letter, how in row] for row in self.rows]


def letters_of(action: Lay, step: Step, made: Made, tongue: Tongue) -> Letters | None:
    """The letters of a table of several rows in which blocks differ; in a quilt, units too. None where they do not.

    What is made in the same way has one letter however it is turned; reversed it is another piece and has another.
    """
    keys = {key for row in action.keys for key in row if key}
    differing = keys if made.kind == "quilt" else {key for key in keys if tongue.made[key].kind == "block"}
    if len(action.rows) < 2 or len(differing) < 2:
        return None
    rows: list[list[tuple[str, str]]] = []
    letters: dict[str, str] = {}
    count: Counter[str] = Counter()
    for keys_of, names, cells in zip(action.keys, action.names, action.rows, strict=True):
        rows.append([])
        for key, name, cell in zip(keys_of, names, cells, strict=True):
            source = key or piece_named(name, cell, step)
            what = tongue.called(source, name if source is None else "")
            count[what] += 1
            how = turning(name).replace(" reversed", "") if key else ""
            rows[-1].append((letters.setdefault(what, letter(len(letters))), how))
    names_of = tuple((one, what, count[what]) for what, one in letters.items())
    return Letters(rows=tuple(map(tuple, rows)), names=names_of)


def letter(number: int) -> str:
    """A to Z for 0 to 25, then AA, AB and so on."""
    first, last = divmod(number, len(ascii_uppercase))
    return (letter(first - 1) if first else "") + ascii_uppercase[last]


def lettered(figure: Figure, step: Step, made: Made, tongue: Tongue) -> Figure:
    """The figure of a table with a letter in the middle of each cell of its first panel, and what they mean. Others
    as they are."""
    action = next((action for action in step.actions if isinstance(action, Lay)), None)
    letters = letters_of(action, step, made, tongue) if action is not None and step.verb == "lay" else None
    if action is None or letters is None:
        return figure
    labels = [
        Label(at=moved(middle(finished_outline(cell)), shift), text=text)
        for row, shifts, told in zip(action.rows, cell_shifts(action), letters.rows, strict=True)
        for cell, shift, (text, _) in zip(row, shifts, told, strict=True)
    ]
    panels = (replace(figure.panels[0], labels=tuple(labels)), *figure.panels[1:])
    description = f"{figure.description} {'; '.join(letters.key())}."
    return replace(figure, panels=panels, description=description, key=letters.key())
