"""Whatever somebody sews, its figures are clear: the work taken, sewn to and finished."""

from __future__ import annotations

from contextlib import suppress

from figures.clear import meetings
from figures.handmade import SETTINGS, border, fabric, figure, step
from hypothesis import given, settings
from hypothesis import strategies as st
from kernel.sequences import FABRICS, Order, carried_out, orders, start
from piecewright.emit.layout import lay_out
from piecewright.emit.svg import figure_svg, group_scales
from piecewright.kernel.action import Action, Take
from piecewright.kernel.errors import SewingError
from piecewright.plan.figures import finished_figure
from piecewright.plan.model import Figure

CLOTH = tuple(fabric(name, "#8a94a6", "dots") for name in FABRICS)


def sewn(first: Order, rest: list[Order]) -> tuple[Figure, ...]:
    """The figures of what lies on the table after some orders."""
    unit = start(first)
    for order in rest:
        unit = (carried_out(unit, order) or (unit,))[-1]
    steps: list[tuple[Action, ...]] = [(Take(name="work", unit=unit),)]
    with suppress(SewingError):  # it has no such edge, or two
        steps.append(border(unit, first.size, first.fabric, ("left", "top")))
    shown = [figure(step(actions, number), "work", number) for number, actions in enumerate(steps, 1)]
    finished = finished_figure(
        unit,
        id="work-finished",
        title="Work",
        description="The work.",
        group="work-finished",
        outline=False,
        settings=SETTINGS,
    )
    return (*shown, finished)


@settings(max_examples=60, deadline=None)
@given(first=orders, rest=st.lists(orders, max_size=5))
def test_figures_of_random_work_are_clear_and_valid(first: Order, rest: list[Order]) -> None:
    shown = sewn(first, rest)
    scales = group_scales(shown)
    for one in shown:
        assert meetings(lay_out(one, scales[one.scale_group])) == [], one.id
        figure_svg(one, CLOTH, scale=scales[one.scale_group], strict=True)
