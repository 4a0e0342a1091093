"""What the tests of the picture look at it with."""

from hypothesis import strategies as st

from bagtag.domain.picture import Text

NEAR = 1e-6
ASPECTS = st.none() | st.floats(0.9, 5)


def only(picture, kind):
    return [item for item in picture.items if isinstance(item, kind)]


def words(picture):
    return [text.text for text in only(picture, Text)]


def overlap(a, b):
    return min(a[2], b[2]) - max(a[0], b[0]) > NEAR and min(a[3], b[3]) - max(a[1], b[1]) > NEAR


def inside(bounds, left, top, right, bottom):
    return (
        bounds[0] >= left - NEAR
        and bounds[1] >= top - NEAR
        and bounds[2] <= right + NEAR
        and bounds[3] <= bottom + NEAR
    )


def way(arrow):
    """Which way an arrow points: -1, 0 or 1 across and down."""
    dx, dy = arrow.x2 - arrow.x1, arrow.y2 - arrow.y1
    return (dx > NEAR) - (dx < -NEAR), (dy > NEAR) - (dy < -NEAR)
