"""What the demo's clients were asked before they come: the Askews have a link they have not opened yet, and Juno's
mother answered on her phone after the plan was made, so that its page says what came in since. Belongs here: the
invented answers. Not here: the sittings (`scenario`)."""

from __future__ import annotations

from bookings import permissions
from bookings.actions import arrivals, intake
from bookings.models import Consent, How, Sitting

SAID = {"hearing": ("true", "she hears better on her left"), "shy": ("true", "")}


def ask() -> str:
    askews = Sitting.objects.filter(client__name="Ottoline and Bertram Askew").latest("starts_at")
    intake.make_link(sitting=askews)
    sitting = Sitting.objects.get(client__name="Juno Tarrant")
    juno = sitting.sitters.get()
    made = intake.make_link(sitting=sitting)
    intake.opened(intake=made)
    intake.keep(intake=made, sitter=juno, said=SAID)
    row = permissions.of_sitting(sitting)[0]
    said = {Consent.What.PHOTOGRAPH: "yes", Consent.What.PUBLISH: "no"}
    answers = {(juno.pk, str(what)): (one, row.answer_to(what)) for what, one in said.items()}
    arrivals.answer(by=None, sitting=sitting, answers=answers, how=How.LINK)
    return f"{sitting.number} Juno Tarrant: answered since the plan; {askews.number}: the link is not opened yet"
