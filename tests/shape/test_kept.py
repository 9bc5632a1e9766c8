"""What is kept one by one though it is found for many at once."""

import threading

from drafting.shape.kept import each_kept


def made(most):
    asked = []

    def find(keys):
        asked.append(list(keys))
        return [k * k for k in keys]

    return each_kept(most)(find), asked


def test_only_what_is_not_known_is_found_in_one_go_and_in_order():
    squares, asked = made(10)
    assert squares([3, 1, 3]) == [9, 1, 9]
    assert squares([2, 1, 5]) == [4, 1, 25]
    assert squares([]) == []
    assert asked == [[3, 1], [2, 5]]


def test_what_was_used_last_stays():
    squares, asked = made(3)
    squares([1, 2, 3])
    squares([1])
    squares([4])
    asked.clear()
    squares([1, 3, 4])
    assert asked == []
    squares([2])
    assert asked == [[2]]


def test_more_than_is_kept_still_comes_whole():
    squares, _ = made(2)
    assert squares(range(9)) == [k * k for k in range(9)]


def test_it_forgets():
    squares, asked = made(3)
    squares([1])
    squares.cache_clear()
    squares([1])
    assert asked == [[1], [1]]


def test_many_threads_at_once_get_what_is_theirs():
    squares, _ = made(5)
    wrong = []

    def ask(start):
        for k in range(start, start + 200):
            if squares([k, k % 7]) != [k * k, (k % 7) ** 2]:
                wrong.append(k)

    threads = [threading.Thread(target=ask, args=(n,)) for n in range(4)]
    for t in threads:
        t.start()
    for t in threads:
        t.join()
    assert wrong == []
