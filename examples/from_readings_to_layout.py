# ---
# jupyter:
#   jupytext:
#     text_representation:
#       extension: .py
#       format_name: percent
#   kernelspec:
#     display_name: Python 3
#     language: python
#     name: python3
# ---

# %% [markdown]
# # From readings to a layout
#
# Four linen cupboards on a landing, measured on one afternoon. This notebook takes the readings as they were written
# down, asks what they say of each opening, looks at one reading again, and goes on to sizes, parts and the picture of
# a sheet with its cuts in order.
#
# The job is invented, and so is the firm whose book it uses.

# %%
import datetime

import rodbook

book = rodbook.sample_book()
book

# %% [markdown]
# ## The readings
#
# Widths are at foot, middle and head, heights at left, middle and right; everything is in millimetres. The diagonals
# check the rest: the first goes from foot left to head right. What else was read, a plumb line or a level, stands in
# `readings`.

# %%
openings = [
    {
        "mark": "L1",
        "room": "landing, by the stair",
        "leaves": 2,
        "widths": [842, 843, 843],
        "heights": [2031, 2030, 2030],
        "diagonals": [2199, 2196],
        "readings": {"plumb-left": 2, "level-floor": -1},
    },
    {
        "mark": "L2",
        "room": "landing, by the stair",
        "leaves": 2,
        "widths": [845, 844, 846],
        "heights": [2029, 2029, 2031],
        "diagonals": [2198, 2200],
        "readings": {"plumb-left": -1, "level-floor": 1},
    },
    {
        "mark": "L3",
        "room": "landing, north wall",
        "leaves": 2,
        "widths": [841, 841, 842],
        "heights": [2032, 2031, 2031],
        "diagonals": [2199, 2199],
        "readings": {"plumb-left": 0, "level-floor": 0},
    },
    {
        "mark": "L4",
        "room": "landing, north wall",
        "leaves": 1,
        "hand": "left",
        "widths": [472, 473, 473],
        "heights": [2030, 2030, 2029],
        "diagonals": [2094, 2085],
        "readings": {"plumb-left": 1, "plumb-right": 1, "level-floor": 0, "level-head": 0},
    },
]
header = {"name": "Linen cupboards, landing", "date": datetime.date(2026, 11, 2), "build_up": "inset, painted"}


def landing(openings):
    """The job with these openings."""
    return rodbook.make_job({"job": header, "openings": openings}, book)


landing(openings)

# %% [markdown]
# `make_job` looks at it as at a file: whatever is wrong comes at once, each fault with its place. A width that lost
# its last figure, for example:

# %%
slip = [{**openings[0], "widths": [84, 843, 843]}, *openings[1:]]
try:
    landing(slip)
except rodbook.InputError as error:
    for fault in error.faults:
        print(fault)

# %% [markdown]
# ## What the readings say together
#
# A reading may be a likely one and still not go with the others. The plan surveys every opening; its sentences say
# what was assumed, what nothing checks, and which reading to take again.

# %%
plan = rodbook.plan_job(landing(openings), book, seconds=1)
for one in plan.openings:
    print(one.opening.mark)
    for sentence in one.survey.sentences:
        print("   ", sentence)

# %% [markdown]
# The first diagonal of L4 does not go with the rest, and what it may have been is said with it. It was read again on
# the next day.

# %%
openings[3]["diagonals"] = [2084, 2085]
plan = rodbook.plan_job(landing(openings), book, seconds=1, outlook=True)
plan

# %% [markdown]
# ## One size and how it came about
#
# Three of the openings differ by a few millimetres, and share a size: the packers take up what is left.

# %%
for one in plan.openings:
    width = one.set_out.outer_width
    print(one.opening.mark, "size", one.size, "-", width.working())

# %% [markdown]
# The front of the first, drawn to scale:

# %%
rodbook.draw_opening(plan, "L1")

# %% [markdown]
# ## Parts
#
# `plan.parts` are plain records, as a data frame takes them. Here they are counted by the board or section that they
# come from:

# %%
pieces = {}
for part in plan.parts:
    pieces[part["stock"]] = pieces.get(part["stock"], 0) + part["quantity"]
pieces

# %% [markdown]
# ## Layouts
#
# Every board is laid out, whether it is cut on site or, for comparison, by the workshop. A layout has its number over
# the whole job.

# %%
for number, material, layout in plan.layouts():
    print(f"layout {number}: {layout.count} x {layout.sheet}, {material.maker.value}, {len(layout.placed)} pieces")

# %% [markdown]
# And this is the first, with its cuts numbered in the order in which they are made. What is hatched is left over.

# %%
rodbook.draw_layout(plan, 1)

# %% [markdown]
# `rodbook.write_papers(plan, "papers")` would now write all papers of the job into a folder, and
# `rodbook.price_job(plan)` its price.
