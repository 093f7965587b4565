//! What a system may be at all. Not here: whether it is a good one.

use super::input::{Charger, Disconnect, System};
use super::pack;
use crate::refusal::{Refusal, above_zero, finite, not_below_zero, require};

/// Refuses what no battery, wire or device can be.
pub(super) fn check(system: &System<'_>) -> Result<(), Refusal> {
    let battery = &system.battery;
    above_zero("cells in series", f64::from(battery.series))?;
    above_zero("capacity [Ah]", battery.capacity.ampere_hours())?;
    not_below_zero(
        "resistance of a cell while charging [Ω·Ah]",
        battery.charging,
    )?;
    not_below_zero(
        "resistance of a cell while discharging [Ω·Ah]",
        battery.discharging,
    )?;
    not_below_zero("resistance of connections [Ω]", battery.connections.ohms())?;
    above_zero("largest charging current [A]", battery.most_in.amperes())?;
    let ahead = battery.ahead.fraction();
    require(
        "imbalance",
        ahead,
        (0.0..=1.0).contains(&ahead),
        "a share from 0 to 1",
    )?;
    finite(
        "coldest charging temperature [°C]",
        battery.coldest.celsius(),
    )?;
    require(
        "open voltage of a full cell [V]",
        battery.open.at(1.0),
        pack::rises(battery.open),
        "more than that of an empty one",
    )?;
    finite(
        "highest voltage loads take [V]",
        system.loads.highest.volts(),
    )?;
    finite("lowest voltage loads need [V]", system.loads.lowest.volts())?;
    not_below_zero("standing loads [A]", system.loads.standing.amperes())?;
    for (index, charger) in system.chargers.iter().enumerate() {
        one_charger(charger).map_err(|refusal| refusal.at("charger", index))?;
    }
    for (index, device) in system.disconnects.iter().enumerate() {
        one_disconnect(device).map_err(|refusal| refusal.at("disconnect", index))?;
    }
    Ok(())
}

fn one_charger(charger: &Charger) -> Result<(), Refusal> {
    above_zero("largest current [A]", charger.most.amperes())?;
    not_below_zero("wire to the battery [Ω]", charger.wire.ohms())?;
    if let Some(set) = charger.settings {
        finite("absorption voltage [V]", set.absorption.volts())?;
        finite(
            "float voltage [V]",
            set.float.map_or(0.0, |float| float.volts()),
        )?;
        finite("temperature compensation [V/K]", set.compensation)?;
        not_below_zero("current limit [A]", set.limit.amperes())?;
    }
    Ok(())
}

fn one_disconnect(device: &Disconnect) -> Result<(), Refusal> {
    above_zero("largest current [A]", device.most.amperes())?;
    not_below_zero("wire to the battery [Ω]", device.wire.ohms())?;
    if let Some(set) = device.settings {
        finite("disconnect voltage [V]", set.off.volts())?;
        finite("reconnect voltage [V]", set.on.volts())?;
    }
    Ok(())
}
