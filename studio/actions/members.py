"""Keeping members: the person, the sign-in and the roles together. Belongs here: that write and its refusal.
Not here: how it is asked."""

from __future__ import annotations

from collections.abc import Collection

from django.contrib.auth import get_user_model
from django.db import transaction
from django.utils.translation import gettext as _

from studio import clock
from studio.models import DoorChange, Member, MemberRole, Role, versions


class LastOwner(Exception):
    """Nobody would be left who may change rooms, people and kit."""

    def __str__(self) -> str:
        return _("Somebody must stay owner: make another person owner first.")


@transaction.atomic
def keep(*, member: Member, seen: int | None, sign_in_name: str, password: str, roles: Collection[str]) -> Member:
    """Write a member, new (`seen` None) or opened at version `seen`; an empty password leaves the present one.

    Raises LastOwner, and versions.Stale when somebody else was faster.
    """
    # All owners are held until this is written, so that two of them cannot both leave at once.
    owners = set(
        MemberRole.objects.select_for_update()
        .filter(role=Role.OWNER, member__active=True)
        .values_list("member_id", flat=True)
    )
    stays = member.active and Role.OWNER in roles
    if owners == {member.pk} and not stays:
        raise LastOwner
    adding = member._state.adding
    user = get_user_model()() if adding else member.user
    user.username, user.is_active = sign_in_name, member.active
    if password:
        user.set_password(password)
    elif adding:
        user.set_unusable_password()
    user.save()
    if adding:
        member.user = user
        member.save()
    else:
        versions.save(member, seen=seen or 0)
    _set_roles(member, set(roles))
    return member


@transaction.atomic
def set_own_password(*, member: Member, password: str) -> None:
    """A member's own new password; their other sessions end with the old one."""
    user = get_user_model().objects.select_for_update().get(pk=member.user_id)
    user.set_password(password)
    user.save(update_fields=["password"])
    DoorChange.objects.create(at=clock.now(), by=member, member=member, what=DoorChange.What.PASSWORD)


def _set_roles(member: Member, roles: set[str]) -> None:
    member.role_rows.exclude(role__in=roles).delete()
    held = set(member.role_rows.values_list("role", flat=True))
    MemberRole.objects.bulk_create(MemberRole(member=member, role=role) for role in Role.values if role in roles - held)
