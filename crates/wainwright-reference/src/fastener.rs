//! Fastening boards and panels: spacing of supports and fasteners, penetration, pilot holes.
//!
//! Not here: diameters of screws and gravity of woods (`securing`), what a screw holds (engines).

use wainwright_units::{Length, Ratio};

use crate::id::ids;
use crate::mark::Sourced;
use crate::store::{Topic, find};

ids! {
    /// A distance that has to do with fastening.
    FasteningRule {
        /// Supports of boards laid level over solid sheathing, at most.
        LevelOverSheathing = "horizontal-over-sheathing",
        /// Supports of boards laid level, at most.
        Level = "horizontal",
        /// Supports of boards laid upright and nailed through their face, at most.
        UprightFaceNailed = "upright-face-nailed",
        /// Supports of boards laid upright over sheathing and nailed through their tongue, at most.
        UprightBlindOverSheathing = "upright-blind-over-sheathing",
        /// Supports of boards laid upright and nailed through their tongue, at most.
        UprightBlind = "upright-blind",
        /// Penetration of a plain nail into solid wood, at least.
        Penetration = "penetration",
        /// Penetration of a ring-shank nail into solid wood, at least.
        PenetrationRing = "penetration-ring",
        /// Fasteners along supported edges of panels, at most.
        PanelEdge = "panel-edge",
        /// Fasteners of panels on supports between, at most.
        PanelField = "panel-field",
    }
}

ids! {
    /// A share or factor of wood screws.
    ScrewShare {
        /// Pilot hole over root diameter in softwood.
        PilotSoftwood = "pilot-softwood",
        /// Pilot hole over root diameter in hardwood.
        PilotHardwood = "pilot-hardwood",
        /// Ultimate over allowable withdrawal.
        UltimateOverAllowable = "ultimate-over-allowable",
        /// Withdrawal of a lag screw in end grain over that in side grain.
        EndGrainLag = "end-grain-lag",
        /// Withdrawal of a wood screw in end grain over that in side grain.
        EndGrainScrew = "end-grain-screw",
    }
}

/// A distance that has to do with fastening.
pub fn fastening_rule(rule: FasteningRule) -> Option<Sourced<Length>> {
    find(Topic::FastenerNailing, "rule", rule.id())?.quantity("inches", Length::from_inches)
}

/// Fasteners where a board of a nominal width crosses a support.
pub fn fasteners_per_crossing(nominal: Length) -> Option<Sourced<usize>> {
    let row = find(Topic::FastenerNailing, "rule", "one-fastener-up-to")?;
    row.quantity("inches", |inches| {
        1 + usize::from(nominal.inches() > inches + 1e-9)
    })
}

/// A share or factor of wood screws.
pub fn screw_share(share: ScrewShare) -> Option<Sourced<Ratio>> {
    find(Topic::FastenerShares, "id", share.id())?.quantity("value", Ratio::from_fraction)
}
