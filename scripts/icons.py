"""Draw the desk's icons for a home screen from its mark: the same mark, smaller, on a ground without rounded corners."""

from pathlib import Path

import typst

FOLDER = Path(__file__).resolve().parent.parent / "src" / "rodbook" / "desk" / "static" / "desk"


def main() -> None:
    """Write icon-192.png and icon-512.png."""
    page = (
        '#set page(width: 96pt, height: 96pt, margin: 0pt, fill: rgb("#e9dfc9"))\n'
        '#place(center + horizon, image("mark.svg", width: 80pt))'
    )
    source = FOLDER / "icon.typ"
    source.write_text(page, "utf-8")
    try:
        for size in (192, 512):
            (FOLDER / f"icon-{size}.png").write_bytes(typst.compile(source, format="png", ppi=72 * size / 96))
    finally:
        source.unlink()


if __name__ == "__main__":
    main()
