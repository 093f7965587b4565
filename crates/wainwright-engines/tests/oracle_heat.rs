//! The heat engine against slow methods written from the published equations: halving of the interval
//! on the unsimplified balance, and a Runge–Kutta integration with small fixed steps. And properties.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod wires;

use proptest::prelude::*;
use std::f64::consts::PI;
use wainwright_engines::conductor_heat::*;
use wainwright_units::*;
use wires::{amperes, celsius, seconds, wire};

/// A wire by plain numbers, as the equations have them.
#[derive(Debug, Clone, Copy)]
struct Plain {
    metal: f64,
    inner: f64,
    outer: f64,
    surroundings: Surroundings,
    ambient: f64,
}

impl Plain {
    fn build(&self) -> Build {
        wire(self.metal, self.inner, 0.5 * (self.outer - self.inner))
    }

    fn ohms(&self, conductor: f64) -> f64 {
        17.241e-3 * 1.02 / self.metal * (234.5 + conductor) / 254.5
    }

    /// Loaded wires, diameter that gives off heat [m], rise from its surface to its middle [K·m/W].
    fn bundle(&self) -> (f64, f64, f64) {
        let outer = self.outer * 1e-3;
        let (loaded, total) = match self.surroundings {
            Surroundings::Open => (1, 1),
            Surroundings::Bundle { loaded, total } => (loaded, total),
            Surroundings::Foam { loaded, .. } => (loaded, loaded),
        };
        if total == 1 {
            return (1.0, outer, 0.0);
        }
        let diameter = (outer * (total as f64 / 0.70).sqrt()).min(outer * loaded as f64);
        (loaded as f64, diameter, 6.0 / (4.0 * PI))
    }

    /// Heat from the surface [W/m], Churchill–Chu and Stefan–Boltzmann as printed.
    fn loss(&self, surface: f64) -> f64 {
        let (_, diameter, _) = self.bundle();
        if let Surroundings::Foam {
            cover,
            conductivity,
            ..
        } = self.surroundings
        {
            let depth = cover.metres().max(1.5 * diameter);
            let resistance = (8.0 * depth / (PI * diameter)).ln()
                / (2.0 * PI * conductivity.watts_per_kelvin_metre());
            return (surface - self.ambient) / resistance;
        }
        let (hot, cold) = (surface + 273.15, self.ambient + 273.15);
        let film = 0.5 * (hot + cold);
        let conductivity = 0.02624 * (film / 300.0_f64).powf(0.85);
        let viscosity = 1.846e-5 * (film / 300.0).powf(0.70) / (353.0 / film);
        let rayleigh =
            9.80665 / film * (hot - cold).abs() * diameter.powi(3) * 0.707 / viscosity.powi(2);
        let shape = (1.0 + (0.559_f64 / 0.707).powf(9.0 / 16.0)).powf(8.0 / 27.0);
        let nusselt = (0.60 + 0.387 * rayleigh.powf(1.0 / 6.0) / shape).powi(2);
        let convection = nusselt * conductivity / diameter * (hot - cold);
        let radiation = 0.9 * 5.670e-8 * (hot.powi(4) - cold.powi(4));
        PI * diameter * (convection + radiation)
    }

    /// Heat that leaves each wire when its conductor has a temperature, by halving.
    fn heat_out(&self, conductor: f64) -> f64 {
        let (loaded, _, inside) = self.bundle();
        let own = 5.0 / (2.0 * PI) * (self.outer / self.inner).ln();
        let (mut low, mut high) = (self.ambient.min(conductor), self.ambient.max(conductor));
        for _ in 0..100 {
            let middle = 0.5 * (low + high);
            let total = self.loss(middle);
            if middle + total * inside + total / loaded * own < conductor {
                low = middle
            } else {
                high = middle
            }
        }
        self.loss(0.5 * (low + high)) / loaded
    }

    /// Settled temperature by halving; `None` above the melting point.
    fn settled(&self, amps: f64) -> Option<f64> {
        let surplus =
            |conductor: f64| amps * amps * self.ohms(conductor) - self.heat_out(conductor);
        let (mut low, mut high) = (self.ambient, 1083.0);
        if surplus(high) > 0.0 {
            return None;
        }
        for _ in 0..100 {
            let middle = 0.5 * (low + high);
            if surplus(middle) > 0.0 {
                low = middle
            } else {
                high = middle
            }
        }
        Some(0.5 * (low + high))
    }

    /// Temperature after a time, classical Runge–Kutta with 2000 steps.
    fn after(&self, start: f64, amps: f64, time: f64) -> f64 {
        let insulation = PI / 4.0 * (self.outer.powi(2) - self.inner.powi(2));
        let capacity = 3.45 * self.metal + 1.9 * insulation;
        let rate = |at: f64| (amps * amps * self.ohms(at) - self.heat_out(at)) / capacity;
        let step = time / 2000.0;
        let mut now = start;
        for _ in 0..2000 {
            let first = rate(now);
            let second = rate(now + 0.5 * step * first);
            let third = rate(now + 0.5 * step * second);
            let fourth = rate(now + step * third);
            now += step / 6.0 * (first + 2.0 * second + 2.0 * third + fourth);
        }
        now
    }
}

fn surroundings() -> impl Strategy<Value = Surroundings> {
    prop_oneof![
        Just(Surroundings::Open),
        (1usize..20, 0usize..20).prop_map(|(loaded, idle)| Surroundings::Bundle {
            loaded,
            total: loaded + idle
        }),
        (5.0..60.0, 0.02..0.05, 1usize..4).prop_map(|(millimetres, conductivity, loaded)| {
            Surroundings::Foam {
                cover: Length::from_millimetres(millimetres),
                conductivity: ThermalConductivity::from_watts_per_kelvin_metre(conductivity),
                loaded,
            }
        }),
    ]
}

fn plain() -> impl Strategy<Value = Plain> {
    (0.5..120.0f64, 0.3..2.5f64, surroundings(), -20.0..70.0f64).prop_map(
        |(metal, wall, surroundings, ambient)| {
            let inner = (metal / 0.75 * 4.0 / PI).sqrt();
            Plain {
                metal,
                inner,
                outer: inner + 2.0 * wall,
                surroundings,
                ambient,
            }
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(300) })]

    /// Same equations, no shortcuts: the answers differ by rounding only.
    #[test]
    fn steady_agrees_with_halving(plain in plain(), density in 0.0..25.0f64) {
        let amps = density * plain.metal.powf(0.7);
        let found = steady(&plain.build(), &plain.surroundings, celsius(plain.ambient), amperes(amps));
        match plain.settled(amps) {
            Some(expected) => {
                let found = found.unwrap();
                prop_assert!((found.conductor.celsius() - expected).abs() < 1e-5 * (1.0 + expected.abs()));
                prop_assert!(found.iterations <= 40, "{}", found.iterations);
            }
            None => prop_assert!(matches!(found, Err(HeatError::Melts { .. })), "{found:?}"),
        }
    }

    /// At its ampacity the wire is at its limit, and no current is allowed in a place that hot.
    #[test]
    fn ampacity_is_where_the_limit_is(plain in plain(), limit in 60.0..200.0f64) {
        let (build, ambient) = (plain.build(), celsius(plain.ambient));
        let capacity = ampacity(&build, &plain.surroundings, ambient, celsius(limit)).unwrap();
        if limit <= plain.ambient {
            prop_assert_eq!(capacity.amperes(), 0.0);
        } else {
            let there = steady(&build, &plain.surroundings, ambient, capacity).unwrap();
            prop_assert!((there.conductor.celsius() - limit).abs() < 1e-6 * limit);
            let made = capacity.amperes().powi(2) * there.resistance.ohms_per_metre();
            prop_assert!((made / there.heat.watts_per_metre() - 1.0).abs() < 1e-6);
        }
        let none = ampacity(&build, &plain.surroundings, celsius(limit), celsius(limit)).unwrap();
        prop_assert_eq!(none.amperes(), 0.0);
    }

    /// Hotter with more current, with less metal under the same wall, with more loaded wires around,
    /// and in a hotter place.
    #[test]
    fn hotter_with_less_favourable_things(plain in plain(), density in 1.0..6.0f64, more in 1.02..1.5f64) {
        let amps = density * plain.metal.powf(0.7);
        let at = |plain: &Plain, amps: f64| {
            let ambient = celsius(plain.ambient);
            let found = steady(&plain.build(), &plain.surroundings, ambient, amperes(amps));
            found.map_or(f64::INFINITY, |found| found.conductor.celsius())
        };
        let base = at(&plain, amps);
        prop_assume!(base.is_finite());
        prop_assert!(at(&plain, amps * more) > base);
        let wall = 0.5 * (plain.outer - plain.inner);
        let inner = plain.inner / more.sqrt();
        let thinner = Plain { metal: plain.metal / more, inner, outer: inner + 2.0 * wall, ..plain };
        prop_assert!(at(&thinner, amps) > base);
        let crowded = match plain.surroundings {
            Surroundings::Open => Surroundings::Bundle { loaded: 2, total: 2 },
            Surroundings::Bundle { loaded, total } => {
                Surroundings::Bundle { loaded: loaded + 1, total: total + 1 }
            }
            Surroundings::Foam { cover, conductivity, loaded } => {
                Surroundings::Foam { cover, conductivity, loaded: loaded + 1 }
            }
        };
        let crowded = Plain { surroundings: crowded, ..plain };
        prop_assert!(at(&crowded, amps) > base);
        let hotter_place = Plain { ambient: plain.ambient + 10.0, ..plain };
        prop_assert!(at(&hotter_place, amps) > base);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(40) })]

    /// Heating and cooling over 0.1 to 3 time constants. 0.05 K + 0.1 % of the change: the engine's own
    /// step control allows 0.002 K for each step.
    #[test]
    fn transient_agrees_with_runge_kutta(
        plain in plain(), density in 0.0..8.0f64, start in -10.0..150.0f64, part in 0.1..3.0f64,
    ) {
        let amps = density * plain.metal.powf(0.7);
        prop_assume!(plain.settled(amps).is_some_and(|settled| settled < 400.0));
        let build = plain.build();
        let ambient = celsius(plain.ambient);
        let near = celsius(plain.ambient + 50.0);
        let constant = time_constant(&build, &plain.surroundings, ambient, near).unwrap();
        let time = part * constant.seconds();
        let expected = plain.after(start, amps, time);
        let found = transient(&build, &plain.surroundings, ambient, celsius(start), amperes(amps), seconds(time));
        let found = found.unwrap().celsius();
        let allowed = 0.05 + 1e-3 * (expected - start).abs();
        prop_assert!((found - expected).abs() < allowed, "{found} against {expected}");
        // The way back: the time at which that temperature is reached, unless hardly anything changes.
        if (expected - start).abs() > 5.0 && part < 1.5 {
            let target = celsius(expected);
            let back = time_to_reach(
                &build, &plain.surroundings, ambient, celsius(start), amperes(amps), target, seconds(10.0 * time),
            );
            let back = back.unwrap().unwrap().seconds();
            prop_assert!((back / time - 1.0).abs() < 0.02, "{back} against {time}");
        }
    }
}

/// A current that no balance can hold: the run ends at the melting point instead of running away.
#[test]
fn melting_is_said_not_computed() {
    let build = wires::awg("18");
    let (open, ambient) = (Surroundings::Open, celsius(30.0));
    let hopeless = steady(&build, &open, ambient, amperes(5000.0));
    assert!(matches!(hopeless, Err(HeatError::Melts { .. })));
    let after = transient(
        &build,
        &open,
        ambient,
        ambient,
        amperes(5000.0),
        seconds(100.0),
    );
    assert_eq!(after.unwrap().celsius(), 1083.0);
}

/// An impossible wire is refused with the field named.
#[test]
fn nonsense_is_refused() {
    let mut build = wires::awg("18");
    build.outer_diameter = Length::from_millimetres(0.5);
    let found = steady(&build, &Surroundings::Open, celsius(30.0), amperes(1.0));
    assert!(matches!(
        found,
        Err(HeatError::Malformed {
            field: "outer diameter [m]",
            ..
        })
    ));
    let build = wires::awg("18");
    let nowhere = steady(&build, &Surroundings::Open, celsius(f64::NAN), amperes(1.0));
    assert!(nowhere.is_err());
    let open = Surroundings::Open;
    let start = celsius(30.0);
    for time in [-1.0, f64::NAN] {
        assert!(transient(&build, &open, start, start, amperes(1.0), seconds(time)).is_err());
    }
    let forever = transient(
        &build,
        &open,
        start,
        start,
        amperes(20.0),
        seconds(f64::INFINITY),
    );
    let settled = steady(&build, &open, start, amperes(20.0))
        .unwrap()
        .conductor;
    assert!((forever.unwrap().celsius() - settled.celsius()).abs() < 0.01);
}
