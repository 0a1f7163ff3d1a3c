"""Addresses of this app. Belongs here: one line for each page; nouns and numbers, POST for every change."""

from django.urls import path

from shotplans.views import (
    as_shot,
    beams,
    briefs,
    corrections,
    days,
    everything,
    first_steps,
    frames,
    live,
    meter,
    overruns,
    packing,
    plans,
    plates,
    records,
    rules,
    set_pages,
    shots,
    standards,
    test_frame,
    what_if,
)

urlpatterns = [
    # /setups/ and /packing/
    path("setups/", days.setups, name="setups"),
    path("packing/", packing.packing, name="packing"),
    path("packing/list.pdf", packing.packing_pdf, name="packing_pdf"),
    path("packing/tap/", packing.tap, name="packing_tap"),
    path("packing/to-see-to/<int:pk>/", packing.seen_to, name="seen_to"),
    # /day/
    path("day/", days.day_sheet, name="day_sheet"),
    path("day/sheet.pdf", days.day_sheet_pdf, name="day_sheet_pdf"),
    path("day/papers.pdf", days.day_papers_pdf, name="day_papers"),
    # /everything/
    path("everything/", everything.export, name="export"),
    path("everything/file/", everything.export_file, name="export_file"),
    # /sample/
    path("sample/make/", first_steps.make_sample, name="make_sample"),
    path("sample/take-away/", first_steps.take_sample_away, name="take_sample_away"),
    # /rules/
    path("rules/", rules.rules, name="rules"),
    path("rules/<slug:code>/", rules.rule, name="rule"),
    # /beams/
    path("beams/", beams.beams, name="beams"),
    path("beams/<int:pk>/take-out/", beams.take_out, name="take_beam_out"),
    # /pose-cards/
    path("pose-cards/", shots.pose_cards, name="pose_cards"),
    path("pose-cards/<slug:kind>/", shots.pose_card, name="pose_card"),
    # /corrections/
    path("corrections/", corrections.all_corrections, name="corrections"),
    path("corrections/retire/", corrections.retire, name="retire_correction"),
    path("corrections/<int:pk>/take-back/", corrections.take_back, name="take_back_correction"),
    # /kinds/<pk>/
    path("kinds/<int:pk>/buffer/", overruns.take, name="take_buffer"),
    # /clients/<pk>/
    path("clients/<int:pk>/standard/", standards.standard, name="standard"),
    # /sittings/<number>/
    path("sittings/<slug:number>/again/", standards.again, name="again"),
    path("sittings/<slug:number>/brief/", briefs.brief, name="brief"),
    path("sittings/<slug:number>/plans/", briefs.make, name="make_plan"),
    path("sittings/<slug:number>/plans/<int:version>/", plans.plan, name="plan"),
    path("sittings/<slug:number>/plans/<int:version>/setups/<int:setup>.pdf", plans.sheet, name="setup_sheet"),
    path("sittings/<slug:number>/plans/<int:version>/setups/<int:setup>/meter.pdf", plans.meter, name="meter_card"),
    path("sittings/<slug:number>/plans/<int:version>/packing.pdf", plans.packing, name="packing_sheet"),
    # before the sitters come and after they went
    path("sittings/<slug:number>/shots/", shots.shot_list, name="shot_list"),
    path("sittings/<slug:number>/plans/<int:version>/shots/", shots.on_set_list, name="shots_on_set"),
    path("sittings/<slug:number>/plans/<int:version>/shots/tick/", shots.tick_shot, name="tick_shot"),
    path("sittings/<slug:number>/plans/<int:version>/shots.pdf", shots.shots_pdf, name="shots_pdf"),
    path("sittings/<slug:number>/plans/<int:version>/walk/", set_pages.walk, name="walk"),
    path("sittings/<slug:number>/plans/<int:version>/walk/tap/", set_pages.tap_walk, name="tap_walk"),
    path("sittings/<slug:number>/plans/<int:version>/strike/", set_pages.strike, name="strike"),
    path("sittings/<slug:number>/plans/<int:version>/strike/tap/", set_pages.tap_strike, name="tap_strike"),
    path("sittings/<slug:number>/plans/<int:version>/strike.pdf", set_pages.strike_pdf, name="strike_pdf"),
    path("sittings/<slug:number>/plans/<int:version>/place/", set_pages.location, name="location"),
    path("sittings/<slug:number>/plans/<int:version>/place.pdf", set_pages.location_pdf, name="location_pdf"),
    path("sittings/<slug:number>/plans/<int:version>/what-if/", what_if.ask, name="what_if"),
    path("sittings/<slug:number>/plans/<int:version>/seen/<int:setup>/<int:way>/", plates.plate, name="plate"),
    path("sittings/<slug:number>/plans/<int:version>/setups/<int:setup>/by-hand/", live.ask, name="live"),
    path("sittings/<slug:number>/plans/<int:version>/setups/<int:setup>/keep/", live.keep, name="keep_live"),
    path("sittings/<slug:number>/sheet/<int:version>/", records.sheet_code, name="sheet_code"),
    path("sittings/<slug:number>/record/", records.current, name="current_record"),
    path("sittings/<slug:number>/plans/<int:version>/record/", records.record, name="record"),
    path("sittings/<slug:number>/plans/<int:version>/record/readings/", records.reading, name="type_reading"),
    path("sittings/<slug:number>/plans/<int:version>/record/preview/", records.preview, name="preview_reading"),
    path(
        "sittings/<slug:number>/plans/<int:version>/record/rounds/<int:setup>/", meter.meter_round, name="meter_round"
    ),
    path(
        "sittings/<slug:number>/plans/<int:version>/record/rounds/<int:setup>/<int:step>/",
        meter.step,
        name="meter_step",
    ),
    path("sittings/<slug:number>/plans/<int:version>/record/put-right/", meter.put_right, name="put_right"),
    path("sittings/<slug:number>/plans/<int:version>/record/camera/", meter.set_camera, name="set_camera"),
    path("sittings/<slug:number>/plans/<int:version>/record/copy/<int:setup>/", as_shot.copy_plan, name="copy_plan"),
    path("sittings/<slug:number>/plans/<int:version>/record/as-shot/<int:setup>/", as_shot.built, name="as_shot"),
    path(
        "sittings/<slug:number>/plans/<int:version>/record/photos/<int:setup>/", as_shot.add_photos, name="add_photos"
    ),
    path("sittings/<slug:number>/plans/<int:version>/record/photo/<int:pk>/", as_shot.photo, name="set_photo"),
    path(
        "sittings/<slug:number>/plans/<int:version>/record/photo/<int:pk>/take-away/",
        as_shot.take_photo_away,
        name="take_photo_away",
    ),
    path("sittings/<slug:number>/plans/<int:version>/record/changes/", records.change, name="note_change"),
    path("sittings/<slug:number>/plans/<int:version>/record/sign/", records.sign, name="sign_record"),
    # frames
    path("sittings/<slug:number>/frames/", frames.ledger, name="frames"),
    path("sittings/<slug:number>/frames/known/", frames.known, name="known_frames"),
    path("sittings/<slug:number>/frames/send/", frames.send, name="send_frames"),
    path("sittings/<slug:number>/frames/set-up/", frames.say_setup, name="say_setup"),
    path("sittings/<slug:number>/frames/<int:pk>/picture.jpg", frames.picture, name="frame_picture"),
    path("sittings/<slug:number>/frames/<int:pk>/beside/", frames.beside, name="frame_beside"),
    path("sittings/<slug:number>/frames/<int:pk>/eyes/", frames.mark_eyes, name="mark_eyes"),
    path("sittings/<slug:number>/frames/<int:pk>/reference/", frames.choose_reference, name="choose_reference"),
    path(
        "sittings/<slug:number>/plans/<int:version>/setups/<int:setup>/test-frame/", test_frame.test_frame,
        name="test_frame",
    ),
    path(
        "sittings/<slug:number>/plans/<int:version>/setups/<int:setup>/test-frame/send/", test_frame.send,
        name="send_test_frame",
    ),
    path(
        "sittings/<slug:number>/plans/<int:version>/setups/<int:setup>/test-frame/checks/", test_frame.answer,
        name="answer_check",
    ),
]
