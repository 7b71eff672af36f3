"""The library as one page: a picture of each entry, and how it is called."""

from __future__ import annotations

from collections.abc import Sequence

from markupsafe import Markup

from piecewright.dataclass import dataclass
from piecewright.emit.document import environment, read
from piecewright.emit.svg import figure_svg
from piecewright.plan.model import FabricPlan, UnitPlan

LONGEST = 150.0  # points, the longer side of what is pictured


@dataclass(frozen=True, slots=True, kw_only=True)
class Sample:
    """One picture of the page. `group`: the heading it stands under; `also`: its other names as a
    sentence, or nothing; `pieces`: how many patches it has; `unit` was made at the default size of it, from
    `fabrics`."""

    group: str
    name: str
    call: str
    about: str
    also: str
    pieces: int
    unit: UnitPlan
    fabrics: tuple[FabricPlan, ...]


def catalogue(samples: Sequence[Sample]) -> str:
    """The page, complete in itself, with the samples in their order."""
    groups: dict[str, list[Sample]] = {}
    for sample in samples:
        groups.setdefault(sample.group, []).append(sample)
    there = environment(autoescape=True)
    there.globals.update(picture=_picture, css=Markup(read("pattern.css") + read("library.css")))
    return there.get_template("library.html.j2").render(groups=groups, count=len(samples))


def _picture(sample: Sample) -> Markup:
    """The finished unit, on a scale of its own, so that all pictures of the page are of one size."""
    figure = sample.unit.coloured
    assert figure is not None, "what is asked for outright is pictured"
    size = sample.unit.finished
    scale = LONGEST / max(size.width.value, size.height.value)
    return Markup(figure_svg(figure, sample.fabrics, scale=scale, prefix="fig-").strip())
