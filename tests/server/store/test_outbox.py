from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta

from server.store import Store
from server.store.outbox import LEASE
from tests.requests import NOW, asked

MINUTE = timedelta(minutes=1)


def put(store: Store, *numbers: int, ways=("mail",)) -> None:
    for number in numbers:
        store.requests.put(asked(number), ways, f"address {number}", NOW)


def test_each_way_has_a_letter_of_its_own_with_a_key_of_its_own(store):
    put(store, 1, ways=("mail", "webhook"))

    mail, hook = store.outbox.claim("mail", NOW), store.outbox.claim("webhook", NOW)

    assert mail.request == hook.request
    assert mail.request.asked == asked(1)
    assert mail.key != hook.key


def test_a_letter_is_one_callers_until_its_lease_ends(store):
    put(store, 1)
    first = store.outbox.claim("mail", NOW)

    assert store.outbox.claim("mail", NOW + LEASE - MINUTE) is None
    again = store.outbox.claim("mail", NOW + LEASE)
    assert (again.key, again.tries) == (first.key, 2)
    assert again.claim != first.claim


def test_who_lost_the_claim_changes_nothing_any_more(store):
    put(store, 1)
    late = store.outbox.claim("mail", NOW)
    store.outbox.claim("mail", NOW + LEASE)

    assert not store.outbox.failed(late, "why", NOW)
    assert not store.outbox.sent(late, NOW)
    assert len(store.outbox.waiting()) == 1


def test_what_was_told_is_not_told_again(store):
    put(store, 1)

    assert store.outbox.sent(store.outbox.claim("mail", NOW), NOW)
    assert store.outbox.claim("mail", NOW + 99 * LEASE) is None
    assert store.outbox.waiting() == ()
    assert store.outbox.next_due("mail") is None


def test_what_failed_is_tried_when_it_is_due_and_says_why(store):
    put(store, 1)
    store.outbox.failed(store.outbox.claim("mail", NOW), "no answer" * 100, NOW + MINUTE)

    (waiting,) = store.outbox.waiting()
    assert (waiting.tries, waiting.due, waiting.since, waiting.why[:9]) == (1, NOW + MINUTE, NOW, "no answer")
    assert store.outbox.next_due("mail") == NOW + MINUTE
    assert store.outbox.claim("mail", NOW) is None
    assert store.outbox.claim("mail", NOW + MINUTE) is not None


def test_the_next_that_is_due_is_known_though_it_is_claimed(store):
    put(store, 1)
    store.outbox.claim("mail", NOW)

    assert store.outbox.next_due("mail") == NOW + LEASE
    assert store.outbox.next_due("webhook") is None


def test_many_who_claim_at_one_moment_each_have_another(store):
    put(store, *range(10, 18))

    with ThreadPoolExecutor(8) as eight:
        claimed = list(eight.map(lambda _: store.outbox.claim("mail", NOW), range(8)))

    ids = [letter.id for letter in claimed if letter]
    assert len(ids) == len(set(ids)) > 0
    rest = [store.outbox.claim("mail", NOW) for _ in range(8 - len(ids))]
    assert len({*ids, *(letter.id for letter in rest)}) == 8
    assert store.outbox.claim("mail", NOW) is None


def test_what_another_process_claimed_is_not_claimed_here(store, address):
    put(store, 1)
    with Store(address) as other:
        assert other.outbox.claim("mail", NOW) is not None
    assert store.outbox.claim("mail", NOW) is None
