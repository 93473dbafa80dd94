"""Makes contact-time-scipy.csv: times to a threshold by SciPy's BDF, with the integral of the law as one more equation.

Skin of four layers, nodes at the faces of graded elements, heat lumped at the nodes. The matrix is built here, apart from
the library. One line a case: time in seconds, and the basal layer's temperature at that time.
"""

import csv
import numpy as np
from scipy.integrate import solve_ivp
from scipy.sparse import lil_matrix

LAWS = {
    "henriques": [(3.1e98, 75000), (3.1e98, 75000)],
    "weaver-stoll": [(2.185e124, 93534.9), (1.823e51, 39109.8)],
    "takata": [(4.32e64, 50000), (9.39e104, 80000)],
    "mehta-wong epidermis": [(1.43e72, 55000), (1.43e72, 55000)],
    "mehta-wong dermis": [(2.86e69, 55000), (2.86e69, 55000)],
}
DEGREES = {"first": 0.53, "second": 1, "third": 1e4}
FLOW = 0.00125 * 3770 * 1060
BLOOD, CORE = 34, 37

# law, degree, surface, start, epidermis mm
CASES = [
    ("henriques", "second", 49, 34, 0.08),
    ("henriques", "first", 60, 34, 0.08),
    ("henriques", "third", 65, 34, 0.08),
    ("henriques", "second", 68.3, 32, 0.1),
    ("weaver-stoll", "first", 48, 33, 0.1),
    ("weaver-stoll", "second", 55, 34, 0.08),
    ("takata", "second", 44, 34, 0.08),
    ("takata", "first", 51.7, 34, 0.08),
    ("mehta-wong epidermis", "second", 48, 34, 0.08),
    ("mehta-wong dermis", "second", 60, 34, 0.08),
]


def mesh(epidermis):
    layers = [
        (0.24, 3590 * 1200, 0, [epidermis], 24),
        (0.45, 3300 * 1200, FLOW, [0.02, 0.05, 0.1, 0.2, 0.4, 0.7, 1, 1.4, 2], 14),
        (0.19, 2500 * 1000, FLOW, [0.4, 1, 2, 4, 7, 10], 14),
        (0.5, 4000 * 1000, FLOW, [2, 5, 10, 20, 30], 12),
    ]
    nodes, k, c, flow, basal = [0.0], [], [], [], 0
    for layer, (conductivity, capacity, blood, ends, parts) in enumerate(layers):
        from_, base = 0.0, nodes[-1]
        for end in ends:
            for n in range(1, parts + 1):
                nodes.append(base + from_ + (end - from_) * n / parts)
                k.append(conductivity)
                c.append(capacity)
                flow.append(blood)
            from_ = end
        if layer == 0:
            basal = len(nodes) - 1
    return np.array(nodes) / 1000, np.array(k), np.array(c), np.array(flow), basal


def contact(law, degree, surface, start, epidermis):
    x, k, c, flow, basal = mesh(epidermis)
    h, n = np.diff(x), len(x)
    holds, blood = np.zeros(n), np.zeros(n)
    for lump, of in ((holds, c), (blood, flow)):
        lump[:-1] += of * h / 2
        lump[1:] += of * h / 2
    link = k / h
    threshold = DEGREES[degree]

    def rate(T):
        factor, activation = LAWS[law][0 if T <= 50 else 1]
        kelvin = T + 273.15
        value = factor * np.exp(-activation / kelvin) / threshold
        return value, value * activation / kelvin**2

    def slopes(t, y):
        T, out = y[:n], np.zeros(n + 1)
        through = link * (T[1:] - T[:-1])
        heat = blood * (BLOOD - T)
        heat[:-1] += through
        heat[1:] -= through
        out[:n] = heat / holds
        out[0] = out[n - 1] = 0
        out[n] = rate(T[basal])[0]
        return out

    def jacobian(t, y):
        J = lil_matrix((n + 1, n + 1))
        for i in range(1, n - 1):
            J[i, i - 1] = link[i - 1] / holds[i]
            J[i, i + 1] = link[i] / holds[i]
            J[i, i] = -(link[i - 1] + link[i] + blood[i]) / holds[i]
        J[n, basal] = rate(y[basal])[1]
        return J.tocsc()

    y = np.full(n + 1, float(start))
    y[0], y[n - 1], y[n] = surface, CORE, 0

    def reached(t, y):
        return y[n] - 1

    reached.terminal = True
    solved = solve_ivp(slopes, (0, 90_000), y, "BDF", jac=jacobian, rtol=1e-9, atol=1e-9, events=reached)
    return solved.t_events[0][0], solved.y_events[0][0][basal]


with open("contact-time-scipy.csv", "w", newline="") as file:
    out = csv.writer(file, lineterminator="\n")
    out.writerow(["law", "degree", "surface_Cel", "start_Cel", "epidermis_mm", "time_s", "basal_Cel"])
    for case in CASES:
        time, basal = contact(*case)
        out.writerow([*case, f"{time:.7g}", f"{basal:.5f}"])
