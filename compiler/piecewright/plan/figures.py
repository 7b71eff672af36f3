"""From steps to scenes: one figure a step, and the finished picture.

A scene shows what lies on the table before, what is done to it and what results, left to right. What
results lies as the next step finds it. Page, texts' extents and ink are left to the emitters.
"""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact
from piecewright.kernel.action import (
    Action,
    Add,
    Back,
    Bind,
    Curve,
    CutPiece,
    Finish,
    Flip,
    Lay,
    Open,
    Place,
    Press,
    Sew,
    Stitch,
    Subcut,
    Take,
    Trim,
    Turn,
)
from piecewright.kernel.build import Piece, Settings, Step
from piecewright.kernel.measure import bounds, finished_bounds, finished_outline
from piecewright.kernel.unit import Unit
from piecewright.plan.model import Figure, Panel, Side
from piecewright.plan.rounding import measured_size
from piecewright.plan.scene_curve import curve_panels
from piecewright.plan.scene_cut import piece_panels, subcut_panels, take_panels, turn_panels
from piecewright.plan.scene_lay import lay_panels
from piecewright.plan.scene_layers import (
    flip_panels,
    layered_cut_panels,
    layered_turn_panels,
    open_panels,
    place_panels,
    stitch_panels,
)
from piecewright.plan.scene_paper import add_panels
from piecewright.plan.scene_quilted import back_panels, bind_panels, put_bound
from piecewright.plan.scene_sew import finish_panels, sew_panels
from piecewright.plan.scene_trim import trim_panels
from piecewright.plan.table import Table, extremes, points

FINISHED = "Finished size, no seam allowance"
BOUND = "Finished size, bound"


def step_figure(step: Step, *, id: str, title: str, description: str, group: str, settings: Settings) -> Figure:
    """The figure of one step. `group`: figures of one group are drawn at one scale. `title` and `description`
    are for those who do not see it."""
    panels = _panels(step, step.actions, settings)
    if step.times > 1 and step.last:
        last = _panels(step, step.last, settings)[-1]
        panels = (*panels[:-1], replace(panels[-1], words="After the first round"))
        panels = (*panels, replace(last, lead="rounds", words=f"After round {step.times}"))
    if any(isinstance(action, Bind) for action in step.actions):
        group = f"{group}-binding"  # at the scale of the whole quilt its binding would be a line
    if any(isinstance(action, Lay) and not action.sewn for action in step.actions):
        group = f"{group}-layout"  # one panel beside figures of three, and nothing in it is compared with them
    return Figure(
        id=id,
        title=title,
        description=description,
        panels=panels,
        scale_group=group,
        kind="step",
        whole_page=any(panel.lead == "below" for panel in panels),
    )


def finished_figure(
    unit: Unit,
    *,
    id: str,
    title: str,
    description: str,
    group: str,
    outline: bool,
    settings: Settings,
    line: int = 0,
    binding: str | None = None,
    whole_page: bool = False,
) -> Figure:
    """The finished picture: cloth within the seam lines all round, with its finished size, and of a quilt that is bound
    the `binding` of that fabric over the raw edge; as outlines to colour in when `outline`, which may have a page of
    their own."""
    table = Table(settings, line)
    if binding is None:
        table.put_cloth(unit)
        edge = finished_outline(unit)
    else:
        edge = put_bound(table, unit, binding)
    table.stroke(points(edge), "raw", closed=True)
    left, bottom, right, top = finished_bounds(unit) if binding is None else bounds(unit)
    sides: tuple[tuple[int, Exact, Side], ...] = ((0, right - left, "bottom"), (1, top - bottom, "left"))
    for axis, size, side in sides:
        low, high = extremes(edge, axis, side)
        table.dimension(low.floats, high.floats, side, measured_size(size, settings).shown)
    words = "" if outline else FINISHED if binding is None else BOUND
    panel = table.panel(words=words, clip=points(edge))
    return Figure(
        id=id,
        title=title,
        description=description,
        panels=(panel,),
        scale_group=group,
        kind="outline" if outline else "finished",
        whole_page=whole_page,
    )


def _panels(step: Step, actions: tuple[Action, ...], settings: Settings) -> tuple[Panel, ...]:
    line = step.line
    alike = f"{step.copies} alike" if step.copies > 1 else ""
    sewn = tuple(a for a in actions if isinstance(a, Sew))
    pressed = tuple(a for a in actions if isinstance(a, Press))
    if sewn:
        return sew_panels(sewn, pressed, settings, line, endless=_is_endless(step), words=alike)
    finished = tuple(a for a in actions if isinstance(a, Finish))
    if finished:
        return finish_panels(finished[0], pressed, settings, line, alike)
    flipped = tuple(a for a in actions if isinstance(a, Flip))
    if flipped:
        return flip_panels(flipped, settings, line, alike)
    curves = tuple(a for a in actions if isinstance(a, Curve))
    if curves:
        return curve_panels(curves, settings, line, alike)
    panels: list[Panel] = []
    for action in actions:
        if isinstance(action, CutPiece):
            panels += piece_panels(action, settings, line)
        elif isinstance(action, Take):
            panels += take_panels(action, settings, line)
        elif isinstance(action, Turn):
            panels += (layered_turn_panels if action.layers else turn_panels)(action, settings, line)
        elif isinstance(action, Place):
            panels += place_panels(action, settings, line)
        elif isinstance(action, Stitch):
            panels += stitch_panels(action, settings, line, alike)
        elif isinstance(action, Open):
            panels += open_panels(action, settings, line, _turned_alike(actions, step))
        elif isinstance(action, Subcut) and action.layers is not None:
            panels += layered_cut_panels(action, settings, line, _turned_alike(actions, step))
        elif isinstance(action, Subcut):
            panels += subcut_panels(action, settings, line, step.verb == "subcut", step.copies)
        elif isinstance(action, Add):
            panels += add_panels(action, settings, line)
        elif isinstance(action, Trim):
            panels += trim_panels(action, settings, line, alike)
        elif isinstance(action, Lay):
            panels += lay_panels(action, settings, line)
        elif isinstance(action, Back):
            panels += back_panels(action, settings, line)
        elif isinstance(action, Bind):
            panels += bind_panels(action, settings, line)
    return tuple(panels)


def _turned_alike(actions: tuple[Action, ...], step: Step) -> str:
    named = any(isinstance(action, Subcut) and action.names for action in actions)
    return "" if named or step.copies < 2 else f"{step.copies} alike, turned to lie like this"


def _is_endless(step: Step) -> bool:
    """True while the work is strips that have not been cut across."""
    pieces = [s.source for s in step.supplies if isinstance(s.source, Piece)]
    return any(piece.shape == "strip" and piece.width is None for piece in pieces)
