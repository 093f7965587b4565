//! Colours of direct-current conductors by open standards.
//!
//! Not here: colours of fuses (`protection`), colours on a screen.

use crate::id::ids;
use crate::mark::Sourced;
use crate::store::{Topic, rows};

ids! {
    /// A standard that names colours.
    ColourStandard {
        /// ABYC E-11, boats in the United States.
        Abyc = "abyc-e-11",
        /// ISO 10133, small craft.
        Iso10133 = "iso-10133",
        /// IEC 60445.
        Iec60445 = "iec-60445",
    }
}

ids! {
    /// What a conductor does.
    ColourRole {
        /// Plus between battery, main fuse and bars.
        PlusMain = "plus-main",
        /// Plus of a branch without a role of its own.
        PlusBranch = "plus-branch",
        /// Minus.
        Minus = "minus",
        /// Bond to the metal of the trailer.
        Bond = "bond",
        /// Plus of a solar module.
        SolarPlus = "solar-plus",
        /// Minus of a solar module.
        SolarMinus = "solar-minus",
        /// Plus of lights.
        Lighting = "lighting",
        /// Plus of pumps.
        Pump = "pump",
        /// Plus of fans and blowers.
        Blower = "blower",
        /// Plus of instruments.
        Instrument = "instrument",
        /// Plus of anything else that uses electricity.
        Other = "other",
    }
}

/// The colour of a conductor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ConductorColour {
    /// Base colour.
    pub main: &'static str,
    /// Colour of the stripe.
    pub stripe: Option<&'static str>,
    /// Another colour the standard allows.
    pub also: Option<&'static str>,
}

/// Colour of a conductor by a standard.
pub fn conductor_colour(
    standard: ColourStandard,
    role: ColourRole,
) -> Option<Sourced<ConductorColour>> {
    let row = rows(Topic::ColourConductors).find(|row| {
        row.text("standard") == Some(standard.id()) && row.text("role") == Some(role.id())
    })?;
    Some(row.sourced(ConductorColour {
        main: row.text("main")?,
        stripe: row.text("stripe"),
        also: row.text("also"),
    }))
}
