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
/// Error that a step may leave, as the bend of the function foretells it, of what is looked for: the
/// search stops before it takes a step that only confirms the last one.
const FORETOLD_TOLERANCE: f64 = 1e-12;
/// Cap of the search; halving alone would need fewer.
const MOST_ITERATIONS: usize = 80;

/// A surface temperature [°C] near the one that is looked for.
#[derive(Debug, Clone, Copy)]
pub(super) struct Near {
    surface: f64,
    /// Another surface temperature [°C] and the slope of the heat lost there [W/(m·K)], from which
    /// the bend of the function is known from the first step on.
    known: Option<(f64, f64)>,
}

impl Near {
    pub(super) fn at(surface: f64) -> Self {
        Self {
            surface,
            known: None,
        }
    }
}

/// Root of a surface equation [°C].
#[derive(Debug, Clone, Copy)]
struct Root {
    surface: f64,
    /// Where the function was last evaluated [°C].
    last: f64,
    iterations: usize,
}

/// A function whose root is looked for, at one place.
struct Tried {
    value: f64,
    slope: f64,
    /// What an error of the value is small beside.
    size: f64,
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
    /// How the surface rises with the conductor, and the slope of the heat it loses [W/(m·K)].
    follows: f64,
    surface_slope: f64,
}

impl Leaving {
    /// About where the surface is when the conductor is this much warmer [K].
    pub(super) fn near(&self, warmer: f64) -> Near {
        Near {
            surface: self.surface + self.follows * warmer,
            known: Some((self.surface, self.surface_slope)),
        }
    }
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
                .heat_out(start.celsius(), Near::at(start.celsius()))?
                .watts
                .max(0.0);
            path.others = (path.alike - WIRES_OF_A_CIRCUIT) * before;
            path.alike = WIRES_OF_A_CIRCUIT;
        }
        Ok(path)
    }

    /// Heat [W/m] that leaves one wire whose conductor is at `conductor` [°C], how that rises with
    /// the conductor's temperature [W/(m·K)], and the temperature of the surface [°C].
    ///
    /// The surface Ts under a conductor at θ: Ts + loss(Ts)·(shared + own/alike) − others·own/alike = θ.
    pub(super) fn heat_out(&self, conductor: f64, near: Near) -> Result<Leaving, HeatError> {
        let inside = self.shared + self.own / self.alike;
        let target = conductor + self.others * self.own / self.alike;
        let (low, high) = (self.ambient.min(target), self.ambient.max(target));
        let (mut loss, mut slope) = (0.0, 0.0);
        let near = Near {
            known: near.known.map(|(at, slope)| (at, 1.0 + slope * inside)),
            ..near
        };
        let root = search(low, high, near, |surface| {
            (loss, slope) = self.loss(surface);
            Tried {
                value: surface + loss * inside - target,
                slope: 1.0 + slope * inside,
                size: loss * inside,
            }
        })?
        .ok_or(HeatError::NotConverged {
            residual_watts: self.loss(high).0,
        })?;
        // The last step is so short that the straight line is exact along it.
        loss += slope * (root.surface - root.last);
        let bend = 1.0 + slope * inside;
        Ok(Leaving {
            watts: (loss - self.others) / self.alike,
            slope: slope / self.alike / bend,
            surface: root.surface,
            follows: 1.0 / bend,
            surface_slope: slope,
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
        let guess = Near::at(self.ambient + FIRST_GUESS_RISE);
        let root = search(self.ambient, MELTING, guess, |surface| {
            let (loss, slope) = self.loss(surface);
            let total = self.alike * heat(surface) + self.others;
            let slope = slope - self.alike * gain;
            Tried {
                value: loss - total,
                slope,
                size: slope * (1.0 + surface.abs()),
            }
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
///
/// The error left after a step is the bend times half its square (Newton), and the bend is known from
/// the slopes at the last two places.
fn search(
    low: f64,
    high: f64,
    near: Near,
    mut function: impl FnMut(f64) -> Tried,
) -> Result<Option<Root>, HeatError> {
    let (mut below, mut above, mut high_untried) = (low, high, true);
    let mut surface = near.surface.clamp(low, high.max(low));
    let mut known = near.known;
    let mut residual_watts = f64::NAN;
    for iterations in 1..=MOST_ITERATIONS {
        let Tried { value, slope, size } = function(surface);
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
        let step = -value / slope;
        let mut next = surface + step;
        let inside = next > below && next < above;
        let foretold = known.filter(|_| inside).map(|(at, then): (f64, f64)| {
            0.5 * ((slope - then) / (surface - at) * step * step).abs()
        });
        let enough = foretold.is_some_and(|left| left <= FORETOLD_TOLERANCE * size.abs());
        if step.abs() <= SURFACE_TOLERANCE * (1.0 + surface.abs()) || enough {
            return Ok(Some(Root {
                surface: next,
                last: surface,
                iterations,
            }));
        }
        if !inside {
            let beyond = next >= above || slope <= 0.0;
            next = if high_untried && beyond && value <= 0.0 {
                high
            } else {
                0.5 * (below + above)
            };
        }
        known = Some((surface, slope));
        surface = next;
    }
    Err(HeatError::NotConverged { residual_watts })
}
