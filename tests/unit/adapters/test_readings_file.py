"""Readings of a step tablet."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from wetside.adapters.readings_file import NOMINAL_STEP_LOG_H, read_curve_readings, rows_of_readings
from wetside.errors import ManyErrors, WetsideError

if TYPE_CHECKING:
    from pathlib import Path


def written(folder: Path, text: str, name: str = "readings.csv") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def refused(path: Path, **how: object) -> list[WetsideError]:
    with pytest.raises(WetsideError) as caught:
        read_curve_readings(path, **how)
    return list(caught.value.errors) if isinstance(caught.value, ManyErrors) else [caught.value]


def test_rows_are_grouped_by_time(tmp_path: Path) -> None:
    """Shortest time first, exposures rising; notes are left out and lines still counted."""
    path = written(tmp_path, "# a test\nlog_h;density;dev_min\n-2,1;0,25;9\n# more\n-2,4;0,12;6\n-2,1;0,20;6,0\n")
    six, nine = read_curve_readings(path)
    assert six == (6.0, (-2.4, -2.1), (0.12, 0.2), (5, 6))
    assert nine == (9.0, (-2.1,), (0.25,), (3,))
    assert rows_of_readings((nine,)) == ((9.0, -2.1, 0.25),)


def test_steps_take_their_exposure_from_the_measured_tablet(tmp_path: Path) -> None:
    """Exposure of a step is the lamp's less the step's density."""
    tablet = written(tmp_path, "step,density\n1,0.05\n2,0.21\n", "tablet.csv")
    path = written(tmp_path, "dev_min,step,density\n6,1,1.2\n6,2,1.1\n")
    (timed,) = read_curve_readings(path, tablet=tablet, exposure_log_h=1.0)
    assert timed.log_h == pytest.approx((0.79, 0.95))
    assert timed.density == (1.1, 1.2)


def test_nominal_steps_only_on_demand(tmp_path: Path) -> None:
    """Without a tablet steps are refused once, unless nominal ones are asked for."""
    path = written(tmp_path, "dev_min,step,density\n6,1,1.2\n6,3,1.1\n")
    assert [error.code for error in refused(path)] == ["files.readings.no_tablet"]
    (timed,) = read_curve_readings(path, nominal_step_log_h=NOMINAL_STEP_LOG_H)
    assert timed.log_h == pytest.approx((-0.30, 0.0))


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("", [("files.table.empty", None)]),
        ("dev_min,log_h,density\n", [("files.readings.none", None)]),
        ("dev_min,log_h\n6,1\n", [("files.column.missing", 1)]),
        ("dev_min,log_h,step,density\n6,1,1,1\n", [("files.readings.two_exposures", 1)]),
        ("dev_min,logh,density\n6,1,1\n", [("files.column.unknown_near", 1), ("files.column.missing", 1)]),
        (
            "dev_min,log_h,density\n0,1,1\n6,nan,1\n6,1,9\n6,1\n6,1,\n",
            [
                ("files.readings.no_time", 2),
                ("units.number.not_finite", 3),
                ("files.number.out_of_range", 4),
                ("files.row.cells", 5),
                ("units.text.empty", 6),
            ],
        ),
    ],
)
def test_wrong_readings_are_told_with_their_lines(
    tmp_path: Path, text: str, found: list[tuple[str, int | None]]
) -> None:
    """All errors of the file at once."""
    assert [(e.code, e.place and e.place.line) for e in refused(written(tmp_path, text))] == found


def test_a_wrong_tablet_is_refused(tmp_path: Path) -> None:
    """The tablet's own file and line are named; a step it lacks is an error of the readings."""
    path = written(tmp_path, "dev_min,step,density\n6,3,1.2\n")
    bad = written(tmp_path, "step,density\n1,0.05\n1,0.2\n1.5,0.3\nx,y\n", "tablet.csv")
    assert [(e.code, e.place and e.place.line) for e in refused(path, tablet=bad)] == [
        ("files.readings.step_twice", 3),
        ("files.kind.whole", 4),
        ("units.number.unreadable", 5),
    ]
    good = written(tmp_path, "step,density\n1,0.05\n2,0.2\n", "tablet.csv")
    assert [(e.code, e.place and e.place.line) for e in refused(path, tablet=good)] == [
        ("files.readings.no_such_step", 2)
    ]
