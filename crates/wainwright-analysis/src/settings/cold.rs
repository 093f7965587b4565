//! Modules in series on the coldest morning against what their controller takes. Not here: their power.

use super::desk::Desk;
use crate::known::{Basis, Known};
use crate::result::settings::ColdString;
use wainwright_engines::solar_power::cold_voltage;
use wainwright_model::{FieldExt, Id, Spec};
use wainwright_reference::device_class::module_voltage_slope;

/// One for each controller with modules, in file order.
pub(super) fn strings(desk: &mut Desk<'_>) -> Vec<ColdString> {
    let found = std::mem::take(&mut desk.facts.modules);
    let project = desk.project;
    let one = |desk: &mut Desk<'_>, string: &super::facts::ModuleString| {
        let item = project.items.get(string.controller.as_str())?;
        let Spec::SolarController(spec) = &item.spec else {
            return None;
        };
        let coldest = desk.coldest();
        let slope = slope(desk, &string.modules);
        Some(ColdString {
            controller: string.controller.clone(),
            modules: string.modules.clone(),
            open: Known::computed(string.open),
            cold: cold_voltage(string.open, -slope, coldest.value),
            coldest,
            allowed: desk.notes.given(&spec.highest_input),
        })
    };
    let strings = found
        .iter()
        .filter_map(|string| one(desk, string))
        .collect();
    desk.facts.modules = found;
    strings
}

/// Part of the open voltage gained with each degree colder: of the modules the largest, else the class value.
fn slope(desk: &mut Desk<'_>, modules: &[Id]) -> f64 {
    let project = desk.project;
    let given = modules.iter().filter_map(|id| {
        let item = project.items.get(id.as_str())?;
        match &item.spec {
            Spec::SolarModule(spec) => spec.voltage_per_degree.value(),
            _ => None,
        }
    });
    if let Some(most) = given.map(|share| share.fraction()).reduce(f64::max) {
        return most;
    }
    let Some(row) = module_voltage_slope() else {
        return 0.0;
    };
    let usual = row.value.usual.abs();
    if let Some(first) = modules.first() {
        let path = ["item", first.as_str(), "voltage_per_degree"];
        let shown = format!("{:.2} %", usual * 100.0);
        desk.notes
            .assume_text(&path, shown, &Basis::Table(row.source));
    }
    usual
}
