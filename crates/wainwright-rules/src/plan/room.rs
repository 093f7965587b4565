//! How far things are apart while nobody has placed them: lengths assumed
//! from the size of the trailer. Not here: routes between placed items, which
//! the analysis computes.

use super::draft::Reach;
use wainwright_model::{FieldExt, Project, Region, Spot};
use wainwright_units::Length;

/// The trailer as a space for wires.
#[derive(Debug, Clone)]
pub(super) struct Room {
    length: f64,
    width: f64,
    height: f64,
    region: Region,
    /// Where the bars and blocks go, when a battery is placed.
    pub(super) hub: Option<Spot>,
}

/// A small trailer stands in where no size is typed \[m\]: 12 ft by 6 ft by
/// 6 ft 3 in.
const USUAL: [f64; 3] = [3.66, 1.83, 1.91];
/// From the coupler to the front wall \[m\], where it is not typed. Judgement.
const USUAL_TONGUE: f64 = 1.2;

impl Room {
    /// The room of a project.
    pub(super) fn new(project: &Project) -> Self {
        let trailer = &project.trailer;
        let metres = |given: Option<&Length>, usual: f64| given.map_or(usual, |l| l.metres());
        let batteries = project.items.iter();
        let hub = batteries
            .filter(|(_, item)| item.spec.kind() == wainwright_model::Kind::Battery)
            .find_map(|(_, item)| item.body.spot.value().copied());
        Self {
            length: metres(trailer.inside_length.value(), USUAL[0]),
            width: metres(trailer.inside_width.value(), USUAL[1]),
            height: metres(trailer.inside_height.value(), USUAL[2]),
            region: crate::view::limits::region(project),
            hub,
        }
    }

    /// Between a source and its fuse, or a bar and a fuse: 6 in or 15 cm,
    /// inside what every rule profile allows without protection.
    pub(super) fn lead(&self) -> Length {
        self.round(0.15)
    }

    /// Between things that sit side by side: 12 in or 30 cm.
    pub(super) fn beside(&self) -> Length {
        self.round(0.30)
    }

    /// From the bars to an inverter, which must be near.
    pub(super) fn near(&self) -> Length {
        self.round(1.0)
    }

    /// From the bars to a charger or controller.
    pub(super) fn charger(&self) -> Length {
        self.round(0.5 * self.width + 0.6)
    }

    /// From the bars to a load anywhere: along most of the trailer, across
    /// it, and up the wall.
    pub(super) fn load(&self) -> Length {
        self.round(0.6 * self.length + 0.5 * self.width + 0.5 * self.height)
    }

    /// From the roof to the controller.
    pub(super) fn roof(&self) -> Length {
        self.round(self.height + 0.5 * self.length)
    }

    /// From the coupler to gear inside.
    pub(super) fn coupler(&self) -> Length {
        self.round(USUAL_TONGUE + 0.5 * self.length + 0.5 * self.width)
    }

    /// From the bars down to the frame.
    pub(super) fn frame(&self) -> Length {
        self.round(1.0)
    }

    /// The route decides where both are placed, else the assumed length.
    pub(super) fn reach(&self, both_placed: bool, usual: Length) -> Reach {
        match both_placed {
            true => Reach::Routed,
            false => Reach::Assumed(usual),
        }
    }

    /// Up to whole feet or tenths of a metre beyond a short lead, to inches
    /// or centimetres below: figures one would measure.
    fn round(&self, metres: f64) -> Length {
        match (self.region, metres < 0.9) {
            (Region::Us, true) => Length::from_inches((metres / 0.0254).round()),
            (Region::Us, false) => Length::from_inches((metres / 0.3048).ceil() * 12.0),
            (Region::Eu, true) => Length::from_metres((metres * 100.0).round() / 100.0),
            (Region::Eu, false) => Length::from_metres((metres * 10.0).ceil() / 10.0),
        }
    }
}
