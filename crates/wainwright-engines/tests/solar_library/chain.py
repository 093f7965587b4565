"""Light and power of a solar panel by pvlib, one line in, one line out.

version                  name, version
case KEY=VALUE ...       every intermediate of one instant, KEY=VALUE ...
year STEP KEY=VALUE ...  a clear year in steps of so many minutes, at their middles: SECONDS KWH
Angles in degrees, pressure in pascals, times in seconds since 1970 in universal time.
"""

import sys
import time

import numpy as np
import pandas as pd
import pvlib
from pvlib import atmosphere, clearsky, iam, irradiance, pvsystem, solarposition, temperature

PINNED = "0.16.1"
YEAR_MINUTES = 525_600
SOLAR_CONSTANT = 1366.1


def sun_of(times, at):
    """Position by the default method, at the standard pressure of the altitude."""
    kept = {"delta_t": at["delta_t"]} if "delta_t" in at else {}
    return solarposition.get_solarposition(times, at["latitude"], at["longitude"], altitude=at["altitude"], **kept)


def clear_of(sun, at, above):
    relative = atmosphere.get_relative_airmass(sun["apparent_zenith"])
    absolute = atmosphere.get_absolute_airmass(relative, atmosphere.alt2pres(at["altitude"]))
    with np.errstate(divide="ignore", invalid="ignore"):  # at night
        clear = clearsky.ineichen(sun["apparent_zenith"], absolute, at["turbidity"], at["altitude"], above)
    return relative, absolute, clear


def panel_of(sun, at, sky, above):
    """Light before the glass, light behind it, angle of incidence; sky is global, beam, diffuse."""
    tilt, azimuth = at["tilt"], at["azimuth"]
    zenith, toward = sun["apparent_zenith"], sun["azimuth"]
    ghi, dni, dhi = sky
    slant = irradiance.aoi(tilt, azimuth, zenith, toward)
    beam = irradiance.beam_component(tilt, azimuth, zenith, toward, dni)
    bright = irradiance.haydavies(tilt, azimuth, dhi, dni, above, zenith, toward)
    ground = irradiance.get_ground_diffuse(tilt, ghi, at["albedo"])
    diffuse = iam.martin_ruiz_diffuse(tilt)
    before = beam + bright + ground
    behind = beam * iam.martin_ruiz(slant) + bright * diffuse["sky"] + ground * diffuse["ground"]
    return before, behind, slant, (beam, bright, ground)


def power_of(before, behind, at, dim_loss=None):
    cell = temperature.faiman(before, at["air"], at["wind"])
    return cell, pvsystem.pvwatts_dc(behind, cell, at["rated"], at["per_kelvin"], k=dim_loss)


def times_of(first, count, step_minutes):
    return pd.date_range(pd.Timestamp(first, unit="s", tz="UTC"), periods=count, freq=pd.Timedelta(minutes=step_minutes))


def year(step, at):
    """Seconds and kilowatt-hours of a clear year; the times are made before the clock starts."""
    times = times_of(at["first"] + 30 * step, YEAR_MINUTES // step, step)
    began = time.perf_counter()
    above = irradiance.get_extra_radiation(times.day_of_year, SOLAR_CONSTANT, method="spencer")
    sun = sun_of(times, at)
    _, _, clear = clear_of(sun, at, above)
    before, behind, _, _ = panel_of(sun, at, (clear["ghi"], clear["dni"], clear["dhi"]), above)
    _, power = power_of(before, behind, at)
    energy = float(np.nansum(power)) * step / 60_000
    return f"{time.perf_counter() - began} {energy!r}"


def case(at):
    moment = times_of(at["first"], 1, 1)
    day = moment.day_of_year[0]
    sun = sun_of(moment, at).iloc[0]
    above = irradiance.get_extra_radiation(day, SOLAR_CONSTANT, method="spencer")
    relative, absolute, clear = clear_of(sun, at, above)
    ghi = clear["ghi"] * at["share"]
    split = irradiance.erbs(ghi, sun["zenith"], day)
    sky = (ghi, split["dni"], split["dhi"])
    before, behind, slant, (beam, bright, ground) = panel_of(sun, at, sky, above)
    cell, power = power_of(before, behind, at)
    found = {
        "zenith": sun["zenith"],
        "app_zenith": sun["apparent_zenith"],
        "sun_az": sun["azimuth"],
        "day": day,
        "pressure": atmosphere.alt2pres(at["altitude"]),
        "dni_extra": above,
        "am_rel": relative,
        "am_abs": absolute,
        "ghi_cs": clear["ghi"],
        "dni_cs": clear["dni"],
        "dhi_cs": clear["dhi"],
        "ghi_haurwitz": clearsky.haurwitz(pd.Series([sun["apparent_zenith"]]))["ghi"].iloc[0],
        "ghi": ghi,
        "kt": split["kt"],
        "dni_erbs": split["dni"],
        "dhi_erbs": split["dhi"],
        "cos_aoi": irradiance.aoi_projection(at["tilt"], at["azimuth"], sun["apparent_zenith"], sun["azimuth"]),
        "poa_beam": beam,
        "poa_sky_hd": bright,
        "poa_sky_iso": irradiance.isotropic(at["tilt"], split["dhi"]),
        "poa_ground": ground,
        "poa_hd": before,
        "iam_phys": iam.physical(slant, n=1.526, K=4.0, L=0.002),
        "iam_ashrae": iam.ashrae(slant, b=0.05),
        "iam_mr": iam.martin_ruiz(slant),
        "iam_mr_sky": iam.martin_ruiz_diffuse(at["tilt"])["sky"],
        "iam_mr_gnd": iam.martin_ruiz_diffuse(at["tilt"])["ground"],
        "e_eff": behind,
        "tcell_faiman": cell,
        "pdc": power,
        "pdc_lowlight": power_of(before, behind, at, dim_loss=0.01)[1],
    }
    return " ".join(f"{name}={float(value)!r}" for name, value in found.items())


def answer(words):
    if words[0] == "version":
        assert pvlib.__version__ == PINNED, f"pvlib {pvlib.__version__}, expected {PINNED}"
        return f"pvlib {pvlib.__version__}, numpy {np.__version__}, pandas {pd.__version__}"
    pairs = [word.split("=") for word in words if "=" in word]
    at = {name: float(value) for name, value in pairs}
    return case(at) if words[0] == "case" else year(int(words[1]), at)


for line in sys.stdin:
    print(answer(line.split()), flush=True)
