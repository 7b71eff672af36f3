"""Whole strips chosen exactly from a list of strips, with the HiGHS solver where it is installed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from piecewright.plan.cloth.layout import Strip, Strips


class Answer(NamedTuple):
    """`strips`: a plan that is short enough, if one was found. `least`: no shorter one can be made of these strips, or
    none at all."""

    strips: Strips | None
    least: bool


def solver(wanted: bool | None) -> Any:
    """The module highspy, or None where it is not installed or not wanted."""
    if wanted is False:
        return None
    try:
        import highspy
    except ImportError:
        return None
    return highspy


def choose(
    highspy: Any,
    strips: Sequence[Strip],
    demand: Sequence[int],
    cuts: Sequence[tuple[int, int]],
    length: int,
    enough: int,
    nodes: int,
) -> Answer:
    """The shortest plan of these strips that gives all that is wanted and is at most so long; one no longer than
    `enough` is as good. Gives up after so many nodes of the search. One thread and a fixed seed: the answer does not
    depend on the machine."""
    kinds = [kind for kind, count in enumerate(demand) if count > 0]
    row_of = {kind: row for row, kind in enumerate(kinds)}
    starts, indices, values = [], list[int](), list[float]()
    last = len(kinds) + len(cuts)
    for strip in strips:
        starts.append(len(indices))
        for kind, count in sorted(strip.counts().items()):
            indices.append(row_of[kind])
            values.append(count)
        for i, (high, _) in enumerate(cuts):
            if strip.height >= high:
                indices.append(len(kinds) + i)
                values.append(1)
        indices.append(last)
        values.append(strip.height)
    infinity = highspy.kHighsInf
    model = highspy.HighsModel()
    programme = model.lp_
    programme.num_col_, programme.num_row_ = len(strips), last + 1
    programme.col_cost_ = [float(strip.height) for strip in strips]
    programme.col_lower_ = [0.0] * len(strips)
    programme.col_upper_ = [float(length // strip.height) for strip in strips]
    programme.row_lower_ = [float(demand[kind]) for kind in kinds] + [float(count) for _, count in cuts] + [-infinity]
    programme.row_upper_ = [infinity] * last + [float(length)]
    programme.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    programme.a_matrix_.start_ = [*starts, len(indices)]
    programme.a_matrix_.index_, programme.a_matrix_.value_ = indices, [float(value) for value in values]
    programme.integrality_ = [highspy.HighsVarType.kInteger] * len(strips)
    highs = highspy.Highs()
    for name, value in (
        ("output_flag", False),
        ("threads", 1),
        ("parallel", "off"),
        ("random_seed", 0),
        ("mip_max_nodes", nodes),
        ("objective_target", enough + 0.5),
        ("mip_abs_gap", 0.999),
        ("mip_rel_gap", 0.0),
        ("mip_detect_symmetry", False),
    ):
        highs.setOptionValue(name, value)
    highs.passModel(model)
    highs.run()
    status = highs.getModelStatus()
    if status == highspy.HighsModelStatus.kInfeasible:
        return Answer(None, True)
    solution = highs.getSolution()
    if not solution.value_valid:
        return Answer(None, False)
    chosen = [(strip, round(amount)) for strip, amount in zip(strips, solution.col_value, strict=True) if amount > 0.5]
    if not _is_plan(chosen, demand, length):
        return Answer(None, False)
    return Answer(chosen, status == highspy.HighsModelStatus.kOptimal)


def _is_plan(strips: Strips, demand: Sequence[int], length: int) -> bool:
    """Counted again in whole numbers, since the solver works with rounded ones."""
    got = [0] * len(demand)
    for strip, times in strips:
        for kind, each in strip.counts().items():
            got[kind] += each * times
    return all(have >= want for have, want in zip(got, demand, strict=True)) and (
        sum(strip.height * times for strip, times in strips) <= length
    )
