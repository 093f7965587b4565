//! Finding what does not agree in the present settings. Not here: what to do about it (`remedy`).

use super::bound::{Bound, Reason, SLIP, SetPoint};
use super::card::{Cards, ChargerCard, DisconnectCard};
use super::conflict::{Conflict, ConflictKind, Figure, Place};
use super::input::{Charger, Disconnect, DisconnectKind, DisconnectSettings, Settings, System};
use super::pack;
use super::set::{is_lithium, regulated_wire, together};
use wainwright_units::{Current, Duration, Ratio, Voltage};

/// Everything that does not agree, without remedies, charger by charger.
pub(super) fn all(system: &System<'_>, cards: &Cards) -> Vec<Conflict> {
    let mut found = Vec::new();
    for (index, (charger, card)) in system.chargers.iter().zip(&cards.chargers).enumerate() {
        let one = OneCharger {
            system,
            cards,
            charger,
            card,
            place: Place::Charger(index),
        };
        found.extend(one.devices());
        if let Some(settings) = &charger.settings {
            found.extend(one.voltages(settings));
            found.extend(one.rest(settings));
        }
    }
    found.extend(sum(system, cards));
    let pairs = system.disconnects.iter().zip(&cards.disconnects);
    for (index, (device, card)) in pairs.enumerate() {
        if let Some(settings) = device.settings {
            let place = Place::Disconnect(index);
            found.extend(disconnect(system, device, card, settings, place));
        }
    }
    found
}

struct OneCharger<'s, 'a> {
    system: &'s System<'a>,
    cards: &'s Cards,
    charger: &'s Charger,
    card: &'s ChargerCard,
    place: Place,
}

impl OneCharger<'_, '_> {
    /// What is wrong whatever is set.
    fn devices(&self) -> Vec<Conflict> {
        let mut found = Vec::new();
        let highest = self.system.loads.highest;
        if let (Some(open), Some(_)) = (self.charger.unloaded, &self.system.board)
            && open > highest
        {
            let (open, highest) = (Figure::Voltage(open), Figure::Voltage(highest));
            found.push(self.conflict(ConflictKind::LoadDump, open, highest, highest));
        }
        let dead = self.system.board.is_some_and(|board| board.goes_dead);
        if dead && self.charger.needs_battery {
            found.push(self.conflict(
                ConflictKind::CannotWake,
                Figure::On,
                Figure::Off,
                Figure::Off,
            ));
        }
        let lithium = is_lithium(self.system);
        if lithium && self.charger.lead_acid_profile {
            found.push(self.conflict(
                ConflictKind::LeadAcidProfile,
                Figure::On,
                Figure::Off,
                Figure::Off,
            ));
        }
        found
    }

    fn voltages(&self, set: &Settings) -> Vec<Conflict> {
        use ConflictKind as Kind;
        let card = self.card;
        let absorption = set.absorption;
        let boards = [Reason::CellTrip, Reason::PackTrip];
        let mut found = Vec::new();
        found.extend(self.above(Kind::AboveBoard, absorption, &card.absorption, &boards));
        found.extend(self.above(
            Kind::AboveLoads,
            absorption,
            &card.absorption,
            &[Reason::LoadsTake],
        ));
        let low = card.absorption.low;
        if below(absorption, low.value) {
            found.push(self.volts(Kind::NeverFull, absorption, low.value, low.value));
        }
        if let Some(wish) = card.absorption.wish_kept()
            && below(absorption, wish.value)
        {
            found.push(self.volts(Kind::NeverBalances, absorption, wish.value, wish.value));
        }
        found.extend(
            set.float
                .map(|float| self.float(float, absorption))
                .into_iter()
                .flatten(),
        );
        found
    }

    fn float(&self, float: Voltage, absorption: Voltage) -> Vec<Conflict> {
        use ConflictKind as Kind;
        let mut found = Vec::new();
        let low = self.card.float.low.value;
        if below(float, low) {
            found.push(self.volts(Kind::FloatTooLow, float, low, low));
        }
        let but_absorption = self.card.float.highs.iter();
        let highs = but_absorption.filter(|bound| bound.reason != Reason::Absorption);
        if let Some(high) = lowest(highs)
            && below(high.value, float)
        {
            found.push(self.volts(Kind::FloatTooHigh, float, high.value, high.value));
        }
        if below(absorption, float) {
            found.push(self.volts(Kind::FloatAboveAbsorption, float, absorption, absorption));
        }
        found
    }

    fn rest(&self, set: &Settings) -> Vec<Conflict> {
        use ConflictKind as Kind;
        let mut found = Vec::new();
        if let Some(tail) = set.tail {
            let (low, high) = (self.card.tail.low.value, self.card.tail.high.value);
            if tail.amperes() < low.amperes() - SLIP {
                found.push(self.amperes(Kind::TailTooSmall, tail, low));
            } else if tail.amperes() > high.amperes() + SLIP {
                found.push(self.amperes(Kind::TailTooLarge, tail, high));
            }
        }
        let takes = self.cards.pack.takes;
        if set.limit.amperes() > takes.amperes() + SLIP {
            found.push(self.amperes(Kind::CurrentAboveBattery, set.limit, takes));
        }
        found.extend(self.cold(set));
        if is_lithium(self.system) {
            if let Some(equalise) = set.equalise {
                let on = Figure::Voltage(equalise);
                found.push(self.conflict(Kind::EqualiseOnLithium, on, Figure::Off, Figure::Off));
            }
            if set.compensation != 0.0 {
                let on = Figure::Compensation(set.compensation);
                let off = Figure::Compensation(0.0);
                found.push(self.conflict(Kind::CompensationOnLithium, on, off, off));
            }
        }
        found
    }

    /// Nothing but the board keeps frozen cells from being charged.
    fn cold(&self, set: &Settings) -> Option<Conflict> {
        let lockout = self.card.lockout.as_ref()?;
        let frozen = self.system.profile.lockout?.low;
        let low = lockout.low.value;
        if self.system.battery.coldest >= low {
            return None;
        }
        let on = set
            .lockout
            .is_some_and(|at| at.celsius() > low.celsius() - SLIP);
        if on && self.charger.sensor {
            return None;
        }
        let found = set.lockout.map_or(Figure::Off, Figure::Temperature);
        Some(self.conflict(
            ConflictKind::NoColdLockout,
            found,
            Figure::Temperature(frozen),
            Figure::Temperature(low),
        ))
    }

    /// Above one of the upper ends; the limit is that end without its margin.
    fn above(
        &self,
        kind: ConflictKind,
        found: Voltage,
        point: &SetPoint<Voltage>,
        reasons: &[Reason],
    ) -> Option<Conflict> {
        let of_kind = point
            .highs
            .iter()
            .filter(|end| reasons.contains(&end.reason));
        let high = lowest(of_kind)?;
        let cells = f64::from(self.system.battery.series);
        let margin = match high.reason {
            Reason::CellTrip | Reason::PackTrip => self.system.margins.below_trip * cells,
            _ => Voltage::ZERO,
        };
        below(high.value, found).then(|| self.volts(kind, found, high.value + margin, high.value))
    }

    fn volts(&self, kind: ConflictKind, found: Voltage, limit: Voltage, to: Voltage) -> Conflict {
        let [found_figure, limit_figure, to] = [found, limit, to].map(Figure::Voltage);
        let mut one = self.conflict(kind, found_figure, limit_figure, to);
        one.within_margin = kind == ConflictKind::AboveBoard && found <= limit;
        one
    }

    fn amperes(&self, kind: ConflictKind, found: Current, limit: Current) -> Conflict {
        let [found, limit] = [found, limit].map(Figure::Current);
        self.conflict(kind, found, limit, limit)
    }

    fn conflict(&self, kind: ConflictKind, found: Figure, limit: Figure, to: Figure) -> Conflict {
        plain(kind, self.place, found, limit, to)
    }
}

/// What a conflict costs: where the current begins to fall at the present voltage, and how long it falls.
pub(super) fn cost(
    system: &System<'_>,
    cards: &Cards,
    conflict: &Conflict,
) -> Option<(Ratio, Duration)> {
    let kinds = [ConflictKind::LeadAcidProfile, ConflictKind::NeverFull];
    let Place::Charger(index) = conflict.place else {
        return None;
    };
    if !kinds.contains(&conflict.kind) {
        return None;
    }
    let charger = system.chargers.get(index)?;
    let set = charger.settings?;
    let tail = cards.chargers.get(index)?.tail.low.value;
    let wire = regulated_wire(charger);
    let taper = pack::taper(&system.battery, set.absorption, wire, set.limit, tail)?;
    Some((taper.begins, taper.lasts))
}

/// Chargers that run together against what the battery takes.
fn sum(system: &System<'_>, cards: &Cards) -> Option<Conflict> {
    let now = |charger: &Charger| charger.settings.map_or(charger.most, |set| set.limit);
    let running: Vec<f64> = together(system)
        .map(|(_, charger)| now(charger).amperes())
        .collect();
    let sum: f64 = running.iter().sum();
    let takes = cards.pack.takes;
    let over = running.len() > 1 && sum > takes.amperes() + SLIP;
    over.then(|| {
        let (sum, takes) = (
            Figure::Current(Current::from_amperes(sum)),
            Figure::Current(takes),
        );
        plain(
            ConflictKind::SumAboveBattery,
            Place::Chargers,
            sum,
            takes,
            takes,
        )
    })
}

fn disconnect(
    system: &System<'_>,
    device: &Disconnect,
    card: &DisconnectCard,
    set: DisconnectSettings,
    place: Place,
) -> Vec<Conflict> {
    use ConflictKind as Kind;
    let volts = |kind, found, limit, to| {
        let [found, limit, to] = [found, limit, to].map(Figure::Voltage);
        plain(kind, place, found, limit, to)
    };
    let of_board = match device.kind {
        DisconnectKind::Relay => Kind::DisconnectBelowBoard,
        DisconnectKind::Inverter => Kind::InverterBelowBoard,
    };
    let margin = system.margins.above_cut_off * f64::from(system.battery.series);
    let mut found = Vec::new();
    let boards = [
        Reason::CellCutOff,
        Reason::PackCutOff,
        Reason::ChemistryLeast,
    ];
    let ends = card
        .off
        .lows
        .iter()
        .filter(|end| boards.contains(&end.reason));
    if let Some(low) = highest(ends)
        && below(set.off, low.value)
    {
        let own = low.reason != Reason::ChemistryLeast;
        let limit = if own { low.value - margin } else { low.value };
        let mut one = volts(of_board, set.off, limit, low.value);
        one.within_margin = set.off > limit;
        found.push(one);
    }
    let need = system.loads.lowest;
    if below(set.off, need) {
        found.push(volts(Kind::DisconnectBelowLoads, set.off, need, need));
    }
    let high = card.off.high.value;
    if below(high, set.off) {
        found.push(volts(Kind::DisconnectTooEarly, set.off, high, high));
    }
    let apart = card.figures.drop + card.figures.sag + card.figures.rebound;
    if below(set.on, set.off + apart) {
        found.push(volts(
            Kind::Clicking,
            set.on,
            set.off + apart,
            set.off + apart,
        ));
    }
    let back = card.on.high.value;
    if below(back, set.on) {
        found.push(volts(Kind::ReconnectTooHigh, set.on, back, back));
    }
    found
}

fn plain(kind: ConflictKind, place: Place, found: Figure, limit: Figure, to: Figure) -> Conflict {
    Conflict {
        kind,
        place,
        found,
        limit,
        allowed: to,
        within_margin: false,
        cost: None,
        remedy: Vec::new(),
        change: None,
    }
}

fn below(a: Voltage, b: Voltage) -> bool {
    a.volts() < b.volts() - SLIP
}

fn lowest<'b>(ends: impl Iterator<Item = &'b Bound<Voltage>>) -> Option<Bound<Voltage>> {
    ends.copied().min_by(|a, b| a.value.total_cmp(&b.value))
}

fn highest<'b>(ends: impl Iterator<Item = &'b Bound<Voltage>>) -> Option<Bound<Voltage>> {
    ends.copied().max_by(|a, b| a.value.total_cmp(&b.value))
}
