//! Batteries in series: as the file joins them, or as many as the chargers
//! and inverters are made for. Not here: how strings meet (`spine`).

use super::account::ObstacleKind;
use super::desk::Desk;
use super::draft::end;
use wainwright_model::{FieldExt, Kind, Spec};

/// Batteries in series, the one at the plus end first.
pub(super) struct Str {
    pub(super) members: Vec<String>,
}

impl Desk<'_> {
    /// Strings of batteries: as the file joins them, or as many in series as
    /// the chargers and inverters ask for.
    pub(super) fn strings(&mut self) -> Vec<Str> {
        let batteries = self.survey.of(Kind::Battery);
        let ids: Vec<String> = batteries.iter().map(|(id, _)| (*id).to_string()).collect();
        let nominal = self.nominal();
        let mut strings: Vec<Str> = Vec::new();
        let joined =
            |above: &String, below: &String| self.survey.joins(&end(above, "-"), &end(below, "+"));
        for id in &ids {
            if ids.iter().any(|above| above != id && joined(above, id)) {
                continue;
            }
            let mut members = vec![id.clone()];
            while members.len() <= ids.len() {
                let next = members.last().and_then(|last| {
                    ids.iter()
                        .find(|id| !members.contains(id) && joined(last, id))
                });
                match next.cloned() {
                    Some(id) => members.push(id),
                    None => break,
                }
            }
            strings.push(Str { members });
        }
        let longest = strings.iter().map(|s| s.members.len()).max().unwrap_or(1);
        let wanted = self.wanted_in_series(nominal).max(longest);
        strings = self.joined_up(strings, wanted);
        if strings.iter().any(|string| string.members.len() != wanted) {
            self.account.cannot(
                ObstacleKind::Gear,
                format!(
                    "The system is made for {:.0} V: that takes {wanted} of these batteries in \
                     series, and {} cannot be joined so.",
                    nominal * wanted as f64,
                    ids.len(),
                ),
                &[],
            );
            return Vec::new();
        }
        let most = strings.iter().map(|s| s.members.len()).max().unwrap_or(1);
        self.volts = nominal * most as f64;
        self.highest = self.highest_volts();
        strings
    }

    /// Joins strings end to end until each has as many batteries as wanted,
    /// where the terminals between them are free.
    fn joined_up(&self, strings: Vec<Str>, wanted: usize) -> Vec<Str> {
        let mut left = strings;
        let mut found: Vec<Str> = Vec::new();
        while !left.is_empty() {
            let mut string = left.remove(0);
            while string.members.len() < wanted {
                let lower_end = string.members.last().cloned().unwrap_or_default();
                let fits = |next: &Str| {
                    let top = next.members.first().map_or("", String::as_str);
                    string.members.len() + next.members.len() <= wanted
                        && self.survey.is_loose(top, "+")
                };
                let next = left.iter().position(fits);
                match next.filter(|_| self.survey.is_loose(&lower_end, "-")) {
                    Some(next) => string.members.extend(left.remove(next).members),
                    None => break,
                }
            }
            found.push(string);
        }
        found
    }

    /// Nominal voltage of the first battery \[V\].
    fn nominal(&self) -> f64 {
        let volts = self.survey.assessment.system_volts.as_ref();
        let system = volts.map_or(12.8, |known| known.value.volts());
        let joined = self.survey.of(Kind::Battery);
        let Some((_, item)) = joined.first() else {
            return system;
        };
        let Spec::Battery(battery) = &item.spec else {
            return system;
        };
        let chemistry = battery.chemistry.value().map_or("lfp", |c| c.as_str());
        let chemistry = wainwright_reference::battery::Chemistry::from_id(chemistry);
        let chemistry = chemistry.unwrap_or(wainwright_reference::battery::Chemistry::Lfp);
        let cell = wainwright_reference::battery::nominal_cell(chemistry);
        let cells = battery.cells.value().copied().or_else(|| {
            wainwright_reference::battery::cells_of_12_volts(chemistry).map(|row| row.value)
        });
        match (cell, cells) {
            (Some(cell), Some(cells)) => cell.value.volts() * f64::from(cells),
            _ => system,
        }
    }

    /// Batteries in series that the voltages of chargers and inverters ask
    /// for.
    fn wanted_in_series(&self, nominal: f64) -> usize {
        let items = self.survey.project.items.iter();
        let asked = items.filter_map(|(_, item)| match &item.spec {
            Spec::SolarController(c) => c.charge_voltage.value().map(|v| v.volts() / 1.1),
            Spec::ShoreCharger(c) => c.charge_voltage.value().map(|v| v.volts() / 1.1),
            Spec::DcdcCharger(c) => c.charge_voltage.value().map(|v| v.volts() / 1.1),
            Spec::Inverter(i) => i.low_cutoff.value().map(|v| v.volts() / 0.82),
            _ => None,
        });
        let most = asked.fold(0.0, f64::max);
        // 1.0 within a third either way: 12, 24 and 48 V are a factor apart.
        ((most / nominal.max(1.0)).round().max(1.0)) as usize
    }

    /// Highest voltage in the system: what chargers bring it to \[V\].
    fn highest_volts(&self) -> f64 {
        let items = self.survey.project.items.iter();
        let charged = items.filter_map(|(_, item)| match &item.spec {
            Spec::SolarController(c) => c.charge_voltage.value().map(|v| v.volts()),
            Spec::ShoreCharger(c) => c.charge_voltage.value().map(|v| v.volts()),
            Spec::DcdcCharger(c) => c.charge_voltage.value().map(|v| v.volts()),
            _ => None,
        });
        charged.fold(self.volts * FULL, f64::max)
    }
}

/// Charging over nominal voltage where no charger says it: 14.2 V of 12.8 V.
const FULL: f64 = 14.2 / 12.8;
