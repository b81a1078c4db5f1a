"""Passwords are checked a few at once, and not many tries from one place."""

import threading

import pytest

from rodbook.desk.platform.turnstile import AT_ONCE, MOST_TRIES, TRIES_KNOWN, WINDOW, Refused, Turnstile, place_of


class Time:
    now = 0.0

    def __call__(self):
        return self.now


def test_few_checks_run_at_once_and_those_who_come_too_many_are_told():
    turnstile, running, most, refused = Turnstile(), 0, 0, 0
    lock, begin = threading.Lock(), threading.Barrier(64)

    def try_once(n):
        nonlocal running, most, refused
        begin.wait()
        try:
            with turnstile.passed(f"place {n % 40}"):
                with lock:
                    running += 1
                    most = max(most, running)
                threading.Event().wait(0.02)
                with lock:
                    running -= 1
        except Refused:
            with lock:
                refused += 1

    threads = [threading.Thread(target=try_once, args=(n,)) for n in range(64)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert 1 <= most <= AT_ONCE
    assert refused >= 64 - 2 * 8  # six at a time; some come when others are done
    with turnstile.passed("place 0"):
        pass


def test_one_place_does_not_fill_the_line():
    turnstile, waited = Turnstile(), threading.Event()

    def wait():
        with turnstile.passed("one"):
            waited.set()

    with turnstile.passed("one"):
        second = threading.Thread(target=wait, daemon=True)
        second.start()
        while turnstile._in_line[False].count("one") < 2:
            threading.Event().wait(0.005)
        with pytest.raises(Refused), turnstile.passed("one"):
            pass
        with turnstile.passed("browser", known=True):  # has a line of its own
            pass
    second.join(10)
    assert waited.is_set()


@pytest.mark.parametrize(("known", "most"), [(False, MOST_TRIES), (True, TRIES_KNOWN)])
def test_wrong_tries_are_counted_by_place_for_a_while(known, most):
    clock = Time()
    turnstile = Turnstile(clock)
    for _ in range(most):
        with turnstile.passed("there", known=known):
            turnstile.wrong("there")
        clock.now += 1
    with pytest.raises(Refused) as refused, turnstile.passed("there", known=known):
        pass
    assert refused.value.seconds == pytest.approx(WINDOW - most, abs=1.5)
    with turnstile.passed("elsewhere", known=known):
        pass
    clock.now += WINDOW
    with turnstile.passed("there", known=known):
        turnstile.right("there")


def test_places_are_households_not_machines():
    assert place_of("2001:db8:1:2:3::4") == place_of("2001:db8:1:2::9") != place_of("2001:db8:1:3::9")
    assert place_of("::ffff:192.0.2.1") == "192.0.2.1"
    assert place_of("no address") == "nowhere"
