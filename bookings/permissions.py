"""What permission rows come to. Belongs here: whether a sitter may be photographed, released by whom, and the words for
it. Not here: writing the rows (`actions.arrivals`), the board of a day (`arrivals`)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.db.models import Prefetch
from django.utils import timezone
from django.utils.functional import cached_property
from django.utils.translation import gettext as _

from bookings import wording
from bookings.models import Consent, Guardian, Release, Sitter, Sitting, Waiver
from bookings.models.sitters import SitterQuerySet

ADULT_YEARS = 18  # common practice, no source; the law of the place comes first
What, Answer = Consent.What, Consent.Answer
READY, WAIVED, MISSING, BROKEN = "ready", "waived", "missing", "broken"


@dataclass(frozen=True)
class Said:
    """Words with the shape they stand beside: one of READY, WAIVED, MISSING, BROKEN."""

    words: str
    shape: str

    @property
    def is_settled(self) -> bool:
        return self.shape in (READY, WAIVED)


@dataclass(frozen=True)
class Permission:
    """One sitter's permission rows."""

    sitter: Sitter
    release: Release | None
    guardian: Guardian | None
    waiver: Waiver | None
    consents: dict[str, Consent]

    @property
    def is_minor(self) -> bool:
        return self.sitter.age_years is not None and self.sitter.age_years < ADULT_YEARS

    @property
    def is_signed(self) -> bool:
        """By whoever must sign: a minor's own name is no signature."""
        return self.release is not None and (self.release.by_guardian or not self.is_minor)

    @property
    def waived(self) -> bool:
        return self.waiver is not None and self.waiver.in_force

    @property
    def waiver_asked(self) -> bool:
        return self.waiver is not None and not self.waiver.in_force and not self.is_signed

    @property
    def refused(self) -> bool:
        """Nobody is photographed against their will."""
        return self.answer_to(What.PHOTOGRAPH) in (Answer.NO, Answer.WITHDRAWN)

    @property
    def notes_unwanted(self) -> bool:
        return self.answer_to(What.KEEP_NOTES) in (Answer.NO, Answer.WITHDRAWN)

    def answer_to(self, what: str) -> str:
        """Empty where nobody asked."""
        return self.consents[what].answer if what in self.consents else ""

    @cached_property
    def stand(self) -> list[Said]:
        """Release, guardian and refusal at a glance."""
        found = [self._of_release]
        if self.is_minor and self.guardian is None and not found[0].is_settled:
            found.append(Said(_("missing: guardian's name and telephone"), MISSING))
        if self.refused:
            found.append(Said(_("not to be photographed"), BROKEN))
        return found

    @property
    def _of_release(self) -> Said:
        if self.is_signed:
            return Said(_("release signed by the guardian") if self.is_minor else _("release signed"), READY)
        if self.waived:
            return Said(_("release waived by %(who)s") % {"who": self.waiver.by.short}, WAIVED)  # type: ignore[union-attr]
        if self.is_minor:
            return Said(_("missing: guardian's signature"), BROKEN)
        return Said(_("missing: release"), MISSING)

    @property
    def release_words(self) -> str:
        """The release in full: who signed, when, how, entered by whom, and its limits."""
        row = self.release
        if row is None:
            return ""
        words = _("Signed by %(who)s on %(day)s, %(how)s; entered by %(by)s.") % {
            "who": f"{row.signed_by} ({row.relation})" if row.relation else row.signed_by,
            "day": wording.date(row.signed_on),
            "how": row.get_how_display(),
            "by": row.by.name if row.by else _("the signer"),
        }
        return words + (" " + _("Limits: %(limits)s.") % {"limits": row.limits.rstrip(".")} if row.limits else "")

    @property
    def consent_words(self) -> list[str]:
        """Each answer with its day and who entered it: "publish: withdrawn, 3 December 2026, at the desk, MF"."""
        return [self._of_consent(what) for what in What]

    def _of_consent(self, what: What) -> str:
        row = self.consents.get(what)
        if row is None:
            return _("%(what)s: not asked") % {"what": what.label}
        return _("%(what)s: %(answer)s, %(day)s, %(how)s, entered by %(by)s") % {
            "what": what.label,
            "answer": row.get_answer_display(),
            "day": wording.date(timezone.localdate(row.at)),
            "how": row.get_how_display(),
            "by": row.by.short if row.by else _("the sitter"),
        }


def of_sitting(sitting: Sitting) -> list[Permission]:
    rows = sitting.sitters.all() if has_people(sitting) else read_along(Sitter.objects.filter(sitting=sitting))
    return [of(sitter) for sitter in rows]


def people() -> Prefetch:
    """Everybody of a sitting with notes and permission rows, for a page that asks after them in several places."""
    return Prefetch("sitters", read_along(Sitter.objects.select_related("notes")))


def has_people(sitting: Sitting) -> bool:
    """Whether its sitters were read before, and their notes and releases along with them."""
    read = getattr(sitting, "_prefetched_objects_cache", {}).get("sitters")
    return read is not None and all({"notes", "release"} <= one._state.fields_cache.keys() for one in read)


def read_along(sitters: SitterQuerySet) -> SitterQuerySet:
    """Sitters with all their permission rows, in two queries however many there are."""
    joined = ("release__by", "guardian", "waiver__by", "waiver__asked_by")
    consents = Prefetch("consents", Consent.objects.select_related("by"))
    return sitters.select_related(*joined).prefetch_related(consents)


def of(sitter: Sitter) -> Permission:
    """Of a sitter that was `read_along`."""
    return Permission(
        sitter,
        getattr(sitter, "release", None),
        getattr(sitter, "guardian", None),
        getattr(sitter, "waiver", None),
        {row.what: row for row in sitter.consents.all()},
    )


def not_signed(found: Sequence[Permission]) -> bool:
    """Whether the release of anybody is neither signed nor waived."""
    return any(not (one.is_signed or one.waived) for one in found)
