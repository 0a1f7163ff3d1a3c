"""Why a backup was not made, or not put back. Belongs here: the two kinds of fault, each with a sentence fit to show,
and the machine's own errors as such a sentence. Not here: deciding."""

from __future__ import annotations

import errno

from django.utils.translation import gettext as _


class Fault(Exception):
    """Something was not done; `str()` says why and what would help."""


class Unusable(Fault):
    """The file is no whole backup, or does not fit here. Nothing was written."""


class NotEmpty(Fault):
    """There is a studio already. Nothing was written."""


def of_machine(error: OSError, where: object) -> str:
    """What the machine said, as a sentence."""
    said = {
        errno.ENOSPC: _("the disk is full"),
        errno.EDQUOT: _("the disk is full (a quota is used up)"),
        errno.EFBIG: _("the file is larger than this disk or account allows"),
        errno.ENOENT: _("there is no such file or folder"),
        errno.ENOTDIR: _("a part of that path is no folder"),
        errno.EISDIR: _("that is a folder"),
        errno.EACCES: _("it may not be read or written by this account"),
        errno.EPERM: _("it may not be read or written by this account"),
        errno.EROFS: _("the disk can only be read"),
    }.get(error.errno or 0, error.strerror or str(error))
    return f"{where}: {said}."
