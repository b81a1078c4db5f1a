"""The solver behind its door: a programme small enough to solve on paper."""

from rodbook.boards.tools.linear import Growing, Programme


def diet():
    # least 3a + 2b with a + b >= 4, a + 3b >= 6, a <= 3: at a = 3, b = 1 it is 11; at a = 0, b = 4 it is 8, the least
    programme = Programme()
    a, b = programme.column(3.0, 3.0), programme.column(2.0)
    programme.row([(a, 1.0), (b, 1.0)], lower=4.0)
    programme.row([(a, 1.0), (b, 3.0)], lower=6.0)
    return programme


def test_values_and_duals():
    solved = diet().solve()
    assert solved is not None
    assert solved.optimal
    assert [round(value, 6) for value in solved.values] == [0, 4]
    # one more of the first demand costs 2, of the second nothing
    assert [round(dual, 6) for dual in solved.duals] == [2, 0]


def test_whole_numbers():
    programme = Programme()
    x = programme.column(1.0)
    programme.row([(x, 2.0)], lower=5.0)
    parts, whole = programme.solve(), programme.solve(whole=True)
    assert parts is not None
    assert whole is not None
    assert (round(parts.objective, 6), round(whole.objective, 6)) == (2.5, 3)


def test_no_solution():
    programme = Programme()
    x = programme.column(1.0, 1.0)
    programme.row([(x, 1.0)], lower=2.0)
    assert programme.solve() is None
    assert programme.solve(whole=True) is None


def test_growing():
    growing = Growing(diet())
    before = growing.solve()
    growing.column(1.0, [(0, 1.0), (1, 1.0)])
    after = growing.solve()
    assert before is not None
    assert after is not None
    # three of the new variable and one b serve both demands: 3 + 1 = 4, 3 + 3 = 6, at 3·1 + 1·2 = 5
    assert round(before.objective, 6) == 8
    assert round(after.objective, 6) == 5
