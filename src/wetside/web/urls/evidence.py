"""Addresses: Films, developers, processes and aims."""

from __future__ import annotations

from django.urls import path

from wetside.web.views import aims, developers, films, films_tests, processes

urlpatterns = [
    path("films/", films.film_list, name="films"),
    path("films/new/", films.film_form, name="film-new"),
    path("films/<uuid:key>/", films.film, name="film"),
    path("films/<uuid:key>/change/", films.film_form, name="film-change"),
    path("films/<uuid:key>/remove/", films.film_remove, name="film-remove"),
    path("films/<uuid:key>/back/", films.film_back, name="film-back"),
    path("films/<uuid:key>/tests/new/", films_tests.film_test, name="film-test"),
    path("films/<uuid:key>/tests/<int:number>/remove/", films_tests.film_test_remove, name="film-test-remove"),
    path("films/<uuid:key>/tests/<int:number>/part/", films_tests.film_test_part, name="film-test-part"),
    path("films/<uuid:key>/tests/back/", films_tests.film_test_back, name="film-test-back"),
    path("films/<uuid:key>/lots/new/", films.lot_form, name="lot-new"),
    path("films/<uuid:key>/lots/<uuid:lot_key>/", films.lot_form, name="lot"),
    path("films/lots/<uuid:key>/remove/", films.lot_remove, name="lot-remove"),
    path("films/lots/<uuid:key>/back/", films.lot_back, name="lot-back"),
    path("films/developers/", developers.developer_list, name="developers"),
    path("films/developers/new/", developers.developer_form, name="developer-new"),
    path("films/developers/<uuid:key>/", developers.developer_form, name="developer"),
    path("films/developers/<uuid:key>/remove/", developers.developer_remove, name="developer-remove"),
    path("films/developers/<uuid:key>/back/", developers.developer_back, name="developer-back"),
    path("processes/", processes.process_list, name="processes"),
    path("processes/new/", processes.process_form, name="process-new"),
    path("processes/<uuid:key>/", processes.process, name="process"),
    path("processes/<uuid:key>/change/", processes.process_form, name="process-change"),
    path("processes/<uuid:key>/versions/<int:number>/", processes.process_version, name="process-version"),
    path("processes/<uuid:key>/remove/", processes.process_remove, name="process-remove"),
    path("processes/<uuid:key>/back/", processes.process_back, name="process-back"),
    path("aims/", aims.aim_list, name="aims"),
    path("aims/new/", aims.aim_form, name="aim-new"),
    path("aims/<uuid:key>/", aims.aim_form, name="aim"),
    path("aims/<uuid:key>/remove/", aims.aim_remove, name="aim-remove"),
    path("aims/<uuid:key>/back/", aims.aim_back, name="aim-back"),
]
