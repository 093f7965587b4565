//! Chargers: the shore charger, the charger fed by the tow vehicle and its
//! line. Not here: solar.

use super::account::ObstacleKind;
use super::desk::Desk;
use super::draft::{Guard, Laid, Reach, end};
use super::limits;
use wainwright_model::{FieldExt, Kind, Spec};
use wainwright_reference::colour::ColourRole;

impl Desk<'_> {
    /// Every shore charger and every charger fed by the vehicle.
    pub(super) fn chargers(&mut self) {
        for (id, _) in self.survey.of(Kind::ShoreCharger) {
            self.charger(id, ("+", "-"), 'C');
        }
        let mut supplies: Vec<String> = self
            .survey
            .of(Kind::VehicleSupply)
            .into_iter()
            .map(|(id, _)| id.to_string())
            .filter(|id| self.survey.is_untouched(id))
            .collect();
        supplies.reverse();
        for (id, _) in self.survey.of(Kind::DcdcCharger) {
            self.charger(id, ("out+", "out-"), 'D');
            if self.survey.is_loose(id, "in+") && self.survey.is_loose(id, "in-") {
                match supplies.pop() {
                    Some(supply) => self.vehicle_line(&supply, id),
                    None => {
                        let label = self.survey.label(id);
                        self.account.cannot(
                            ObstacleKind::Missing,
                            format!("{label} has nothing to take from: add the charge line of the tow vehicle."),
                            &[id],
                        );
                    }
                }
            }
        }
        for id in supplies {
            let label = self.survey.label(&id);
            self.account.cannot(
                ObstacleKind::Missing,
                format!(
                    "{label} is not joined: straight to the battery it would charge at whatever \
                     voltage the vehicle has. Add a charger between them."
                ),
                &[&id],
            );
        }
    }

    /// The giving side of a charger: its fuse sits at the bar, where the
    /// battery is.
    pub(super) fn charger(&mut self, id: &str, pair: (&str, &str), letter: char) {
        let plus = self.survey.inlet(id, pair.0);
        let begun = self.begun_at(&plus);
        let loose = (
            self.survey.is_loose(&plus.0, &plus.1),
            self.survey.is_loose(id, pair.1),
        );
        if loose == (false, false) {
            return;
        }
        let Some(amps) = self.survey.amps(id, pair.0) else {
            self.untold(id);
            return;
        };
        let label = self.next(letter);
        let name = self.survey.label(id);
        let reach = self
            .room
            .reach(self.placed(id, &self.bar_id(true)), self.room.charger());
        let insulation = limits::insulation(self.survey.region(), true);
        let families = limits::families(self.highest);
        let guard = match (&begun, loose.0) {
            (Some(fuse), true) => Guard::Own(self.old_device(fuse.clone(), families)),
            (None, true) => self.fuse(&format!("{id} {name}"), families),
            (_, false) => Guard::Existing(None),
        };
        let section = self.draft.section(&name, guard, insulation, amps);
        self.least(section, amps / self.continuous_share());
        if loose.0 {
            let Some(from) = self.stud(true) else { return };
            let title = format!("{name} fuse");
            let role = ColourRole::PlusBranch;
            let start = self.fuse_named(&format!("{id}-fuse"), &title, section, from, role);
            if begun.is_none() {
                let laid = Laid::apart(section, role, reach);
                self.draft.wire(
                    &format!("{id}-plus"),
                    &format!("{label}+"),
                    (start, plus),
                    laid,
                );
            }
            self.account.decide(
                format!("The fuse of {name} sits at the bar."),
                "In a short circuit the battery gives far more than the charger: the end at the battery is the one to protect.",
                "33 CFR 183.455 and ABYC E-11: every source of power counts",
                &[id],
            );
        }
        if loose.1
            && let Some(to) = self.stud(false)
        {
            let laid = Laid::apart(section, ColourRole::Minus, reach);
            self.draft.wire(
                &format!("{id}-minus"),
                &format!("{label}-"),
                (end(id, pair.1), to),
                laid,
            );
        }
    }

    /// The line from the vehicle, protected at the vehicle's end.
    fn vehicle_line(&mut self, supply: &str, charger: &str) {
        let volts = match self.survey.project.items.get(supply).map(|item| &item.spec) {
            Some(Spec::VehicleSupply(spec)) => spec.voltage.value().map_or(VEHICLE, |v| v.volts()),
            _ => VEHICLE,
        };
        let rated = self.survey.amps(charger, "in+").unwrap_or(0.0);
        let amps = rated * self.volts.max(1.0) / volts.max(1.0) * LINE;
        let label = self.next('T');
        let names = (self.survey.label(supply), self.survey.label(charger));
        let words = format!("{supply} {} tow vehicle", names.0);
        let guard = self.fuse(&words, limits::families(volts));
        let insulation = limits::insulation(self.survey.region(), true);
        let section = self.draft.section(&names.0, guard, insulation, amps);
        self.least(section, amps / self.continuous_share());
        let role = ColourRole::PlusBranch;
        let title = "Charge line fuse";
        let start = self.fuse_named(
            &format!("{supply}-fuse"),
            title,
            section,
            end(supply, "+"),
            role,
        );
        let reach = self
            .room
            .reach(self.placed(supply, charger), self.room.coupler());
        let mut laid = Laid::apart(section, role, reach);
        laid.sheathed = reach != Reach::Routed;
        let ends = (start, end(charger, "in+"));
        self.draft
            .wire(&format!("{supply}-plus"), &format!("{label}+"), ends, laid);
        laid.role = ColourRole::Minus;
        let ends = (end(charger, "in-"), end(supply, "-"));
        self.draft
            .wire(&format!("{supply}-minus"), &format!("{label}-"), ends, laid);
        self.account.decide(
            format!(
                "The line from {} is protected at the vehicle's end.",
                names.0
            ),
            "The vehicle's battery is the source that can overload it.",
            "33 CFR 183.455: every source of power counts",
            &[supply, charger],
        );
    }
}

/// Voltage of a vehicle that does not say \[V\].
const VEHICLE: f64 = 13.8;
/// A long line sags: so much more current flows into a charger of constant
/// power. Judgement; sizing uses the computed current.
const LINE: f64 = 1.1;
