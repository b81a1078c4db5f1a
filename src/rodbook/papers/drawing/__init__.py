"""How it is drawn: lines, dimensions, hatching, lettering and scales, and the picture as SVG."""
