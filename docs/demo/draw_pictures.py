"""Draw the demo job's photos anew: python -m docs.demo.draw_pictures

Each shows the part of its name as it came off, so that its which way can be seen in the picture.
"""

import sys
from collections.abc import Callable
from pathlib import Path

from docs.demo import engine, flat, turned
from docs.demo.bench import Bench

FOLDER = Path(__file__).parents[2] / "resources" / "demo" / "photos"
PAIR = [(430.0, 410.0), (770.0, 410.0)]
FOUR = [(300.0, 410.0), (500.0, 410.0), (700.0, 410.0), (900.0, 410.0)]
PICTURES: dict[str, Callable[[Bench], None]] = {
    "handlebar-column": engine.column,
    "silencer": engine.silencer,
    "carburettor": engine.carburettor,
    "main-jet": lambda b: turned.jet(b, "on its shoulder", hexagon=True),
    "insulator-block": engine.insulator,
    "domed-washer": turned.domed_washer,
    "flywheel": engine.flywheel,
    "flywheel-key": engine.key,
    "rocker-inlet": lambda b: engine.rocker(b, 1),
    "rocker-exhaust": lambda b: engine.rocker(b, 2),
    "push-rods": turned.push_rods,
    "valve-springs": lambda b: turned.springs(b, PAIR, True, "close coils down"),
    "valve-exhaust": lambda b: turned.valve(b, "exhaust, 2nd from the flywheel side"),
    "cylinder-head": flat.cylinder_head,
    "head-gasket": flat.gasket,
    "cylinder-barrel": flat.barrel,
    "piston-rings": turned.piston_rings,
    "pin-circlips": turned.pin_circlips,
    "piston": engine.piston,
    "crankcase-cover": lambda b: flat.cover(b, 8, 2, "filler to the handlebar end", "filler"),
    "dowels": turned.dowels,
    "camshaft": engine.camshaft,
    "rod-cap": engine.rod_cap,
    "connecting-rod": engine.rod,
    "oil-seal": turned.seal,
    "crankshaft": engine.crankshaft,
    "main-bearing-left": lambda b: turned.in_bore(b, "flywheel side: sealed side", True),
    "main-bearing-right": lambda b: turned.in_bore(b, "clutch side: open, stamped side out", False),
    "clutch-cover": lambda b: flat.cover(b, 6, 0, "lever to the handlebar end", "lever"),
    "clutch-springs": lambda b: turned.springs(b, FOUR, False, "four, all alike"),
    "pressure-plate": flat.pressure_plate,
    "steel-plates": flat.steel_plates,
    "tab-washer": flat.tab_washer,
    "clutch-drum": flat.clutch_drum,
    "gearbox-cover": lambda b: flat.cover(b, 10, 7, "level plug to the clutch side"),
    "detent": turned.detent,
    "fork-rail": flat.fork_rail,
    "fork-r": lambda b: flat.forks(b, "R", "R, 3rd of 3, C to the clutch side"),
    "fork-middle": lambda b: flat.forks(b, "middle", "2nd of 3, C to the clutch side"),
    "fork-l": lambda b: flat.forks(b, "L", "L, 1st of 3, C to the clutch side"),
    "shift-drum": flat.shift_drum,
    "circlip": turned.circlip,
    "splined-washer": turned.splined_washer,
    "second-gear": turned.second_gear,
    "input-shaft": lambda b: turned.shaft(b, "splines this end"),
    "oil-jet": lambda b: turned.jet(b, "bottomed", hexagon=False),
    "retainer-input": lambda b: flat.retainer(b, 3, "input bearing, OUT shows"),
    "bearing-input": lambda b: turned.in_bore(b, "sealed side shows, flywheel side", True),
    "retainer-output": lambda b: flat.retainer(b, 2, "output bearing, OUT shows"),
    "bearing-output": lambda b: turned.in_bore(b, "snap ring groove, clutch side", False, True),
}


def main() -> None:
    FOLDER.mkdir(parents=True, exist_ok=True)
    wanted = sys.argv[1:] or list(PICTURES)
    for number, name in enumerate(wanted):
        bench = Bench(("wood", "mat", "rag", "card")[number % 4], seed=number)
        PICTURES[name](bench)
        bench.save(FOLDER / f"{name}.jpg")


if __name__ == "__main__":
    main()
