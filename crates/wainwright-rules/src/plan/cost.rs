//! What a draft costs besides its wires and fuses: bars, blocks, switches.

use super::draft::{Draft, NewKind};
use wainwright_reference::cost::{Hardware, hardware_cost};

/// Cost of bars, blocks, switches and joints \[cost units\].
pub(super) fn overhead(draft: &Draft) -> f64 {
    let of = |hardware: Hardware| hardware_cost(hardware).map_or(0.0, |cost| cost.value);
    let items = draft.items.iter().map(|item| match item.kind {
        NewKind::Bus { .. } => of(Hardware::BusBar),
        NewKind::Block { .. } => of(Hardware::FuseBlock),
        NewKind::Splice => of(Hardware::Splice),
        NewKind::Switch { .. } => SWITCH,
        NewKind::Fuse { .. } | NewKind::Frame => 0.0,
    });
    items.sum::<f64>() + draft.wires.len() as f64 * 2.0 * of(Hardware::Label)
}

/// Cost of a battery switch in cost units, as a large fuse holder: judgement.
const SWITCH: f64 = 18.0;
