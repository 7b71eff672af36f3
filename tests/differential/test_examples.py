"""Every recorded action of every example: the compiler against sympy, exactly, and against shapely."""

from __future__ import annotations

from pathlib import Path

import pytest
from differential import links
from differential.patterns import EXAMPLES, example
from differential.replay import WithShapely, WithSympy, replay

by_name = pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)


@by_name
def test_against_sympy(file: Path) -> None:
    assert replay(example(file), WithSympy()).total() > 2


@by_name
def test_against_shapely(file: Path) -> None:
    assert replay(example(file), WithShapely()).total() > 2


@by_name
def test_what_is_brought_was_made_or_is_cut_from_cloth(file: Path) -> None:
    links.known(example(file))


@by_name
def test_each_step_begins_with_what_the_one_before_left(file: Path) -> None:
    links.connected(example(file))


@by_name
def test_the_edges_said_to_be_sewn_lie_on_each_other(file: Path) -> None:
    links.on_each_other(example(file))
