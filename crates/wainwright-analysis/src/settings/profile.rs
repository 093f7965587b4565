//! Charging values of a chemistry, margins and noise of readings, from the tables as the engine wants them; each read
//! once. Not here: the values.

use std::sync::OnceLock;
use wainwright_engines::charging::{Margins, MeterNoise, Profile, Window};
use wainwright_reference::Span;
use wainwright_reference::battery::Chemistry;
use wainwright_reference::charge_profile::{charge_margins, charge_profile, reading_noise};
use wainwright_units::Duration;

pub(super) fn profile(chemistry: Chemistry) -> Option<Profile> {
    static FOUND: OnceLock<Vec<(Chemistry, Profile)>> = OnceLock::new();
    let found = FOUND.get_or_init(|| {
        let all = Chemistry::ALL.iter();
        all.filter_map(|chemistry| Some((*chemistry, read(*chemistry)?)))
            .collect()
    });
    let of = found.iter().find(|(of, _)| *of == chemistry);
    of.map(|(_, profile)| *profile)
}

pub(super) fn margins() -> Option<Margins> {
    static FOUND: OnceLock<Option<Margins>> = OnceLock::new();
    *FOUND.get_or_init(|| {
        let row = charge_margins()?;
        Some(Margins {
            below_trip: row.below_trip.value,
            above_cut_off: row.above_cut_off.value,
            above_cold: row.above_cold.value,
        })
    })
}

pub(super) fn noise() -> Option<MeterNoise> {
    let row = reading_noise()?;
    Some(MeterNoise {
        pack: row.pack.value,
        cell: row.cell.value,
        current: row.current.value,
        kelvins: row.kelvins.value,
        wrong_event: row.wrong_event.value,
    })
}

fn read(chemistry: Chemistry) -> Option<Profile> {
    let row = charge_profile(chemistry)?;
    Some(Profile {
        absorption: window(row.absorption.value),
        full: row.full.map(|full| full.value),
        float: window(row.float.value),
        tail: window(row.tail.value),
        absorption_time: window(row.absorption_time.value),
        acceptance: row.acceptance.map_or(Duration::ZERO, |row| row.value.usual),
        compensation: row.compensation.value,
        reference: row.reference.value,
        equalise: row.equalise.map(|row| row.value),
        lockout: row.lockout.map(|row| window(row.value)),
        lowest: row.lowest.value,
        disconnect: row.disconnect.value,
        reconnect: row.reconnect.value,
        reserve: row.reserve.value,
        back_by: row.back_by.value,
        rebound: row.rebound.value,
    })
}

fn window<Q>(span: Span<Q>) -> Window<Q> {
    Window {
        low: span.low,
        usual: span.usual,
        high: span.high,
    }
}
