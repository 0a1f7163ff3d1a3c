"""People of the studio. Belongs here: members and their roles. Not here: what a role may see (`studio.access`
and each view's own line)."""

from __future__ import annotations

from typing import Self

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from studio.models.quantities import Units
from studio.models.versions import Versioned


class Role(models.TextChoices):
    """What a member does in the house; one person may do several."""

    FRONT_DESK = "front_desk", _("front desk")
    PHOTOGRAPHER = "photographer", _("photographer")
    ASSISTANT = "assistant", _("assistant")
    OWNER = "owner", _("owner")


class MemberQuerySet(models.QuerySet["Member"]):
    def active(self) -> Self:
        return self.filter(active=True)

    def in_role(self, role: str) -> Self:
        return self.filter(role_rows__role=role)

    def with_roles(self) -> Self:
        """Roles read along, so that a list asks once."""
        return self.prefetch_related("role_rows")


class Member(Versioned):
    """Somebody who works here and signs in."""

    user = models.OneToOneField(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="member")
    name = models.CharField(_("name"), max_length=120)
    short = models.CharField(_("initials"), max_length=4, help_text=_("As written on sheets: HV."))
    # Empty: as the house does. On screens alone; a sheet on a stand is read by everybody.
    units = models.CharField(
        _("lengths on my screens"), max_length=8, blank=True, choices=[("", _("as the house")), *Units.choices]
    )
    language = models.CharField(_("language of my screens"), max_length=16, blank=True)  # empty: the house's
    active = models.BooleanField(_("works here"), default=True, help_text=_("Without it nobody signs in."))

    objects = MemberQuerySet.as_manager()

    class Meta:
        ordering = ("name", "pk")

    def __str__(self) -> str:
        return self.name

    @property
    def roles(self) -> set[str]:
        return {row.role for row in self.role_rows.all()}

    @property
    def role_words(self) -> list[str]:
        """The roles as words, in the house's own order."""
        return [str(role.label) for role in Role if role in self.roles]

    def has_role(self, *names: str) -> bool:
        return not self.roles.isdisjoint(names)


class MemberRole(models.Model):
    """One role of one member."""

    member = models.ForeignKey(Member, on_delete=models.CASCADE, related_name="role_rows")
    role = models.CharField(_("role"), max_length=16, choices=Role.choices)

    class Meta:
        constraints = (models.UniqueConstraint(fields=("member", "role"), name="a_role_once_a_member"),)

    def __str__(self) -> str:
        return self.get_role_display()
