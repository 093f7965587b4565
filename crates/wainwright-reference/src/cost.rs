//! Relative prices in "cost units", used only to rank fixes against each other.
//!
//! Every row is a judgement of this project. Not here: real prices (the ledger of the project).

use wainwright_units::WireSize;

use crate::conductor::{awg_row, metric_row};
use crate::id::ids;
use crate::insulation::nominal_area;
use crate::mark::Sourced;
use crate::protection::Family;
use crate::store::{Topic, find, rows};

ids! {
    /// A kind of work.
    Work {
        /// Swapping a fuse for another rating.
        SwapFuse = "swap-fuse",
        /// Pulling a new wire, per metre.
        SwapWirePerMetre = "swap-wire-per-metre",
        /// Mounting a further device.
        AddDevice = "add-device",
        /// Moving a device.
        MoveDevice = "move-device",
    }
}

ids! {
    /// Small things a wiring plan needs beside wire, lugs and fuses.
    Hardware {
        /// Clip that holds wires to a wall.
        Clip = "clip",
        /// Grommet in a hole.
        Grommet = "grommet",
        /// Piece of tube shrunk over a lug.
        ShrinkTube = "shrink-tube",
        /// Label at one end of a wire.
        Label = "label",
        /// Crimped splice.
        Splice = "splice",
        /// Bus bar of 4 to 10 studs.
        BusBar = "bus-bar",
        /// Block of blade fuses.
        FuseBlock = "fuse-block",
        /// One metre of tube for wires.
        ConduitPerMetre = "conduit-per-metre",
        /// Cable tie.
        CableTie = "cable-tie",
        /// Ferrule for a clamp.
        Ferrule = "ferrule",
    }
}

/// Relative price of a fuse family.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ProtectionCost {
    /// Usual fuse [cost units].
    pub fuse: f64,
    /// Upper cost of a fuse of the family [cost units].
    pub most: f64,
    /// Holder for one fuse [cost units]; zero where the device mounts by itself.
    pub holder: f64,
}

/// Price of one metre of one conductor [cost units]; SAE as AWG of the same number; none for unlisted sizes.
pub fn wire_cost(size: WireSize) -> Option<Sourced<f64>> {
    let row = match size {
        WireSize::Awg(gauge) | WireSize::Sae(gauge) => awg_row(Topic::CostWireAwg, gauge),
        WireSize::Metric(area) => metric_row(Topic::CostWireMetric, area),
    };
    row?.quantity("cost", |cost| cost)
}

/// Price of a fuse, its upper cost and its holder.
pub fn protection_cost(family: Family) -> Option<Sourced<ProtectionCost>> {
    let row = find(Topic::CostProtection, "family", family.id())?;
    Some(row.sourced(ProtectionCost {
        fuse: row.number("fuse")?,
        most: row.number("most")?,
        holder: row.number("holder")?,
    }))
}

/// Price of one lug or terminal on a wire of this size [cost units].
pub fn lug_cost(size: WireSize) -> Option<Sourced<f64>> {
    let area = nominal_area(size).square_millimetres();
    rows(Topic::CostJoint)
        .find(|row| row.number("up_to_mm2").is_some_and(|most| area <= most))?
        .quantity("cost", |cost| cost)
}

/// Price of a kind of work [cost units].
pub fn work_cost(work: Work) -> Option<Sourced<f64>> {
    find(Topic::CostWork, "id", work.id())?.quantity("cost", |cost| cost)
}

/// Price of a small thing [cost units]; conduit by the metre.
pub fn hardware_cost(hardware: Hardware) -> Option<Sourced<f64>> {
    find(Topic::CostHardware, "id", hardware.id())?.quantity("cost", |cost| cost)
}
