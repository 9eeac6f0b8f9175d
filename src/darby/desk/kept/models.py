"""Tables. Documents are kept as revisions, what happens on site as a log; both only grow.

The data base itself refuses to change or take away a row of either (triggers in the first migration). Job lists,
history, who did what: all of it is read from these two.
"""

from __future__ import annotations

from typing import Any, ClassVar

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.db import models

from darby.desk.kept.signs import odd
from darby.desk.uploads.limits import Refused

OWNER, CREW = "owner", "crew"


class People(BaseUserManager["Person"]):
    """Finds and makes people."""

    def add(self, name: str, role: str, password: str | None = None, **more: str) -> Person:
        """A person who may sign in; without a password only by a link."""
        person = self.model(name=name, role=role, **more)
        person.set_password(password)
        person.save(using=self._db)
        return person


class Person(AbstractBaseUser):
    """Somebody of the firm: what he reads, and whether he may see money."""

    name = models.CharField(max_length=80, unique=True)
    role = models.CharField(max_length=8, choices=[(OWNER, OWNER), (CREW, CREW)])
    language = models.CharField(max_length=2, default="en")
    system = models.CharField(max_length=6, default="us")
    evening = models.BooleanField(default=False)
    is_active = models.BooleanField(default=True)

    objects: ClassVar[People] = People()
    USERNAME_FIELD = "name"
    REQUIRED_FIELDS: ClassVar[list[str]] = []

    def save(self, *args: Any, **more: Any) -> None:
        """Write it.

        Raises
        ------
        Refused
            sign: there is a sign in the name that nobody writes.
        """
        if found := odd(self.name):
            raise Refused("sign", found=found)
        super().save(*args, **more)

    @property
    def is_owner(self) -> bool:
        """Whether he may see everything."""
        return self.role == OWNER


class OnlyGrows(models.Model):
    """A row that is written once."""

    class Meta:
        """No table of its own."""

        abstract = True

    def save(self, *args: Any, **more: Any) -> None:
        """Write it; a row that is there already is never written again."""
        if not self._state.adding:
            raise TypeError(f"{type(self).__name__} is only added")
        super().save(*args, **(more | {"force_insert": True}))

    def delete(self, *_: Any, **__: Any) -> tuple[int, dict[str, int]]:
        """Nothing is taken away."""
        raise TypeError(f"{type(self).__name__} is never taken away")


class Revision(OnlyGrows):
    """A document as it stood: its whole text, what changed against its parent (paths), who, when and from where."""

    document = models.CharField(max_length=60)
    number = models.PositiveIntegerField()
    parent = models.ForeignKey("self", null=True, on_delete=models.PROTECT)
    who = models.ForeignKey(Person, on_delete=models.PROTECT)
    when = models.DateTimeField(auto_now_add=True)
    changed = models.JSONField(default=list)
    says = models.CharField(max_length=200, default="")
    text = models.TextField()

    class Meta:
        """Each number of a document once."""

        constraints: ClassVar[list[models.BaseConstraint]] = [
            models.UniqueConstraint(fields=["document", "number"], name="each_number_once")
        ]


class Photograph(OnlyGrows):
    """A picture, once, by the hash of its bytes."""

    sha256 = models.CharField(max_length=64, primary_key=True)
    kind = models.CharField(max_length=40)
    data = models.BinaryField()


class Paper(OnlyGrows):
    """A file that left the house or was frozen with one that did, once, by the hash of its bytes."""

    sha256 = models.CharField(max_length=64, primary_key=True)
    kind = models.CharField(max_length=40)
    data = models.BinaryField()


class Entry(OnlyGrows):
    """A line of the log. Its id was made where it was written, so that what is sent twice is kept once.

    ``kind``: note, reading, photograph, or what a stage's page names. ``at``: the place in the job it belongs to.
    ``made``: when it was written there; ``when``: when it came in.
    """

    id = models.UUIDField(primary_key=True)
    document = models.CharField(max_length=60, db_index=True)
    kind = models.CharField(max_length=24)
    at = models.CharField(max_length=120, default="job")
    said = models.JSONField(default=dict)
    photograph = models.ForeignKey(Photograph, null=True, on_delete=models.PROTECT)
    who = models.ForeignKey(Person, on_delete=models.PROTECT)
    made = models.DateTimeField()
    when = models.DateTimeField(auto_now_add=True)


class Ticket(models.Model):
    """A link that signs one person in, once: kept as a hash, so that the data base opens no door."""

    sha256 = models.CharField(max_length=64, primary_key=True)
    person = models.ForeignKey(Person, on_delete=models.CASCADE)
    until = models.DateTimeField()
    used = models.DateTimeField(null=True)


class Attempt(models.Model):
    """Somebody tried to sign in and failed."""

    name = models.CharField(max_length=80, db_index=True)
    address = models.CharField(max_length=45, db_index=True)
    when = models.DateTimeField(auto_now_add=True)
