//! The way heat takes from a conductor to its surroundings, as one equation in the temperature of
//! the outside surface, and the one safeguarded Newton search that solves it.
//! Steady and transient use are in their own files.

use super::air::Cylinder;
use super::{Build, HeatError, Surroundings};
use crate::conductor::{MELTING, ZERO_RESISTANCE};
use std::f64::consts::PI;
use wainwright_units::{Current, Temperature};

/// Share of a tight bundle's section that wires fill (judgement: random round packing).
const PACKING: f64 = 0.70;
/// Thermal resistivity of a bundle of wires and the air between them [K·m/W] (judgement: 5 to 8).
const BUNDLE_RESISTIVITY: f64 = 6.0;
/// Least depth of foam cover, in wire diameters, for which the shape factor holds.
const LEAST_COVER_DIAMETERS: f64 = 1.5;
/// Conductors that carry the fault or overload of one circuit: out and return.
const WIRES_OF_A_CIRCUIT: f64 = 2.0;

/// What the outside surface of a wire, or of its bundle, gives heat to.
#[derive(Debug, Clone, Copy)]
enum Surface {
    Air(Cylinder),
    /// Conduction through foam [K·m/W].
    Foam(f64),
}

/// Everything between one conductor and the ambient that does not change with temperature.
#[derive(Debug, Clone, Copy)]
pub(crate) struct HeatPath {
    surface: Surface,
    pub(super) ambient: f64,
    /// Thermal resistance of the conductor's own insulation [K·m/W].
    own: f64,
    /// Thermal resistance from the bundle's surface to its centre [K·m/W]; 0 for one wire.
    shared: f64,
    /// Number of wires that give off what this wire gives off.
    alike: f64,
    /// Heat of the other wires in the bundle [W/m], whatever this wire does.
    others: f64,
    /// Resistance of the conductor at 20 °C per 254.5 K [Ω/(m·K)]: times (234.5 + θ) it is R(θ).
    pub(super) slope_ohms: f64,
}

/// Rise over ambient at which the search starts [K]; usual answers lie within one step of it.
const FIRST_GUESS_RISE: f64 = 50.0;
/// Change of the surface temperature below which the search stops, of (1 °C + its value).
const SURFACE_TOLERANCE: f64 = 1e-9;
/// Cap of the search; halving alone would need fewer.
const MOST_ITERATIONS: usize = 80;

/// Root of a surface equation [°C].
#[derive(Debug, Clone, Copy)]
pub(super) struct Root {
    pub(super) surface: f64,
    pub(super) iterations: usize,
}

/// State in which heat in equals heat out: temperatures [°C] and heat of one wire [W/m].
#[derive(Debug, Clone, Copy)]
pub(super) struct Balance {
    pub(super) conductor: f64,
    pub(super) surface: f64,
    pub(super) watts: f64,
    pub(super) iterations: usize,
}

/// Heat that leaves one wire [W/m], its slope [W/(m·K)] and the surface it leaves from [°C].
#[derive(Debug, Clone, Copy)]
pub(super) struct Leaving {
    pub(super) watts: f64,
    pub(super) slope: f64,
    pub(super) surface: f64,
}

impl HeatPath {
    /// Every loaded wire carries the same current: the case of the published bundle factors.
    pub(crate) fn alike(
        build: &Build,
        surroundings: &Surroundings,
        ambient: Temperature,
    ) -> Result<Self, HeatError> {
        build.check()?;
        surroundings.check()?;
        let ambient = ambient.celsius();
        if !ambient.is_finite() || ambient <= -ZERO_RESISTANCE {
            return Err(HeatError::malformed("ambient", ambient, "above −234.5 °C"));
        }
        let (loaded, total) = surroundings.count();
        let wire = build.outer_diameter.metres();
        let ratio = build.outer_diameter.metres() / build.conductor_diameter.metres();
        let resistivity = build.insulation_resistivity.kelvin_metres_per_watt();
        let (diameter, shared) = if total <= 1 {
            (wire, 0.0)
        } else {
            // Idle wires add surface, but never more of it per loaded wire than a wire alone has.
            let bundle = wire * (total as f64 / PACKING).sqrt();
            (
                bundle.min(wire * loaded as f64),
                BUNDLE_RESISTIVITY / (4.0 * PI),
            )
        };
        let surface = match surroundings {
            Surroundings::Foam {
                cover,
                conductivity,
                ..
            } => {
                let depth = cover.metres().max(LEAST_COVER_DIAMETERS * diameter);
                let conductivity = conductivity.watts_per_kelvin_metre();
                Surface::Foam((8.0 * depth / (PI * diameter)).ln() / (2.0 * PI * conductivity))
            }
            _ => Surface::Air(Cylinder::new(
                diameter,
                build.emissivity.fraction(),
                ambient,
            )),
        };
        Ok(Self {
            surface,
            ambient,
            own: resistivity / (2.0 * PI) * ratio.ln(),
            shared,
            alike: loaded as f64,
            others: 0.0,
            slope_ohms: build.resistance_at_20.ohms_per_metre() / (ZERO_RESISTANCE + 20.0),
        })
    }

    /// One circuit carries a fault or an overload while the other wires of its bundle go on giving
    /// the heat that had brought the bundle to `start`.
    ///
    /// Out and return of the circuit may lie in the same bundle, so two wires carry the current.
    pub(crate) fn in_fault(
        build: &Build,
        surroundings: &Surroundings,
        ambient: Temperature,
        start: Temperature,
    ) -> Result<Self, HeatError> {
        let mut path = Self::alike(build, surroundings, ambient)?;
        if path.alike > WIRES_OF_A_CIRCUIT {
            let before = path
                .heat_out(start.celsius(), start.celsius())?
                .watts
                .max(0.0);
            path.others = (path.alike - WIRES_OF_A_CIRCUIT) * before;
            path.alike = WIRES_OF_A_CIRCUIT;
        }
        Ok(path)
    }

    /// Heat [W/m] that leaves one wire whose conductor is at `conductor` [°C], how that rises with
    /// the conductor's temperature [W/(m·K)], and the temperature of the surface [°C].
    pub(super) fn heat_out(&self, conductor: f64, guess: f64) -> Result<Leaving, HeatError> {
        let surface = self.surface_below(conductor, guess)?.surface;
        let (loss, slope) = self.loss(surface);
        let bend = 1.0 + slope * (self.shared + self.own / self.alike);
        Ok(Leaving {
            watts: (loss - self.others) / self.alike,
            slope: slope / self.alike / bend,
            surface,
        })
    }

    /// Surface temperature under a conductor at a known temperature θ:
    /// Ts + loss(Ts)·(shared + own/alike) − others·own/alike = θ.
    pub(super) fn surface_below(&self, conductor: f64, guess: f64) -> Result<Root, HeatError> {
        let inside = self.shared + self.own / self.alike;
        let target = conductor + self.others * self.own / self.alike;
        let (low, high) = (self.ambient.min(target), self.ambient.max(target));
        search(low, high, guess, |surface| {
            let (loss, slope) = self.loss(surface);
            (surface + loss * inside - target, 1.0 + slope * inside)
        })?
        .ok_or(HeatError::NotConverged {
            residual_watts: self.loss(high).0,
        })
    }

    /// Surface temperature at which everything that is generated leaves.
    ///
    /// Heat rises in a straight line with the conductor's temperature, and that temperature in a
    /// straight line with heat and surface, so both are eliminated: q = G·(β + Ts + others·shared).
    pub(super) fn balance(&self, amperes: f64) -> Result<Balance, HeatError> {
        let melts = HeatError::Melts {
            current: Current::from_amperes(amperes),
        };
        let per_kelvin = amperes * amperes * self.slope_ohms;
        let inside = self.own + self.alike * self.shared;
        if per_kelvin * inside >= 1.0 {
            return Err(melts);
        }
        let gain = per_kelvin / (1.0 - per_kelvin * inside);
        let fixed = ZERO_RESISTANCE + self.others * self.shared;
        let heat = |surface: f64| gain * (surface + fixed);
        let guess = self.ambient + FIRST_GUESS_RISE;
        let root = search(self.ambient, MELTING, guess, |surface| {
            let (loss, slope) = self.loss(surface);
            let total = self.alike * heat(surface) + self.others;
            (loss - total, slope - self.alike * gain)
        })?
        .ok_or(melts.clone())?;
        let watts = heat(root.surface);
        let conductor = root.surface + watts * inside + self.others * self.shared;
        if conductor > MELTING {
            return Err(melts);
        }
        let left = self.loss(root.surface).0;
        let residual_watts = left - self.alike * watts - self.others;
        if residual_watts.abs() > 1e-6 * left.abs().max(1e-3) {
            return Err(HeatError::NotConverged { residual_watts });
        }
        Ok(Balance {
            conductor,
            watts,
            surface: root.surface,
            iterations: root.iterations,
        })
    }

    fn loss(&self, surface: f64) -> (f64, f64) {
        match self.surface {
            Surface::Air(cylinder) => cylinder.loss(surface),
            Surface::Foam(resistance) => ((surface - self.ambient) / resistance, 1.0 / resistance),
        }
    }
}

/// Root of an increasing function between two bounds by Newton's steps, halving the interval where
/// a step would leave it. `None` when the function is still negative at the upper bound.
fn search(
    low: f64,
    high: f64,
    guess: f64,
    function: impl Fn(f64) -> (f64, f64),
) -> Result<Option<Root>, HeatError> {
    let (mut below, mut above, mut high_untried) = (low, high, true);
    let mut surface = guess.clamp(low, high.max(low));
    let mut residual_watts = f64::NAN;
    for iterations in 1..=MOST_ITERATIONS {
        let (value, slope) = function(surface);
        residual_watts = value;
        let at_top = surface >= high;
        if value <= 0.0 {
            below = surface;
            if at_top && value < 0.0 && slope * 1e-6 < -value {
                return Ok(None);
            }
        } else {
            above = surface;
        }
        high_untried &= !at_top;
        let mut next = surface - value / slope;
        if (next - surface).abs() <= SURFACE_TOLERANCE * (1.0 + surface.abs()) {
            return Ok(Some(Root {
                surface: next,
                iterations,
            }));
        }
        if !(next > below && next < above) {
            let beyond = next >= above || slope <= 0.0;
            next = if high_untried && beyond && value <= 0.0 {
                high
            } else {
                0.5 * (below + above)
            };
        }
        surface = next;
    }
    Err(HeatError::NotConverged { residual_watts })
}
