"""Every rule of the tables has a sentence."""

from __future__ import annotations

from django.apps import apps

from wetside.wording import known_codes


def test_every_constraint_has_a_sentence() -> None:
    """What the database refuses can be told to a person."""
    names = {
        f"records.rule.{rule.name}"
        for model in apps.get_app_config("records").get_models()
        for rule in model._meta.constraints
    }
    assert names <= known_codes("records"), names - known_codes("records")
