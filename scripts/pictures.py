"""Remakes the pictures in docs/pictures from a sample job: pages of real papers, as the program makes them."""

from __future__ import annotations

from pathlib import Path

from rodbook.job.files import parse_book, parse_job, sample_book_text, sample_text
from rodbook.papers import paper_png
from rodbook.plan import make_plan

PICTURES = Path(__file__).parent.parent / "docs" / "pictures"

PAGES = {
    "workshop-order": ("workshop-order", 3),
    "openings": ("openings", 1),
    "working": ("parts-schedule", 3),
    "layouts": ("layouts", 3),
    "survey": ("survey", 3),
}
"""File names, and the paper and page that each shows."""


def main() -> None:
    """Plan the sample and write the pictures."""
    book = parse_book(sample_book_text())
    plan = make_plan(parse_job(sample_text("converted-store"), book), book)
    PICTURES.mkdir(parents=True, exist_ok=True)
    for name, (paper, page) in PAGES.items():
        (PICTURES / f"{name}.png").write_bytes(paper_png(plan, paper, page, ppi=100))


if __name__ == "__main__":
    main()
