"""The paper of sizes."""

from rodbook.papers.sizes.content import sizes_content
from rodbook.plan.analyses.trade_off import sizes_traded


def test_each_number_of_sizes_stands_with_what_it_packs(plan_of, text_of):
    plan = plan_of("converted-store")
    (found,) = sizes_traded(plan)
    (block,) = sizes_content(plan).content["blocks"]
    assert [row[0] for row in block["rows"]] == [str(trade.number) for trade in found.trades]
    assert [row[5] for row in block["rows"]].index("as many as this job") == [t.number for t in found.trades].index(
        found.now
    )
    assert [float(row[1]) for row in block["rows"]] == [round(t.choice.packing_mm, 1) for t in found.trades]
    (page,) = text_of("converted-store", "sizes")
    assert "More sizes, thinner packers" in page


def test_the_table_names_every_opening_once(plan_of):
    plan = plan_of("converted-store")
    rows = sizes_content(plan).content["rows"]
    named = [mark for row in rows for mark in row[3].split(", ")]
    assert sorted(named) == sorted(entry.opening.mark for entry in plan.openings if entry.size is not None)


def test_where_nothing_stands_it_says_so(plan_of, text_of):
    assert sizes_traded(plan_of("timber-house")) == ()
    (page,) = text_of("timber-house", "sizes")
    assert "No opening stands yet" in page
