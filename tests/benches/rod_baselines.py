#!/usr/bin/env python3
"""The lie beside general libraries, on the same spans and the same machine.

Runs `cargo bench --bench lie` (or reads its output from a file given as argument), makes a virtual
environment in a temporary folder, installs numpy, scipy and pyelastica from the package registry,
and solves the first spans that the bench prints with

  scipy  `solve_bvp`, tol 1e-6, on the equations of the untwisted rod, begun from the bench's own
         answer disturbed by 2 % (kinder than a cold start);
  pyelastica, a damped-dynamics rod of 32 pieces, begun likewise, until its bending energy rests.

Prints time, ratio and how far energy and tightest radius are off the bench's own, which are checked
against tests/reference, not here.
"""

import json
import subprocess
import sys
import tempfile
import venv
from pathlib import Path

PACKAGES = ["numpy", "scipy", "pyelastica"]
SPANS = 6


def bench_output():
    if len(sys.argv) > 1:
        return Path(sys.argv[1]).read_text()
    root = Path(__file__).resolve().parents[2]
    done = subprocess.run(
        ["cargo", "bench", "--bench", "installed", "--", "span_cold"],
        cwd=root, capture_output=True, text=True, check=True,
    )
    return done.stdout


def main():
    text = bench_output()
    spans = [line[5:] for line in text.splitlines() if line.startswith("SPAN ")][:SPANS]
    if not spans:
        sys.exit("the bench printed no spans")
    print("\n".join(line for line in text.splitlines() if line.startswith(("of ", "cold", "warm"))))
    with tempfile.TemporaryDirectory() as folder:
        venv.create(folder, with_pip=True)
        python = str(Path(folder) / "bin" / "python")
        subprocess.run([python, "-m", "pip", "install", "-q", *PACKAGES], check=True)
        code = Path(__file__).read_text()
        subprocess.run(
            [python, "-c", code + "\n\ncompare()\n"], input="\n".join(spans), text=True, check=True,
            env={"ROD_BASELINES_INSIDE": "1", "PATH": "/usr/bin:/bin"},
        )


def compare():
    """Runs inside the environment; the spans come on standard input."""
    import statistics

    rows = {"scipy solve_bvp 1e-6": [], "pyelastica, 32 pieces": []}
    for line in sys.stdin:
        span = json.loads(line)
        for name, solve in zip(rows, (by_collocation, by_damping)):
            seconds, energy, radius = solve(span)
            rows[name].append((seconds * 1e6 / span["us"], seconds,
                               energy / span["energy"] - 1, radius / span["radius"] - 1))
    for name, found in rows.items():
        ratio = statistics.median(r for r, *_ in found)
        seconds = statistics.median(s for _, s, *_ in found)
        energies = sorted(abs(e) for *_, e, _ in found)
        radii = sorted(abs(r) for *_, r in found)
        middle = len(found) // 2
        print(f"{name}: median {seconds * 1e3:.2f} ms a span, {ratio:.0f} times ours; "
              f"off ours by {energies[middle]:.1e} in energy (worst {energies[-1]:.1e}) and "
              f"{radii[middle]:.1e} in radius (worst {radii[-1]:.1e})")


def by_collocation(span):
    """Place, tangent and moment (its part along the tangent is 0) along the line, the force unknown:
    t' = m x t, m' = F x t with the force's sign of the bench."""
    import time

    import numpy as np
    from scipy.integrate import solve_bvp

    length = span["length"]
    s = np.linspace(0, 1, len(span["points"]))
    p, t = np.array(span["points"]).T / length, np.array(span["tangents"]).T
    slope = np.gradient(t, s, axis=1)
    m = np.cross(t.T, slope.T).T
    wave = 1 + 0.02 * np.sin(3 * np.pi * s)
    force = np.array(span["force"]) * length ** 2 * 1.02
    to, t0, t1 = (np.array(span[k]) for k in ("to", "t0", "t1"))

    def rate(_, y, f):
        tangent, moment = y[3:6], y[6:9]
        return np.vstack([tangent, np.cross(moment.T, tangent.T).T,
                          np.cross(f, tangent.T).T])

    # The end's direction has two parts that count.
    side = np.linalg.svd(t1.reshape(1, 3))[2][1:]

    def ends(a, b, f):
        return np.concatenate([a[:3], a[3:6] - t0, [a[6:9] @ a[3:6]], b[:3] - to / length,
                               side @ b[3:6]])

    start = np.vstack([p * wave, t * wave, m * wave])
    begun = time.perf_counter()
    for sign in (-1, 1):
        done = solve_bvp(rate, ends, s, start, p=sign * force, tol=1e-6, max_nodes=20000)
        if done.success:
            break
    seconds = time.perf_counter() - begun
    fine = np.linspace(0, 1, 4001)
    k = np.linalg.norm(done.sol(fine)[6:9], axis=0)
    energy = np.trapezoid(k ** 2, fine) / length
    return seconds, energy, length / k.max()


def by_damping(span):
    import time

    import elastica as ea
    import numpy as np

    class System(ea.BaseSystemCollection, ea.Constraints, ea.Damping):
        pass

    pieces, length = 32, span["length"]
    nodes = np.array(span["points"])
    own = np.linspace(0, 1, len(nodes))
    at = np.linspace(0, 1, pieces + 1)
    place = np.array([np.interp(at, own, nodes[:, i]) for i in range(3)]) / length
    bulge = 0.01 * np.sin(np.pi * at) ** 2
    place += bulge * np.array(span["t0"])[:, None]
    place[:, 1] = place[:, 0] + np.array(span["t0"]) / pieces
    place[:, -2] = place[:, -1] - np.array(span["t1"]) / pieces
    edges = np.diff(place, axis=1)
    ways = edges / np.linalg.norm(edges, axis=0)
    frames = np.zeros((3, 3, pieces))
    normal = np.cross(ways[:, 0], [0.3, 0.5, 0.8])
    for i in range(pieces):
        # Carried along without twist.
        normal = normal - ways[:, i] * (normal @ ways[:, i])
        normal /= np.linalg.norm(normal)
        frames[0, :, i], frames[2, :, i] = normal, ways[:, i]
        frames[1, :, i] = np.cross(ways[:, i], normal)
    radius, modulus = 0.01, 1e6
    rod = ea.CosseratRod.straight_rod(
        pieces, np.zeros(3), np.array(span["t0"]), np.array(frames[0, :, 0]), 1.0, radius, 1000.0,
        youngs_modulus=modulus, shear_modulus=modulus / 3,
        position=place, directors=frames)
    rod.rest_lengths[:] = 1.0 / pieces
    rod.rest_voronoi_lengths[:] = 1.0 / pieces
    rod.rest_kappa[:] = 0.0
    rod.rest_sigma[:] = 0.0
    system = System()
    system.append(rod)
    system.constrain(rod).using(ea.FixedConstraint, constrained_position_idx=(0, -1),
                                constrained_director_idx=(0, -1))
    step = 0.2 / pieces * np.sqrt(1000.0 / modulus)
    system.dampen(rod).using(ea.AnalyticalLinearDamper, damping_constant=2.0, time_step=step)
    system.finalize()
    stepper = ea.PositionVerlet()
    now, last = 0.0, None

    def energy():
        bend = np.linalg.norm(rod.kappa[:2], axis=0)
        return float((bend ** 2).sum() / pieces), float(bend.max())

    for _ in range(100):  # what is compiled on the first steps is not timed
        now = stepper.step(system, now, step)
    begun = time.perf_counter()
    for _ in range(60):
        # More than half a swing of its slowest mode: no turning point is taken for rest.
        for _ in range(8000):
            now = stepper.step(system, now, step)
        found = energy()
        if last and abs(found[0] / last - 1) < 1e-3:
            break
        last = found[0]
    seconds = time.perf_counter() - begun
    return seconds, found[0] / length, length / found[1]


if __name__ == "__main__":
    import os

    if "ROD_BASELINES_INSIDE" not in os.environ:
        main()
