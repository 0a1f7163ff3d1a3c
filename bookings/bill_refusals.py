"""What bills and items cannot do, each with the sentence shown. Belongs here: the refusals of `actions.bills` and
`actions.till`, and of money entered twice."""

from __future__ import annotations

from collections.abc import Sequence

from django.utils.translation import gettext as _

from bookings import wording
from bookings.models import Payment, Quote
from bookings.refusals import Refusal


class NoPrice(Refusal):
    def __init__(self, name: str) -> None:
        super().__init__(_("%(name)s has no price for today. The owner gives it one under Items.") % {"name": name})


class NothingToBill(Refusal):
    def __init__(self) -> None:
        super().__init__(_("There is nothing to put on paper: no charge that stands on none yet, and no item chosen."))


class TakenBackAlready(Refusal):
    def __init__(self, words: str) -> None:
        super().__init__(
            _("%(words)s is taken back already, or is not an item: nothing was changed.") % {"words": words}
        )


class AcceptedAlready(Refusal):
    def __init__(self, number: str) -> None:
        super().__init__(_("%(number)s is accepted already: nothing was entered a second time.") % {"number": number})


class QuoteLapsed(Refusal):
    def __init__(self, quote: Quote) -> None:
        words = {"number": str(quote), "day": wording.date(quote.valid_until)}
        super().__init__(_("%(number)s was valid until %(day)s. Make a new one.") % words)


class EnteredMeanwhile(Refusal):
    """Another desk entered money after this page was opened: it may be the same money."""

    def __init__(self, payments: Sequence[Payment], currency: str) -> None:
        told = "; ".join(
            _("%(receipt)s, %(kind)s %(amount)s, by %(name)s")
            % {
                "receipt": one.receipt_number, "kind": one.get_kind_display(),
                "amount": wording.money(one.amount, currency), "name": one.by.name,
            }
            for one in payments
        )  # fmt: skip
        super().__init__(
            _("While you had this open, there came: %(told)s. Yours is still here and not entered yet: ")
            % {"told": told}
            + _("enter it again if it is other money.")
        )
