"""The root table of addresses. Belongs here: the house's own pages and one line for each app above it."""

from django.urls import include, path

from studio.views import (
    door,
    hours,
    house,
    kit,
    kit_labels,
    kit_lists,
    kit_tasks,
    members,
    mine,
    on_set,
    rooms,
    starter_kit,
    status,
    tick,
)

urlpatterns = [
    path("", door.home, name="home"),
    path("mine/", mine.mine, name="mine"),
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
    path("status/", status.status, name="status"),
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
    # what the code on a label opens: short, so that its squares are large
    path("k/", tick.by_code, name="by_code"),
    path("k/<slug:code>/", tick.tick, name="tick"),
    path("k/<slug:code>/state/", tick.change_state, name="change_state"),
    path("k/<slug:code>/photo/", tick.photo, name="piece_photo"),
    path("k/<slug:code>/photo/change/", tick.change_photo, name="change_photo"),
    # /kit/of-all/: what is of no single piece
    path("kit/of-all/to-see-to/", kit_tasks.tasks, name="kit_tasks"),
    path("kit/of-all/consumables/", kit_tasks.consumables, name="consumables"),
    path("kit/of-all/consumables/new/", kit_tasks.new_consumable, name="new_consumable"),
    path("kit/of-all/consumables/<int:pk>/", kit_tasks.edit_consumable, name="edit_consumable"),
    path("kit/of-all/consumables/<int:pk>/count/", kit_tasks.count, name="count"),
    path("kit/of-all/list/", kit_lists.send_kit, name="send_kit"),
    path("kit/of-all/list/<int:pk>/", kit_lists.sent_kit, name="sent_kit"),
    path("kit/of-all/kit.csv", kit_lists.kit_file, name="kit_file"),
    path("kit/of-all/starter/", starter_kit.starter, name="starter_kit"),
    path("kit/of-all/labels/", kit_labels.labels, name="kit_labels"),
    path("kit/of-all/labels.pdf", kit_labels.sheet, name="label_sheet"),
    path("kit/section/<slug:section>/new/", kit.new_piece, name="new_piece"),
    # the upper apps
    path("", include("bookings.urls")),
    path("", include("shotplans.urls")),
]
