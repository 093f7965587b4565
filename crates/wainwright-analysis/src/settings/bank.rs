//! All batteries of the project as one row of cells, and the protection that acts first. Not here: devices.

use super::desk::Desk;
use crate::known::{Assumption, Basis, Known};
use crate::result::settings::{BankFigures, BoardFigures};
use std::sync::OnceLock;
use wainwright_engines::battery::{Curve, Thresholds};
use wainwright_engines::charging::{Battery as Cells, Board, Family};
use wainwright_model::{Battery, Field, FieldExt, Id, Spec};
use wainwright_reference::battery::{
    Chemistry, Flow, Spread, cells_of_12_volts, current_limit, lfp_resistance, nominal_cell,
    pack_extra_resistance,
};
use wainwright_reference::cell;
use wainwright_reference::protection_board::{BoardClass, BoardThresholds, thresholds};
use wainwright_units::{
    Charge, Current, Duration, Quantity, Ratio, Resistance, Temperature, Voltage,
};

/// Charge of a battery when nobody said (judgement; the same stands in for the wiring).
const CAPACITY: Charge = Charge::from_ampere_hours(100.0);
/// How far the fullest cell is ahead when nobody said (judgement): with it four cells trip their protection at 14.2 V,
/// which is what the usual 14.0 to 14.2 V keeps clear of.
const SPREAD: Ratio = Ratio::from_fraction(0.005);
/// State of charge and temperature at which the resistance of a cell is taken.
const HALF: Ratio = Ratio::from_fraction(0.5);
const ROOM: Temperature = Temperature::from_celsius(25.0);
/// Charging current of a battery of a chemistry without a row: a fifth of its capacity each hour (judgement).
const USUAL_RATE: f64 = 0.2;

/// The bank with everything its cells point to.
pub(super) struct Bank {
    pub(super) figures: BankFigures,
    pub(super) board_figures: Option<BoardFigures>,
    pub(super) board: Option<Board>,
    open: &'static [(f64, f64)],
    charging: f64,
    discharging: f64,
    connections: Resistance,
}

struct Pack<'a> {
    id: &'a Id,
    spec: &'a Battery,
    /// Cells of the whole bank over cells of this battery.
    times: f64,
}

/// The bank; `None` without a battery.
pub(super) fn bank(desk: &mut Desk<'_>) -> Option<Bank> {
    let items = desk.project.items.iter();
    let batteries: Vec<(&Id, &Battery)> = items
        .filter_map(|(id, item)| match &item.spec {
            Spec::Battery(battery) => Some((id, battery)),
            _ => None,
        })
        .collect();
    let (first, spec) = batteries.first().copied()?;
    let path = ["item", first.as_str(), "chemistry"];
    let word = desk
        .notes
        .word_or(&spec.chemistry, &path, |c| c.as_str(), "lfp");
    let chemistry = Chemistry::from_id(word).unwrap_or(Chemistry::Lfp);
    let cell = nominal_cell(chemistry).map_or(Voltage::from_volts(3.2), |row| row.value);
    let usual_cells = cells_of_12_volts(chemistry).map_or(4, |row| row.value);
    let own_cells = |spec: &Battery| spec.cells.value().copied().unwrap_or(usual_cells).max(1);
    let nominal = desk
        .facts
        .nominal
        .unwrap_or(cell * f64::from(own_cells(spec)));
    let series = (nominal / cell).round().clamp(1.0, 32.0) as u32;
    let packs: Vec<Pack<'_>> = batteries
        .iter()
        .map(|(id, spec)| Pack {
            id,
            spec,
            times: f64::from(series) / f64::from(own_cells(spec)),
        })
        .collect();
    let capacity = capacity(desk, first, spec);
    let lithium = chemistry == Chemistry::Lfp;
    let side_by_side = desk.facts.strings as f64;
    let most_in = most_in(desk, &packs, chemistry, capacity.value, side_by_side);
    let spread = match lithium {
        true => spread(desk, &packs),
        false => Known::computed(Ratio::ZERO),
    };
    let coldest = desk.coldest();
    let (charging, discharging, connections) =
        resistances(spec, chemistry, word, series, capacity.value, side_by_side);
    let board = lithium.then(|| board(desk, &packs)).flatten();
    Some(Bank {
        figures: BankFigures {
            items: batteries.iter().map(|(id, _)| (*id).clone()).collect(),
            chemistry,
            lithium,
            nominal,
            series,
            capacity,
            spread,
            most_in,
            coldest,
        },
        board: board.as_ref().map(|(_, board)| *board),
        board_figures: board.map(|(figures, _)| figures),
        open: open(chemistry),
        charging,
        discharging,
        connections,
    })
}

impl Bank {
    /// The bank as the engine sees it.
    pub(super) fn cells(&self) -> Cells<'static> {
        let figures = &self.figures;
        Cells {
            family: if figures.lithium {
                Family::Lithium
            } else {
                Family::LeadAcid
            },
            series: figures.series,
            capacity: figures.capacity.value,
            open: Curve::new(self.open),
            charging: self.charging,
            discharging: self.discharging,
            connections: self.connections,
            most_in: figures.most_in.value,
            ahead: figures.spread.value,
            coldest: figures.coldest.value,
        }
    }
}

fn capacity(desk: &mut Desk<'_>, first: &Id, spec: &Battery) -> Known<Charge> {
    if let Some(all) = desk.facts.capacity {
        return Known::computed(all);
    }
    let path = ["item", first.as_str(), "capacity"];
    let one = desk
        .notes
        .given_or(&spec.capacity, &path, CAPACITY, Assumption::UsualForKind);
    Known::new(one.value * desk.facts.strings as f64, one.basis)
}

fn most_in(
    desk: &mut Desk<'_>,
    packs: &[Pack<'_>],
    chemistry: Chemistry,
    capacity: Charge,
    strings: f64,
) -> Known<Current> {
    let told = packs
        .iter()
        .filter_map(|pack| desk.notes.given(&pack.spec.charge_limit))
        .reduce(|a, b| if b.value < a.value { b } else { a });
    if let Some(least) = told {
        return Known::new(least.value * strings, least.basis);
    }
    let usual = current_limit(chemistry, Flow::Charge, capacity);
    let usual = usual.map_or(
        Current::from_amperes(USUAL_RATE * capacity.ampere_hours()),
        |row| row.value,
    );
    let path = [
        "item",
        packs.first().map_or("", |p| p.id.as_str()),
        "charge_limit",
    ];
    desk.notes
        .assume(&path, usual, Assumption::UsualForChemistry)
}

fn spread(desk: &mut Desk<'_>, packs: &[Pack<'_>]) -> Known<Ratio> {
    let told = packs
        .iter()
        .filter_map(|pack| desk.notes.given(&pack.spec.cell_spread))
        .reduce(|a, b| if b.value > a.value { b } else { a });
    told.unwrap_or_else(|| {
        let path = [
            "item",
            packs.first().map_or("", |p| p.id.as_str()),
            "cell_spread",
        ];
        desk.notes
            .assume(&path, SPREAD, Assumption::UsualForChemistry)
    })
}

/// Ω·Ah of a cell one way and the other, and ohms of everything else in the bank.
fn resistances(
    spec: &Battery,
    chemistry: Chemistry,
    word: &str,
    series: u32,
    capacity: Charge,
    strings: f64,
) -> (f64, f64, Resistance) {
    let own = capacity * (1.0 / strings);
    let usual = crate::circuit::usual_pack_resistance(word, series, own);
    let cells = f64::from(series);
    let own_cells = spec.cells.value().map_or(cells, |own| f64::from(*own));
    let typed = spec
        .resistance
        .value()
        .map(|ohms| *ohms * (cells / own_cells.max(1.0)));
    if chemistry != Chemistry::Lfp {
        let whole = typed.unwrap_or(usual);
        let each = whole.ohms() * own.ampere_hours() / cells;
        return (each, each, Resistance::ZERO);
    }
    let (charging, discharging) = cell_resistances();
    let extra = pack_extra_resistance(chemistry, Spread::Typical);
    let extra = extra.map_or(Resistance::ZERO, |row| row.value);
    let of_cells = Resistance::from_ohms(cells * discharging / own.ampere_hours());
    let rest = typed.map_or(extra, |whole| (whole - of_cells).max(Resistance::ZERO));
    (charging, discharging, rest * (1.0 / strings))
}

/// Of the measured cell, half full and warm [Ω·Ah].
fn cell_resistances() -> (f64, f64) {
    static FOUND: OnceLock<(f64, f64)> = OnceLock::new();
    *FOUND.get_or_init(|| {
        let one = Charge::from_ampere_hours(1.0);
        let at = |flow| lfp_resistance(flow, HALF, ROOM, one).map_or(0.0, |row| row.value.ohms());
        (at(Flow::Charge), at(Flow::Discharge))
    })
}

/// Open voltage of a cell, read once for each chemistry.
fn open(chemistry: Chemistry) -> &'static [(f64, f64)] {
    type Points = Vec<(f64, f64)>;
    static LITHIUM: OnceLock<Points> = OnceLock::new();
    static AGM: OnceLock<Points> = OnceLock::new();
    static GEL: OnceLock<Points> = OnceLock::new();
    static FLOODED: OnceLock<Points> = OnceLock::new();
    let (kept, measured) = match chemistry {
        Chemistry::Lfp => (&LITHIUM, true),
        Chemistry::Agm => (&AGM, false),
        Chemistry::Gel => (&GEL, false),
        Chemistry::Flooded => (&FLOODED, false),
    };
    kept.get_or_init(|| {
        if measured {
            return cell::open_circuit().map_or_else(Vec::new, |row| row.value);
        }
        let rested = cell::rested_voltages(chemistry);
        rested.map_or_else(Vec::new, |row| {
            let points = row.value.iter();
            points.map(|(at, volts)| (*at, volts.volts())).collect()
        })
    })
}

fn usual_board() -> Option<&'static BoardThresholds> {
    static FOUND: OnceLock<Option<BoardThresholds>> = OnceLock::new();
    FOUND.get_or_init(|| thresholds(BoardClass::Usual)).as_ref()
}

/// The thresholds of all packs, of each the one that acts first; those of the usual class where nothing is typed.
fn board<'a>(desk: &mut Desk<'a>, packs: &[Pack<'a>]) -> Option<(BoardFigures, Board)> {
    let class = usual_board()?;
    let mut first = First { desk, packs };
    let low = |a: Voltage, b: Voltage| a < b;
    let high = |a: Voltage, b: Voltage| a > b;
    let over = first.or(|b| &b.cell_cutoff, "cell_cutoff", class.over.value, low);
    let over_release = first.or(
        |b| &b.cell_release,
        "cell_release",
        class.over_release.value.min(over.value),
        low,
    );
    let under = first.or(
        |b| &b.low_cell_cutoff,
        "low_cell_cutoff",
        class.under.value,
        high,
    );
    let under_release = first.or(
        |b| &b.low_cell_release,
        "low_cell_release",
        class.under_release.value.max(under.value),
        high,
    );
    let balance_from = first.or(
        |b| &b.balance_from,
        "balance_from",
        class.balance_from.value,
        high,
    );
    let cold = first.or(
        |b| &b.cold_cutoff,
        "cold_cutoff",
        class.cold.value,
        |a: Temperature, b| a > b,
    );
    let pack_over = first.pack(|b| &b.high_cutoff, low);
    let pack_under = first.pack(|b| &b.low_cutoff, high);
    let up = class.over_release.value / class.over.value;
    let down = class.under_release.value / class.under.value;
    let figures = BoardFigures {
        pack_over_release: first.release(|b| &b.high_release, "high_release", low, &pack_over, up),
        pack_under_release: first.release(
            |b| &b.low_release,
            "low_release",
            high,
            &pack_under,
            down,
        ),
        over,
        over_release,
        under,
        under_release,
        pack_over,
        pack_under,
        balance_from,
        cold,
        goes_dead: first.goes_dead(),
    };
    let value = |known: &Option<Known<Voltage>>| known.as_ref().map(|known| known.value);
    let board = Board {
        cells: Thresholds {
            over: figures.over.value,
            over_release: figures.over_release.value.min(figures.over.value),
            under: figures.under.value,
            under_release: figures.under_release.value.max(figures.under.value),
            hot: class.hot.value,
            hot_release: class.hot_release.value,
            cold: figures.cold.value,
            cold_release: class.cold_release.value.max(figures.cold.value),
            delay: Duration::from_seconds(class.delay.value.seconds()),
        },
        pack_over: value(&figures.pack_over),
        pack_over_release: value(&figures.pack_over_release),
        pack_under: value(&figures.pack_under),
        pack_under_release: value(&figures.pack_under_release),
        balance_from: Some(figures.balance_from.value),
        bleed: class.bleed.value,
        most_in: None,
        most_out: None,
        stops_cold: true,
        goes_dead: figures.goes_dead.value,
    };
    Some((figures, board))
}

/// Looks for the threshold that acts first.
struct First<'d, 'a> {
    desk: &'d mut Desk<'a>,
    packs: &'d [Pack<'a>],
}

impl First<'_, '_> {
    fn or<Q: Quantity>(
        &mut self,
        field: fn(&Battery) -> &Field<Q>,
        key: &str,
        usual: Q,
        earlier: fn(Q, Q) -> bool,
    ) -> Known<Q> {
        let told = self.packs.iter();
        let told = told.filter_map(|pack| self.desk.notes.given(field(pack.spec)));
        let first = told.reduce(|a, b| if earlier(b.value, a.value) { b } else { a });
        first.unwrap_or_else(|| {
            let path = [
                "item",
                self.packs.first().map_or("", |p| p.id.as_str()),
                key,
            ];
            self.desk
                .notes
                .assume(&path, usual, Assumption::UsualForChemistry)
        })
    }

    /// A threshold of a pack, carried over to the whole bank.
    fn pack(
        &self,
        field: fn(&Battery) -> &Field<Voltage>,
        earlier: fn(Voltage, Voltage) -> bool,
    ) -> Option<Known<Voltage>> {
        let told = self.packs.iter().filter_map(|pack| {
            let known = self.desk.notes.given(field(pack.spec))?;
            Some(Known::new(known.value * pack.times, known.basis))
        });
        told.reduce(|a, b| if earlier(b.value, a.value) { b } else { a })
    }

    /// Where a pack threshold lets go; as far from it as in a cell of the usual class, where nothing is typed.
    fn release(
        &mut self,
        field: fn(&Battery) -> &Field<Voltage>,
        key: &str,
        earlier: fn(Voltage, Voltage) -> bool,
        trip: &Option<Known<Voltage>>,
        share: f64,
    ) -> Option<Known<Voltage>> {
        let trip = trip.as_ref()?.value;
        self.pack(field, earlier).or_else(|| {
            let path = [
                "item",
                self.packs.first().map_or("", |p| p.id.as_str()),
                key,
            ];
            let notes = &mut self.desk.notes;
            Some(notes.assume(&path, trip * share, Assumption::UsualForChemistry))
        })
    }

    fn goes_dead(&self) -> Known<bool> {
        let told = self.packs.iter();
        let told: Vec<_> = told
            .filter_map(|pack| self.desk.notes.given(&pack.spec.sleeps))
            .collect();
        let dead = told.iter().find(|known| known.value).or(told.first());
        dead.cloned()
            .unwrap_or_else(|| Known::new(false, Basis::Assumed(Assumption::UsualForKind)))
    }
}
