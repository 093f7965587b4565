//! Carbon dioxide in a room through spells of a night. Not here: what moves the air.

use wainwright_units::{Airflow, Duration, Volume};

use crate::refusal::{Refusal, above_zero, not_below_zero, require};

/// Parts per million.
const MILLION: f64 = 1e6;

/// Most carbon dioxide that outside air or the room may hold at the start [ppm].
const MOST_AT_START: f64 = 200_000.0;

/// Difference allowed between gas made, carried out and kept, as a share of it.
const CLOSES: f64 = 1e-9;

/// The room.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Night {
    /// Air in it, above zero.
    pub volume: Volume,
    /// Carbon dioxide of outside air [ppm].
    pub outside_ppm: f64,
    /// Carbon dioxide of the room at the start [ppm].
    pub start_ppm: f64,
}

/// A time in which nothing changes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spell {
    /// How long.
    pub duration: Duration,
    /// Carbon dioxide of all people in the room [L/s].
    pub co2_litres_per_second: f64,
    /// Air from outside.
    pub airflow: Airflow,
}

/// What a night comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct NightAir {
    /// Concentration at the end of each spell [ppm].
    pub ends_ppm: Vec<f64>,
    /// The highest, at the start or the end of a spell [ppm].
    pub peak_ppm: f64,
    /// Mean over the night [ppm].
    pub mean_ppm: f64,
    /// Carbon dioxide breathed out [L].
    pub made_litres: f64,
    /// Carbon dioxide that the air carried out beyond what it brought [L].
    pub carried_litres: f64,
}

/// Concentration through the spells of a night.
///
/// # Errors
/// A value that cannot be, or no spell.
pub fn night(room: &Night, spells: &[Spell]) -> Result<NightAir, Refusal> {
    check(room, spells)?;
    let mut found = NightAir {
        ends_ppm: Vec::with_capacity(spells.len()),
        peak_ppm: room.start_ppm,
        mean_ppm: 0.0,
        made_litres: 0.0,
        carried_litres: 0.0,
    };
    let (mut now, mut seconds) = (room.start_ppm, 0.0);
    for spell in spells {
        let (end, above) = after(room, spell, now);
        found.made_litres += spell.co2_litres_per_second * spell.duration.seconds();
        found.carried_litres += spell.airflow.litres_per_second() * above / MILLION;
        found.mean_ppm += above + room.outside_ppm * spell.duration.seconds();
        seconds += spell.duration.seconds();
        now = end;
        found.peak_ppm = found.peak_ppm.max(now);
        found.ends_ppm.push(now);
    }
    found.mean_ppm /= seconds;
    closes(room, &found, now)?;
    Ok(found)
}

/// Concentration that a room goes towards [ppm]; `None` without air.
pub fn steady_ppm(outside_ppm: f64, co2_litres_per_second: f64, airflow: Airflow) -> Option<f64> {
    let litres = airflow.litres_per_second();
    (litres > 0.0).then(|| outside_ppm + MILLION * co2_litres_per_second / litres)
}

/// Air that holds a concentration for ever.
///
/// # Errors
/// A limit that is not above outside air, or gas below zero.
pub fn airflow_for_ppm(
    outside_ppm: f64,
    co2_litres_per_second: f64,
    limit_ppm: f64,
) -> Result<Airflow, Refusal> {
    not_below_zero("carbon dioxide of people [L/s]", co2_litres_per_second)?;
    above_limit(limit_ppm, outside_ppm)?;
    let litres = MILLION * co2_litres_per_second / (limit_ppm - outside_ppm);
    Ok(Airflow::from_litres_per_second(litres))
}

/// Refuses a limit that outside air itself does not keep.
pub(super) fn above_limit(limit_ppm: f64, outside_ppm: f64) -> Result<(), Refusal> {
    require(
        "limit of carbon dioxide [ppm]",
        limit_ppm,
        limit_ppm.is_finite() && limit_ppm > outside_ppm,
        "above that of outside air",
    )
}

/// Concentration at the end of a spell [ppm], and its excess over outside air times time [ppm·s].
fn after(room: &Night, spell: &Spell, start: f64) -> (f64, f64) {
    let (litres, seconds) = (room.volume.litres(), spell.duration.seconds());
    let Some(steady) = steady_ppm(room.outside_ppm, spell.co2_litres_per_second, spell.airflow)
    else {
        let rise = MILLION * spell.co2_litres_per_second * seconds / litres;
        return (
            start + rise,
            (start - room.outside_ppm + 0.5 * rise) * seconds,
        );
    };
    let per_second = spell.airflow.litres_per_second() / litres;
    // 1 − exp(−x), exact for slow air too.
    let gone = -(-per_second * seconds).exp_m1();
    let end = start + (steady - start) * gone;
    let above = (steady - room.outside_ppm) * seconds + (start - steady) * gone / per_second;
    (end, above)
}

/// Made = carried out + kept.
fn closes(room: &Night, found: &NightAir, end: f64) -> Result<(), Refusal> {
    let litres = room.volume.litres() / MILLION;
    let open = found.made_litres - found.carried_litres - (end - room.start_ppm) * litres;
    let size = found.made_litres + (end + room.start_ppm) * litres;
    require(
        "carbon dioxide that is lost [L]",
        open,
        open.abs() <= CLOSES * size + 1e-9,
        "none",
    )
}

fn check(room: &Night, spells: &[Spell]) -> Result<(), Refusal> {
    above_zero("volume of the room [L]", room.volume.litres())?;
    for (field, ppm) in [
        ("carbon dioxide outside [ppm]", room.outside_ppm),
        ("carbon dioxide at the start [ppm]", room.start_ppm),
    ] {
        require(
            field,
            ppm,
            (0.0..=MOST_AT_START).contains(&ppm),
            "0 to 200000",
        )?;
    }
    require(
        "number of spells",
        spells.len() as f64,
        !spells.is_empty(),
        "one or more",
    )?;
    for (index, spell) in spells.iter().enumerate() {
        let at = |refusal: Refusal| refusal.at("spell", index);
        above_zero("duration [s]", spell.duration.seconds()).map_err(at)?;
        not_below_zero(
            "carbon dioxide of people [L/s]",
            spell.co2_litres_per_second,
        )
        .map_err(at)?;
        not_below_zero("airflow [m³/h]", spell.airflow.cubic_metres_per_hour()).map_err(at)?;
    }
    Ok(())
}
