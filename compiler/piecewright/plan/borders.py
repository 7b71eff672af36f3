"""How borders are told whose corners have posts or mitres, and borders of pieced work."""

from __future__ import annotations

from collections.abc import Sequence

from piecewright.kernel.action import Sew
from piecewright.kernel.build import Piece, Step, Supply
from piecewright.plan.places import facing
from piecewright.plan.rounding import given_size, with_unit
from piecewright.plan.tongue import Source, Tongue
from piecewright.plan.words import listed, sentence


def border_text(sews: Sequence[Sew], step: Step, tongue: Tongue) -> str:
    """The whole border in the order of sewing; empty where the default sentence serves: strips of one piece each."""
    if any(len(sew.first_edges) > 1 for sew in sews):
        return _mitred(sews, step, tongue)
    posts = [s.source for s in step.supplies if isinstance(s.source, Piece) and s.source.shape == "square"]
    if posts:
        return _with_posts(sews, step, tongue, posts[0])
    if any(s.count > 1 and isinstance(s.source, str) for s in step.supplies):
        return _of_units(sews, step, tongue)
    return ""


def _mitred(sews: Sequence[Sew], step: Step, tongue: Tongue) -> str:
    seam = with_unit(given_size(tongue.settings.seam, tongue.settings).shown, tongue.settings.units)
    return (
        f"{sentence('sew ' + _each(sews, step.supplies, tongue))} Lay the middle of each strip on the middle of its"
        f" edge, and begin and end the seam {seam} from the raw edges, at the dots. Then mitre each corner: fold the"
        " work so that the two strips lie on each other, sew them from the dot outward at 45 degrees to their edges,"
        f" cut the ends off {seam} beyond the seam, and press that seam open."
    )


def _with_posts(sews: Sequence[Sew], step: Step, tongue: Tongue, post: Piece) -> str:
    sources = [s for s in step.supplies if s.source != post]
    sides, ends = _each(sews[:2], sources[:2], tongue), _each(sews[2:], sources[2:], tongue)
    return (
        f"{sentence('sew ' + sides)} Sew a {tongue.piece(post)} to each end of what goes to top and bottom,"
        f" and press those seams away from it. {sentence('then sew, corners and all, ' + ends)}"
    )


def _of_units(sews: Sequence[Sew], step: Step, tongue: Tongue) -> str:
    told = _each(sews, step.supplies, tongue)
    return f"Sew the units of each side together in a row, end to end. {sentence('then sew ' + told)}"


def _each(sews: Sequence[Sew], supplies: Sequence[Supply], tongue: Tongue) -> str:
    """`a dusk strip 4 × 14 to the left and the right edge`: equal ones together."""
    edges: dict[str, list[str]] = {}
    for sew, supply in zip(sews, supplies, strict=True):
        edge = facing(sew.first, sew.first_edges[len(sew.first_edges) // 2])
        edges.setdefault(_lot(sew, supply, tongue), []).append(f"the {edge}")
    return listed([f"{what} to {listed(where)} edge" for what, where in edges.items()])


def _lot(sew: Sew, supply: Supply, tongue: Tongue) -> str:
    """`a row of 14 units (paling, turned right)`, `a dusk strip 4 × 14`."""
    source = supply.source
    if isinstance(source, Piece) or supply.count == 1:
        return _called(source, tongue)
    return f"a row of {supply.count} units ({tongue.called(source, sew.name)})"


def _called(source: Source, tongue: Tongue) -> str:
    return f"a {tongue.piece(source, 'strip')}" if isinstance(source, Piece) else f"a {tongue.called(source, source)}"
