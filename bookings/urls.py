"""Addresses of the bookings. Belongs here: one line for each page."""

from django.urls import path

from bookings.views import changes, clients, comfort, diary, sittings

urlpatterns = [
    path("diary/", diary.diary, name="diary"),
    path("sittings/new/", sittings.new_sitting, name="new_sitting"),
    path("sittings/<slug:number>/", sittings.sitting, name="sitting"),
    path("sittings/<slug:number>/change/", changes.change_sitting, name="change_sitting"),
    path("sittings/<slug:number>/stage/", sittings.change_stage, name="change_stage"),
    path("sittings/<slug:number>/notes/<int:pk>/", comfort.notes, name="notes"),
    path("clients/", clients.clients, name="clients"),
    path("clients/new/", clients.new_client, name="new_client"),
    path("clients/<int:pk>/", clients.client, name="client"),
    path("kinds/", clients.kinds, name="kinds"),
    path("kinds/new/", clients.new_kind, name="new_kind"),
    path("kinds/<int:pk>/", clients.kind, name="kind"),
]
