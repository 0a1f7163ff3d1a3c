"""Rows of people drawn once are those a form would draw one by one."""

from django.template.loader import render_to_string

from bookings.forms.people import PeopleFormSet
from bookings.templatetags.people_rows import ROW, people_rows


def test_untouched_rows_are_the_empty_one_with_their_number():
    people = PeopleFormSet(prefix="people")
    drawn = people_rows(people)
    for person in people.forms:
        assert render_to_string(ROW, {"person": person}) in drawn
    assert drawn.count("__prefix__") == render_to_string(ROW, {"person": people.empty_form}).count("__prefix__") > 0


def test_what_was_typed_stands_in_its_own_row():
    sent = {"people-TOTAL_FORMS": "2", "people-INITIAL_FORMS": "0", "people-0-label": "Ruby", "people-1-label": "<b>"}
    drawn = people_rows(PeopleFormSet(sent, prefix="people"))
    assert 'name="people-0-label" value="Ruby"' in drawn
    assert 'name="people-1-label" value="&lt;b&gt;"' in drawn
