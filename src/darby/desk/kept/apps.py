"""The one Django application of the desk."""

from django.apps import AppConfig


class Kept(AppConfig):
    """Named so that migrations and the user model find it."""

    name = "darby.desk.kept"
    label = "kept"
    default_auto_field = "django.db.models.BigAutoField"
