"""What is held: steps whose place is later than their log place, because of what they wait for."""

from bagtag.domain.order_net import Circular, Edge, Net


def held(net: Net) -> tuple[dict[int, int], dict[int, Edge]]:
    """Of each held node its place, and the tie that holds it there.

    A place is some step's log place, handed on unchanged from what is waited for to what waits.
    Taken from the latest down, the first that reaches a node is therefore its place, and each node
    is reached once. Circular when a step comes to wait for itself.
    """
    places: dict[int, int] = {}
    by: dict[int, Edge] = {}
    waits = [edge for edge in net.against if edge[2]]
    for edge in sorted([*waits, *net.late_openers], key=_latest_first):
        _hand_on(net, edge, places, by)
    return places, by


def _latest_first(edge: Edge) -> int:
    return -edge[0]


def _hand_on(net: Net, first: Edge, places: dict[int, int], by: dict[int, Edge]) -> None:
    place, open_ = first[0], [first]
    for edge in open_:
        node = edge[1]
        if node == place and node not in places:
            raise Circular
        if node < place and node not in places:
            places[node], by[node] = place, edge
            open_ += net.out_of(node)
