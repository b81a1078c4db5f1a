"""Django's name for the desk."""

from django.apps import AppConfig

__all__ = ["DeskConfig"]


class DeskConfig(AppConfig):
    """The desk as a Django application."""

    name = "rodbook.desk"
    label = "desk"
    default_auto_field = "django.db.models.BigAutoField"
