"""Collect every marked text of the desk into its catalogues."""

import sys

from rodbook.desk.platform import catalogues

if __name__ == "__main__":
    import django
    from django.conf import settings

    settings.configure(USE_I18N=True)
    django.setup()
    for name in catalogues.update():
        sys.stdout.write(f"src/rodbook/desk/{name}\n")
