"""Papers as they were sent; the data base refuses to change one."""

from typing import Any, ClassVar

from django.db import migrations, models

REFUSE = """
CREATE TRIGGER kept_paper_is_only_added_{what} BEFORE {what} ON kept_paper
BEGIN SELECT RAISE(ABORT, 'kept_paper is only added to'); END;
"""


class Migration(migrations.Migration):
    """A table of files by their hash."""

    dependencies: ClassVar[list[Any]] = [("kept", "0001_initial")]

    operations: ClassVar[list[Any]] = [
        migrations.CreateModel(
            name="Paper",
            fields=[
                ("sha256", models.CharField(max_length=64, primary_key=True, serialize=False)),
                ("kind", models.CharField(max_length=40)),
                ("data", models.BinaryField()),
            ],
            options={"abstract": False},
        ),
        migrations.RunSQL("".join(REFUSE.format(what=what) for what in ("UPDATE", "DELETE"))),
    ]
