"""The few colours and the face of figures and reports, day and night.

Figures are drawn with the day values; templates/report.html swaps each for its night value on a dark screen.
"""

INK, INK_NIGHT = "#2b1d13", "#f2eadc"
QUIET, QUIET_NIGHT = "#66533f", "#bcac98"
HAIRLINE, HAIRLINE_NIGHT = "#d8ccb8", "#3d332b"
PAPER, PAPER_NIGHT = "#faf6ef", "#1b1613"
WASH, WASH_NIGHT = "#efe6d6", "#262019"
ACCENT, ACCENT_NIGHT = "#1f5f6b", "#7cc3cc"

# The first is inside the typesetter; a screen takes the first one it has.
FACE = "Libertinus Serif, Iowan Old Style, Palatino Linotype, Georgia, serif"
