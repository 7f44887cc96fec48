"""Loading in the dark: the order as a page and as a sound, what the black page says, a lost sheet."""

from __future__ import annotations

import io
import itertools
import json
import re
import wave

import pytest

from wetside.adapters.speech import voice_here
from wetside.cards.count import counted
from wetside.planning.documents.evening import Sheet
from wetside.records import models
from wetside.runs import commands as c
from wetside.runs.load_check import load_check
from wetside.services import loading_sound as sounds
from wetside.services.dark_words import lost_sentence
from wetside.services.records import demo, loading, plans_frozen, runs
from wetside.services.records.changes import make

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("own_folder")]
HOST = {"host": "127.0.0.1"}
SPEAKS = pytest.mark.skipif(voice_here() is None, reason="no voice is installed")


@pytest.fixture
def get(client):
    return lambda address, data=None, **more: client.get(address, data or {}, headers=HOST | more)


@pytest.fixture
def post(client):
    return lambda address, data=None: client.post(address, data or {}, headers=HOST)


@pytest.fixture
def plan():
    return plans_frozen.freeze(demo.make_demo())


def body(answer) -> bytes:
    return answer.content


def heading(answer) -> str:
    return re.search(r"<h1>(.*?)</h1>", answer.content.decode(), re.DOTALL)[1]


def test_the_page_says_what_goes_where(get, plan) -> None:
    """The title is the answer; every place has its sheet; no lit screen is called safe."""
    order = loading.order_of_load(plan, 1)
    answer = get(f"/plans/{plan.pk}/loads/1/loading/")
    text = answer.content.decode()
    assert order.places[0].sheet in heading(answer)
    assert heading(answer).endswith(counted("sheet", len(order.places)))
    assert [one.number for one in order.places] == list(range(1, len(order.places) + 1))
    assert all(one.sheet in text and one.place in text and one.clip in text for one in order.places)
    assert "no lit screen is safe" in text
    assert "media-src 'self'" in answer["Content-Security-Policy"]
    assert f"/plans/{plan.pk}/loads/1/loading/" in get(f"/plans/{plan.pk}/loads/1/").content.decode()


def test_holder_and_notch_are_told(plan) -> None:
    """Fingers find the holder by its notch, where the holder is kept."""
    first = loading.order_of_load(plan, 1).places[0]
    assert "Notch" not in loading.said_of_place(first)
    holder = make(models.Holder, {"name": "77", "notch": "two near the corner"}, why="made")
    make(models.HolderSide, {"holder": holder, "side": "left"}, why="made")
    assert loading._notch("77 left") == "two near the corner"
    assert loading._notch("78 left") == ""
    said = loading.said_of_place(first._replace(holder="77 left", notch="two near the corner"))
    assert said == f"{first.place}: sheet {first.sheet}, holder 77 left. Notch two near the corner."
    assert loading.said_of_place(first._replace(sheet="77 left", holder="77 left")).count("77 left") == 1
    assert Sheet(label=None, holder="77 left").id == "77 left"


@SPEAKS
def test_the_order_is_one_sound_with_pauses_for_the_hands(get, plan) -> None:
    """A WAV as long as told; a longer pause makes it longer by just that; each place begins where the page says."""
    order = loading.order_of_load(plan, 1)
    address = f"/plans/{plan.pk}/loads/1/loading.wav"
    lengths = []
    for pause in (5, 20):
        answer = get(address, {"pause": pause})
        data = body(answer)
        assert (answer.status_code, answer["Content-Type"]) == (200, "audio/wav")
        assert int(answer["Content-Length"]) == len(data)
        with wave.open(io.BytesIO(data)) as sound:
            lengths.append(sound.getnframes() / sound.getframerate())
    assert lengths[1] - lengths[0] == pytest.approx(15.0 * len(order.places), abs=0.01)
    page = get(f"/plans/{plan.pk}/loads/1/loading/", {"pause": 20}).content.decode()
    begins = [float(text) for text in re.findall(r'data-at="([\d.]+)"', page)]
    assert len(begins) == len(order.places)
    assert all(later - sooner > 20.0 for sooner, later in itertools.pairwise(begins))
    assert begins[-1] < lengths[1] - 20.0


@SPEAKS
def test_a_player_gets_the_part_that_it_asks_for(get, plan) -> None:
    """Telephones ask for the first two bytes, then for parts; what lies behind the end is refused."""
    address = f"/plans/{plan.pk}/loads/1/loading.wav?pause=5"
    whole = body(get(address))
    size = len(whole)
    for asked, begin, end in (
        ("bytes=0-1", 0, 2),
        ("bytes=100-", 100, size),
        ("bytes=-500", size - 500, size),
        (f"bytes=40-{size * 2}", 40, size),
    ):
        answer = get(address, range=asked)
        assert (answer.status_code, answer["Content-Range"]) == (206, f"bytes {begin}-{end - 1}/{size}")
        assert body(answer) == whole[begin:end]
    beyond = get(address, range=f"bytes={size}-")
    assert (beyond.status_code, beyond["Content-Range"]) == (416, f"bytes */{size}")
    for unread in ("pages=1-2", "bytes=-", "bytes=1-2,5-6"):
        assert get(address, range=unread).status_code == 200


def test_without_a_voice_it_is_said_plainly(get, plan, monkeypatch) -> None:
    """No player that plays nothing; the order is still there to read."""
    monkeypatch.setattr(sounds, "voice_here", lambda: None)
    answer = get(f"/plans/{plan.pk}/loads/1/loading/")
    text = answer.content.decode()
    assert answer.status_code == 200
    assert "<audio" not in text
    assert "No voice is installed" in text
    assert loading.order_of_load(plan, 1).places[0].sheet in text
    assert get(f"/plans/{plan.pk}/loads/1/loading.wav").status_code == 422


@pytest.mark.parametrize("pause", ["4", "91", "soon", "", "-20", "20.5", "9" * 40, "٢٠"])
def test_a_pause_that_is_none_is_told_at_its_field(get, plan, pause) -> None:
    """422, and what was typed is kept."""
    answer = get(f"/plans/{plan.pk}/loads/1/loading/", {"pause": pause})
    assert answer.status_code == 422
    assert 'id="pause-m"' in answer.content.decode()
    assert get(f"/plans/{plan.pk}/loads/1/loading.wav", {"pause": pause}).status_code == 422


def test_just_load_is_one_tap(post, plan) -> None:
    """The run is open and lights out is told; a second tap goes to the same run and tells nothing twice."""
    address = f"/plans/{plan.pk}/loads/1/loading/"
    first, second = (post(address, {"how": "after"})["location"] for _ in range(2))
    assert first == second
    run = models.Run.kept.get(plan=plan, load=1)
    assert first == f"/runs/{run.pk}/"
    assert list(runs.standing(run).state.stamps) == ["dark.out"]
    assert run.events.count() == 2


def test_a_device_that_stays_is_told_each_place(post, get, plan) -> None:
    """Its run asks for every sheet; a run without asks only the two questions, and the page says so."""
    where = post(f"/plans/{plan.pk}/loads/1/loading/", {"how": "dark"})["location"]
    run = models.Run.kept.get(plan=plan, load=1)
    assert where == f"/runs/{run.pk}/dark/"
    state = runs.standing(run).state
    loads = [act for act in state.script.acts if act.does == "load"]
    assert [act.sheet for act in loads] == list(state.sheets)
    text = get(where).content.decode()
    assert "data-dark-over" in text
    assert "Black is not dark" in text
    assert "without telling each place" not in text
    runs.open_planned(plan.pk, 2)
    other = models.Run.kept.get(plan=plan, load=2)
    assert "without telling each place" in get(f"/runs/{other.pk}/dark/").content.decode()


@SPEAKS
def test_the_black_page_has_a_clip_for_all_that_it_says(post, get, plan) -> None:
    """Each next, each answer spoken back, each loss; nothing is left to a voice that may not be there."""
    post(f"/plans/{plan.pk}/loads/1/loading/", {"how": "dark"})
    run = models.Run.kept.get(plan=plan, load=1)
    said = json.loads(get(f"/runs/{run.pk}/dark/words.json").content)
    state = runs.standing(run).state
    order = loading.order_of_load(plan, 1)
    assert list(said["lost"]) == list(state.sheets)
    assert [said["next"][f"dark.load.{one.number}"] for one in order.places] == [
        loading.said_of_place(one) for one in order.places
    ]
    assert "Telephone away?" in said["next"]["dark.out"]
    assert "turn free" in said["next"]["dark.on"]
    rules = json.loads(get(f"/runs/{run.pk}/rules.json").content)
    back = [rules["words"]["acts"][f"dark.load.{one.number}"]["taken"] for one in order.places]
    for text in (*said["next"].values(), *said["lost"].values(), *said["said"].values(), *back):
        assert text in said["clips"], text
    clip = next(iter(said["clips"].values()))
    answer = get(clip["address"])
    with wave.open(io.BytesIO(answer.content)) as sound:
        assert sound.getnframes() / sound.getframerate() == pytest.approx(clip["lasts_s"])


def test_a_lost_sheet_is_left_out_and_both_checks_are_told(post, get, plan) -> None:
    """Fewer sheets need as much liquid and have more agent each; the order says who is lost."""
    post(f"/plans/{plan.pk}/loads/1/loading/", {"how": "dark"})
    run = models.Run.kept.get(plan=plan, load=1)
    state = runs.standing(run).state
    first = state.sheets[0]
    said = lost_sentence(state, first)
    after = load_check(state._replace(lost=(first,)))
    assert first in said
    assert "enough" in said
    if after.agent_ratio is not None:
        assert f"{after.agent_ratio:.2f} times" in said
        assert after.agent_ratio > load_check(state).agent_ratio
    short_of = state._replace(script=state.script._replace(wetting_ml=state.script.volume_ml + 10.0))
    assert "too little" in lost_sentence(short_of, first)
    runs.command(run, c.Tell(act="dark.out"), runs.standing(run).now)
    runs.command(run, c.Lose(), runs.standing(run).now)
    assert runs.standing(run).state.lost == (first,)
    page = get(f"/runs/{run.pk}/loading/").content.decode()
    assert f'<span class="lost">{first}</span>' in page
    assert state.sheets[1] in heading(get(f"/runs/{run.pk}/loading/"))


def test_a_run_without_sheets_says_so(get) -> None:
    """The quick way knows no sheets: no order, no sound, no failure."""
    run = runs.open_quick("Tolland 100", "Brackwater", 480.0)
    answer = get(f"/runs/{run.pk}/loading/")
    assert answer.status_code == 200
    assert heading(answer) == "Load in any order: this run names no sheets"
    assert get(f"/runs/{run.pk}/loading.wav").status_code == 422
    assert get(f"/runs/{run.pk}/dark/").status_code == 200


def test_a_draft_has_no_order_yet(get) -> None:
    """Its loads may still change."""
    draft = demo.make_demo()
    assert get(f"/plans/{draft.pk}/loads/1/loading/").status_code == 422
