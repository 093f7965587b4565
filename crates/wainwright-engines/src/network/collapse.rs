//! How far a supply gets that cannot carry its load.
//!
//! The constant powers are scaled by one factor from zero upwards and the largest factor that has
//! an operating point is found by bisection, each trial starting from the last point that exists.
//! Not here: recognising a collapse (`newton`).

use wainwright_units::{Current, Power, Ratio, Voltage};

use super::circuit::{Circuit, PowerMode};
use super::newton::Trouble;
use super::settle::Settler;
use super::{Collapse, NetworkError};

/// Halvings of the bisection; the last bracket is 1e-12 of the load wide.
const HALVINGS: usize = 40;
/// Share from which the full load is tried once more from the last point that exists.
const NEARLY_ALL: f64 = 1.0 - 1e-9;

/// Searches for the largest share that can be carried.
///
/// Returns normally, with the operating point in the settler, when a slow approach carries the
/// full load after all.
///
/// # Errors
/// [`NetworkError::Collapse`], or [`NetworkError::NotConverged`] when the iteration was capped
/// and no law says that the load is too much.
pub(super) fn investigate(settler: &mut Settler, first: Trouble) -> Result<(), NetworkError> {
    settler.state = settler.open_circuit.clone();
    if let Err(trouble) = settler.settle(0.0) {
        settler.state = settler.open_circuit.clone();
        return Err(verdict(settler, trouble, 0.0));
    }
    let mut carried = settler.state.clone();
    let (mut carried_share, mut failed_share, mut trouble) = (0.0, 1.0, first);
    for _ in 0..HALVINGS {
        let share = 0.5 * (carried_share + failed_share);
        settler.state = carried.clone();
        match settler.settle(share) {
            Ok(()) => {
                carried_share = share;
                carried = settler.state.clone();
            }
            Err(found) => {
                failed_share = share;
                trouble = found;
            }
        }
    }
    settler.state = carried.clone();
    if carried_share >= NEARLY_ALL && settler.settle(1.0).is_ok() {
        return Ok(());
    }
    settler.state = carried;
    Err(verdict(settler, trouble, carried_share))
}

/// Words the failure with the settler in the last state that can be carried.
fn verdict(settler: &Settler, trouble: Trouble, carried_share: f64) -> NetworkError {
    let plan = settler.circuit.plan;
    let inside = |position: usize| plan.island_at[position] == trouble.island;
    let wanted_watts: f64 = plan
        .powers
        .iter()
        .zip(&settler.circuit.load_watts)
        .filter(|(stamp, _)| inside(stamp.from))
        .fold(0.0, |sum, (_, watts)| sum + watts);
    let weakest_power = (0..plan.powers.len())
        .filter(|&index| inside(plan.powers[index].from))
        .filter(|&index| settler.state.power_mode[index] == PowerMode::Normal)
        .filter(|&index| settler.circuit.load_watts[index] > 0.0)
        .min_by(|one, other| settler.sag(*one).total_cmp(&settler.sag(*other)))
        .map(|index| plan.powers[index]);
    let largest_current = (0..plan.currents.len())
        .filter(|&index| inside(plan.currents[index].from))
        .max_by(|one, other| {
            let amps = &settler.circuit.load_amps;
            amps[*one].total_cmp(&amps[*other])
        })
        .map(|index| plan.currents[index]);
    match weakest_power.or(largest_current) {
        Some(stamp) if !trouble.capped => NetworkError::Collapse(Collapse {
            carried: Ratio::from_fraction(carried_share),
            power_wanted: Power::from_watts(wanted_watts),
            power_carried: Power::from_watts(wanted_watts * carried_share),
            weakest_branch: stamp.branch,
            volts_there: Voltage::from_volts(Circuit::across_volts(&settler.state, &stamp)),
        }),
        _ => NetworkError::NotConverged {
            iterations: settler.newton.steps_taken,
            largest_residual: Current::from_amperes(settler.newton.largest_leftover_amps),
            why: "the cap on steps was reached; look for values that differ by more than 1e12"
                .to_owned(),
        },
    }
}
