//! Conductors of a project in other sizes than they have: what each would
//! bear, how hot it would run, what it would resist. Lowers a plan to the
//! engines. Not here: which size is enough (the rules).

mod cheapest;

pub use cheapest::{Cheapest, DropLimit, NoneFits, Offer, SizedPart, cheapest};

use crate::circuit::{Laid, Wire, exchanged, lower};
use crate::result::Run;
use std::cell::RefCell;
use std::collections::BTreeMap;
use wainwright_engines::conductor::resistance_at;
use wainwright_engines::conductor_heat::{HeatError, steady};
use wainwright_model::{Id, Project};
use wainwright_units::{Current, Resistance, Temperature, WireSize};

/// The conductors of one project, to be tried in other sizes.
pub struct SizeBench {
    wires: BTreeMap<Id, Wire>,
    /// What a size bears in a place, as often as a project has it.
    known: RefCell<Vec<(Laid, Current)>>,
}

/// A conductor in another size, where it runs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tried {
    /// What it bears for ever \[A\].
    pub bears: Current,
    /// Metal temperature at the current asked for; `None` where it melts.
    pub temperature: Option<Temperature>,
    /// Resistance at that temperature, joints left out.
    pub resistance: Resistance,
}

impl SizeBench {
    /// The conductors of a project.
    pub fn new(project: &Project) -> Self {
        let wires = lower(project).wires.into_iter();
        Self {
            wires: wires.map(|wire| (wire.id.clone(), wire)).collect(),
            known: RefCell::default(),
        }
    }

    /// A conductor in another size and insulation at a current; `None` for a
    /// name that no sized conductor has.
    pub fn try_wire(
        &self,
        wire: &str,
        size: WireSize,
        insulation: &str,
        amps: Current,
    ) -> Option<Tried> {
        let wire = self.wires.get(wire)?;
        let laid = exchanged(wire, size, insulation);
        let settled = steady(&laid.build, &laid.surroundings, laid.air, amps);
        let temperature = match settled {
            Ok(settled) => Some(settled.conductor),
            Err(HeatError::Melts { .. }) => None,
            Err(_) => Some(laid.air),
        };
        let hot = temperature.unwrap_or(laid.limit);
        let line = resistance_at(laid.build.resistance_at_20, hot);
        Some(Tried {
            bears: self.bears(laid),
            temperature,
            resistance: line * laid.length,
        })
    }

    /// The length of a conductor, typed or by its route \[m\].
    pub fn metres(&self, wire: &str) -> Option<f64> {
        self.wires.get(wire).map(|wire| wire.length.value.metres())
    }

    /// Whether a conductor runs inside foam.
    pub fn in_foam(&self, wire: &str) -> bool {
        let found = self.wires.get(wire);
        found.is_some_and(|wire| wire.run.value == Run::Foam)
    }

    /// Ampacity does not depend on length but for very short foam passages,
    /// so alike conductors are worked out once.
    fn bears(&self, laid: Laid) -> Current {
        let mut known = self.known.borrow_mut();
        if let Some((_, bears)) = known.iter().find(|(other, _)| *other == laid) {
            return *bears;
        }
        let bears = crate::study::ampacity_of(&laid).in_force;
        known.push((laid, bears));
        bears
    }
}
