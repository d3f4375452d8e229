"""QR codes of addresses for the screen (ISO/IEC 18004, error correction M)."""


def qr_svg(text: str) -> str:
    """An SVG element that fills its room; dark on light in every theme, or it cannot be read."""
    import segno

    title = f"QR code: {text}"
    return str(
        segno.make_qr(text, error="m").svg_inline(
            border=4, dark="#000", light="#fff", omitsize=True, title=title, svgclass=None, lineclass=None
        )
    )
