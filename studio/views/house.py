"""The owner's first page and the studio's profile. Belongs here: what concerns the house as a whole."""

from __future__ import annotations

from django.conf import settings
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.module_loading import import_string
from django.utils.translation import gettext as _

from studio import clock, kit_tasks
from studio.access import allow
from studio.forms.profile import ProfileForm
from studio.models import KitItem, Member, Profile, Room
from studio.status import last_backup


@allow("owner")
def studio(request: HttpRequest) -> HttpResponse:
    """What keeps the house from working comes first, then the house."""
    tasks = kit_tasks.on(clock.today())
    charging = KitItem.objects.filter(state=KitItem.State.CHARGING).count()
    rooms = Room.objects.all()
    members = Member.objects.active().with_roles()
    panels = [import_string(path)(request) for path in settings.STUDIO_PANELS]
    heads = [import_string(path)(request) for path in settings.STUDIO_HEADS]
    shown = {
        "heads": heads, "panels": panels, "tasks": tasks, "charging": charging, "rooms": rooms, "members": members,
        "backup_wrong": last_backup().wrong,
    }  # fmt: skip
    return render(request, "studio/studio.html", shown)


@allow("owner")
def profile(request: HttpRequest) -> HttpResponse:
    row = Profile.get()
    form = ProfileForm(request.POST or None, instance=row)
    if request.method == "POST" and form.is_valid() and form.keep():
        messages.success(request, _("The studio's profile is saved."))
        return redirect("studio")
    return render(request, "studio/profile.html", {"form": form})
