//! Workings of fuses and breakers, and of fault currents.

use super::Desk;
use super::note::Notebook;
use crate::circuit::Demand;
use wainwright_reference::battery::short_circuit_factors;
use wainwright_units::Voltage;

impl Desk<'_> {
    /// Current through a device over its rating.
    pub(super) fn share(
        &self,
        notes: &mut Notebook,
        item: &str,
        way: usize,
        state: usize,
    ) -> Option<()> {
        let device = self.assessment.device(item, way)?;
        let now = device.states.get(state)?;
        let inputs = vec![
            notes.computed("I", now.amps),
            notes.known("In", &device.rating),
        ];
        notes.step("s", "s = I / In", now.share, inputs);
        Some(())
    }

    /// Largest short-circuit current at a node: source voltage over the
    /// resistance of the whole loop.
    pub(super) fn fault(&self, notes: &mut Notebook, node: usize) -> Option<()> {
        let fault = self
            .assessment
            .faults
            .iter()
            .find(|fault| fault.node == node)?;
        let (nominal, full, resistance) =
            self.circuit.consumers.iter().find_map(|c| match c.demand {
                Demand::Battery {
                    nominal,
                    full,
                    resistance,
                    ..
                } => Some((nominal, full, resistance)),
                _ => None,
            })?;
        let factors = short_circuit_factors()?;
        let emf = full.max(nominal * factors.highest_voltage.value);
        let inputs = vec![
            notes.computed("Un", nominal),
            notes.computed("Uf", full),
            notes.input(
                "c",
                wainwright_units::Ratio::from_fraction(factors.highest_voltage.value),
                crate::known::Basis::Table(factors.highest_voltage.source),
            ),
        ];
        notes.step("E", "E = the larger of c · Un and Uf", emf, inputs);
        let loop_ohms = emf
            / fault
                .largest
                .amps
                .max(wainwright_units::Current::from_milliamperes(1.0));
        let inputs = vec![
            notes.computed("E", emf),
            notes.computed("R", loop_ohms),
            notes.computed("Ri", resistance * factors.lowest_resistance.value),
        ];
        let formula = "Isc = E / R, R the loop as the network gives it: Ri of the battery and every wire, fuse and contact on the way, other sources in parallel";
        notes.step("Isc", formula, fault.largest.amps, inputs);
        Some(())
    }

    /// Nominal voltage as the system's reference for shares.
    pub(super) fn system_volts(&self) -> Option<&crate::known::Known<Voltage>> {
        self.assessment.system_volts.as_ref()
    }
}
