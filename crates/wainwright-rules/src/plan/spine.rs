//! From the batteries to the bars: main fuse, disconnect switch, shunt, bars,
//! bond. Not here: circuits that start at the bars.

use super::account::ObstacleKind;
use super::desk::Desk;
use super::draft::{Device, End, Guard, Laid, NewKind, Reach, end};
use super::limits;
use super::strings::Str;
use super::survey::{Reached, Walk};
use wainwright_model::{Kind, SwitchStyle};
use wainwright_reference::colour::ColourRole;

/// Draws the way from the batteries to the bars; `false` where there is no
/// battery, and with it nothing to plan.
pub(super) fn draw(desk: &mut Desk<'_>) -> bool {
    let strings = desk.strings();
    if desk.survey.of(Kind::Battery).is_empty() {
        desk.account.cannot(
            ObstacleKind::Missing,
            "There is no battery: without one nothing can be planned.",
            &[],
        );
    }
    if strings.is_empty() {
        return false;
    }
    desk.spine(&strings);
    true
}

impl Desk<'_> {
    fn spine(&mut self, strings: &[Str]) {
        let mut walks: Vec<(Walk, Walk)> = Vec::new();
        for string in strings {
            let (Some(top), Some(bottom)) = (string.members.first(), string.members.last()) else {
                continue;
            };
            walks.push((
                self.survey.walk(end(top, "+")),
                self.survey.walk(end(bottom, "-")),
            ));
        }
        let many = strings.len() > 1;
        let sections: Vec<usize> = strings
            .iter()
            .zip(&walks)
            .map(|(string, (plus, _))| self.battery_section(string, plus))
            .collect();
        let common = match (many, sections.first()) {
            (false, Some(first)) => *first,
            _ => {
                let guard = match self.banned.contains(MAIN_FUSE) {
                    true => self.fuse("", limits::families(self.highest)),
                    false => Guard::Sum(sections.clone()),
                };
                let insulation = limits::insulation(self.survey.region(), false);
                self.draft.section("all batteries", guard, insulation, 0.0)
            }
        };
        self.link_strings(strings, &sections);
        let begun = |pick: fn(&(Walk, Walk)) -> &Walk, sign: &str| {
            let ends = strings.iter().flat_map(|string| &string.members);
            let bar = ends
                .filter_map(|id| self.survey.bar_from(end(id, sign)))
                .next();
            let mut reached = walks.iter().map(|pair| &pick(pair).reached);
            let stud = reached.find(|reached| !matches!(reached, Reached::Loose(_)));
            bar.map(Reached::Bar).or(stud.cloned())
        };
        let (hub, back) = (begun(|pair| &pair.0, "+"), begun(|pair| &pair.1, "-"));
        let joint = self.plus_side(common, hub, &walks);
        let ends = walks.iter().zip(&sections).enumerate();
        for (number, ((plus, _), section)) in ends {
            self.plus_lead(number, *section, plus, &joint, many);
        }
        let joint = self.minus_side(common, back, &walks);
        for (number, ((_, minus), section)) in walks.iter().zip(&sections).enumerate() {
            if let Reached::Loose(from) = &minus.reached
                && *from != joint
            {
                let reach = Reach::Cut(if many {
                    self.room.beside()
                } else {
                    self.room.lead()
                });
                let laid = Laid::open(*section, ColourRole::Minus, reach);
                let base = if many {
                    format!("battery-{}-minus", number + 1)
                } else {
                    "battery-minus".into()
                };
                self.draft.wire(
                    &base,
                    &format!("B{}-", number + 1),
                    (joint.clone(), from.clone()),
                    laid,
                );
            }
        }
    }

    /// One string with its fuse.
    fn battery_section(&mut self, string: &Str, plus: &Walk) -> usize {
        let name = string.members.join(" and ");
        let families = limits::families(self.highest);
        let loose = matches!(plus.reached, Reached::Loose(_));
        let guard = match &plus.fuse {
            Some(fuse) => {
                let mut device = self.old_device(fuse.clone(), families);
                device.old = true;
                Guard::Own(device)
            }
            None if loose => {
                let words: Vec<String> = string
                    .members
                    .iter()
                    .map(|id| self.survey.label(id))
                    .collect();
                self.fuse(
                    &format!("main battery {} {name}", words.join(" ")),
                    families,
                )
            }
            None => Guard::Existing(None),
        };
        let insulation = limits::insulation(self.survey.region(), false);
        let section = self.draft.section(&name, guard, insulation, 0.0);
        if let (true, None, Some(device)) = (loose, &plus.fuse, self.draft.device(section)) {
            if device.item.is_empty() {
                let spot = string.members.first().and_then(|id| self.spot(id));
                let id = self
                    .draft
                    .item("main-fuse", "Main fuse", NewKind::Fuse { section }, spot);
                self.name_fuse(section, &id);
            }
            self.account.decide(
                format!("A fuse sits right at the plus terminal of {name}."),
                "A battery drives its full short-circuit current into anything that touches: \
                 nothing before the fuse is protected, so nothing longer than a short lead may be there.",
                "33 CFR 183.460 / ISO 10133, and the computed short-circuit current",
                &[],
            );
        }
        section
    }

    /// Joins the batteries of each string.
    fn link_strings(&mut self, strings: &[Str], sections: &[usize]) {
        for (string, section) in strings.iter().zip(sections) {
            for pair in string.members.windows(2) {
                let [above, below] = pair else { continue };
                let ends = (end(above, "-"), end(below, "+"));
                if self.survey.joins(&ends.0, &ends.1) {
                    continue;
                }
                let laid = Laid::open(*section, ColourRole::PlusMain, Reach::Cut(self.room.lead()));
                self.draft.wire(
                    &format!("{above}-{below}"),
                    &format!("B-{above}"),
                    ends,
                    laid,
                );
            }
        }
    }

    /// Names the new fuse of a section.
    pub(super) fn name_fuse(&mut self, section: usize, id: &str) {
        if let Some(Guard::Own(device)) = self.draft.sections.get_mut(section).map(|s| &mut s.guard)
        {
            device.item = id.to_string();
        }
    }

    /// The plus bar and the switch before it; returns where battery leads end.
    fn plus_side(&mut self, common: usize, hub: Option<Reached>, walks: &[(Walk, Walk)]) -> End {
        let has_switch = walks.iter().any(|(plus, _)| plus.switch);
        let hub = match hub {
            Some(Reached::Bar(id)) => {
                self.plus = Some(self.old_bar(&id, true, common));
                return self.stud(true).unwrap_or_else(|| end(&id, "1"));
            }
            other => other,
        };
        let bar = self.new_bar(true, common);
        self.plus = Some(bar);
        let first = self.stud(true).unwrap_or_else(|| end("", ""));
        if let Some(Reached::Stud(stud)) = hub {
            let mut start = stud.clone();
            if walks.iter().any(|(plus, _)| plus.fuse.is_none()) {
                start = self.fuse_at("bus-fuse", "Bus fuse", common, start);
            }
            let laid = Laid::open(common, ColourRole::PlusMain, Reach::Cut(self.room.beside()));
            self.draft.wire("plus-bus-feed", "B+", (start, first), laid);
            return stud;
        }
        if has_switch {
            return first;
        }
        let words = "main battery house disconnect";
        let switch = self.adopt(&[Kind::Switch], words).unwrap_or_else(|| {
            let kind = NewKind::Switch {
                section: common,
                style: SwitchStyle::Battery,
                volts: self.highest,
            };
            self.draft
                .item("main-switch", "Battery switch", kind, self.room.hub)
        });
        self.account.decide(
            "A switch parts the batteries from everything else.",
            "Work on the wiring and a winter without charge both need the batteries cut off with one hand.",
            "ABYC E-11: battery switch",
            &[&switch],
        );
        let laid = Laid::open(common, ColourRole::PlusMain, Reach::Cut(self.room.beside()));
        self.draft
            .wire("main-feed", "B0+", (end(&switch, "out"), first), laid);
        if !self.banned.contains(MAIN_FUSE) || walks.len() < 2 {
            return end(&switch, "in");
        }
        let kind = NewKind::Fuse { section: common };
        let fuse = self
            .draft
            .item("common-fuse", "Common fuse", kind, self.room.hub);
        self.name_fuse(common, &fuse);
        self.draft.wire(
            "common-lead",
            "B0f",
            (end(&fuse, "out"), end(&switch, "in")),
            laid,
        );
        self.account.decide(
            "One more fuse sits where the batteries meet.",
            "The fuses of the batteries together let more through than any single wire bears.",
            "Kirchhoff's first law; 33 CFR 183.455",
            &[&fuse],
        );
        end(&fuse, "in")
    }

    /// The lead of one string to where the strings meet.
    fn plus_lead(&mut self, number: usize, section: usize, plus: &Walk, joint: &End, many: bool) {
        let Reached::Loose(from) = plus.reached.clone() else {
            return;
        };
        let base = if many {
            format!("battery-{}", number + 1)
        } else {
            "battery".to_string()
        };
        let label = format!("B{}+", number + 1);
        let mut start = from;
        if plus.fuse.is_none()
            && let Some(fuse) = self.draft.device(section).map(|d: &Device| d.item.clone())
        {
            let laid = Laid::open(section, ColourRole::PlusMain, Reach::Cut(self.room.lead()));
            self.draft.wire(
                &format!("{base}-plus"),
                &format!("{label}f"),
                (start, end(&fuse, "in")),
                laid,
            );
            start = end(&fuse, "out");
        }
        let laid = Laid::open(
            section,
            ColourRole::PlusMain,
            Reach::Cut(self.room.beside()),
        );
        self.draft.wire(
            &format!("{base}-lead"),
            &label,
            (start, joint.clone()),
            laid,
        );
    }

    /// The minus bar and the shunt before it; returns where battery leads end.
    fn minus_side(&mut self, common: usize, back: Option<Reached>, walks: &[(Walk, Walk)]) -> End {
        let back = match back {
            Some(Reached::Bar(id)) => {
                self.minus = Some(self.old_bar(&id, false, common));
                return self.stud(false).unwrap_or_else(|| end(&id, "1"));
            }
            other => other,
        };
        let bar = self.new_bar(false, common);
        self.minus = Some(bar);
        let first = self.stud(false).unwrap_or_else(|| end("", ""));
        let laid = Laid::open(common, ColourRole::Minus, Reach::Cut(self.room.beside()));
        if let Some(Reached::Stud(stud)) = back {
            self.draft
                .wire("minus-bus-feed", "B-", (first, stud.clone()), laid);
            return stud;
        }
        let shunt = self
            .survey
            .of(Kind::Shunt)
            .into_iter()
            .map(|(id, _)| id.to_string());
        let shunt = shunt.into_iter().find(|id| self.is_free(id));
        let measured = walks.iter().any(|(_, minus)| minus.shunt);
        match shunt.filter(|_| !measured) {
            Some(shunt) => {
                self.draft.adopted.push(shunt.clone());
                self.draft
                    .wire("shunt-bus", "B0-", (first, end(&shunt, "in")), laid);
                self.account.decide(
                    "The shunt is the only way from the batteries to the minus bar.",
                    "It counts only what flows through it.",
                    "Kirchhoff's first law; no document needed",
                    &[&shunt],
                );
                end(&shunt, "out")
            }
            None => first,
        }
    }

    /// One bond between the minus bar and the metal of the trailer.
    pub(super) fn bond(&mut self) {
        let frames = self.survey.of(Kind::Frame);
        let bonded = frames.iter().any(|(id, _)| !self.survey.is_untouched(id));
        if bonded {
            return;
        }
        let frame = frames.first().map(|(id, _)| (*id).to_string());
        let frame = frame.unwrap_or_else(|| {
            self.draft
                .item("frame", "Trailer frame", NewKind::Frame, None)
        });
        let Some(from) = self.stud(false) else {
            return;
        };
        let main = self.minus_section();
        let insulation = limits::insulation(self.survey.region(), false);
        let section = self.draft.section("bond", Guard::As(main), insulation, 0.0);
        if let Some(bond) = self.draft.sections.get_mut(section) {
            bond.floor = limits::bond();
        }
        let laid = Laid::open(section, ColourRole::Bond, Reach::Assumed(self.room.frame()));
        self.draft
            .wire("frame-bond", "G1", (from, end(&frame, "bond")), laid);
        self.account.decide(
            "One bond joins the minus bar and the trailer frame.",
            "A plus wire that touches metal must open its fuse; with a single bond no load current flows in the frame.",
            "NFPA 70 552.10: 8 AWG or as thick as the battery lead",
            &[&frame],
        );
    }

    /// The section of the minus bar's own lead.
    fn minus_section(&self) -> usize {
        self.minus.as_ref().map_or(0, super::desk::Bar::section)
    }
}

/// Asks for a fuse where batteries in parallel meet, in place of wire that
/// bears all their fuses.
pub(super) const MAIN_FUSE: &str = "+common-fuse";
