//! Partial shade by solving every cell's diode, against the rule.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

use wainwright_engines::solar_power::*;
use wainwright_units::*;

/// Photo current of a lit cell [A], its dark current [A], thermal voltage times ideality [V],
/// series resistance [Ω]: a cell of 0.5 V and 5.6 A at its best.
const LIT: f64 = 6.0;
const DARK: f64 = 1.5e-9;
const SLOPE: f64 = 0.0283;
const SERIES: f64 = 0.006;

/// Best power and its current of a string: substrings of cells, one cell of some in the shade.
fn best(substrings: u32, cells: u32, shaded: u32, light: f64) -> (f64, f64) {
    let cell =
        |current: f64, photo: f64| SLOPE * ((photo - current) / DARK + 1.0).ln() - current * SERIES;
    let power = |current: f64| {
        let mut volts = 0.0;
        for substring in 0..substrings {
            let darkest = if substring < shaded { light * LIT } else { LIT };
            let mut own = -0.5;
            if current < darkest {
                own = f64::from(cells - 1) * cell(current, LIT) + cell(current, darkest);
            }
            volts += own.max(-0.5);
        }
        volts * current
    };
    (0..6000)
        .map(|step| f64::from(step) / 1000.0)
        .map(|current| (power(current), current))
        .fold(
            (0.0, 0.0),
            |top, next| if next.0 > top.0 { next } else { top },
        )
}

/// The rule never promises more than the cells give (0.5 points). Around a dark cell it is as near;
/// at a half-lit cell's current it leaves out how the voltage of the lit cells rises, and these
/// cells have no leak that would take it back: up to 9 points low, the safe side.
#[test]
fn the_rule_follows_the_cells() {
    for (substrings, cells) in [(2, 18), (3, 20), (4, 18), (6, 20)] {
        let (whole, current) = best(substrings, cells, 0, 1.0);
        for shaded in 1..=substrings {
            for light in [0.0, 0.1, 0.3, 0.5, 0.7, 0.9] {
                let rule = series_share(Shade {
                    substrings,
                    shaded,
                    darkest: Ratio::from_fraction(light),
                    best_current: Current::from_amperes(current),
                    best_power: Power::from_watts(whole),
                });
                let solved = best(substrings, cells, shaded, light).0 / whole * 100.0;
                let off = rule.percent() - solved;
                assert!(
                    off < 0.5 && off > -9.0,
                    "{substrings} {shaded} {light}: {off}"
                );
                let around = light == 0.0;
                assert!(!around || off > -0.5, "{substrings} {shaded}: {off}");
            }
        }
    }
}
