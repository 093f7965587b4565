//! Temperature over time at a constant current, and the time to a temperature.
//! A change of current is the caller's: run one piece after another.

use super::path::{HeatPath, Leaving, Near};
use super::{Build, HeatError, Surroundings};
use crate::conductor::{MELTING, ZERO_RESISTANCE};
use std::f64::consts::PI;
use wainwright_units::{Current, Duration, Temperature};

/// Heat capacity of copper by volume [J/(K·m) per mm²] (IEC 60949; read).
const COPPER_CAPACITY: f64 = 3.45;
/// Heat capacity of cable polymers by volume [J/(K·m) per mm²] (memory).
const POLYMER_CAPACITY: f64 = 1.9;
/// Error of one step that is let through [K].
const STEP_TOLERANCE: f64 = 0.02;
/// Cap on steps; a run to steady state takes some tens.
const MOST_STEPS: usize = 20_000;

/// Temperature of the conductor after `for_time` at `current`, beginning at `start`.
///
/// 1083 °C says that the conductor has melted. An infinite time gives the settled temperature.
///
/// # Errors
/// [`HeatError::Malformed`] for an impossible wire, time, start or current.
pub fn transient(
    build: &Build,
    surroundings: &Surroundings,
    ambient: Temperature,
    start: Temperature,
    current: Current,
    for_time: Duration,
) -> Result<Temperature, HeatError> {
    let path = HeatPath::alike(build, surroundings, ambient)?;
    let heating = Heating::new(build, path, Storage::Whole);
    let run = heating.run(start.celsius(), current.amperes(), for_time.seconds(), None)?;
    Ok(Temperature::from_celsius(run.last))
}

/// Time at which the conductor reaches `target`; `None` when it does not within `cap`.
///
/// The target may lie above the start (heating) or below it (cooling).
///
/// # Errors
/// [`HeatError::Malformed`] for an impossible wire, time, start or current.
pub fn time_to_reach(
    build: &Build,
    surroundings: &Surroundings,
    ambient: Temperature,
    start: Temperature,
    current: Current,
    target: Temperature,
    cap: Duration,
) -> Result<Option<Duration>, HeatError> {
    let path = HeatPath::alike(build, surroundings, ambient)?;
    let heating = Heating::new(build, path, Storage::Whole);
    let target = Some(target.celsius());
    let run = heating.run(start.celsius(), current.amperes(), cap.seconds(), target)?;
    Ok(run.reached.map(Duration::from_seconds))
}

/// Time constant of the wire near `conductor`: stored heat over the heat that leaves, per kelvin of
/// rise. Loads shorter than about a third of it may be judged by their energy alone.
///
/// # Errors
/// [`HeatError::Malformed`] for an impossible wire or a conductor that is not above the ambient.
pub fn time_constant(
    build: &Build,
    surroundings: &Surroundings,
    ambient: Temperature,
    conductor: Temperature,
) -> Result<Duration, HeatError> {
    let path = HeatPath::alike(build, surroundings, ambient)?;
    let rise = conductor.celsius() - path.ambient;
    if !(rise.is_finite() && rise > 0.0) {
        return Err(HeatError::malformed(
            "rise over ambient [K]",
            rise,
            "above zero",
        ));
    }
    let heating = Heating::new(build, path, Storage::Whole);
    let watts = heating
        .path
        .heat_out(conductor.celsius(), Near::at(path.ambient))?
        .watts;
    Ok(Duration::from_seconds(heating.capacity * rise / watts))
}

/// How much of the insulation stores heat together with the metal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Storage {
    /// All of it.
    Whole,
    /// The share that a fast rise takes (van Wormer); heats sooner, so it is on the safe side.
    Quick,
}

/// A wire with its heat capacity, ready to be run through pieces of constant current.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Heating {
    pub(crate) path: HeatPath,
    /// [J/(K·m)].
    capacity: f64,
}

/// End of one piece.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Run {
    /// Temperature at the end [°C]; between start and end it only rises or only falls.
    pub(crate) last: f64,
    /// Time at which the wanted temperature was passed [s].
    pub(crate) reached: Option<f64>,
}

/// Rate of the conductor's temperature [K/s] and how the rate changes with it [1/s].
#[derive(Clone, Copy)]
struct Rate {
    per_second: f64,
    slope: f64,
    /// Temperature of the conductor [°C] and the heat that leaves it there.
    conductor: f64,
    leaving: Leaving,
}

impl Heating {
    pub(crate) fn new(build: &Build, path: HeatPath, storage: Storage) -> Self {
        let outer = build.outer_diameter.millimetres();
        let inner = build.conductor_diameter.millimetres();
        let insulation = PI / 4.0 * (outer * outer - inner * inner);
        let share = match storage {
            Storage::Whole => 1.0,
            Storage::Quick => quick_share(outer / inner),
        };
        let copper = COPPER_CAPACITY * build.metal.square_millimetres();
        Self {
            path,
            capacity: copper + POLYMER_CAPACITY * share * insulation,
        }
    }

    /// Runs from `start` [°C] at `amperes` for `seconds`, or until `target` [°C] is passed.
    ///
    /// Each step follows the exponential of the equation made straight where the step begins; it is
    /// compared with two half steps, and the difference sets the length of the next one. Long waits
    /// near the end temperature cost a few long steps, because there the straight line is exact.
    pub(crate) fn run(
        &self,
        start: f64,
        amperes: f64,
        seconds: f64,
        target: Option<f64>,
    ) -> Result<Run, HeatError> {
        check(
            "start temperature [°C]",
            start.is_finite() && start > -ZERO_RESISTANCE,
            start,
        )?;
        check("current [A]", amperes.is_finite(), amperes)?;
        check("time [s]", seconds >= 0.0, seconds)?;
        if target.is_some_and(|target| target == start) {
            return Ok(Run {
                last: start,
                reached: Some(0.0),
            });
        }
        let mut state = (start, 0.0);
        let mut rate = self.rate(start, amperes, None)?;
        let mut step = (0.2 / rate.slope.abs()).min(seconds);
        for _ in 0..MOST_STEPS {
            let (from, elapsed) = state;
            let left = seconds - elapsed;
            if left <= 0.0 || from >= MELTING || rate.per_second == 0.0 {
                return Ok(Run {
                    last: from.min(MELTING),
                    reached: None,
                });
            }
            step = step.min(left);
            let (to, error, next_rate) = self.pair_of_halves(from, amperes, step, rate)?;
            if error <= STEP_TOLERANCE {
                if let Some(wanted) = target.filter(|wanted| (wanted - from) * (wanted - to) <= 0.0)
                {
                    let within = crossing(from, to, wanted, rate, step);
                    return Ok(Run {
                        last: wanted,
                        reached: Some(elapsed + within),
                    });
                }
                if (to - from).abs() < 1e-9 * (1.0 + from.abs()) && step * rate.slope.abs() > 1.0 {
                    return Ok(Run {
                        last: to,
                        reached: None,
                    });
                }
                state = (to, elapsed + step);
                rate = next_rate;
            }
            let growth = 0.9 * (STEP_TOLERANCE / error.max(1e-12)).cbrt();
            step *= if growth.is_finite() {
                growth.clamp(0.2, 5.0)
            } else {
                0.2
            };
        }
        Err(HeatError::NotConverged {
            residual_watts: rate.per_second * self.capacity,
        })
    }

    /// One step taken whole and as two halves: the improved end, their difference, the rate there.
    fn pair_of_halves(
        &self,
        from: f64,
        amperes: f64,
        step: f64,
        rate: Rate,
    ) -> Result<(f64, f64, Rate), HeatError> {
        let whole = follow(from, rate, step);
        let middle = follow(from, rate, 0.5 * step);
        if !whole.is_finite() || !middle.is_finite() || middle.abs() > 2.0 * MELTING {
            return Ok((from, f64::INFINITY, rate));
        }
        let middle_rate = self.rate(middle, amperes, Some(&rate))?;
        let halves = follow(middle, middle_rate, 0.5 * step);
        let error = (halves - whole).abs();
        if !halves.is_finite() || halves.abs() > 2.0 * MELTING || error > 100.0 * STEP_TOLERANCE {
            return Ok((
                from,
                if error.is_nan() { f64::INFINITY } else { error },
                rate,
            ));
        }
        // The error of a step goes with its cube, so the two ends show where they are heading.
        let end = halves + (halves - whole) / 3.0;
        Ok((end, error, self.rate(end, amperes, Some(&middle_rate))?))
    }

    /// The rate at a conductor temperature; one known nearby shortens the search.
    fn rate(&self, conductor: f64, amperes: f64, nearby: Option<&Rate>) -> Result<Rate, HeatError> {
        let near = nearby.map_or(Near::at(conductor), |rate| {
            rate.leaving.near(conductor - rate.conductor)
        });
        let per_kelvin = amperes * amperes * self.path.slope_ohms;
        let leaving = self.path.heat_out(conductor, near)?;
        let made = per_kelvin * (ZERO_RESISTANCE + conductor);
        Ok(Rate {
            per_second: (made - leaving.watts) / self.capacity,
            slope: (per_kelvin - leaving.slope) / self.capacity,
            conductor,
            leaving,
        })
    }
}

/// Temperature after `time` on the straightened equation.
fn follow(from: f64, rate: Rate, time: f64) -> f64 {
    let power = rate.slope * time;
    let length = if power.abs() < 1e-9 {
        time
    } else {
        power.exp_m1() / rate.slope
    };
    from + rate.per_second * length
}

/// Time within an accepted step at which `wanted` is passed, scaled so that the step's end fits.
fn crossing(from: f64, to: f64, wanted: f64, rate: Rate, step: f64) -> f64 {
    let part = (wanted - from) / (to - from);
    let time = |rise: f64| {
        let ratio = rise * rate.slope / rate.per_second;
        if ratio.abs() < 1e-9 {
            rise / rate.per_second
        } else {
            ratio.ln_1p() / rate.slope
        }
    };
    let scaled = time(wanted - from) * step / time(to - from);
    if scaled.is_finite() {
        scaled.clamp(0.0, step)
    } else {
        part * step
    }
}

/// Share of the insulation's heat capacity that goes with the conductor when it heats quickly.
fn quick_share(ratio: f64) -> f64 {
    if ratio < 1.01 {
        return 0.5;
    }
    (1.0 / (2.0 * ratio.ln()) - 1.0 / (ratio * ratio - 1.0)).clamp(0.0, 0.5)
}

fn check(field: &'static str, fine: bool, found: f64) -> Result<(), HeatError> {
    if fine {
        Ok(())
    } else {
        Err(HeatError::malformed(field, found, "a number in range"))
    }
}
