"""Rules and their physics against psychrolib, fluids, ht, CoolProp and scipy.

Sources: moist air by psychrolib (ASHRAE Handbook of Fundamentals 2017) and, from other equations of
state, by CoolProp; friction by fluids (Colebrook, solved exactly); the wind over a slab by ht (Kreith's
correlation for a turbulent plate) with the properties of air from CoolProp; heat carried by water and
air from CoolProp; constants from scipy. Steps of rules are computed anew here from the figures that
went in.

Tolerances: a millionth where the equation is the same; half a percent against CoolProp, whose air is
not ideal; wires to eight percent, the
allowance of their standard; the wind over a slab to seven percent, the spread of such correlations.
"""

import numpy as np
import psychrolib
from CoolProp.CoolProp import HAPropsSI, PropsSI
from fluids.friction import friction_factor, one_phase_dP
from ht.conv_external import Nu_horizontal_plate_turbulent_Kreith
from scipy import constants

from cases import cases, close

ATMOSPHERE = constants.atm
compared, differences = 0, []
psychrolib.SetUnitSystem(psychrolib.SI)


def within(what, is_, should, share, least=0.0):
    """Counts one comparison, and keeps it where the two differ too much."""
    global compared
    compared += 1
    if not abs(is_ - should) <= max(share * abs(should), least):
        differences.append(f"{what}: ours {is_}, reference {should}")


drawn = cases("rules")

for celsius, humidity, saturation, dew, water, density in drawn["air"]:
    name = f"air of {celsius:.2f} °C and {humidity:.3f}"
    within(f"saturation in {name}", saturation, psychrolib.GetSatVapPres(celsius), 1e-6)
    reference = psychrolib.GetTDewPointFromRelHum(celsius, humidity)
    within(f"dew point in {name}", dew, reference, 0, 0.01)
    reference = psychrolib.GetHumRatioFromRelHum(celsius, humidity, ATMOSPHERE)
    within(f"water in {name}", water, reference, 1e-5)
    within(f"density in {name}", density, PropsSI("D", "T", celsius + 273.15, "P", ATMOSPHERE, "Air"), 2e-3)
    if celsius > 1:
        reference = HAPropsSI("W", "T", celsius + 273.15, "P", ATMOSPHERE, "R", humidity)
        within(f"water in {name} by CoolProp", water, reference, 1e-2)
        reference = PropsSI("P", "T", celsius + 273.15, "Q", 1, "Water")
        within(f"saturation in {name} by CoolProp", saturation, reference, 1e-3)

for celsius, humidity, longer in drawn["drying"]:
    def pull(warm, damp):
        """What pulls water out, by steam tables."""
        return PropsSI("P", "T", warm, "Q", 1, "Water") * (1 - damp)

    reference = pull((70 - 32) / 1.8 + 273.15, 0.5) / pull(celsius + 273.15, humidity)
    within(f"drying at {celsius:.2f} °C and {humidity:.3f}", longer, reference, 2e-3)

for reynolds, rough, factor in drawn["friction"]:
    reference = friction_factor(Re=reynolds, eD=rough, Method="Colebrook")
    within(f"friction at Re {reynolds:.0f}, {rough:.2e}", factor, reference, 1e-6)


def loss(flow, diameter, length, rough):
    """The pressure lost in a round duct."""
    density, viscosity = 1.204, 1.82e-5
    return one_phase_dP(
        m=flow * density,
        rho=density,
        mu=viscosity,
        D=diameter,
        roughness=rough,
        L=length,
        Method="Colebrook",
    )


within("density of air at 20 °C", 1.204, PropsSI("D", "T", 293.15, "P", ATMOSPHERE, "Air"), 1e-3)
within("viscosity of air at 20 °C", 1.82e-5, PropsSI("V", "T", 293.15, "P", ATMOSPHERE, "Air"), 5e-3)
for flow, diameter, length, rough, lost in drawn["losses"]:
    within(f"loss of {flow:.3f} m³/s in {diameter:.3f} m", lost, loss(flow, diameter, length, rough), 1e-6)

FUSION = 333_550.0  # J/kg, handbooks of physics
for rate, celsius, dew, wind, length, free, warming, melting, surface, drying, whole in drawn["snow"]:
    name = f"snow at {celsius:.1f} °C in {wind:.1f} m/s over {length:.1f} m"
    mass = rate * 1000
    within(f"melting, {name}", melting, mass * FUSION, 2e-3)
    film = (33 - 32) / 1.8
    ice = 0.49 * 4186.8 * max(0.0, -celsius) + 4186.8 * film
    within(f"warming, {name}", warming, mass * ice, 2e-3)
    air = {
        key: PropsSI(key, "T", (film + celsius) / 2 + 273.15, "P", ATMOSPHERE, "Air")
        for key in ("L", "V", "D", "C", "Prandtl")
    }
    reynolds = wind * length * air["D"] / air["V"]
    nusselt = Nu_horizontal_plate_turbulent_Kreith(Re=reynolds, Pr=air["Prandtl"])
    convection = nusselt * air["L"] / length
    radiation = 0.9 * constants.sigma * ((film + 273.15) ** 4 - (celsius + 273.15) ** 4)
    within(f"wind and sky, {name}", surface, convection * (film - celsius) + radiation, 0.07)
    wet = psychrolib.GetHumRatioFromRelHum(film, 1.0, ATMOSPHERE)
    dry = psychrolib.GetHumRatioFromRelHum(dew, 1.0, ATMOSPHERE)
    lewis = (0.7 / 0.6) ** (2 / 3)
    reference = lewis * convection / air["C"] * (wet - dry) * 2.5e6
    within(f"drying off, {name}", drying, reference, 0.07)
    within(f"all, {name}", whole, warming + melting + free * (surface + drying), 1e-9)


def moisture(celsius, share):
    """The moisture of wood, by the handbook's equation in °F, in percent."""
    f, h = celsius * 1.8 + 32, share
    w = 330 + 0.452 * f + 0.00415 * f**2
    k = 0.791 + 4.63e-4 * f - 8.44e-7 * f**2
    one = 6.34 + 7.75e-4 * f - 9.35e-5 * f**2
    two = 1.09 + 2.84e-2 * f - 9.04e-5 * f**2
    kh = k * h
    return 1800 / w * (kh / (1 - kh) + (one * kh + 2 * one * two * kh**2) / (1 + one * kh + one * two * kh**2))


# Table 13-5 of the Wood Handbook: flat and quarter sawn.
WOODS = {
    "white-oak": (0.00365, 0.00180),
    "red-oak": (0.00369, 0.00158),
    "hard-maple": (0.00353, 0.00165),
    "black-walnut": (0.00274, 0.00190),
    "black-cherry": (0.00248, 0.00126),
    "white-ash": (0.00274, 0.00169),
    "american-beech": (0.00431, 0.00190),
    "yellow-birch": (0.00338, 0.00256),
    "red-alder": (0.00256, 0.00151),
}


def duct_pressure(case, given):
    a, b = given["duct-width"], given["duct-height"]
    diameter = 1.30 * (a * b) ** 0.625 / (a + b) ** 0.25
    yield "Diameter that loses as much", diameter, 1e-9
    length = given["duct-length"] + given["duct-bends"] * given["bend-length"] + given["cap-length"]
    yield "Run with bends and cap", length, 1e-9
    speed = given["airflow"] / (np.pi / 4 * diameter**2)
    if 1.204 * speed * diameter / 1.82e-5 > 4000 and given["duct-roughness"] > 1e-6:
        yield "Pressure lost", loss(given["airflow"], diameter, length, given["duct-roughness"]), 1e-6


def floor_warmth(case, given):
    yield "Surface", given["room-temperature"] + (given["floor-output"] / 8.92) ** (1 / 1.1), 1e-9


def glass_weight(case, given):
    foil = min(given["interlayer"], given["pane-thickness"])
    mass = (given["pane-thickness"] - foil) * 2500 + foil * 1070
    yield "Weight", given["pane-width"] * given["pane-height"] * mass, 1e-9


def guard_load(case, given):
    yield "Moment of the load along the top", 360 * given["post-spacing"] * given["guard-height"], 1e-9
    yield "Moment of the load at one point", 250 * given["guard-height"], 1e-9


def led_voltage_drop(case, given):
    area = {"0.75-mm2": 0.75, "1-mm2": 1.0, "1.5-mm2": 1.5, "2.5-mm2": 2.5, "4-mm2": 4.0}
    gauge = {"awg-18": 18, "awg-16": 16, "awg-14": 14, "awg-12": 12, "awg-10": 10}
    wire = case["words"]["wire"]
    if wire in gauge:
        square = np.pi / 4 * (0.127 * 92 ** ((36 - gauge[wire]) / 39)) ** 2
    else:
        square = area[wire]
    # Copper, 17.241 nΩ m at 20 °C (IEC 60028), 0.393 % a kelvin; the maxima that IEC 60228 allows are up
    # to 8 % above the bare metal of the nominal size.
    ohms = 1.7241e-8 * (1 + 0.00393 * 55) / (square * 1e-6)
    current = given["strip-power"] * given["strip-run"] / given["strip-voltage"]
    yield "Current", current, 1e-9
    yield "Drop to the strip", 2 * given["wire-run"] * current * ohms, 0.08


def make_up_air_heat(case, given):
    rise = given["supply-temperature"] - given["design-temperature"]
    if rise > 0:
        heat = PropsSI("D", "T", 293.15, "P", ATMOSPHERE, "Air") * PropsSI("C", "T", 293.15, "P", ATMOSPHERE, "Air")
        yield "Heat needed", heat * given["supply-air"] * rise, 5e-3


def make_up_air_opening(case, given):
    speed = 0.6 * np.sqrt(2 * 4 / 1.204)
    yield "Air speed through the free area", speed, 1e-9
    yield "Whole area", given["supply-air"] / speed / given["louvre-free-share"], 1e-9


def riser_and_going(case, given):
    yield "Pitch in degrees", np.degrees(np.arctan2(given["riser"], given["going"])), 1e-9
    yield "Two risers and a going", 2 * given["riser"] + given["going"], 1e-9


def timber_movement(case, given):
    dry = moisture(given["room-temperature"] - 273.15, given["humidity-driest"])
    damp = moisture(given["room-temperature"] - 273.15, given["humidity-dampest"])
    yield "Moisture in the driest weeks", dry / 100, 5e-3
    yield "Moisture in the dampest weeks", damp / 100, 5e-3
    words = case["words"]
    if words["wood"] in WOODS:
        flat, quarter = WOODS[words["wood"]]
        share = given["engineered-share"] if words["board-make"] == "engineered" else 1.0
        change = (flat if words["sawn"] == "flat" else quarter) * share
        growth = given["field-width"] * change * max(0.0, 100 * (case["steps"]["Moisture in the dampest weeks"] - given["board-moisture"]))
        yield "Growth of the floor in the dampest weeks", growth, 1e-9


def tread_light(case, given):
    far = np.hypot(given["lamp-height"], given["lamp-aside"])
    if "Light on the tread" in case["steps"]:
        yield "Light on the tread", given["lamp-intensity"] * given["lamp-height"] / far**3, 1e-9


for number, case in enumerate(drawn["cases"]):
    anew = globals()[case["rule"].replace("-", "_")]
    for step, should, share in anew(case, case["given"]):
        within(f"{case['rule']} {number}, {step}", case["steps"][step], should, share, 1e-12)

within(
    "heat that a cubic metre of water carries",
    4.18e6,
    PropsSI("D", "T", 303.15, "P", ATMOSPHERE, "Water") * PropsSI("C", "T", 303.15, "P", ATMOSPHERE, "Water"),
    1e-2,
)

close(compared, differences)
