//! Whether somebody has begun with charging settings: anything is typed that no other job asks for. Not here: the
//! settings.

use wainwright_model::{
    Battery, DcdcCharger, Field, Given, Inverter, Origin, Project, ShoreCharger, SolarController,
    Spec, Switch,
};

pub(super) fn begun(project: &Project) -> bool {
    let told = Told { project };
    project.items.iter().any(|(_, item)| match &item.spec {
        Spec::Battery(spec) => told.battery(spec),
        Spec::SolarController(spec) => told.controller(spec),
        Spec::ShoreCharger(spec) => told.shore(spec),
        Spec::DcdcCharger(spec) => told.dcdc(spec),
        Spec::Inverter(Inverter { low_release, .. }) => told.is(low_release),
        Spec::Switch(Switch {
            load_off, load_on, ..
        }) => told.is(load_off) || told.is(load_on),
        _ => false,
    })
}

struct Told<'a> {
    project: &'a Project,
}

/// Whether one of the settings is given that every kind of charger has; each kind is a type of its own.
macro_rules! of_any_charger {
    ($self:ident, $spec:ident) => {
        $self.is(&$spec.float_voltage)
            || $self.is(&$spec.absorption_time)
            || $self.is(&$spec.tail_current)
            || $self.is(&$spec.compensation)
            || $self.is(&$spec.equalise)
            || $self.is(&$spec.cold_lockout)
    };
}

impl Told<'_> {
    /// Typed in an item, or in a part of one's own.
    fn is<T>(&self, field: &Field<T>) -> bool {
        field.as_ref().is_some_and(|given| self.by_person(given))
    }

    fn by_person<T>(&self, given: &Given<T>) -> bool {
        match &given.at.origin {
            Origin::Part(part) => self.project.parts.contains(part),
            Origin::File | Origin::Like(_) => true,
        }
    }

    fn battery(&self, spec: &Battery) -> bool {
        self.is(&spec.high_release)
            || self.is(&spec.low_release)
            || self.is(&spec.cell_cutoff)
            || self.is(&spec.cell_release)
            || self.is(&spec.low_cell_cutoff)
            || self.is(&spec.low_cell_release)
            || self.is(&spec.balance_from)
            || self.is(&spec.cell_spread)
            || self.is(&spec.cold_cutoff)
            || self.is(&spec.cold_release)
            || self.is(&spec.hot_cutoff)
            || self.is(&spec.sleeps)
    }

    fn controller(&self, spec: &SolarController) -> bool {
        of_any_charger!(self, spec)
            || self.is(&spec.highest_input)
            || self.is(&spec.needs_battery)
            || self.is(&spec.load_off)
            || self.is(&spec.load_on)
    }

    fn shore(&self, spec: &ShoreCharger) -> bool {
        of_any_charger!(self, spec)
    }

    fn dcdc(&self, spec: &DcdcCharger) -> bool {
        of_any_charger!(self, spec)
    }
}
