"""Steps as they are printed: one instruction each, what it should measure, remarks and repeats."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import groupby

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
from piecewright.kernel.build import Made, Step
from piecewright.plan.curves import curve_text
from piecewright.plan.cutting import subcut_text, trim_text
from piecewright.plan.layering import apart_text, flip_text, place_text, stitch_text
from piecewright.plan.letters import Letters, letters_of
from piecewright.plan.measures import measure_text
from piecewright.plan.model import Figure, StepPlan
from piecewright.plan.on_point_text import fill_text
from piecewright.plan.onto_paper import add_text
from piecewright.plan.quilted import back_text, bind_text
from piecewright.plan.sentences import (
    lay_pressing,
    lay_text,
    rows_text,
    sash_text,
    sew_text,
    start_text,
    take_text,
    turn_text,
)
from piecewright.plan.tongue import Tongue
from piecewright.plan.words import listed, plain, sentence, times, typographic
from piecewright.plan.working import long_text


def step_plans(
    made: Made, tongue: Tongue, draw: Callable[[Step, int, str], Figure], sets: tuple[int, ...] = ()
) -> tuple[StepPlan, ...]:
    """The steps of a unit, numbered from 1. `draw` makes the figure of a step from its number and sentence; `sets` are
    the segments of each strip set, as in `Wanted`."""
    plans = []
    repeats = _repeats(made)
    for number, step in enumerate(made.steps, 1):
        text, details = instruction(step, made, tongue)
        if number == 1 and sets:
            text = " ".join([text, long_text(made, sets, tongue.settings)]).strip()
        plans.append(
            StepPlan(
                number=number,
                text=text,
                details=details,
                measures=_measures(step, tongue),
                notes=tuple(note for note in map(plain, step.notes) if note),
                figure=draw(step, number, text),
                line=step.line,
                times=step.times,
                round=step.round,
                repeat=repeats.get(number, ""),
            )
        )
    return tuple(plans)


def instruction(step: Step, made: Made, tongue: Tongue) -> tuple[str, tuple[str, ...]]:
    """The instruction for a step, and lines that spell it out: rows of a table, sizes of each round.

    A verb's own sentence stands for the default ones of its actions.
    """
    if step.says is not None:
        return sentence(typographic(plain(step.says))), ()
    texts: list[str] = []
    details: list[str] = []
    sewn = any(isinstance(action, Sew) for action in step.actions)
    for kind, run in groupby(step.actions, _kind):
        actions = tuple(run)
        if kind is Sew:
            text, more = sew_text([a for a in actions if isinstance(a, Sew | Press | Finish)], step, tongue)
            texts.append(text.strip())
            details.extend(more)
            continue
        if kind is Curve:
            curves = [a for a in actions if isinstance(a, Curve)]
            texts.append(curve_text(curves, step, tongue.templates, tongue.settings))
            continue
        if kind is Flip:
            texts.append(flip_text([a for a in actions if isinstance(a, Flip)], step, tongue))
            continue
        if kind is Open:
            texts.append(apart_text([a for a in actions if isinstance(a, Subcut | Open)], step, tongue.settings))
            continue
        for action in actions:
            text, more = _action_text(action, step, made, tongue, sewn=sewn)
            texts.append(text)
            details.extend(more)
    return " ".join(text for text in texts if text), tuple(details)


def _measures(step: Step, tongue: Tongue) -> tuple[str, ...]:
    """What the step should measure; of a repeat, in one sentence, when all its rounds are done."""
    texts = tuple(measure_text(expect, tongue) for expect in step.expects)
    if step.times == 1 or not texts:
        return texts
    return (f"After the last round: {'; '.join(text[0].lower() + text[1:].rstrip('.') for text in texts)}.",)


def _kind(action: Action) -> type:
    if isinstance(action, Sew | Press | Finish):
        return Sew
    if isinstance(action, Subcut) and action.layers is not None:
        return Open
    return type(action)


def _action_text(action: Action, step: Step, made: Made, tongue: Tongue, *, sewn: bool) -> tuple[str, tuple[str, ...]]:
    if isinstance(action, Lay) and step.verb == "fill":
        if not action.sewn:
            return fill_text(action, step, tongue, ""), ()
        laid = replace(step, supplies=tuple(one for earlier in made.steps for one in earlier.supplies))
        rows = rows_text(action, laid, tongue, _letters_before(step, made, tongue))
        return fill_text(action, step, tongue, lay_pressing(action)), rows
    if isinstance(action, Lay) and step.verb == "sash":
        return sash_text(action, step, tongue), ()
    if isinstance(action, Lay):
        return lay_text(action, step, tongue, letters_of(action, step, made, tongue))
    if isinstance(action, CutPiece):
        # What is sewn on in the same step is told with its seam.
        return ("" if sewn else start_text(action, tongue)), ()
    if isinstance(action, Take):
        return ("" if sewn else take_text(action, step, tongue)), ()
    if isinstance(action, Turn):
        return turn_text(action), ()
    if isinstance(action, Subcut):
        return subcut_text(action, step, made, tongue.settings), ()
    if isinstance(action, Place):
        return place_text(action, step, tongue), ()
    if isinstance(action, Stitch):
        return stitch_text(action, step, tongue.settings), ()
    if isinstance(action, Add):
        return add_text(action, step, tongue), ()
    if isinstance(action, Trim):
        return trim_text(action, step, tongue.settings), ()
    if isinstance(action, Back):
        return back_text(action, tongue.settings)
    if isinstance(action, Bind):
        return bind_text(action, tongue.settings)
    raise TypeError(f"no sentence for {type(action).__name__}")


def _letters_before(step: Step, made: Made, tongue: Tongue) -> Letters | None:
    """The letters of the table that was laid out for a later step to sew."""
    for earlier in made.steps[: made.steps.index(step)]:
        for action in earlier.actions:
            if isinstance(action, Lay) and earlier.verb == "lay":
                return letters_of(action, earlier, made, tongue)
    return None


def _repeats(made: Made) -> dict[int, str]:
    """The line that stands before the first step of each round, by the number of that step."""
    rounds: dict[int, list[int]] = {}
    for number, step in enumerate(made.steps, 1):
        if step.round is not None:
            rounds.setdefault(step.round, []).append(number)
    return {numbers[0]: _repeat_text(numbers, made.steps[numbers[0] - 1].times) for numbers in rounds.values()}


def _repeat_text(numbers: list[int], count: int) -> str:
    if len(numbers) == 1:
        return f"Do step {numbers[0]} {times(count)} in all."
    steps = f"{numbers[0]} to {numbers[-1]}" if len(numbers) > 2 else listed([str(n) for n in numbers])
    return f"Do steps {steps} one after the other, {times(count)} in all."
