//! Workings of one conductor.

use super::Desk;
use super::note::Notebook;
use crate::circuit::Wire;
use crate::known::Basis;
use crate::result::{WireInState, WireResult};
use wainwright_engines::conductor_heat::{Surroundings, steady};
use wainwright_units::Resistance;

impl Desk<'_> {
    fn wire(&self, id: &str) -> Option<(&Wire, &WireResult)> {
        let wire = self.circuit.wires.iter().find(|wire| wire.id == *id)?;
        Some((wire, self.assessment.wire(id)?))
    }

    /// Resistance from size and length, as hot as in the state.
    pub(super) fn resistance(
        &self,
        notes: &mut Notebook,
        id: &str,
        state: usize,
    ) -> Option<WireInState> {
        let (wire, result) = self.wire(id)?;
        let now = *result.states.get(state)?;
        let line = notes.input("r20", wire.build.resistance_at_20, size_basis(wire));
        let length = notes.known("L", &wire.length);
        notes.step(
            "R20",
            "R20 = r20 · L",
            wire.resistance_20,
            vec![line, length],
        );
        let joints = notes.computed("Rj", wire.joint_from.value + wire.joint_to.value);
        let inputs = vec![
            notes.computed("R20", wire.resistance_20),
            notes.computed("θ", now.temperature),
            joints,
        ];
        notes.step(
            "R",
            "R = R20 · (234.5 + θ) / 254.5 + Rj",
            now.resistance,
            inputs,
        );
        Some(now)
    }

    /// Voltage lost along it.
    pub(super) fn drop(&self, notes: &mut Notebook, id: &str, state: usize) -> Option<()> {
        let now = self.resistance(notes, id, state)?;
        let inputs = vec![
            notes.computed("I", now.amps),
            notes.computed("R", now.resistance),
        ];
        notes.step("U", "U = I · R", now.drop, inputs);
        Some(())
    }

    /// Heat balance of the metal.
    pub(super) fn temperature(&self, notes: &mut Notebook, id: &str, state: usize) -> Option<()> {
        let (wire, result) = self.wire(id)?;
        let now = *result.states.get(state)?;
        let inputs = vec![
            notes.computed("I", now.amps),
            notes.input("r20", wire.build.resistance_at_20, size_basis(wire)),
            notes.computed("θ", now.temperature),
        ];
        notes.step("q", "q = I² · r20 · (234.5 + θ) / 254.5", now.heat, inputs);
        let current = wainwright_units::Current::from_amperes(now.amps.amperes().abs());
        let found = steady(&wire.build, &wire.surroundings, wire.air.value, current).ok()?;
        let formula = match wire.surroundings {
            Surroundings::Open => "q = π · Do · (h · (Ts − Ta) + ε · σ · (Ts⁴ − Ta⁴))",
            Surroundings::Bundle { .. } => "q · n = π · Db · (h · (Ts − Ta) + ε · σ · (Ts⁴ − Ta⁴))",
            Surroundings::Foam { .. } => "q · n = (Ts − Ta) · 2 · π · k / ln(8 · z / (π · D))",
        };
        let mut inputs = vec![
            notes.computed("q", now.heat),
            notes.known("Ta", &wire.air),
            notes.computed("Do", wire.build.outer_diameter),
        ];
        match wire.surroundings {
            Surroundings::Open => {}
            Surroundings::Bundle { loaded, .. } => inputs.push(count(loaded)),
            Surroundings::Foam {
                cover,
                conductivity,
                loaded,
            } => {
                inputs.push(count(loaded));
                inputs.push(notes.computed("z", cover));
                inputs.push(notes.computed("k", conductivity));
            }
        }
        notes.step("Ts", formula, found.surface, inputs);
        let inputs = vec![
            notes.computed("Ts", found.surface),
            notes.computed("q", now.heat),
            notes.computed("ρT", wire.build.insulation_resistivity),
            notes.computed("Do", wire.build.outer_diameter),
            notes.computed("dc", wire.build.conductor_diameter),
        ];
        notes.step(
            "θ",
            "θ = Ts + q · ρT / (2 · π) · ln(Do / dc)",
            now.temperature,
            inputs,
        );
        Some(())
    }

    /// What it bears for ever.
    pub(super) fn ampacity(&self, notes: &mut Notebook, id: &str) -> Option<()> {
        let (wire, result) = self.wire(id)?;
        let ampacity = &result.ampacity;
        let inputs = vec![
            notes.computed("θ", wire.limit),
            notes.known("Ta", &wire.air),
            notes.input("r20", wire.build.resistance_at_20, size_basis(wire)),
        ];
        notes.step(
            "Ic",
            "Ic = the current whose heat balance settles at θ in air at Ta with r20",
            ampacity.computed,
            inputs,
        );
        if let Some(table) = &ampacity.table {
            let inputs = vec![
                notes.input("It", table.base, Basis::Table(table.source)),
                notes.computed("f1", table.hot),
                notes.computed("f2", table.bundle),
                notes.computed("f3", table.foam),
            ];
            notes.step("Ip", "Ip = It · f1 · f2 · f3", table.current, inputs);
        }
        let smaller = ampacity
            .table
            .as_ref()
            .map_or(ampacity.computed, |table| table.current);
        let inputs = vec![
            notes.computed("Ic", ampacity.computed),
            notes.computed("Ip", smaller),
        ];
        notes.step(
            "Iz",
            "Iz = the smaller of Ic and Ip",
            ampacity.in_force,
            inputs,
        );
        Some(())
    }

    /// Heat in a joint: I² R.
    pub(super) fn joint(
        &self,
        notes: &mut Notebook,
        owner: &crate::result::JointOwner,
    ) -> Option<()> {
        let joint = self
            .assessment
            .joints
            .iter()
            .find(|joint| joint.owner == *owner)?;
        let inputs = vec![
            notes.computed("I", joint.amps),
            notes.input::<Resistance>("R", joint.resistance.value, joint.resistance.basis.clone()),
        ];
        notes.step("P", "P = I² · R", joint.heat, inputs);
        Some(())
    }
}

fn count(loaded: usize) -> super::Input {
    super::Input {
        symbol: "n".to_owned(),
        value: loaded.to_string(),
        basis: Basis::Computed,
    }
}

/// The size decides the resistance per length, so its basis is the size's.
fn size_basis(wire: &Wire) -> Basis {
    wire.size.basis.clone()
}
