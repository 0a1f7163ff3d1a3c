"""Pages of rooms. Belongs here: list, one room, a new one."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _

from studio.access import allow, on_screen
from studio.forms.rooms import RoomForm
from studio.models import Room


@allow("owner")
def rooms(request: HttpRequest) -> HttpResponse:
    return render(request, "studio/rooms.html", {"rooms": Room.objects.prefetch_related("circuits")})


@allow("owner")
def new_room(request: HttpRequest) -> HttpResponse:
    return _page(request, Room())


@allow("owner")
def room(request: HttpRequest, pk: int) -> HttpResponse:
    return _page(request, get_object_or_404(Room, pk=pk))


def _page(request: HttpRequest, row: Room) -> HttpResponse:
    form = RoomForm(request.POST or None, instance=row, units=on_screen(request).units)
    if request.method == "POST" and form.is_valid() and form.keep():
        messages.success(request, _("%(room)s is saved.") % {"room": row.name})
        return redirect("rooms")
    return render(request, "studio/room.html", {"form": form, "room": row})
