"""The root table of addresses. Belongs here: the house's own pages and one line for each app above it."""

from django.urls import include, path

from studio.views import door, hours, house, kit, members, on_set, rooms

urlpatterns = [
    path("", door.home, name="home"),
    path("sign-in/", door.sign_in, name="sign_in"),
    path("sign-out/", door.sign_out, name="sign_out"),
    path("role/", door.change_role, name="change_role"),
    # on set
    path("on-set/", on_set.unsent, name="on_set"),
    path("on-set/worker.js", on_set.worker, name="worker"),
    path("on-set/token/", on_set.token, name="token"),
    # the house
    path("studio/", house.studio, name="studio"),
    path("studio/profile/", house.profile, name="profile"),
    path("studio/rooms/", rooms.rooms, name="rooms"),
    path("studio/rooms/new/", rooms.new_room, name="new_room"),
    path("studio/rooms/<int:pk>/", rooms.room, name="room"),
    path("studio/members/", members.members, name="members"),
    path("studio/members/new/", members.new_member, name="new_member"),
    path("studio/members/<int:pk>/", members.member, name="member"),
    path("studio/hours/", hours.hours, name="hours"),
    path("studio/hours/week/", hours.house_week, name="house_week"),
    path("studio/hours/week/<int:pk>/", hours.member_week, name="member_week"),
    path("studio/hours/week/<int:pk>/as-the-house/", hours.as_the_house, name="as_the_house"),
    path("studio/hours/off/new/", hours.new_days_off, name="new_days_off"),
    path("studio/hours/off/<int:pk>/", hours.days_off, name="days_off"),
    path("kit/", kit.kit, name="kit"),
    path("kit/<slug:code>/", kit.piece, name="piece"),
    path("kit/<slug:code>/edit/", kit.edit_piece, name="edit_piece"),
    path("kit/section/<slug:section>/new/", kit.new_piece, name="new_piece"),
    # the upper apps
    path("", include("bookings.urls")),
    path("", include("shotplans.urls")),
]
