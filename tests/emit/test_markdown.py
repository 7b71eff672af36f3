"""Markdown: figures that are there, and the designer's words as words."""

from __future__ import annotations

import re

import pytest
from emit import plans
from hypothesis import given
from hypothesis import strategies as st
from piecewright.emit import emit, markdown
from piecewright.emit.document import markdown_text

markdown_it = pytest.importorskip("markdown_it", reason="markdown-it-py, a Markdown reader, is not installed")
PLANS = plans.several()


def rendered(text: str) -> str:
    return str(markdown_it.MarkdownIt("commonmark").enable("table").render(text))


@pytest.mark.parametrize("name", PLANS)
def test_every_figure_it_shows_is_a_file_of_the_build(name: str) -> None:
    files = dict(emit(PLANS[name], ("md", "svg")))
    shown = re.findall(r'<img src="([^"]*)"', rendered(files["pattern.md"]))
    assert shown and set(shown) == {path for path in files if path.startswith("figures/")}
    assert len(shown) == len(set(shown))
    alone = dict(emit(PLANS[name], ("md",)))
    assert set(shown) <= set(alone)


@pytest.mark.parametrize("name", PLANS)
def test_every_image_has_words(name: str) -> None:
    for alternative in re.findall(r'<img [^>]*alt="([^"]*)"', rendered(markdown(PLANS[name]))):
        assert len(alternative) > 20


@pytest.mark.parametrize("name", PLANS)
def test_steps_measures_and_the_cut_list_stand_in_it(name: str) -> None:
    plan = PLANS[name]
    page = rendered(markdown(plan)).replace("&quot;", '"').replace("&#39;", "'").replace("&amp;", "&")
    for unit in plan.units:
        for step in unit.steps:
            for text in (step.text, *step.details, *step.measures):
                assert text in page
    assert page.count("<tr>") == len(plan.cuts) + len(plan.fabrics) + 1 + sum(
        1 for _ in {cut.fabric for cut in plan.cuts}
    )


@pytest.mark.parametrize("attack", plans.ATTACKS)
def test_words_of_the_designer_never_become_markup(attack: str) -> None:
    def shape(word: str) -> list[str]:
        tags = re.findall(r"</?([a-z0-9]+)", rendered(markdown(plans.hostile(word))))
        return sorted(set(tags))

    assert shape(attack) == shape("word")
    page = rendered(markdown(plans.hostile(attack)))
    assert all(path.startswith("figures/") for path in re.findall(r'<img src="([^"]*)"', page)) and "<a " not in page


@given(st.text(alphabet=st.characters(codec="utf-8", exclude_categories=("Cc", "Cs")), max_size=60))
def test_any_text_comes_back_as_it_was(text: str) -> None:
    """As a paragraph, in a cell and as alternative text, it reads as the same words."""
    words = " ".join(text.split())
    escaped = markdown_text(text)
    tokens = markdown_it.MarkdownIt("commonmark").parse(escaped)
    if not words:
        assert tokens == []
        return
    assert [token.type for token in tokens] == ["paragraph_open", "inline", "paragraph_close"]
    read = "".join(child.content for child in tokens[1].children or ())
    assert read == words


def test_nothing_is_left_over_of_the_template() -> None:
    for plan in PLANS.values():
        text = markdown(plan)
        assert "{{" not in text and "{%" not in text and "None" not in text
        assert text.endswith("\n") and "\n\n\n" not in text
