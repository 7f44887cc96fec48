"""No argument and no file, however broken, brings the command line to a fault."""

from __future__ import annotations

import contextlib
import io
import json
import re
import string
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from wetside.cli import main
from wetside.cli.exit_codes import ExitCode

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "examples/demo/evening.toml"
TABLET = ROOT / "examples/demo/tolland-100.csv"
CODES = {int(code) for code in ExitCode} - {int(ExitCode.FAULT)}
NOT_A_NUMBER = re.compile(
    r"(?<!\w)(nan|inf(inity)?) (%|ml|s|°C|density|zones?|grades?|stops?|harder|softer)(?!\w)", re.IGNORECASE
)
QUICK = settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))

NUMBERS = st.sampled_from(
    [
        "0",
        "-1",
        "1",
        "2.5",
        "2,5",
        "1e999",
        "nan",
        "inf",
        "-inf",
        "1/15",
        "1/0",
        "7:30",
        "99:99:99",
        "0x10",
        "1_000",
        "٣",
        "½",
    ]
)
UNITS = st.sampled_from(["", "s", "ml", "l", "C", "F", "mm", "in", "min", " furlong", "%"])
TYPED = st.one_of(
    st.builds(lambda number, unit: number + unit, NUMBERS, UNITS),
    st.sampled_from(
        ["", " ", "1+24", "1+2+100", "0+0", "stock", "B", "9@3", "9@III", "@", "drum:6,300-1000ml", "tray:2,1-1l"]
    ),
    st.sampled_from(
        ["300ml", "1l", "300g", "20C", "17C", "8:00", "0.08", "52:4x5in", "5-11", "11-5", "R110", "2", "3"]
    ),
    st.sampled_from(
        ["drum:6,nan-infml", "4x5in", "9x12cm", "0x0cm", "Tolland 100", "FP4 PLUS", "ID-11", "\x00", "\udcff", "{x}"]
    ),
    st.text(max_size=12),
)
OPTIONS = {
    "plan": [
        "--film",
        "--ei",
        "--developer",
        "--dilution",
        "--time",
        "--temp",
        "--count",
        "--size",
        "--vessel",
        "--rows",
    ],
    "why": ["--rows"],
    "mix": ["--smallest"],
    "expose": [
        *("--metered-at", "--set-to", "--filter", "--extension", "--focal", "--film", "--power", "--threshold"),
        *("--shadow", "--highlight", "--rows", "--flash", "--flash-gain", "--model", "--light", "--metered-for"),
        *("--sensitivity", "--metered-through", "--compare"),
    ],
    "curve": [
        *("--tablet", "--nominal", "--base-fog", "--zones", "--ei", "--speed-zone", "--aim", "--n", "--flash"),
        "--flash-gain",
    ],
    "temper": [
        *("--want", "--liquid", "--at", "--vessel", "--vessel-at", "--material", "--coefficient", "--developer"),
        *("--time", "--range", "--bottle", "--jacket", "--tau", "--reads", "--after", "--hot", "--cold", "--total"),
        *("--bath", "--bath-at", "--heater"),
    ],
    "wash": [
        *("--changes", "--each", "--sheets", "--size", "--walls", "--thiosulfate", "--half-time", "--water"),
        *("--process", "--limit", "--flow", "--running", "--on-a-wall", "--hardened"),
    ],
    "fixer": [
        *("--product", "--dilution", "--film", "--tabular", "--fresh", "--now", "--temp", "--fresh-temp", "--loads"),
        *("--carried", "--promoted", "--last", "--clip-tabular", "--alkaline", "--second-bath"),
    ],
    "paper": [
        *("--for", "--name", "--range", "--strip", "--same-from", "--number", "--grade", "--filter", "--product"),
        *("--process", "--list"),
    ],
    "negative": [
        *("--shadow", "--highlight", "--base-fog", "--range", "--number", "--grade", "--filter", "--product"),
        *("--process", "--aim", "--cut", "--print-time", "--printed-at", "--stained", "--only", "--repeatable"),
        *("--fixed-and-washed", "--gain"),
    ],
    "schema": ["--check"],
    "complete": [],
}
FLAGS = frozenset(
    [
        *(
            "--nominal",
            "--json",
            "--on-a-wall",
            "--hardened",
            "--clip-tabular",
            "--alkaline",
            "--second-bath",
            "--list",
        ),
        *("--metered-through", "--compare", "--zones", "--stained", "--only", "--repeatable", "--fixed-and-washed"),
    ]
)


class Caught(io.StringIO):
    """A stream that keeps what was written, even bytes of a name that is no text."""


def run(words: list[str]) -> tuple[int, str, str]:
    """Exit code and both outputs; an exception other than the end of the program fails the test."""
    out, err = Caught(), Caught()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            code = main(words)
        except SystemExit as end:
            code = end.code if isinstance(end.code, int) else 1 if end.code else 0
    return code, out.getvalue(), err.getvalue()


def check(words: list[str]) -> int:
    """Run and hold the answer against what is never to be seen."""
    code, out, err = run(words)
    assert code in CODES, (code, err)
    assert "Traceback" not in out + err
    assert code in (0, 3) or out or err, words
    if "--json" in words and out and not out.startswith("usage"):
        json.loads(out, parse_constant=lambda word: pytest.fail(f"{word} in JSON"))
    # A name may well be "nan"; a quantity may not.
    assert not NOT_A_NUMBER.search(out), out
    return code


@st.composite
def arguments(draw, command):
    """Words after the command, more or less fitting."""
    words = []
    for option in draw(st.lists(st.sampled_from(OPTIONS[command] or ["--json"]), max_size=7)):
        words += [option] if option in FLAGS else [option, draw(TYPED)]
    words += draw(st.lists(TYPED, max_size=3))
    if draw(st.booleans()):
        words.append("--json")
    return words


@pytest.mark.parametrize("command", OPTIONS)
@QUICK
@given(data=st.data())
def test_any_words_get_an_answer(command, data):
    """Any list of options and words ends with one of the exit codes, and with a reason where it is not 0."""
    check([command, *data.draw(arguments(command))])


@QUICK
@given(st.dictionaries(st.sampled_from(OPTIONS["plan"][:-1]), TYPED), st.booleans())
def test_any_plain_evening_gets_an_answer(answers, as_json):
    """Answers of a plain evening that are nearly right are planned or refused with a reason."""
    whole = {"--film": "Tolland 100", "--developer": "Brackwater", "--time": "7:30", "--count": "3"} | answers
    check(["plan", *(word for pair in whole.items() for word in pair), *(["--json"] if as_json else [])])


TORN = st.sampled_from(
    ["", "0", "-1", "nan", "inf", '"', "[", "]", "{", "=", "\n", "9999999999999999999999", '"x"', "[[sheets]]", "\x00"]
)


@st.composite
def torn_text(draw, text):
    """A file with some pieces cut out, doubled or replaced."""
    for _ in range(draw(st.integers(1, 4))):
        begin = draw(st.integers(0, len(text)))
        end = min(len(text), begin + draw(st.integers(0, 30)))
        text = text[:begin] + draw(st.one_of(TORN, st.just(text[begin:end] * 2), st.text(max_size=5))) + text[end:]
    return text


@st.composite
def changed_values(draw, text):
    """A file that is still well formed, some of its quoted values replaced by others."""
    places = list(re.finditer(r'= "([^"\n]*)"', text))
    for place in sorted(
        draw(st.lists(st.sampled_from(places), min_size=1, max_size=4)), key=lambda found: -found.start(1)
    ):
        plain = "".join(mark for mark in draw(TYPED) if mark.isprintable() and mark not in '"\\')
        text = text[: place.start(1)] + plain + text[place.end(1) :]
    return text


def written(folder: Path, name: str, content: str) -> str:
    path = folder / name
    path.write_bytes(content.encode("utf-8", "surrogatepass"))
    return str(path)


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    made = tmp_path_factory.mktemp("torn")
    (made / TABLET.name).write_bytes(TABLET.read_bytes())
    return made


EVENINGS = [DEMO, ROOT / "examples/b1/evening.toml", ROOT / "examples/b3/named.toml"]


@QUICK
@given(data=st.data())
def test_any_torn_evening_gets_an_answer(folder, data):
    """An evening file with pieces missing or replaced is planned or refused, never more."""
    text = data.draw(st.sampled_from(EVENINGS)).read_text("utf-8")
    path = written(folder, "torn.toml", data.draw(st.one_of(torn_text(text), changed_values(text))))
    check(["plan", path, *data.draw(st.sampled_from([[], ["--json"]]))])
    check(["why", path, "1 left", *data.draw(st.sampled_from([[], ["--json"]]))])


@QUICK
@given(data=st.data())
def test_any_torn_readings_get_an_answer(folder, data):
    """A file of readings with pieces missing or replaced is measured or refused, never more."""
    path = written(folder, "torn.csv", data.draw(torn_text(TABLET.read_text("utf-8"))))
    check(["curve", path, *data.draw(st.sampled_from([[], ["--json"], ["--nominal"], ["--base-fog", "0.1"]]))])
    check(["curve", str(TABLET), "--tablet", path])


ROWS = "film,developer,dilution,time_low_s,source\nTolland 100,Brackwater,1+14,450,own\n"


@QUICK
@given(torn_text(ROWS))
def test_any_torn_rows_get_an_answer(folder, text):
    """A user's folder of published rows, torn, is read or refused with file and line."""
    rows = folder / "rows"
    rows.mkdir(exist_ok=True)
    written(rows, "own.csv", text)
    words = ["--film", "Tolland 100", "--developer", "Brackwater", "--dilution", "1+14", "--count", "2"]
    check(["plan", *words, "--rows", str(rows)])


@QUICK
@given(st.binary(max_size=300))
def test_any_bytes_get_an_answer(folder, content):
    """What is no text at all is refused with a sentence."""
    for name, words in (("b.toml", ["plan"]), ("b.csv", ["curve"])):
        (folder / name).write_bytes(content)
        assert check([*words, str(folder / name)]) in (2, 3, 4)


def deep(count: int) -> str:
    return "x = " + "[" * count + "]" * count + "\n"


HEAD = 'format = 1\n[[sheets]]\nlabel = "a"\nfilm = "f"\n'
WHOLE = (
    'format = 1\n[[films]]\nname = "f"\ntimes = [{ developer = "d", time = "7:30" }]\n'
    '[[vessels]]\nname = "v"\nkind = "drum"\nplaces = 6\nmin = "300 ml"\nmax = "1000 ml"\n'
)
HOSTILE_EVENINGS = {
    "deep": deep(20000),
    "many tables": "format = 1\n" + "[[sheets]]\n" * 20000,
    "twins in a ring": WHOLE
    + "".join(f'[[sheets]]\nlabel = "{n}"\nfilm = "f"\ntwin = "{(n + 1) % 3}"\n' for n in range(3)),
    "escape": WHOLE + '[[sheets]]\nlabel = "\\u001b[31m{x!r}%s\\u202e"\nfilm = "f"\n',
    "not finite": HEAD.replace("format = 1\n", "format = 1\nflare = nan\nfloor = inf\n"),
    "huge numbers": HEAD.replace("format = 1\n", "format = 1\nflare = " + "9" * 400 + "\n"),
    "long number": HEAD.replace("format = 1", "format = " + "1" * 6000),
    "long label": WHOLE + f'[[sheets]]\nlabel = "{"a" * 5000}"\nfilm = "f"\n',
    "dotted keys": "a" + ".a" * 5000 + " = 1\n",
    "itself": WHOLE + 'sheet_list = "hostile.toml"\n',
}
HOSTILE_READINGS = {
    "flat": "dev_min,log_h,density\n" + "".join(f"7,{step},0.1\n" for step in range(21)),
    "infinite": "dev_min,log_h,density\n" + "".join(f"7,{step},1e400\n" for step in range(21)),
    "vertical": "dev_min,log_h,density\n" + "".join(f"7,1,{step}\n" for step in range(21)),
    "huge": "dev_min,log_h,density\n" + "".join(f"{'9' * 5000},{step},0.{step}\n" for step in range(9)),
    "quotes": 'dev_min,log_h,density\n"' + "7,1,0.1\n" * 5000,
}
HOSTILE_ROWS = {
    "quotes": 'film,developer\n"' + "x" * 200000,
    "columns": ",".join("abcdefgh" * 500) + "\n" + "1," * 5000,
    "numbers": "film,developer,dilution,time_low_s,source\nf,d,1e999+1,nan,s\nf,d,0+0,-5,s\n",
}


@pytest.mark.parametrize("name", HOSTILE_EVENINGS)
def test_hostile_evenings(tmp_path, name):
    """Evenings made to hurt: nested, endless, circular, coloured, not finite."""
    path = written(tmp_path, "hostile.toml", HOSTILE_EVENINGS[name])
    for words in (["plan", path], ["plan", path, "--json"], ["why", path, "a"]):
        check(words)
    assert "\x1b" not in run(["plan", path])[1]


@pytest.mark.parametrize("name", HOSTILE_READINGS)
def test_hostile_readings(tmp_path, name):
    """Readings made to hurt are refused."""
    path = written(tmp_path, "hostile.csv", HOSTILE_READINGS[name])
    assert check(["curve", path]) in (2, 3)
    assert check(["curve", path, "--json"]) in (2, 3)


@pytest.mark.parametrize("name", HOSTILE_ROWS)
def test_hostile_rows(tmp_path, name):
    """Published rows made to hurt are refused with their file."""
    written(tmp_path, "hostile.csv", HOSTILE_ROWS[name])
    words = ["plan", "--film", "f", "--developer", "d", "--count", "1", "--rows", str(tmp_path)]
    assert check(words) in (2, 3)
    assert "hostile.csv" in run(words)[2]


@given(st.text(string.printable, max_size=20), st.text(string.printable, max_size=20))
@QUICK
def test_any_mix_adds_up(dilution, volume):
    """What is mixed has parts that add up to the total, and none of them is negative."""
    code, out, _ = run(["mix", "--json", "--", dilution, volume])
    if code == 0:
        found = json.loads(out)
        assert found["concentrate_ml"] >= 0
        assert found["water_ml"] >= 0
        assert found["concentrate_ml"] + found["water_ml"] == pytest.approx(found["total_ml"])
