"""What is kept of coming in: tries that failed, the second step of a member, and who changed that. Belongs here: those
rows. Not here: what they decide (`studio.actions.tries`, `studio.actions.second`)."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from studio.models.staff import Member


class SignInTries(models.Model):
    """How often a name was tried from one place without success. Neither is kept: only a digest of both together."""

    key = models.CharField(max_length=64, unique=True)
    tries = models.PositiveIntegerField(default=0)
    last_at = models.DateTimeField()
    open_at = models.DateTimeField()  # before this, nothing that comes from there is looked at

    class Meta:
        indexes = (models.Index(fields=("last_at",), name="tries_by_time"),)

    def __str__(self) -> str:
        return f"{self.tries} tries"


class SecondStep(models.Model):
    """The key that a member's telephone makes its codes from, and the last code it was used for."""

    member = models.OneToOneField(Member, on_delete=models.CASCADE, related_name="second_step")
    secret = models.CharField(max_length=64)
    set_at = models.DateTimeField()
    last_used = models.BigIntegerField(default=0)  # which thirty seconds since 1970: no code counts twice

    def __str__(self) -> str:
        return "second step"  # never its key


class RecoveryCode(models.Model):
    """A code on paper in place of the telephone, good once; only its digest is kept."""

    step = models.ForeignKey(SecondStep, on_delete=models.CASCADE, related_name="recovery_codes")
    digest = models.CharField(max_length=64)
    used_at = models.DateTimeField(null=True)

    class Meta:
        constraints = (models.UniqueConstraint(fields=("step", "digest"), name="a_recovery_code_once"),)

    def __str__(self) -> str:
        return "recovery code"


class DoorChange(models.Model):
    """Who changed how somebody signs in, and when; written once. Without `by`: on the machine's command line."""

    class What(models.TextChoices):
        SET = "set", _("a second step was set up")
        OFF = "off", _("the second step was taken off")
        CODES = "codes", _("new recovery codes were made")
        RECOVERED = "recovered", _("came in with a recovery code")
        PASSWORD = "password", _("a new password was set")

    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="doors_changed", null=True)
    member = models.ForeignKey(Member, on_delete=models.CASCADE, related_name="door_changes")
    what = models.CharField(max_length=10, choices=What.choices)

    class Meta:
        ordering = ("at", "pk")
        indexes = (models.Index(fields=("at",), name="door_change_by_time"),)

    def __str__(self) -> str:
        return self.get_what_display()
