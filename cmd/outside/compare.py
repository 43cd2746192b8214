"""Reckons the links of a JSON file in scikit-rf and in ngspice and compares.

Everything here starts from the raw inputs of the cables and connections and
leaves the joining of parts to the tools; nothing is taken from the program but
the figures that are compared.
"""

import contextlib
import copy
import io
import json
import math
import subprocess
import sys
import time
from pathlib import Path

import numpy as np

np.complex = complex  # scikit-rf 0.15 still asks for this old name
with contextlib.redirect_stdout(io.StringIO()):  # it reports a plotting library that nobody needs
    import skrf

RF_TOLERANCE_DB = 1e-6
SPICE_TOLERANCE_DB = 0.02
LEAST_RF_LINKS = 12
LEAST_SPICE_LINKS = 4

NEPER_DB = 20 / math.log(10)
DELAY_NS = 534.0  # per 100 m


def temperature_factor(celsius, screened):
    """TIA-568-C.2 6.4.7."""
    if screened:
        return 1 + 0.002 * max(0.0, celsius - 20)
    return 1 + 0.004 * min(max(0.0, celsius - 20), 20) + 0.006 * max(0.0, celsius - 40)


def cable(part, f):
    """Propagation (1/m) and impedance (ohm) of a cable at MHz (array)."""
    k1, k2, k3 = part["loss_dB_per_100m"]
    factor = part["strand_factor"] * part["unit_factor"]
    factor *= temperature_factor(part["temperature_C"], part["screened"])
    root = np.sqrt(f)
    alpha = factor * (k1 * root + k2 * f + k3 / root) / 100 / NEPER_DB
    q = 1000 / (2 * math.pi * NEPER_DB) * factor * k1 / (DELAY_NS * root)
    beta = 2 * math.pi * f * 1e-3 * DELAY_NS * (1 + q) / 100
    return alpha + 1j * beta, part["impedance_ohm"] * (1 + q - 1j * q)


def connection(part, f):
    """Reflection and transmission of a connection in 100 ohm at MHz (array)."""
    rho = 10 ** (-(part["return_loss_dB_at_1MHz"] - 20 * np.log10(f)) / 20)
    theta = np.arcsin(rho)
    turn = np.exp(-1j * theta)
    return 1j * rho * turn, 10 ** (-part["k_dB"] * np.sqrt(f) / 20) * turn


def scattering(part, f):
    """A part as scikit-rf sees it: S of travelling waves in 100 ohm."""
    s = np.zeros((len(f), 2, 2), dtype=complex)
    if part["kind"] == "connection":
        s[:, 0, 0], s[:, 0, 1] = connection(part, f)
        s[:, 1, 0], s[:, 1, 1] = s[:, 0, 1], s[:, 0, 0]
        return s
    gamma, impedance = cable(part, f)
    s[:, 0, 1] = s[:, 1, 0] = np.exp(-gamma * part["length_m"])
    own = np.stack([impedance, impedance], axis=1)
    return skrf.network.renormalize_s(s, own, 100.0, s_def="traveling")


def cascade(parts, f):
    """The whole line in scikit-rf."""
    whole = scattering(parts[0], f)
    for part in parts[1:]:
        whole = skrf.network.connect_s(whole, 1, scattering(part, f), 0)
    return whole


def decibels(x):
    return -20 * np.log10(np.abs(x))


def compare_rf(links):
    """The largest difference of loss and of both return losses, in dB."""
    worst, where = 0.0, ""
    for link in links:
        f = np.array([row["freq_MHz"] for row in link["figures"]])
        s = cascade(link["parts"], f)
        theirs = {
            "loss_dB": decibels(s[:, 1, 0]),
            "return_loss_near_dB": decibels(s[:, 0, 0]),
            "return_loss_far_dB": decibels(s[:, 1, 1]),
        }
        for name, values in theirs.items():
            ours = np.array([row[name] for row in link["figures"]])
            at = int(np.argmax(np.abs(ours - values)))
            difference = abs(ours[at] - values[at])
            if not difference <= worst:  # a NaN counts as a difference
                worst = difference
                where = f"{name} of {link['name']} at {f[at]:g} MHz: {ours[at]:.9g} here, {values[at]:.9g} there"
    return worst, where


def two_terminal(name, a, b, impedance, omega):
    """Netlist lines of any complex impedance (ohm) between nodes a and b."""
    lines = [f"R{name} {a} {name}m {impedance.real:.15g}"]
    if impedance.imag >= 0:
        lines.append(f"L{name} {name}m {b} {impedance.imag / omega:.15g}")
    else:
        lines.append(f"C{name} {name}m {b} {-1 / (omega * impedance.imag):.15g}")
    return lines


def spice_part(i, part, f, omega):
    """Netlist lines of a part between nodes n<i> and n<i+1> at one frequency."""
    a, b = f"n{i}", f"n{i + 1}"
    at = np.array([f])
    if part["kind"] == "cable":
        gamma, impedance = (x[0] for x in cable(part, at))
        # The lossy line of SPICE has no conductance across the pair: match γ and
        # the capacitance; what is missing turns the impedance by a hair.
        c = (gamma / impedance).imag / omega
        series = gamma**2 / (1j * omega * c)
        return [
            f"O{i} {a} 0 {b} 0 line{i}",
            f".model line{i} ltra rel=1 r={series.real:.15g} l={series.imag / omega:.15g}"
            f" g=0 c={c:.15g} len={part['length_m']:.15g}",
        ]
    reflection, through = (x[0] for x in connection(part, at))
    arm = 100 * (1 + reflection - through) / (1 - reflection + through)
    stem = 100 * 2 * through / ((1 - reflection) ** 2 - through**2)
    return (
        two_terminal(f"a{i}", a, f"t{i}", arm, omega)
        + two_terminal(f"b{i}", f"t{i}", b, arm, omega)
        + two_terminal(f"s{i}", f"t{i}", "0", stem, omega)
    )


def spice(link, f, folder):
    """Insertion loss in dB of a link at one frequency, by ngspice."""
    omega = 2 * math.pi * f * 1e6
    last = len(link["parts"])
    netlist = [f"* {link['name']} at {f} MHz", "Vs src 0 dc 0 ac 2", "Rs src n0 100", f"Rl n{last} 0 100"]
    for i, part in enumerate(link["parts"]):
        netlist += spice_part(i, part, f, omega)
    netlist += [
        f".ac lin 1 {f * 1e6:.15g} {f * 1e6:.15g}",
        ".control", "set numdgt=15", "run", f"print vr(n{last}) vi(n{last})", "quit", ".endc", ".end",
    ]
    file = Path(folder) / "link.cir"
    file.write_text("\n".join(netlist) + "\n")
    done = subprocess.run(["ngspice", "-b", str(file)], capture_output=True, text=True, timeout=30)
    found = {}
    for line in done.stdout.splitlines():
        name, _, value = line.partition(" = ")
        if name.strip() in (f"vr(n{last})", f"vi(n{last})"):
            found[name.strip()[:2]] = float(value)
    if set(found) != {"vr", "vi"}:
        sys.exit(f"ngspice gave no figure for {link['name']} at {f:g} MHz:\n{done.stdout}\n{done.stderr}")
    return float(decibels(complex(found["vr"], found["vi"])))


def compare_spice(links, folder):
    """The largest difference of loss in dB."""
    worst, where, runs = 0.0, "", 0
    for link in links:
        for row in link["figures"]:
            theirs = spice(link, row["freq_MHz"], folder)
            runs += 1
            difference = abs(theirs - row["loss_dB"])
            if not difference <= worst:
                worst = difference
                where = f"{link['name']} at {row['freq_MHz']:g} MHz: {row['loss_dB']:.6g} dB here, {theirs:.6g} dB there"
    return worst, where, runs


def ratio(document):
    """How much longer scikit-rf takes for the same sweep of the same link."""
    timing = document["timing"]
    link = next(link for link in document["links"] if link["name"] == timing["link"])
    f = np.logspace(0, 2, timing["points"])
    best = math.inf
    for _ in range(5):
        start = time.perf_counter()
        cascade(link["parts"], f)
        best = min(best, time.perf_counter() - start)
    return best / timing["sweep_s"], timing, len(link["parts"])


def require_alarm(links):
    """A comparison that could not fail would prove nothing: it has to see a change of ten times the tolerance."""
    changed = copy.deepcopy(links[-1:])
    changed[0]["figures"][0]["return_loss_far_dB"] += 10 * RF_TOLERANCE_DB
    if compare_rf(changed)[0] <= RF_TOLERANCE_DB:
        sys.exit("the comparison did not see a figure that was changed on purpose")


def verdict(tool, worst, tolerance, where):
    if worst <= tolerance:
        return True
    print(f"DIFFERENCE: {tool} differs by {worst:.3g} dB, more than {tolerance:g} dB: {where}")
    return False


def main(links_file, folder):
    document = json.loads(Path(links_file).read_text())
    links = document["links"]
    spice_links = links[:6] + links[-2:]
    if len(links) < LEAST_RF_LINKS or len(spice_links) < LEAST_SPICE_LINKS:
        sys.exit(f"only {len(links)} links to compare; at least {LEAST_RF_LINKS} are needed")
    require_alarm(links)
    worst, where = compare_rf(links)
    print(f"scikit-rf {skrf.__version__}: {len(links)} links, loss and both return losses, largest difference {worst:.2g} dB")
    agree = verdict("scikit-rf", worst, RF_TOLERANCE_DB, where)
    worst, where, runs = compare_spice(spice_links, folder)
    print(f"ngspice: {len(spice_links)} links, {runs} runs, loss, largest difference {worst:.2g} dB")
    agree = verdict("ngspice", worst, SPICE_TOLERANCE_DB, where) and agree
    times, timing, parts = ratio(document)
    print(
        f"one sweep of {timing['points']} points over {parts} parts: {timing['sweep_s'] * 1e3:.2f} ms here;"
        f" scikit-rf takes {times:.1f} times as long (a ratio of this run, not a check)"
    )
    if not agree:
        sys.exit(1)


if __name__ == "__main__":
    main(*sys.argv[1:])
