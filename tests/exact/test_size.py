from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from piecewright.exact import INCH_PER, VULGAR_FRACTIONS, BadSize, Exact, decimal_text, fraction_text, parse_size

sizes = st.builds(Exact, st.integers(0, 10**6), st.integers(1, 200))
marks = st.sampled_from(["", '"', "”", "″", "“", " cm", "cm", "  mm"])


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("6 1/2", Exact(13, 2), None),
        ('6 1/2"', Exact(13, 2), "inch"),
        ("6 1/2”", Exact(13, 2), "inch"),
        ("6 1/2″", Exact(13, 2), "inch"),
        ("6½", Exact(13, 2), None),
        ("6 ½", Exact(13, 2), None),
        ('6½"', Exact(13, 2), "inch"),
        ("½", Exact(1, 2), None),
        ("7/8", Exact(7, 8), None),
        ("9/8", Exact(9, 8), None),
        ("6.5", Exact(13, 2), None),
        ("0.125", Exact(1, 8), None),
        ("6", Exact(6), None),
        ("0", Exact(0), None),
        ("16.5 cm", Exact(33, 2), "cm"),
        ("16.5cm", Exact(33, 2), "cm"),
        ("8 mm", Exact(8), "mm"),
        ("1½ cm", Exact(3, 2), "cm"),
        (" 6  1/2 ", Exact(13, 2), None),
        ("6\u00a01/2", Exact(13, 2), None),
        ("6 5⁄16", Exact(101, 16), None),
        ("6⁵⁄₁₆", Exact(101, 16), None),
        ("6 ⁵⁄₁₆", Exact(101, 16), None),
    ],
)
def test_sizes(text: str, value: Exact, unit: str | None) -> None:
    assert parse_size(text) == (value, unit)


@pytest.mark.parametrize(
    ("text", "kind", "value", "other"),
    [
        ("", "empty", None, None),
        ("  ", "empty", None, None),
        ('"', "empty", None, None),
        ("cm", "empty", None, None),
        ("6 1/0", "zero-denominator", None, None),
        ("1/0", "zero-denominator", None, None),
        ("6 5/4", "improper", Exact(29, 4), None),
        ("6 4/4", "improper", Exact(7), None),
        ('6 5/4"', "improper", Exact(29, 4), None),
        ("3-1/2", "hyphen", Exact(7, 2), Exact(5, 2)),
        ("3-½", "hyphen", Exact(7, 2), Exact(5, 2)),
        ("7/8/2", "two-bars", None, None),
        ("6 7/8/2", "two-bars", None, None),
        ("7/", "bare-bar", None, None),
        ("/8", "bare-bar", None, None),
        ("6 7/", "bare-bar", None, None),
        ("6.", "bare-point", Exact(6), None),
        (".5", "bare-point", Exact(1, 2), None),
        ("6,5", "comma", Exact(13, 2), None),
        ("6 7", "two-numbers", None, None),
        ("1/2 1/2", "two-numbers", None, None),
        ("6.5 1/2", "two-numbers", None, None),
        ("6½½", "two-numbers", None, None),
        ("½6", "two-numbers", None, None),
        ("6 1/2 3", "two-numbers", None, None),
        ("9" * 16, "too-long", None, None),
        ("1/" + "9" * 16, "too-long", None, None),
        ("9" * 5000, "too-long", None, None),
        ("six", "not-a-size", None, None),
        ("-3", "not-a-size", None, None),
        ("3-1", "not-a-size", None, None),
        ("6 1/2 ft", "not-a-size", None, None),
        ("6 1/x", "not-a-size", None, None),
        ("²", "not-a-size", None, None),
        ("6²", "not-a-size", None, None),
        ("٣", "not-a-size", None, None),
        (".", "not-a-size", None, None),
        ("1e3", "not-a-size", None, None),
        ("1_000", "not-a-size", None, None),
        ("6\t1/2", "not-a-size", None, None),
    ],
)
def test_slips(text: str, kind: str, value: Exact | None, other: Exact | None) -> None:
    with pytest.raises(BadSize) as caught:
        parse_size(text)
    bad = caught.value
    assert (bad.kind, bad.text, bad.value, bad.other) == (kind, text, value, other)


@given(st.text(alphabet="0123456789 /.,-\"”⁄½¼⅞⁵₁₆cm²\u202f", max_size=12))
def test_any_text_is_a_size_or_a_slip(text: str) -> None:
    try:
        value, unit = parse_size(text)
    except BadSize as bad:
        assert bad.text == text and bad.kind
    else:
        assert value >= 0 and unit in (None, "inch", "cm", "mm")


@given(sizes, marks)
def test_round_trip(x: Exact, mark: str) -> None:
    unit = {"": None, "cm": "cm", "mm": "mm"}.get(mark.strip(), "inch")
    assert parse_size(fraction_text(x) + mark) == (x, unit)
    assert parse_size(fraction_text(x, typographic=True) + mark) == (x, unit)


@given(st.integers(0, 10**9), st.integers(0, 6))
def test_round_trip_of_decimals(n: int, places: int) -> None:
    x = Exact(n, 10**places)
    assert parse_size(decimal_text(x)) == (x, None)


@pytest.mark.parametrize(
    ("x", "plain", "typographic"),
    [
        (Exact(13, 2), "6 1/2", "6½"),
        (Exact(7, 8), "7/8", "⅞"),
        (Exact(6), "6", "6"),
        (Exact(0), "0", "0"),
        (Exact(101, 16), "6 5/16", "6\u202f⁵⁄₁₆"),
        (Exact(5, 16), "5/16", "⁵⁄₁₆"),
        (Exact(-13, 2), "-6 1/2", "−6½"),
        (Exact(-1, 16), "-1/16", "−¹⁄₁₆"),
    ],
)
def test_fraction_text(x: Exact, plain: str, typographic: str) -> None:
    assert fraction_text(x) == plain
    assert fraction_text(x, typographic=True) == typographic


def test_every_vulgar_fraction_is_read_and_printed() -> None:
    for char in VULGAR_FRACTIONS:
        x, unit = parse_size(f"3{char}")
        assert unit is None
        assert 3 < x < 4
        assert fraction_text(x, typographic=True) == f"3{char}"


@pytest.mark.parametrize(
    ("x", "text"), [(Exact(65, 4), "16.25"), (Exact(-1, 20), "-0.05"), (Exact(7), "7"), (Exact(1, 8), "0.125")]
)
def test_decimal_text(x: Exact, text: str) -> None:
    assert decimal_text(x) == text


def test_what_has_no_such_text() -> None:
    with pytest.raises(ValueError, match="irrational"):
        fraction_text(Exact.root(2))
    with pytest.raises(ValueError, match="irrational"):
        decimal_text(Exact.root(2))
    with pytest.raises(ValueError, match="no decimal"):
        decimal_text(Exact(1, 3))


def test_units() -> None:
    assert INCH_PER["cm"] * Exact(254, 100) == INCH_PER["inch"] == 1
    assert INCH_PER["mm"] * 10 == INCH_PER["cm"]
    assert fraction_text(INCH_PER["mm"] * Exact(635, 100)) == "1/4"
