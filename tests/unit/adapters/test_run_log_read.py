"""A log of a run that somebody hands in is hostile until it is read: file, line, field and what is allowed."""

from __future__ import annotations

import json
import zlib
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.fixtures.run_logs import facts_of, log_of

from wetside.adapters.run_log import HEADER, FileLog, line_of
from wetside.adapters.run_log_read import MOST_BYTES, MOST_LINES, read_log
from wetside.errors import WetsideError
from wetside.wording import speak_error

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

FACTS = facts_of()
WHOLE = log_of(FACTS)


def lines_of(data: bytes = WHOLE) -> list[bytes]:
    return data.splitlines(keepends=True)


def with_line(number: int, change: Callable[[dict[str, Any]], Any]) -> bytes:
    """Log in which one line says something else, with a check sum that fits."""
    lines = lines_of()
    value = json.loads(lines[number - 1].partition(b" ")[2])
    lines[number - 1] = line_of(change(value) or value)
    return b"".join(lines)


def raw(number: int, body: bytes) -> bytes:
    lines = lines_of()
    lines[number - 1] = b"%08x %b\n" % (zlib.crc32(body), body)
    return b"".join(lines)


def put(**values: Any) -> Callable[[dict[str, Any]], Any]:
    return lambda line: {**line, **values}


def test_what_the_program_wrote_is_read_as_it_was_written(tmp_path: Path) -> None:
    """The same facts as the writing program has; a carriage return of another system changes nothing."""
    path = tmp_path / "run.log"
    path.write_bytes(WHOLE)
    log = FileLog(path)
    assert [one.fact for one in log.read("run")] == list(read_log(WHOLE, "run.log").facts) == FACTS
    log.close()
    assert read_log(WHOLE.replace(b"\n", b"\r\n"), "run.log").facts == tuple(FACTS)
    assert read_log(WHOLE, "run.log").line(FACTS[2]) == 4


def test_a_torn_last_line_is_passed_over_and_counted() -> None:
    """Nobody was told that it was taken; wherever it is torn."""
    last = len(lines_of()[-1])
    for cut in range(1, last):
        read = read_log(WHOLE[:-cut], "run.log")
        assert (len(read.facts), read.torn_bytes) == (len(FACTS) - 1, last - cut)


@pytest.mark.parametrize(
    ("data", "code", "line", "field"),
    [
        (b"", "files.runlog.nothing", None, None),
        (line_of(HEADER), "files.runlog.nothing", None, None),
        (line_of(HEADER)[:9], "files.runlog.nothing", None, None),
        (b"\x89PNG\r\n\x1a\n", "files.runlog.no_log", 1, None),
        (b"one two\n", "files.runlog.no_log", 1, None),
        (line_of([1]), "files.runlog.no_log", 1, None),
        (line_of({"wetside": "plan", "format": 1}), "files.runlog.no_log", 1, None),
        (line_of({"wetside": "run", "format": 2}), "files.runlog.format", 1, "format"),
        (line_of({"wetside": "run"}), "files.runlog.format", 1, "format"),
        (b"00000000" + line_of(HEADER)[8:], "files.runlog.line_changed", 1, None),
        (b"x" * (MOST_BYTES + 1), "files.runlog.large", None, None),
        (line_of(HEADER) + b"\n" * MOST_LINES, "files.runlog.many", None, None),
        (b"".join([*lines_of()[:3], b"\n", *lines_of()[3:]]), "files.runlog.no_line", 4, None),
        (WHOLE.replace(b'"kind":"done"', b'"kind":"dome"', 1), "files.runlog.line_changed", 3, None),
        (raw(3, b'{"kind":"\xff"}'), "files.runlog.bytes", 3, None),
        (raw(3, b'{"kind":NaN}'), "files.runlog.no_json", 3, None),
        (raw(3, b'{"kind":1,"kind":2}'), "files.runlog.no_json", 3, None),
        (raw(3, b"[" * 50_000), "files.runlog.no_json", 3, None),
        (raw(3, b"[]"), "files.runlog.no_json", 3, None),
        (with_line(3, lambda line: line.pop("boot_s") and None), "files.runlog.missing", 3, "boot_s"),
        (with_line(3, put(more=1)), "files.runlog.unknown", 3, "more"),
        (with_line(3, put(kind="")), "files.runlog.text", 3, "kind"),
        (with_line(3, put(device="a\nb")), "files.runlog.text", 3, "device"),
        (with_line(3, put(boot_id="x" * 65)), "files.runlog.text", 3, "boot_id"),
        (with_line(3, put(version=True)), "files.runlog.count", 3, "version"),
        (with_line(3, put(device_number=0)), "files.runlog.count", 3, "device_number"),
        (with_line(3, put(device_number=2**60)), "files.runlog.count", 3, "device_number"),
        (with_line(3, put(boot_s="1")), "files.runlog.boot", 3, "boot_s"),
        (raw(3, WHOLE.splitlines()[2].partition(b" ")[2].replace(b'"boot_s":', b'"boot_s":1e999,"x":')),
         "files.runlog.unknown", 3, "x"),
        (with_line(3, put(boot_s=1e11)), "files.runlog.boot", 3, "boot_s"),
        (with_line(3, put(at_utc="yesterday")), "files.runlog.moment", 3, "at_utc"),
        (with_line(3, put(at_utc="2031-11-04T20:00:00")), "files.runlog.moment", 3, "at_utc"),
        (with_line(3, put(at_utc="0001-01-01T00:00:00+14:00")), "files.runlog.moment", 3, "at_utc"),
        (with_line(3, put(at_utc=7)), "files.runlog.moment", 3, "at_utc"),
        (with_line(3, put(data=[])), "files.runlog.data", 3, "data"),
        (with_line(3, put(data={"act": 7})), "files.runlog.data", 3, "data"),
        (with_line(3, put(data={"act": "a\0"})), "runs.fact.data", 3, "data.act"),
        (with_line(3, put(data={"n": 2**60})), "runs.fact.number", 3, "data.n"),
        (with_line(3, put(kind="danced")), "files.runlog.kind", 3, "kind"),
        (with_line(3, put(version=9)), "files.runlog.version", 3, "version"),
        (with_line(3, put(boot_s=1.0)), "files.runlog.clock", 3, "boot_s"),
        (with_line(2, lambda line: line["data"]["script"].update(format=9)),
         "runs.script.format", 2, "data.script"),
        (with_line(2, put(data={"script": 1})), "files.runlog.data", 2, "data"),
        (b"".join([*lines_of()[:3], lines_of()[2], *lines_of()[3:]]), "files.runlog.twice", 4, "device_number"),
        (b"".join([*lines_of()[:2], *lines_of()[3:]]), "files.runlog.gap", 3, "device_number"),
        (b"".join([lines_of()[0], lines_of()[2], lines_of()[1], *lines_of()[3:]]),
         "files.runlog.gap", 2, "device_number"),
        (b"".join([lines_of()[0], with_line(3, put(device_number=1)).splitlines(keepends=True)[2]]),
         "files.runlog.not_opened", 2, "kind"),
        (with_line(3, lambda line: {**json.loads(lines_of()[1].partition(b" ")[2]), "device_number": 2}),
         "files.runlog.opened_again", 3, "kind"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_told_with_its_place(data: bytes, code: str, line: int | None, field: str | None) -> None:
    """Each mistake has a sentence, file, line and field."""
    with pytest.raises(WetsideError) as caught:
        read_log(data, "load-1.log")
    error = caught.value
    assert (error.code, error.place) == (code, ("load-1.log", line, field))
    said = speak_error(error)
    assert said.startswith("load-1.log")
    assert "{" not in said


def scripted(**values: Any) -> bytes:
    """Log whose script says something else."""
    return with_line(2, lambda line: line["data"]["script"].update(values))


def acted(**values: Any) -> bytes:
    """Log of whose script the first act says something else."""
    return with_line(2, lambda line: line["data"]["script"]["acts"][0].update(values))


@pytest.mark.parametrize(
    ("data", "code", "field"),
    [
        (scripted(vessel=5), "runs.script.text", "data.script.vessel"),
        (scripted(name="x" * 501), "runs.script.text", "data.script.name"),
        (scripted(developer="a\nb"), "runs.script.text", "data.script.developer"),
        (scripted(vessel_kind="bucket"), "runs.script.word", "data.script.vessel_kind"),
        (scripted(time_s=1e15), "runs.script.number", "data.script.time_s"),
        (scripted(temp_c="20"), "runs.script.number", "data.script.temp_c"),
        (scripted(per_c=True), "runs.script.number", "data.script.per_c"),
        (scripted(span_c=[20.0, 900.0]), "runs.script.number", "data.script.span_c"),
        (scripted(learned=1), "runs.script.flag", "data.script.learned"),
        (scripted(sheets=[{"id": str(n)} for n in range(201)]), "runs.script.sheets", "data.script"),
        (scripted(sheets=[{"id": "7"}, {"id": "7"}]), "runs.script.sheet_name", "data.script.sheets"),
        (scripted(sheets=[{"id": "7", "aim_range": 0}]), "runs.script.number", "data.script.sheets.1.aim_range"),
        (acted(kind="dance"), "runs.script.no_developer", "data.script"),
        (acted(after="drunk"), "runs.script.word", "data.script.acts.1.after"),
        (acted(changes=1.5), "runs.script.number", "data.script.acts.1.changes"),
        (acted(sheet="nobody"), "runs.script.sheet_name", "data.script.acts"),
        (acted(key=[1]), "runs.script.act_order", "data.script"),
        (acted(offset_s=-1.0), "runs.script.act_time", "data.script"),
    ],
)
def test_a_script_that_no_run_can_follow_is_refused(data: bytes, code: str, field: str) -> None:
    """Pages would reckon with it for good."""
    with pytest.raises(WetsideError) as caught:
        read_log(data, "x.log")
    assert (caught.value.code, caught.value.place) == (code, ("x.log", 2, field))
    assert "{" not in speak_error(caught.value)


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_no_bytes_bring_it_down(data: st.DataObject) -> None:
    """Whatever was cut, put in or changed: facts that were written, or an error with its place."""
    whole = bytearray(WHOLE)
    at = data.draw(st.integers(0, len(whole)))
    until = data.draw(st.integers(at, min(len(whole), at + 200)))
    whole[at:until] = data.draw(st.binary(max_size=40))
    said = ""
    try:
        read = read_log(bytes(whole), "x.log")
    except WetsideError as error:
        said = speak_error(error)
    assert said.startswith("x.log") or read.facts == tuple(FACTS[: len(read.facts)])
