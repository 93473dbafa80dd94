"""Makes conduction-scipy.csv: temperatures by SciPy's Radau on the same semi-discrete system.

Cells of equal width in a layer; between two centres lie the exact resistances of slab or shell and the contact; the ends
are held by what lies outside; blood brings heat by the difference to its own temperature. The matrix is built here from
the cases below, apart from the library. One line a case and cell: place (mm), temperature (degrees Celsius).
"""

import csv
import numpy as np
from scipy.integrate import solve_ivp
from scipy.sparse import diags

# thickness mm, conductivity, capacity, start, source, blood W/(m3.K), blood temperature, contact to the next
LIMB = [
    (12, 0.495, 3.73e6, 36, 1000, 2500, 37, 0),
    (5, 0.209, 2.14e6, 35, 0, 750, 37, 0),
    (1.5, 0.372, 3.76e6, 33, 1800, 6700, 37, 0.002),
    (2, 0.045, 8e4, 28, 0, 0, 0, 0),
    (6, 0.45, 2.6e6, 45, 20000, 0, 0, 0),
]
PIPE = [(3, 0.17, 1.25e6, 22, 0, 0, 0, 0.01), (5, 0.4, 2.5e6, 50, 0, 0, 0, 0)]

# name, radius mm or None, layers, inner end, outer end, seconds, cells in a layer
CASES = [
    ("slab", None, LIMB, ("fixed", 36.5), ("convective", 10, 22), 600, 8),
    ("limb", 20, LIMB, ("fixed", 36.5), ("convective", 10, 22), 600, 8),
    ("pipe", 40, PIPE, ("convective", 5, 22), ("flux", -150), 900, 10),
    ("rod", 0, PIPE, ("insulated",), ("fixed", 60), 60, 10),
]


def system(radius, layers, inner, outer, cells):
    faces, rows = [0.0], []
    for layer in layers:
        width = layer[0] / 1000 / cells
        for n in range(cells):
            rows.append((layer, n == cells - 1))
            faces.append(faces[-1] + width)
    faces = np.array(faces)
    centres = (faces[1:] + faces[:-1]) / 2
    r = 0 if radius is None else radius / 1000
    area = np.ones_like(faces) if radius is None else r + faces
    volume = np.diff(faces) if radius is None else ((r + faces[1:]) ** 2 - (r + faces[:-1]) ** 2) / 2

    def resistance(a, b, k):
        return (b - a) / k if radius is None else np.log((r + b) / (r + a)) / k

    n = len(rows)
    link = np.zeros(n - 1)
    for i in range(n - 1):
        (here, last), (there, _) = rows[i], rows[i + 1]
        contact = here[7] / area[i + 1] if last else 0
        link[i] = 1 / (
            resistance(centres[i], faces[i + 1], here[1])
            + contact
            + resistance(faces[i + 1], centres[i + 1], there[1])
        )
    own, given = np.zeros(n), np.zeros(n)
    for i, (layer, _) in enumerate(rows):
        own[i] -= layer[5] * volume[i]
        given[i] += volume[i] * (layer[4] + layer[5] * layer[6])
    for i, end, face, k in ((0, inner, 0, layers[0][1]), (n - 1, outer, n, layers[-1][1])):
        if end[0] == "insulated":
            continue
        if end[0] == "flux":
            given[i] += end[1] * area[face]
            continue
        path = abs(resistance(centres[i], faces[face], k))
        if end[0] == "convective":
            path += 1 / (end[1] * area[face])
        own[i] -= 1 / path
        given[i] += end[-1] / path
    capacity = volume * np.array([layer[2] for layer, _ in rows])
    main = own.copy()
    main[:-1] -= link
    main[1:] -= link
    matrix = diags([link / capacity[1:], main / capacity, link / capacity[:-1]], [-1, 0, 1]).tocsc()
    start = np.array([layer[3] for layer, _ in rows], dtype=float)
    return centres, matrix, given / capacity, start


with open("conduction-scipy.csv", "w", newline="") as file:
    out = csv.writer(file, lineterminator="\n")
    out.writerow(["case", "cell", "place_mm", "temperature_Cel"])
    for name, radius, layers, inner, outer, until, cells in CASES:
        centres, matrix, given, start = system(radius, layers, inner, outer, cells)
        solved = solve_ivp(
            lambda t, T: matrix @ T + given, (0, until), start, method="Radau", jac=matrix, rtol=1e-11, atol=1e-10
        )
        for cell, (place, value) in enumerate(zip(centres, solved.y[:, -1])):
            out.writerow([name, cell, f"{place * 1000:.6f}", f"{value:.8f}"])
