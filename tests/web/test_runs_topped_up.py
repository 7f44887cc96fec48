"""The page after a run of a replenished developer: its top-up stands there, and is booked as it stands."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.web.test_runs_after import fields_of, text

from wetside.adapters.evening_file import evening_of_text
from wetside.records import models
from wetside.runs.fact import Fact
from wetside.services.records import plans_frozen, runs
from wetside.services.records.changes import make
from wetside.services.records.evenings_import import take

pytestmark = pytest.mark.django_db
EXAMPLE = Path(__file__).parents[2] / "examples" / "replenished" / "evening.toml"
MOST_QUERIES = 12


@pytest.fixture
def run(opened_long_ago):
    """The first load of the replenished evening, hung."""
    plan = plans_frozen.freeze(take(evening_of_text(EXAMPLE.read_text(encoding="utf-8"))))
    found = runs.open_planned(plan.pk, 1)
    opened = found.events.get(seq=1)
    facts = []
    for number, (act, seconds) in enumerate((("1.full", 60.0), ("2.full", 600.0), ("hang", 3000.0)), 1):
        when = opened.at_utc + dt.timedelta(seconds=seconds)
        facts.append(Fact("done", 1, when, opened.boot_s + seconds, opened.boot_id, "a" * 32, number, {"act": act}))
    runs.hand_over(found, facts)
    return runs.find_run(found.pk)


def test_the_top_up_stands_on_the_page_and_is_booked(run, get, post, django_assert_max_num_queries) -> None:
    """43.3 ml from R, 43 ml of the used to waste; without a rate's bottle the row asks."""
    make(models.Bottle, {"mark": "WD", "holds": "waste", "role": "waste-developer"})
    page = f"/runs/{run.pk}/after/"
    get(page)
    with django_assert_max_num_queries(MOST_QUERIES):
        shown = get(page)
    assert "Top-up of Longmere" in text(shown)
    assert "43.3 ml of replenisher for this film. The bath's mark is 1000 ml" in text(shown).replace("&#x27;", "'")
    sent = fields_of(shown)
    assert (sent["b1.returned"], sent["b1.wasted"], sent["b1t.drawn"]) == ("257", "43", "43.3")
    answer = post(page, sent | {"b1t.drawn": "9 l"})
    assert answer.status_code == 422
    assert 'id="f-b1t-drawn-m"' in answer.content.decode()
    assert post(page, sent).status_code == 302
    assert models.Bottle.kept.get(mark="L").left_ml == pytest.approx(1000.3)
    assert text(get(page)).count("43.3 ml") == 2
    assert "43.3 ml, for L" in text(get(page))


def test_the_bottle_form_asks_what_has_gone_in(run, get) -> None:
    """So that a bath's state can be told of a bottle that came by hand."""
    bottle = models.Bottle.kept.get(mark="L")
    assert 'value="1300 ml"' in get(f"/shelf/bottles/{bottle.pk}/change/").content.decode()
