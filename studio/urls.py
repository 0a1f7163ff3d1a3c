"""The root table of addresses. Belongs here: the house's own pages and one line for each app above it."""

from django.urls import include, path

from studio.views import door

urlpatterns = [
    path("", door.home, name="home"),
    path("sign-in/", door.sign_in, name="sign_in"),
    path("sign-out/", door.sign_out, name="sign_out"),
    path("role/", door.change_role, name="change_role"),
    # the upper apps
    path("", include("bookings.urls")),
    path("", include("shotplans.urls")),
]
