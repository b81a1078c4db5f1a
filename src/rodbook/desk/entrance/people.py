"""Accounts of a shared desk: made, given a role, shut. There is always an owner left who can come in."""

from __future__ import annotations

from django.contrib.auth import HASH_SESSION_KEY, SESSION_KEY, get_user_model
from django.contrib.auth.models import AbstractUser
from django.contrib.auth.password_validation import validate_password
from django.contrib.auth.validators import UnicodeUsernameValidator
from django.contrib.sessions.models import Session
from django.core.exceptions import ValidationError
from django.db import transaction
from django.db.models import QuerySet
from django.utils import timezone

from rodbook.desk.entrance.second_step import switch_off
from rodbook.desk.models import Person, Role
from rodbook.errors import Fault, InputError

__all__ = [
    "add_person",
    "end_sessions",
    "everybody",
    "sessions_of",
    "set_active",
    "set_password",
    "set_role",
    "take_second_off",
]

LONGEST_NAME = 80


def everybody() -> QuerySet[Person]:
    """Everybody with an account, by name."""
    return Person.objects.select_related("user").order_by("user__username")


def _password_faults(password: str, user: AbstractUser) -> list[Fault]:
    try:
        validate_password(password, user)
    except ValidationError as error:
        return [Fault("password", "form.said", text=" ".join(error.messages).rstrip("."))]
    return []


def _role(role: str) -> Role | None:
    return next((known for known in Role if known.value == role), None)


def add_person(name: str, role: str, password: str, *, given: bool = False) -> Person:
    """Make an account.

    Parameters
    ----------
    name : str
        What they sign in with, and what revisions are signed with.
    role : str
        "owner", "maker" or "reader".
    password : str
        Their first one.
    given : bool
        Whether somebody else thought of it: then it lets them in to choose their own, and no further.

    Raises
    ------
    InputError
        With every fault: a name that is taken or can't be one, an unknown role, a password that is too weak.
    """
    name = name.strip()
    accounts = get_user_model()
    faults: list[Fault] = []
    try:
        UnicodeUsernameValidator()(name)
    except ValidationError:
        faults.append(Fault("name", "form.not_a_name"))
    if len(name) > LONGEST_NAME:
        faults.append(Fault("name", "form.too_long", most=LONGEST_NAME))
    if accounts.objects.filter(username__iexact=name).exists():
        faults.append(Fault("name", "desk.account_there_already", name=name))
    known = _role(role)
    if known is None:
        faults.append(Fault("role", "form.no_role"))
    user = accounts(username=name)
    faults += _password_faults(password, user)
    if faults or known is None:
        raise InputError(faults)
    user.set_password(password)
    with transaction.atomic():
        user.save()
        return Person.objects.create(user=user, role=known.value, given=given)


def _refuse_without_owner(person: Person) -> None:
    """Refuse to leave the desk without an owner who can come in."""
    others = Person.objects.filter(role=Role.OWNER.value, user__is_active=True).exclude(pk=person.pk)
    if person.role == Role.OWNER and person.user.is_active and not others.exists():
        raise InputError.at("role", "desk.only_owner", user=person.user.get_username())


def set_role(person: Person, role: str) -> None:
    """Give somebody another role.

    Raises
    ------
    InputError
        If there is no such role, or if no owner would be left.
    """
    known = _role(role)
    if known is None:
        raise InputError.at("role", "form.no_role")
    with transaction.atomic():
        if known is not Role.OWNER:
            _refuse_without_owner(person)
        person.role = known.value
        person.save(update_fields=["role"])


def set_active(person: Person, *, active: bool) -> None:
    """Shut an account, which ends every session of it at once, or open it again.

    Raises
    ------
    InputError
        If no owner would be left.
    """
    with transaction.atomic():
        if not active:
            _refuse_without_owner(person)
        person.user.is_active = active
        person.user.save(update_fields=["is_active"])
        if not active:
            _end_sessions(person.user)


def _end_sessions(user: AbstractUser) -> None:
    """End every session of an account for good: opened again, it asks for the password again."""
    for session in Session.objects.all():
        if session.get_decoded().get(SESSION_KEY) == str(user.pk):
            session.delete()


def take_second_off(person: Person) -> None:
    """Ask somebody for no second step any more, and end every session of theirs: the phone that is lost may hold one.

    Raises
    ------
    InputError
        If none is asked for.
    """
    with transaction.atomic():
        if not switch_off(person.user):
            raise InputError.at("second", "desk.no_second_step", user=person.user.get_username())
        _end_sessions(person.user)


def set_password(user: AbstractUser, password: str, *, given: bool = False) -> None:
    """Give an account another password, which ends its other sessions.

    Parameters
    ----------
    user : AbstractUser
    password : str
    given : bool
        As for `add_person`.

    Raises
    ------
    InputError
        If the password is too weak, or is the one that they were given and have to change.
    """
    faults = _password_faults(password, user)
    if not given and Person.objects.filter(user=user, given=True).exists() and user.check_password(password):
        faults.append(Fault("password", "form.password_as_given"))
    if faults:
        raise InputError(faults)
    user.set_password(password)
    with transaction.atomic():
        user.save(update_fields=["password"])
        Person.objects.filter(user=user).update(given=given)


def sessions_of(user: AbstractUser) -> list[tuple[str, int]]:
    """Sessions of an account that can still be used: each one's key and when it began, in seconds since 1970; newest first."""
    results = []
    for session in Session.objects.filter(expire_date__gt=timezone.now()):
        answer = session.get_decoded()
        if answer.get(SESSION_KEY) == str(user.pk) and answer.get(HASH_SESSION_KEY) == user.get_session_auth_hash():
            results.append((session.session_key, int(answer.get("began", 0))))
    return sorted(results, key=lambda one: -one[1])


def end_sessions(user: AbstractUser, *, but: str) -> int:
    """End every session of an account but one; how many."""
    keys = [key for key, _ in sessions_of(user) if key != but]
    Session.objects.filter(session_key__in=keys).delete()
    return len(keys)
