"""How long a password may be. How short, and that it is none of the common ones, Django's own checks say (settings)."""

from __future__ import annotations

from django.core.exceptions import ValidationError

MOST_SIGNS = 128
"""A longer one only keeps the machine busy."""


class NotTooLong:
    """A check of new passwords."""

    def validate(self, password: str, user: object = None) -> None:  # noqa: ARG002 -- Django names it
        """Refuse what is too long.

        Raises
        ------
        ValidationError
            past ``MOST_SIGNS``.
        """
        if len(password) > MOST_SIGNS:
            raise ValidationError("too long", code="too-long")

    def get_help_text(self) -> str:
        """Nothing: the page says it."""
        return ""
