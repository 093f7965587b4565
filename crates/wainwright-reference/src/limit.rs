//! Shares, factors, smallest sizes and distances that serve as limits.
//!
//! Not here: which limit a design must meet (analysis picks by profile and the person's own limits, rules judge).

use wainwright_units::{Length, Ratio, WireSize};

use crate::id::ids;
use crate::mark::Sourced;
use crate::store::{Topic, find};

ids! {
    /// A limit that is a share or a factor.
    RatioLimit {
        /// Voltage drop of critical circuits.
        DropCritical = "drop-critical",
        /// Voltage drop of lights, pumps and fans that still feels right.
        DropComfort = "drop-comfort",
        /// Voltage drop of every other circuit.
        DropOther = "drop-other",
        /// Load of 3 h or more over the rating of its protection.
        ContinuousShare = "continuous-share",
        /// What fuse makers allow continuously.
        FuseMakerShare = "fuse-maker-share",
        /// Recommended largest rating over corrected ampacity.
        FuseToAmpacity = "fuse-to-ampacity",
        /// Largest permitted rating over table ampacity below 50 V.
        FuseToAmpacityMost = "fuse-to-ampacity-most",
        /// Rating over ampacity that satisfies IEC 60364-4-43 with blade fuses.
        FuseToAmpacityIec = "fuse-to-ampacity-iec",
        /// Ratio of ratings for selectivity of gG fuses.
        SelectivityGg = "selectivity-ratio-gg",
        /// Ratio of ratings for selectivity of blade fuses.
        SelectivityBlade = "selectivity-ratio-blade",
        /// Share of the table above which bundling is applied below 50 V.
        BundleLoadShare = "bundle-load-share",
        /// Protection of an inverter over its direct current at low voltage.
        InverterProtection = "inverter-protection",
        /// Design current of a solar source over its short-circuit current.
        SolarCurrent = "solar-current",
        /// Protection of a solar source over its short-circuit current.
        SolarProtection = "solar-protection",
        /// Ampacity of a wire up to 8 AWG inside foam over that in free air.
        FoamFactor = "foam-factor",
        /// The same for 6 AWG and larger in thick foam.
        FoamFactorLarge = "foam-factor-large",
    }
}

ids! {
    /// A limit that is a smallest wire size.
    SizeLimit {
        /// Separate conductor, United States.
        SeparateUs = "separate-us",
        /// Conductor in a sheath, United States.
        SheathedUs = "sheathed-us",
        /// Separate conductor longer than 200 mm, Europe.
        SeparateEu = "separate-eu",
        /// Conductor in a sheath, Europe.
        SheathedEu = "sheathed-eu",
        /// Bond between battery negative and chassis.
        ChassisBond = "chassis-bond",
        /// Conductors run in parallel.
        Parallel = "parallel",
    }
}

ids! {
    /// A limit that is a distance.
    LengthLimit {
        /// Between supports of a cable.
        Support = "support",
        /// Between supports of a battery cable.
        SupportBatteryCable = "support-battery-cable",
    }
}

/// A limit that is a share or a factor.
pub fn ratio_limit(limit: RatioLimit) -> Option<Sourced<Ratio>> {
    find(Topic::LimitRatios, "id", limit.id())?.quantity("value", Ratio::from_fraction)
}

/// A limit that is a smallest wire size.
pub fn size_limit(limit: SizeLimit) -> Option<Sourced<WireSize>> {
    let row = find(Topic::LimitSizes, "id", limit.id())?;
    Some(row.sourced(WireSize::parse(row.text("size")?).ok()?))
}

/// A limit that is a distance.
pub fn length_limit(limit: LengthLimit) -> Option<Sourced<Length>> {
    find(Topic::LimitLengths, "id", limit.id())?.quantity("value_mm", Length::from_millimetres)
}
