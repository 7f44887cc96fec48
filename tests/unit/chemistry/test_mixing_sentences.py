"""Every code of strengths, salts, formulas, warmth and keeping can be said."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest

import wetside.chemistry
from wetside import chemistry
from wetside.adapters import chemistry_data as data
from wetside.chemistry.formulas import Formula, Ingredient
from wetside.chemistry.mixing_temperature import WaterTable, check_water_table
from wetside.errors import WetsideError
from wetside.values.evidence import Source
from wetside.wording import sentence, speak_error

MODULES = ("acids", "criss_cross", "formulas", "keeping", "mixing_temperature", "salts", "tempering")
FOLDER = Path(wetside.chemistry.__file__).parent
CODES = {
    code
    for name in MODULES
    for code in re.findall(r'"(chemistry\.[a-z_]+\.[a-z_]+)"', (FOLDER / f"{name}.py").read_text("utf-8"))
} - {"chemistry.value.not_finite", "chemistry.percent.over_hundred", "chemistry.caution.acid_into_water"}
SODA, POTASH = (data.load_salts()[name] for name in ("sodium carbonate anhydrous", "potassium carbonate anhydrous"))
BROMIDE = data.load_salts()["potassium bromide"]


def bath(kind="stop", role="acid", **more):
    """One ingredient in a bath."""
    part = Ingredient("citric acid", 15.0, "g", role, **more)
    return Formula("own", kind, (part,), 1000.0, Source("own"))


REFUSED = {
    "chemistry.criss_cross.equal": lambda: chemistry.criss_cross_parts(5.0, 5.0, 5.0),
    "chemistry.criss_cross.outside": lambda: chemistry.criss_cross_parts(28.0, 5.0, 30.0),
    "chemistry.criss_cross.no_end": lambda: chemistry.added_ml(500.0, 18.0, 20.0, 20.0),
    "chemistry.salt.formula": lambda: chemistry.formula_mass_g_mol("Na2(CO3", data.load_atomic_weights()),
    "chemistry.salt.element": lambda: chemistry.formula_mass_g_mol("PuO2", data.load_atomic_weights()),
    "chemistry.salt.unknown": lambda: chemistry.find_salt(data.load_salts(), "table salt"),
    "chemistry.salt.which": lambda: chemistry.find_salt(data.load_salts(), "borax"),
    "chemistry.salt.other_active": lambda: chemistry.salt_factor(SODA, BROMIDE),
    "chemistry.formula.unknown": lambda: chemistry.find_formula(data.load_formulas(), "wonder-soup"),
    "chemistry.formula.kind": lambda: chemistry.mixing_order(bath("soup")),
    "chemistry.formula.role": lambda: chemistry.mixing_order(bath("stop", "spice")),
    "chemistry.water.temperature": lambda: chemistry.mixed_temperature_c([(100.0, 120.0)]),
    "chemistry.water.nothing": lambda: chemistry.mixed_temperature_c([]),
    "chemistry.water.table": lambda: check_water_table(WaterTable((0.0, 1.0), (1.0, 1.0), (4.0, 4.0))),
    "chemistry.water.concentrate": lambda: chemistry.water_temperature_c(500.0, 5.0, 100.0, 38.0),
    "chemistry.water.ice_warms": lambda: chemistry.ice_needed(1000.0, 18.0, 20.0),
    "chemistry.temper.no_start": lambda: chemistry.start_for_mean_c(38.0, 5.0, 60.0, 600.0),
    "chemistry.temper.never": lambda: chemistry.time_to_temperature_s(16.0, 20.0, 300.0, 22.0),
    "chemistry.temper.not_nearer": lambda: chemistry.learned_time_constant(20.0, 20.5, 16.0, 600.0),
    "chemistry.temper.heater_cools": lambda: chemistry.heater_time_s(5000.0, 20.0, 15.0, 300.0),
    "chemistry.temper.heater_weak": lambda: chemistry.heater_time_s(5000.0, 15.0, 38.0, 100.0, 10.0, 15.0),
    "chemistry.temper.coefficient": lambda: chemistry.temperature_effect(20.0, 20.0, 60.0, 60.0, 20.0, 2.0, 1.0),
    "chemistry.keeping.word": lambda: keep(form="soup"),
    "chemistry.keeping.before": lambda: keep(form="stock", made=date(2026, 12, 1)),
}


def keep(made=date(2026, 1, 31), today=date(2026, 11, 25), **asked):
    return chemistry.keeping_of(data.load_keeping(), made, today, **asked)


def notes():
    """Every note that the shipped tables bring about, and the few that they do not."""
    yield from chemistry.acid_bath_ml(99.6, 0.5, 1000.0).notes
    yield from chemistry.acid_bath_ml(28.0, 5.0, 1000.0).notes
    yield from chemistry.salt_substitute(1.0, SODA, POTASH).notes
    for formula in data.load_formulas().values():
        yield from chemistry.scale_formula(formula, 100.0).notes
        order = chemistry.mixing_order(formula)
        yield from order.reasons
        for step in order.steps:
            yield from step.reasons
    for step in chemistry.mixing_order(bath("developer", "restrainer")).steps:
        yield from step.reasons
    yield from chemistry.scale_formula(data.load_formulas()["non-swelling-stop"], 200.0).notes
    yield from keep(product="RAPID FIXER", form="working", fill="half", lid="floating").notes
    yield from keep(product="DD-X", form="working").notes
    yield from keep(product="DD-X", form="concentrate", fill="full").notes
    yield from keep(product="ID-11", form="powder").notes
    yield from keep(kind="fixer", form="working").notes
    yield from keep(product="Brackwater", form="stock").notes


TOLD = dict(notes())


def test_every_code_has_its_example():
    """Each refusal and each note of these modules is brought about here."""
    assert set(REFUSED) | (set(TOLD) - {"chemistry.caution.acid_into_water"}) == CODES


@pytest.mark.parametrize("code", REFUSED)
def test_a_refusal_is_said_in_full(code):
    """The sentence finds all its parameters."""
    with pytest.raises(WetsideError) as caught:
        REFUSED[code]()
    assert caught.value.code == code
    said = speak_error(caught.value, ())
    assert said.endswith(".")
    assert "{" not in said


@pytest.mark.parametrize("code", TOLD)
def test_a_note_is_said_in_full(code):
    """The sentence finds all its parameters."""
    said = sentence(code, TOLD[code], ())
    assert said.endswith((".", ":"))
    assert "{" not in said
