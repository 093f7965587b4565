//! What a conductor bears for ever where it runs: by its own heat balance,
//! and by the published table with the table's factors.

use crate::circuit::Laid;
use crate::result::{Ampacity, Run, TableAmpacity};
use wainwright_engines::conductor::ambient_factor;
use wainwright_engines::conductor_heat;
use wainwright_reference::ampacity::{
    WiringRules, bundle_factor, published_ampacity, surround_factor,
};
use wainwright_reference::surroundings::{Air, air_temperature};
use wainwright_units::{Current, Ratio, Temperature};

/// Ambient of the ampacity tables when their own row is missing \[°C\].
const TABLE_CELSIUS: f64 = 30.0;

/// Ampacity of one conductor.
pub(crate) fn of(wire: &Laid) -> Ampacity {
    let zero = Current::from_amperes(0.0);
    let computed = conductor_heat::ampacity(&wire.build, &wire.surroundings, wire.air, wire.limit);
    let computed = computed.unwrap_or(zero);
    let table = table(wire);
    let in_force = table
        .as_ref()
        .map_or(computed, |table| computed.min(table.current));
    Ampacity {
        computed,
        table,
        in_force,
    }
}

fn table(wire: &Laid) -> Option<TableAmpacity> {
    let base = published_ampacity(wire.size, wire.limit)?;
    let one = Ratio::from_fraction(1.0);
    let table_air =
        air_temperature(Air::Table).map_or(TABLE_CELSIUS, |found| found.value.celsius());
    let hot = ambient_factor(wire.limit, wire.air, Temperature::from_celsius(table_air));
    let loaded = wire.bundle.max(1) as usize;
    let bundle = bundle_factor(loaded).map_or(one, |found| found.value);
    let foam = match wire.run {
        Run::Foam => surround_factor(WiringRules::Later, wire.length).map_or(one, |f| f.value),
        _ => one,
    };
    Some(TableAmpacity {
        base: base.value,
        hot,
        bundle,
        foam,
        current: base.value * hot.fraction() * bundle.fraction() * foam.fraction(),
        source: base.source,
    })
}
