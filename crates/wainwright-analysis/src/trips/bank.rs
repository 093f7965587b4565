//! All batteries of the project as one pack: tables, limits, protection. Not here: what charges it.

use crate::circuit::Notes;
use crate::known::Assumption;
use crate::result::Assessment;
use crate::result::trip::NoOutlook;
use wainwright_engines::battery::{
    Curve, Limits, Pack, ResistanceTable, TemperatureRate, Thresholds, WhenFull,
};
use wainwright_engines::trip::Guard;
use wainwright_model::{Battery, FieldExt, Id, Project, Spec};
use wainwright_reference::battery::{Chemistry, Flow, Spread, nominal_cell, pack_extra_resistance};
use wainwright_reference::protection_board::{BoardClass, thresholds};
use wainwright_reference::{cell, solar};
use wainwright_units::{
    Charge, Current, Duration, Energy, Mass, Quantity, Ratio, Resistance, Temperature, Voltage,
};

/// Charge of a battery when nobody said (judgement; the same stands in for the wiring).
const CAPACITY: Charge = Charge::from_ampere_hours(100.0);
/// Charge with which a trip begins when nobody said (judgement).
pub(super) const BEGINS_WITH: Ratio = Ratio::ONE;

type Rows = Vec<(f64, Vec<f64>)>;

/// The batteries as one pack, with everything it points to.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct BankInputs {
    pub(super) items: Vec<Id>,
    pub(super) nominal: Voltage,
    pub(super) series: u32,
    /// Charge of all that are there.
    pub(super) capacity: Charge,
    /// Charge that one more like the first would add, and its mass.
    pub(super) unit: (Charge, Option<Mass>),
    pub(super) usable: Ratio,
    pub(super) full_at: Voltage,
    pub(super) guard: Option<Guard>,
    pub(super) iron_phosphate: bool,
    most_in: Current,
    most_out: Current,
    open: Vec<(f64, f64)>,
    hysteresis: Vec<(f64, f64)>,
    celsius: Vec<f64>,
    discharging: Rows,
    charging: Rows,
    activation: f64,
    connections: Resistance,
    coulombic: Ratio,
    acceptance: Duration,
    when_full: WhenFull,
    lowest: Ratio,
    bands: Vec<TemperatureRate>,
    pub(super) reconnect: Ratio,
    pub(super) cell_lag: Duration,
}

/// Tables with the slices that a pack points to.
pub(super) struct PackTables<'a> {
    bank: &'a BankInputs,
    discharging: Vec<(f64, &'a [f64])>,
    charging: Vec<(f64, &'a [f64])>,
}

pub(super) fn bank(
    project: &Project,
    assessment: &Assessment,
    notes: &mut Notes,
) -> Result<BankInputs, NoOutlook> {
    let batteries: Vec<(&Id, &Battery, Option<Mass>)> = project
        .items
        .iter()
        .filter_map(|(id, item)| match &item.spec {
            Spec::Battery(battery) => Some((id, battery, item.body.mass.value().copied())),
            _ => None,
        })
        .collect();
    let Some((first, spec, mass)) = batteries.first().copied() else {
        return Err(NoOutlook::Missing {
            path: vec!["item".into()],
            wanted: "a battery",
        });
    };
    let name = first.as_str();
    let word = notes.word_or(
        &spec.chemistry,
        &["item", name, "chemistry"],
        |c| c.as_str(),
        "lfp",
    );
    let chemistry = Chemistry::from_id(word).unwrap_or(Chemistry::Lfp);
    let cell = nominal_cell(chemistry).map_or(Voltage::from_volts(3.2), |row| row.value);
    let nominal = assessment
        .system_volts
        .as_ref()
        .map_or(cell * 4.0, |known| known.value);
    let series = (nominal / cell).round().max(1.0) as u32;
    let of_one = notes
        .given_or(
            &spec.capacity,
            &["item", name, "capacity"],
            CAPACITY,
            Assumption::UsualForKind,
        )
        .value;
    let sum: Charge = batteries
        .iter()
        .map(|(_, battery, _)| battery.capacity.value().copied().unwrap_or(of_one))
        .sum();
    let capacity = assessment.capacity.unwrap_or(sum);
    let strings = (capacity / of_one).max(1.0);
    let mut bank = BankInputs {
        items: batteries.iter().map(|(id, _, _)| (*id).clone()).collect(),
        nominal,
        series,
        capacity,
        unit: (of_one, mass),
        usable: Ratio::ONE,
        full_at: crate::circuit::usual_charge_voltage(word, series),
        guard: None,
        iron_phosphate: chemistry == Chemistry::Lfp,
        most_in: notes.given(&spec.charge_limit).map_or_else(
            || limit(chemistry, Flow::Charge, of_one),
            |known| known.value,
        ) * strings,
        most_out: spec
            .discharge_limit
            .value()
            .map_or(Current::from_amperes(f64::INFINITY), |limit| {
                *limit * strings
            }),
        open: Vec::new(),
        hysteresis: Vec::new(),
        celsius: Vec::new(),
        discharging: Vec::new(),
        charging: Vec::new(),
        activation: cell::activation().map_or(0.0, |row| row.value),
        connections: Resistance::ZERO,
        coulombic: cell::coulombic().map_or(Ratio::ONE, |row| row.value.usual),
        acceptance: Duration::ZERO,
        when_full: WhenFull::Refuse,
        lowest: Ratio::ZERO,
        bands: bands(),
        reconnect: solar::reconnect().map_or(Ratio::ZERO, |row| row.value),
        cell_lag: solar::cell_lag().map_or(Duration::ZERO, |row| row.value),
    };
    if bank.iron_phosphate {
        bank.measured_cell(spec);
        bank.guard = Some(guard(name, spec, notes));
    } else {
        bank.lead_acid(chemistry, spec, word);
    }
    Ok(bank)
}

fn limit(chemistry: Chemistry, flow: Flow, capacity: Charge) -> Current {
    wainwright_reference::battery::current_limit(chemistry, flow, capacity)
        .map_or(Current::from_amperes(f64::INFINITY), |row| row.value)
}

fn bands() -> Vec<TemperatureRate> {
    let band = |row: wainwright_reference::Sourced<(Temperature, f64)>| TemperatureRate {
        from: row.value.0,
        rate: Ratio::from_fraction(row.value.1),
    };
    cell::charge_bands().into_iter().map(band).collect()
}

/// Thresholds of the battery's own protection; those of its class where nothing is typed.
fn guard(name: &str, spec: &Battery, notes: &mut Notes) -> Guard {
    let class = thresholds(BoardClass::Usual);
    let class = class.as_ref();
    let mut volts = |field: &wainwright_model::Field<Voltage>, key, usual: Option<Voltage>| {
        take(notes, field, &["item", name, key], usual)
    };
    let over = volts(
        &spec.cell_cutoff,
        "cell_cutoff",
        class.map(|c| c.over.value),
    );
    let over_release = volts(
        &spec.cell_release,
        "cell_release",
        class.map(|c| c.over_release.value),
    )
    .min(over);
    let under = volts(
        &spec.low_cell_cutoff,
        "low_cell_cutoff",
        class.map(|c| c.under.value),
    );
    let under_release = volts(
        &spec.low_cell_release,
        "low_cell_release",
        class.map(|c| c.under_release.value),
    )
    .max(under);
    let mut degrees =
        |field: &wainwright_model::Field<Temperature>, key, usual: Option<Temperature>| {
            take(notes, field, &["item", name, key], usual)
        };
    let hot = degrees(&spec.hot_cutoff, "hot_cutoff", class.map(|c| c.hot.value));
    let cold = degrees(
        &spec.cold_cutoff,
        "cold_cutoff",
        class.map(|c| c.cold.value),
    );
    let cold_release = degrees(
        &spec.cold_release,
        "cold_release",
        class.map(|c| c.cold_release.value),
    )
    .max(cold);
    let hot_release = class.map_or(hot, |c| c.hot_release.value).min(hot);
    Guard {
        thresholds: Thresholds {
            over,
            over_release,
            under,
            under_release,
            hot,
            hot_release,
            cold,
            cold_release,
            delay: class.map_or(Duration::ZERO, |c| c.delay.value),
        },
        ahead: spec.cell_spread.value().copied().unwrap_or(Ratio::ZERO),
    }
}

/// A given value, or the usual one, which is then noted.
fn take<Q: Quantity>(
    notes: &mut Notes,
    field: &wainwright_model::Field<Q>,
    path: &[&str],
    usual: Option<Q>,
) -> Q {
    let usual = usual.unwrap_or_else(|| Q::from_base(0.0));
    notes
        .given_or(field, path, usual, Assumption::UsualForChemistry)
        .value
}

impl BankInputs {
    /// Curves and resistance of the measured iron phosphate cell.
    fn measured_cell(&mut self, spec: &Battery) {
        self.open = cell::open_circuit().map_or_else(Vec::new, |row| row.value);
        self.hysteresis = cell::hysteresis().map_or_else(Vec::new, |row| row.value);
        let table = |flow| {
            cell::resistance(flow).map_or_else(
                || (Vec::new(), Vec::new()),
                |row| {
                    let rows = row.value.rows.iter().map(|(at, row)| (*at, row.to_vec()));
                    (row.value.celsius.to_vec(), rows.collect())
                },
            )
        };
        (self.celsius, self.discharging) = table(Flow::Discharge);
        self.charging = table(Flow::Charge).1;
        let extra = pack_extra_resistance(Chemistry::Lfp, Spread::Typical)
            .map_or(Resistance::ZERO, |row| row.value);
        self.connections = match spec.resistance.value() {
            Some(whole) => {
                let cells = self.cells_resistance(self.unit.0);
                (*whole - cells).max(Resistance::ZERO) * (self.unit.0 / self.capacity)
            }
            None => extra * (self.unit.0 / self.capacity),
        };
    }

    /// Resistance of the cells alone, half full and at 25 °C, of a pack of this capacity.
    fn cells_resistance(&self, capacity: Charge) -> Resistance {
        let tables = self.tables();
        let table = ResistanceTable {
            celsius: &self.celsius,
            rows: &tables.discharging,
            activation: self.activation,
        };
        let ohm_hours = table.at(0.5, Temperature::from_celsius(25.0));
        Resistance::from_ohms(f64::from(self.series) * ohm_hours / capacity.ampere_hours())
    }

    /// Rested voltages and one resistance of a lead-acid battery.
    fn lead_acid(&mut self, chemistry: Chemistry, spec: &Battery, word: &str) {
        if let Some(rested) = cell::rested_voltages(chemistry) {
            self.open = rested
                .value
                .iter()
                .map(|(at, volts)| (*at, volts.volts()))
                .collect();
        }
        let usual = crate::circuit::usual_pack_resistance(word, self.series, self.unit.0);
        let of_one = spec.resistance.value().copied().unwrap_or(usual);
        self.connections = of_one * (self.unit.0 / self.capacity);
        if let Some(figures) = cell::lead_acid(chemistry) {
            self.acceptance = figures.taper.value.usual;
            self.usable = figures.usable.value;
            self.lowest = Ratio::ONE - figures.usable.value;
            // Energy out over energy in is charge out over charge in, times the voltages, which the resistance has.
            self.coulombic = Ratio::from_fraction(figures.round_trip.value.usual.sqrt());
        }
        if chemistry == Chemistry::Flooded {
            self.when_full = WhenFull::Overcharge;
        }
        self.bands.clear();
    }

    /// The tables with the slices a pack points to.
    pub(super) fn tables(&self) -> PackTables<'_> {
        PackTables {
            bank: self,
            discharging: self
                .discharging
                .iter()
                .map(|(at, row)| (*at, row.as_slice()))
                .collect(),
            charging: self
                .charging
                .iter()
                .map(|(at, row)| (*at, row.as_slice()))
                .collect(),
        }
    }

    /// Limits of the whole pack.
    pub(super) fn limits(&self) -> Limits {
        Limits {
            most_in: self.most_in,
            most_out: self.most_out,
            absorption: Voltage::from_volts(f64::INFINITY),
            acceptance: self.acceptance,
            lowest: self.lowest,
            when_full: self.when_full,
        }
    }

    /// Charging current by the temperature of the cells.
    pub(super) fn charge_bands(&self) -> &[TemperatureRate] {
        &self.bands
    }

    /// The same with more batteries like the first, or fewer.
    pub(super) fn with_batteries(&self, count: f64) -> Self {
        let capacity = self.unit.0 * count;
        let times = capacity / self.capacity;
        Self {
            capacity,
            connections: self.connections * (1.0 / times),
            most_in: self.most_in * times,
            most_out: self.most_out * times,
            ..self.clone()
        }
    }

    /// Number of batteries like the first.
    pub(super) fn count(&self) -> f64 {
        self.capacity / self.unit.0
    }

    /// Energy between full and empty at the open voltage.
    pub(super) fn energy(&self) -> Energy {
        let tables = self.tables();
        tables.pack().energy_between(self.lowest, Ratio::ONE)
    }
}

impl PackTables<'_> {
    /// The pack.
    pub(super) fn pack(&self) -> Pack<'_> {
        let bank = self.bank;
        let table = |rows| ResistanceTable {
            celsius: &bank.celsius,
            rows,
            activation: bank.activation,
        };
        Pack {
            series: bank.series,
            capacity: bank.capacity,
            open: Curve::new(&bank.open),
            hysteresis: Curve::new(&bank.hysteresis),
            discharging: table(&self.discharging),
            charging: table(&self.charging),
            connections: bank.connections,
            coulombic: bank.coulombic,
        }
    }
}
