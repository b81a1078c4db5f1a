"""What the desk keeps: documents, each save a new revision that is never changed afterwards."""

from __future__ import annotations

from datetime import UTC
from enum import StrEnum
from typing import Any

from django.conf import settings
from django.db import models
from django.utils import timezone

from rodbook.desk.platform.changes import Change, changed, sentence
from rodbook.desk.platform.soundness import Kept, seal_of

__all__ = [
    "Deed",
    "Draft",
    "Folder",
    "GivenOut",
    "Kind",
    "Person",
    "Photo",
    "Record",
    "Revision",
    "Role",
    "Second",
    "Sent",
]


class Kind(StrEnum):
    """What a document is."""

    JOB = "job"
    BOOK = "book"
    ACTUALS = "actuals"


class Role(StrEnum):
    """Owner: everything. Maker: everything but prices and people. Reader: looks, changes nothing, sees no prices."""

    OWNER = "owner"
    MAKER = "maker"
    READER = "reader"


class Folder(models.Model):
    """A document with all its revisions: one job, what it took, or the firm's book."""

    kind = models.CharField(max_length=8, choices=[(k.value, k.value) for k in Kind])
    name = models.CharField(max_length=120)
    head = models.PositiveIntegerField(default=0)
    """Number of the newest revision."""
    put_away = models.BooleanField(default=False)
    """Finished jobs leave the list; nothing is deleted."""
    of = models.OneToOneField("self", on_delete=models.PROTECT, null=True, blank=True, related_name="actuals")
    """The job that it belongs to, where it is what a job took: so hours from a phone never clash with a change of the job."""
    created = models.DateTimeField(auto_now_add=True)
    touched = models.DateTimeField(auto_now=True)

    class Meta:
        """Newest work first."""

        ordering = ("-touched",)

    def __str__(self) -> str:
        """Its name."""
        return self.name


class KeptJSON(models.JSONField):  # type: ignore[type-arg]
    """Plain values; what was damaged so that it is none any more is read as nothing, and whatever stands beside it goes on."""

    def from_db_value(self, value: Any, expression: Any, connection: Any) -> Any:
        """Read it; None where it is damaged."""
        try:
            return super().from_db_value(value, expression, connection)
        except ValueError:
            return None


class Revision(models.Model):
    """One saved state of a document: who, when, what changed, and the whole document."""

    folder = models.ForeignKey(Folder, on_delete=models.PROTECT, related_name="revisions")
    number = models.PositiveIntegerField()
    document = KeptJSON()
    text = models.TextField(default="")
    """What it is, where no comparison of documents says it: a beginning, hours, an invoice."""
    changes = KeptJSON(null=True)
    """What changed since the revision before, as data; none where `text` says it, or where it was kept before there were any."""
    who = models.CharField(max_length=150)
    when = models.DateTimeField(default=timezone.now, editable=False)
    undoes = models.PositiveIntegerField(null=True, blank=True)
    """The revision that this one takes back, where it is an undo."""
    seal = models.CharField(max_length=64, blank=True, default="", editable=False)
    """SHA-256 over all of the above, by which damage is noticed; see `soundness`."""

    class Meta:
        """Numbers run without a gap; no two saves share one."""

        ordering = ("-number",)
        constraints = (models.UniqueConstraint(fields=("folder", "number"), name="one_revision_a_number"),)

    def __str__(self) -> str:
        """Folder and number."""
        return f"{self.folder_id}/{self.number}"

    def save(self, *args: Any, **kwargs: Any) -> None:
        """Save and seal it: nothing else makes a revision."""
        self.seal = self.sealed()
        if (fields := kwargs.get("update_fields")) is not None:
            kwargs["update_fields"] = {*fields, "seal"}
        super().save(*args, **kwargs)

    @property
    def readable(self) -> bool:
        """Whether there is a document in it; else it is damaged."""
        return isinstance(self.document, dict)

    def sealed(self) -> str:
        """What its seal has to be."""
        when = self.when.astimezone(UTC).strftime("%Y-%m-%d %H:%M:%S.%f")
        lines = (self.folder_id, self.number, self.document, self.text, self.changes, self.who, when, self.undoes)
        return seal_of(Kept(*lines))

    def changed(self) -> tuple[Change, ...]:
        """What changed since the revision before; compared anew where it was kept before changes were data."""
        if self.changes is not None:
            return tuple(Change.of(kept) for kept in self.changes)
        if self.number < 2 or self.folder.kind == Kind.ACTUALS:
            return ()
        before = Revision.objects.filter(folder=self.folder_id, number=self.number - 1).first()
        return changed(before.document, self.document) if before and before.readable and self.readable else ()

    @property
    def said(self) -> str:
        """What changed, one sentence a line, for those who see all of it."""
        return "\n".join(map(sentence, self.changed())) or self.text


class Photo(models.Model):
    """A picture of an opening; the file is named by the hash of what is kept of it."""

    folder = models.ForeignKey(Folder, on_delete=models.PROTECT, related_name="photos")
    mark = models.CharField(max_length=80)
    sha256 = models.CharField(max_length=64)
    sent_sha256 = models.CharField(max_length=64, default="")
    """Hash of the picture as it was sent, by which it is known when a phone sends it again; empty for those of before."""
    kind = models.CharField(max_length=16)
    who = models.CharField(max_length=150)
    when = models.DateTimeField(auto_now_add=True)

    class Meta:
        """One picture is kept once for an opening."""

        ordering = ("when",)
        constraints = (models.UniqueConstraint(fields=("folder", "mark", "sha256"), name="one_photo_once"),)

    def __str__(self) -> str:
        """Opening and hash."""
        return f"{self.mark} {self.sha256[:8]}"


class Draft(models.Model):
    """Readings of one opening that are not complete enough for the job yet; nothing read on site is lost meanwhile."""

    folder = models.ForeignKey(Folder, on_delete=models.PROTECT, related_name="drafts")
    mark = models.CharField(max_length=80)
    readings = models.JSONField(default=dict)
    """Readings by the name of their place, and for an opening that is not in the job yet also what it is."""
    base = models.PositiveIntegerField(default=0)
    """Revision that the first of these readings was taken on; what others saved after it is told before anything goes in."""
    touched = models.DateTimeField(auto_now=True)

    class Meta:
        """One draft for an opening."""

        ordering = ("pk",)
        constraints = (models.UniqueConstraint(fields=("folder", "mark"), name="one_draft_an_opening"),)

    def __str__(self) -> str:
        """Folder and mark."""
        return f"{self.folder_id}/{self.mark}"


class Sent(models.Model):
    """A reading that came in, known by the key that the phone gave it: sent twice, it is taken once."""

    key = models.UUIDField(unique=True)
    folder = models.ForeignKey(Folder, on_delete=models.PROTECT, related_name="sent")
    device = models.CharField(max_length=40)
    """Which phone; it knows itself by a number of its own making."""
    mark = models.CharField(max_length=80)
    place = models.CharField(max_length=60)
    value = models.FloatField()
    typed = models.DateTimeField(null=True)
    """When it was typed, as the phone's clock has it."""
    came = models.DateTimeField(auto_now_add=True)
    who = models.CharField(max_length=150)
    revision = models.PositiveIntegerField(default=0)
    """Revision that it went in with; 0 while it waits in a draft."""

    class Meta:
        """In the order in which they came."""

        ordering = ("pk",)

    def __str__(self) -> str:
        """Place and value."""
        return f"{self.mark} {self.place} {self.value:g}"


class Record(models.Model):
    """Something that came in and is kept as it came: a quote, hours, an invoice, the weeks as they were laid down.

    Nothing in it is ever changed; what was wrong is struck out.
    """

    folder = models.ForeignKey(Folder, null=True, on_delete=models.PROTECT, related_name="records")
    """The job that it belongs to; none where it is the firm's."""
    kind = models.CharField(max_length=16)
    content = models.JSONField()
    who = models.CharField(max_length=150)
    when = models.DateTimeField(auto_now_add=True)
    struck_out = models.BooleanField(default=False)

    class Meta:
        """In the order in which they came."""

        ordering = ("pk",)

    def __str__(self) -> str:
        """Kind and number."""
        return f"{self.kind} {self.pk}"


class GivenOut(models.Model):
    """A calendar file as it was last given out: what is gone since then is called off in the next one."""

    folder = models.ForeignKey(Folder, null=True, on_delete=models.PROTECT, related_name="given_out")
    """The job whose dates they are; none where they are those of all jobs."""
    whose = models.CharField(max_length=200, blank=True)
    """Whose calendar it is; empty for everybody's."""
    content = models.BinaryField()
    when = models.DateTimeField(auto_now=True)

    class Meta:
        """The last of each."""

        ordering = ("pk",)
        constraints = (
            models.UniqueConstraint(fields=("folder", "whose"), name="one_calendar_of_a_job_each"),
            models.UniqueConstraint(
                fields=("whose",), condition=models.Q(folder=None), name="one_calendar_of_all_jobs_each"
            ),
        )

    def __str__(self) -> str:
        """Folder and person."""
        return f"{self.folder_id}/{self.whose}"


class Person(models.Model):
    """What somebody with an account may do."""

    user = models.OneToOneField(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="person")
    role = models.CharField(max_length=8, choices=[(r.value, r.value) for r in Role], default=Role.READER.value)
    given = models.BooleanField(default=False)
    """Whether their password is one that an owner thought of: they choose their own before anything else."""

    def __str__(self) -> str:
        """Account and role."""
        return f"{self.user} ({self.role})"


class Deed(models.Model):
    """One line of who did what: kept as a code with its parameters, in whatever language it is read later."""

    doing = models.CharField(max_length=24)
    who = models.CharField(max_length=150)
    """Name of the account; empty where nobody was in."""
    place = models.CharField(max_length=64)
    parameters = models.JSONField(default=dict)
    times = models.PositiveIntegerField(default=1)
    """How often, where the same is counted together."""
    began = models.DateTimeField(auto_now_add=True)
    when = models.DateTimeField(db_index=True)
    """The last time."""

    class Meta:
        """Newest first."""

        ordering = ("-when", "-pk")
        indexes = (models.Index(fields=("doing",), name="deeds_by_doing"),)

    def __str__(self) -> str:
        """Who and what."""
        return f"{self.who} {self.doing}"


class Second(models.Model):
    """The second step of somebody's sign-in: the secret that their phone shares, and the hashes of codes kept on paper."""

    user = models.OneToOneField(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="second")
    secret = models.CharField(max_length=64)
    since = models.DateTimeField(null=True)
    """When it was proved; until then nothing is asked for."""
    last_step = models.BigIntegerField(default=0)
    """Number of the last time step whose code was taken; none up to it is taken again."""
    recovery = models.JSONField(default=list)

    def __str__(self) -> str:
        """Account."""
        return f"second step of {self.user}"
