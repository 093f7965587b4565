//! Terminals of each kind.
//!
//! Not here: which of them are one node, which lie either side of a fuse (the analysis).

use crate::kinds::{Kind, MOST_WAYS, Spec};
use crate::place::Field;

/// Ways listed for a bank, block or bar that does not say how many it has.
const USUAL_WAYS: u32 = 12;
/// Terminals of a splice.
const SPLICE_WAYS: u32 = 9;

impl Kind {
    /// Whether wires can end at it. Tanks, furniture, cargo and people only have a place and a mass.
    pub const fn is_wired(self) -> bool {
        !matches!(
            self,
            Self::Tank | Self::Furniture | Self::Cargo | Self::Person
        )
    }
}

impl Spec {
    /// Terminals by name, in the order a form lists them. A frame takes any name and lists none; where the number
    /// of ways is not given, twelve are listed and any number is accepted by [`Spec::has_terminal`].
    pub fn terminals(&self) -> Vec<String> {
        let fixed = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect();
        match self.kind() {
            Kind::Battery
            | Kind::SolarModule
            | Kind::ShoreCharger
            | Kind::VehicleSupply
            | Kind::Inverter
            | Kind::Outlet
            | Kind::Load => fixed(&["+", "-"]),
            Kind::SolarController => fixed(&["pv+", "pv-", "out+", "out-"]),
            Kind::DcdcCharger => fixed(&["in+", "in-", "out+", "out-"]),
            Kind::Fuse | Kind::Breaker | Kind::Switch | Kind::Shunt => fixed(&["in", "out"]),
            Kind::FuseBlock => {
                let ways = self.ways().unwrap_or(USUAL_WAYS);
                std::iter::once("in".to_owned())
                    .chain((1..=ways).map(|way| way.to_string()))
                    .collect()
            }
            Kind::BusBar => (1..=self.ways().unwrap_or(USUAL_WAYS))
                .map(|way| way.to_string())
                .collect(),
            Kind::SwitchBank => (1..=self.ways().unwrap_or(USUAL_WAYS))
                .flat_map(|way| [format!("in{way}"), format!("out{way}")])
                .collect(),
            Kind::Splice => (1..=SPLICE_WAYS).map(|way| way.to_string()).collect(),
            Kind::Frame
            | Kind::Tank
            | Kind::Furniture
            | Kind::Cargo
            | Kind::Person
            | Kind::Unknown => Vec::new(),
        }
    }

    /// Whether a wire may end at `terminal`. An item of unknown kind takes any.
    pub fn has_terminal(&self, terminal: &str) -> bool {
        let ways = self.ways().unwrap_or(MOST_WAYS);
        match self.kind() {
            Kind::Frame | Kind::Unknown => true,
            kind if !kind.is_wired() => false,
            Kind::BusBar => is_way(terminal, ways),
            Kind::FuseBlock => terminal == "in" || is_way(terminal, ways),
            Kind::SwitchBank => ["in", "out"].iter().any(|side| {
                terminal
                    .strip_prefix(side)
                    .is_some_and(|number| is_way(number, ways))
            }),
            Kind::Splice => is_way(terminal, SPLICE_WAYS),
            _ => self.terminals().iter().any(|name| name == terminal),
        }
    }

    /// Number of ways of a block, bar or bank, when the file says it.
    pub fn ways(&self) -> Option<u32> {
        let counted = |fuses: &Field<Vec<_>>| {
            fuses
                .as_ref()
                .and_then(|f| u32::try_from(f.value.len()).ok())
        };
        match self {
            Self::FuseBlock(block) => counted(&block.fuses),
            Self::BusBar(bar) => bar.ways.as_ref().map(|ways| ways.value),
            Self::SwitchBank(bank) => bank
                .ways
                .as_ref()
                .map(|ways| ways.value)
                .or_else(|| counted(&bank.fuses)),
            _ => None,
        }
    }
}

fn is_way(number: &str, ways: u32) -> bool {
    !number.starts_with(['0', '+'])
        && number
            .parse::<u32>()
            .is_ok_and(|way| (1..=ways).contains(&way))
}
