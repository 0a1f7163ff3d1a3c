"""What the code on a label opens. Belongs here: the page a piece is ticked on, found by its address or its typed code,
its state in one tap, and its photo. Not here: the rest of the kit (`views.kit`); what upper apps tick there is named in
settings as KIT_PANELS."""

from __future__ import annotations

from django.conf import settings
from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.module_loading import import_string
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_POST

from studio import access, entries, on_set, sending
from studio.access import allow
from studio.actions import kit as actions
from studio.actions import kit_photos
from studio.models import KitItem, versions
from studio.photos import MOST_BYTES, NoPicture
from studio.views.kit import piece_or_404

SAID = {
    KitItem.State.READY: gettext_lazy("%(piece)s is ready."),
    KitItem.State.CHARGING: gettext_lazy("%(piece)s is charging: no plan takes it until it is ready."),
    KitItem.State.REPAIR: gettext_lazy("%(piece)s is in repair: no plan takes it until it is ready."),
    KitItem.State.LOST: gettext_lazy("%(piece)s is lost: no plan takes it until it is ready."),
}


@allow(*access.EVERY_ROLE)
def by_code(request: HttpRequest) -> HttpResponse:
    """The piece whose code was typed, or whose whole address a reader typed; upper and lower case are one."""
    typed = request.GET.get("code", "").strip()
    code = typed.rstrip("/").rsplit("/", 1)[-1]
    is_code = bool(code) and code.isprintable()  # what cannot be typed is asked of no database: one of them refuses it
    found = KitItem.objects.filter(code__iexact=code).order_by("code").first() if is_code else None
    if found is not None:
        return redirect("tick", code=found.code)
    return render(request, "studio/code.html", {"typed_code": typed[:200]}, status=404 if typed else 200)


@allow(*access.EVERY_ROLE)
def tick(request: HttpRequest, code: str) -> HttpResponse:
    row = piece_or_404(code)
    panels = [import_string(path)(request, row) for path in settings.KIT_PANELS]
    states = [(state, KitItem.State(state).label) for state in KitItem.State.values if state != row.state]
    last = row.changes.select_related("by").order_by("-at", "-pk").first()
    return on_set.render(
        request, "studio/tick.html", {"piece": row, "states": states, "panels": panels, "last": last}
    )


@allow(*access.EVERY_ROLE)
@require_POST
@entries.once
def change_state(request: HttpRequest, code: str) -> HttpResponse:
    """One tap; why, where somebody has the hands to say it."""
    row, state = piece_or_404(code), request.POST.get("to", "")
    if state not in KitItem.State.values:
        messages.error(request, _("That is no state a piece can be in."))
        return redirect("tick", code=row.code)
    why, member = request.POST.get("why", ""), request.member  # type: ignore[attr-defined]
    try:
        actions.change_state(by=member, piece=row, state=state, why=why, seen=entries.seen(request))
        messages.success(request, _said(row, state))
    except versions.Stale as stale:
        now = stale.current
        words = now.get_state_display() if isinstance(now, KitItem) else _("gone")
        messages.error(
            request, _("Somebody else changed %(piece)s meanwhile, it is now: %(state)s. Look, then tap again.")
            % {"piece": row, "state": words},
        )  # fmt: skip
    return redirect("tick", code=row.code)


@allow(*access.EVERY_ROLE)
def photo(request: HttpRequest, code: str) -> HttpResponse:
    row = piece_or_404(code)
    try:
        body = kit_photos.path_of(row.photo).read_bytes() if row.photo else b""
    except OSError:
        body = b""
    if not body:
        raise Http404
    return sending.jpeg(body, f"{row.code}.jpg")


@allow(*access.EVERY_ROLE)
@require_POST
def change_photo(request: HttpRequest, code: str) -> HttpResponse:
    """A new photo, or none."""
    row, file = piece_or_404(code), request.FILES.get("photo")
    if "take_away" in request.POST:
        kit_photos.take_away(piece=row)
        messages.success(request, _("The photo is taken away."))
    elif file is None:
        messages.error(request, _("Choose a picture first."))
    else:
        try:
            kit_photos.keep(piece=row, raw=file.read(MOST_BYTES + 1))
            messages.success(request, _("The photo is saved."))
        except NoPicture as error:
            messages.error(request, _("The photo was not saved: %(why)s.") % {"why": error})
    return redirect("piece", code=row.code)


def _said(row: KitItem, state: str) -> str:
    return str(SAID[KitItem.State(state)]) % {"piece": row}
