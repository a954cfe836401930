"""The reliability diagram: how sure against how often true, with the count of each bin."""


def reliability_diagram(bins, ece, count):
    """`bins`: (lower end, count, mean confidence, share true)."""
    size, left, top = 360, 60, 40

    def x(v):
        return left + size * v

    def y(v):
        return top + size * (1 - v)
    out = ['<svg xmlns="http://www.w3.org/2000/svg" width="480" height="470" font-family="sans-serif" font-size="12">',
           '<rect width="480" height="470" fill="white"/>',
           '<text x="%d" y="24">%d causes said; expected calibration error %.4f</text>' % (left, count, ece),
           '<rect x="%d" y="%d" width="%d" height="%d" fill="none" stroke="black"/>' % (left, top, size, size),
           '<line x1="%d" y1="%d" x2="%d" y2="%d" stroke="gray" stroke-dasharray="4"/>' % (x(0), y(0), x(1), y(1))]
    for at in range(0, 11, 2):
        v = at / 10
        out.append('<text x="%d" y="%d" text-anchor="middle">%.1f</text>' % (x(v), y(0) + 16, v))
        out.append('<text x="%d" y="%d" text-anchor="end">%.1f</text>' % (x(0) - 6, y(v) + 4, v))
    for low, own, confidence, true in bins:
        out.append('<circle cx="%.1f" cy="%.1f" r="4" fill="black"/>' % (x(confidence), y(true)))
        out.append('<text x="%.1f" y="%.1f" font-size="10">%d</text>' % (x(confidence) + (6 if confidence < 0.9 else -34), y(true) + 14, own))
    out.append('<text x="%d" y="%d" text-anchor="middle">how sure (mean of the bin)</text>' % (x(0.5), y(0) + 36))
    out.append('<text transform="translate(18 %d) rotate(-90)" text-anchor="middle">share true</text>' % y(0.5))
    out.append("</svg>")
    return "\n".join(out) + "\n"
