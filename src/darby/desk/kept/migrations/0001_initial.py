"""The first tables; the data base itself refuses to change a revision, a photograph or a line of the log."""

from typing import Any, ClassVar

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

ONLY_GROW = ("kept_revision", "kept_entry", "kept_photograph")
REFUSE = """
CREATE TRIGGER {table}_is_only_added_{what} BEFORE {what} ON {table}
BEGIN SELECT RAISE(ABORT, '{table} is only added to'); END;
"""
TRIGGERS = "".join(REFUSE.format(table=table, what=what) for table in ONLY_GROW for what in ("UPDATE", "DELETE"))


class Migration(migrations.Migration):
    """Everything that the desk keeps."""

    initial = True

    dependencies: ClassVar[list[Any]] = []

    operations: ClassVar[list[Any]] = [
        migrations.CreateModel(
            name="Person",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("password", models.CharField(max_length=128, verbose_name="password")),
                ("last_login", models.DateTimeField(blank=True, null=True, verbose_name="last login")),
                ("name", models.CharField(max_length=80, unique=True)),
                ("role", models.CharField(choices=[("owner", "owner"), ("crew", "crew")], max_length=8)),
                ("language", models.CharField(default="en", max_length=2)),
                ("system", models.CharField(default="us", max_length=6)),
                ("evening", models.BooleanField(default=False)),
                ("is_active", models.BooleanField(default=True)),
            ],
            options={
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Attempt",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("name", models.CharField(db_index=True, max_length=80)),
                ("address", models.CharField(db_index=True, max_length=45)),
                ("when", models.DateTimeField(auto_now_add=True)),
            ],
        ),
        migrations.CreateModel(
            name="Photograph",
            fields=[
                ("sha256", models.CharField(max_length=64, primary_key=True, serialize=False)),
                ("kind", models.CharField(max_length=40)),
                ("data", models.BinaryField()),
            ],
            options={
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Entry",
            fields=[
                ("id", models.UUIDField(primary_key=True, serialize=False)),
                ("document", models.CharField(db_index=True, max_length=60)),
                ("kind", models.CharField(max_length=24)),
                ("at", models.CharField(default="job", max_length=120)),
                ("said", models.JSONField(default=dict)),
                ("made", models.DateTimeField()),
                ("when", models.DateTimeField(auto_now_add=True)),
                ("who", models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, to=settings.AUTH_USER_MODEL)),
                (
                    "photograph",
                    models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, to="kept.photograph"),
                ),
            ],
            options={
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Ticket",
            fields=[
                ("sha256", models.CharField(max_length=64, primary_key=True, serialize=False)),
                ("until", models.DateTimeField()),
                ("used", models.DateTimeField(null=True)),
                ("person", models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, to=settings.AUTH_USER_MODEL)),
            ],
        ),
        migrations.CreateModel(
            name="Revision",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("document", models.CharField(max_length=60)),
                ("number", models.PositiveIntegerField()),
                ("when", models.DateTimeField(auto_now_add=True)),
                ("changed", models.JSONField(default=list)),
                ("says", models.CharField(default="", max_length=200)),
                ("text", models.TextField()),
                (
                    "parent",
                    models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, to="kept.revision"),
                ),
                ("who", models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, to=settings.AUTH_USER_MODEL)),
            ],
            options={
                "constraints": [models.UniqueConstraint(fields=("document", "number"), name="each_number_once")],
            },
        ),
        migrations.RunSQL(TRIGGERS, migrations.RunSQL.noop),
    ]
