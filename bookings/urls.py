"""Addresses of the bookings. Belongs here: one line for each page."""

from django.urls import path

from bookings.views import (
    changes,
    clients,
    comfort,
    diary,
    find,
    gaps,
    holds,
    money,
    moves,
    sitting_page,
    sittings,
    terms,
)

urlpatterns = [
    path("diary/", diary.diary, name="diary"),
    path("diary/week/", diary.week, name="week"),
    path("diary/gaps/", gaps.gaps, name="gaps"),
    path("diary/move/", moves.move_sitting, name="move_sitting"),
    path("sittings/new/", sittings.new_sitting, name="new_sitting"),
    path("sittings/<slug:number>/", sitting_page.sitting, name="sitting"),
    path("sittings/<slug:number>/change/", changes.change_sitting, name="change_sitting"),
    path("sittings/<slug:number>/stage/", sitting_page.change_stage, name="change_stage"),
    path("sittings/<slug:number>/hold/", holds.change_hold, name="change_hold"),
    path("sittings/<slug:number>/told/", holds.client_told, name="client_told"),
    path("sittings/<slug:number>/money/", money.take_money, name="take_money"),
    path("sittings/<slug:number>/money/<int:receipt>/correct/", money.correct_payment, name="correct_payment"),
    path("holds/", holds.holds, name="holds"),
    path("sittings/<slug:number>/notes/<int:pk>/", comfort.notes, name="notes"),
    path("clients/", clients.clients, name="clients"),
    path("clients/find/", find.find_client, name="find_client"),
    path("clients/choices/", find.client_choices, name="client_choices"),
    path("clients/new/", clients.new_client, name="new_client"),
    path("clients/<int:pk>/", clients.client, name="client"),
    path("kinds/", clients.kinds, name="kinds"),
    path("kinds/new/", clients.new_kind, name="new_kind"),
    path("kinds/<int:pk>/", clients.kind, name="kind"),
    path("terms/", terms.all_terms, name="all_terms"),
    path("terms/new/", terms.new_terms, name="new_terms"),
    path("terms/<int:pk>/", terms.one_terms, name="terms"),
]
