//! Sources in series: batteries, or solar modules, whose minus terminal is
//! joined to the plus terminal of the next. Only the ends of such a string
//! give power to the rest. Not here: which way round a source is joined
//! (see [`super::sides`]).

use super::{Consumer, Demand};
use wainwright_units::Voltage;

/// Sources of one kind in series; a single source is a string of one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Bank {
    /// Consumers by index, the one at the plus end first.
    pub(crate) members: Vec<usize>,
    /// Node of the plus end.
    pub(crate) plus: usize,
    /// Node of the minus end.
    pub(crate) minus: usize,
}

impl Bank {
    /// The source at the plus end, which the string is named by.
    pub(crate) fn top(&self) -> usize {
        self.members.first().copied().unwrap_or(0)
    }

    /// Nominal voltage of the whole string of batteries.
    pub(crate) fn nominal(&self, consumers: &[Consumer]) -> Voltage {
        let nominal = |member: &usize| match consumers[*member].demand {
            Demand::Battery { nominal, .. } => nominal,
            _ => Voltage::from_volts(0.0),
        };
        let zero = Voltage::from_volts(0.0);
        self.members
            .iter()
            .map(nominal)
            .fold(zero, |sum, one| sum + one)
    }
}

/// The strings of all batteries, in the order of their plus ends.
pub(crate) fn batteries(consumers: &[Consumer], islands: &[usize]) -> Vec<Bank> {
    let battery = |c: &Consumer| matches!(c.demand, Demand::Battery { .. });
    strings(consumers, islands, battery)
}

/// The strings of all solar modules.
pub(crate) fn modules(consumers: &[Consumer], islands: &[usize]) -> Vec<Bank> {
    let module = |c: &Consumer| matches!(c.demand, Demand::Module { .. });
    strings(consumers, islands, module)
}

/// `islands` numbers the pieces that conductors hold together, per node.
fn strings(consumers: &[Consumer], islands: &[usize], kind: fn(&Consumer) -> bool) -> Vec<Bank> {
    let ends = |index: usize| {
        let (plus, minus) = consumers[index].nodes;
        (islands[plus], islands[minus])
    };
    let all: Vec<usize> = (0..consumers.len())
        .filter(|index| kind(&consumers[*index]))
        .collect();
    let follows = |above: usize, below: usize| {
        let (plus, minus) = ends(above);
        above != below && plus != minus && ends(below).0 == minus && ends(below).1 != plus
    };
    let is_top = |index: &&usize| !all.iter().any(|above| follows(*above, **index));
    let mut used = vec![false; consumers.len()];
    let mut banks = Vec::new();
    // A ring has no top; what is left over starts wherever the file does.
    for start in all.iter().filter(is_top).chain(&all) {
        if used[*start] {
            continue;
        }
        let mut members = Vec::new();
        let mut next = Some(*start);
        while let Some(member) = next {
            used[member] = true;
            members.push(member);
            let mut below = all.iter().copied();
            next = below.find(|below| !used[*below] && follows(member, *below));
        }
        let last = members.last().copied().unwrap_or(*start);
        banks.push(Bank {
            plus: consumers[*start].nodes.0,
            minus: consumers[last].nodes.1,
            members,
        });
    }
    banks.sort_by_key(Bank::top);
    banks
}
