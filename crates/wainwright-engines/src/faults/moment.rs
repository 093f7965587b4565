//! The currents between two events of a fault, told by what carries them: which devices see them and
//! when those would open, and which conductors bear them. Worked out once for all courses of events.
//! Not here: the order of events (`sequence`).

use super::sequence::{Plant, of_branch};
use crate::fault_currents::FaultPoint;
use crate::protection::Band;

/// Constant currents, as between two openings.
#[derive(Debug)]
pub(super) struct Moment {
    pub(super) point: FaultPoint,
    /// Devices that carry current, by branch.
    pub(super) devices: Vec<Seen>,
    /// Conductors that carry current, ascending, each with its current without sign [A].
    conductors: Vec<(usize, f64)>,
}

/// What a device sees.
#[derive(Debug, Clone, Copy)]
pub(super) struct Seen {
    pub(super) device: usize,
    pub(super) branch: usize,
    /// Without sign [A].
    pub(super) amps: f64,
    /// When it opens if that stays.
    pub(super) band: Band,
}

impl Moment {
    pub(super) fn new(point: FaultPoint, plant: &Plant<'_>) -> Self {
        let mut devices = Vec::new();
        let mut conductors = Vec::with_capacity(point.branches.len());
        for &(branch, current) in &point.branches {
            let amps = current.amperes().abs();
            for device in of_branch(plant.devices_by_branch, branch) {
                devices.push(Seen {
                    device,
                    branch,
                    amps,
                    band: plant.devices[device].band(current),
                });
            }
            let here = of_branch(plant.conductors_by_branch, branch);
            conductors.extend(here.map(|conductor| (conductor, amps)));
        }
        conductors.sort_unstable_by_key(|entry| entry.0);
        Self {
            point,
            devices,
            conductors,
        }
    }

    /// Through the short, without sign [A].
    pub(super) fn total_amps(&self) -> f64 {
        self.point.total.amperes().abs()
    }

    /// Devices in a branch that carry current.
    pub(super) fn devices_in(&self, branch: usize) -> impl Iterator<Item = &Seen> + '_ {
        let first = self.devices.partition_point(|seen| seen.branch < branch);
        let onward = self.devices[first..].iter();
        onward.take_while(move |seen| seen.branch == branch)
    }

    /// Conductors that carry current, ascending.
    pub(super) fn conductors(&self) -> impl Iterator<Item = usize> + '_ {
        self.conductors.iter().map(|entry| entry.0)
    }

    /// Current in a conductor, without sign [A].
    pub(super) fn amps(&self, conductor: usize) -> f64 {
        let place = self
            .conductors
            .binary_search_by_key(&conductor, |entry| entry.0);
        place.map_or(0.0, |place| self.conductors[place].1)
    }
}
