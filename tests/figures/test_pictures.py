"""Three pictures kept whole, as SVG files to look at. They are compared by what they draw."""

from __future__ import annotations

import pytest
from figures.compare import differences
from figures.handmade import FABRICS, figures
from piecewright.emit.svg import figure_svg, group_scales
from syrupy.assertion import SnapshotAssertion
from syrupy.extensions.single_file import SingleFileSnapshotExtension
from syrupy.types import SerializableData, SerializedData


class SvgExtension(SingleFileSnapshotExtension):
    """One file a picture."""

    file_extension = _file_extension = "svg"  # the second name is that of syrupy 4

    def serialize(self, data: SerializableData, **_: object) -> SerializedData:
        return str(data).encode()

    def matches(self, *, serialized_data: SerializedData, snapshot_data: SerializedData) -> bool:
        return differences(bytes(serialized_data).decode(), bytes(snapshot_data).decode()) == []


@pytest.mark.parametrize("name", ["framed-step-2", "lantern-step-4", "table-step-1"])
def test_pictures(name: str, snapshot: SnapshotAssertion) -> None:
    shown = figures()
    scales = group_scales(shown)
    (figure,) = [f for f in shown if f.id == name]
    drawn = figure_svg(figure, FABRICS, scale=scales[figure.scale_group])
    assert drawn == snapshot(extension_class=SvgExtension)
