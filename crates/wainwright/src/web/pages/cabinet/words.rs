//! Words of cabinets in the units of the project. Not here: sentences that only one place has.

use crate::web::pages::air::words::area;
use crate::web::view::View;
use wainwright_analysis::result::cabinet::{
    CabinetDevice, CoolingFound, FaceRect, HeatFrom, Situation,
};
use wainwright_model::{MountedOn, Side};
use wainwright_units::Length;

/// When devices work together.
pub fn situation(situation: Situation) -> &'static str {
    match situation {
        Situation::Camp => "in the sun at camp",
        Situation::Driving => "on the road",
        Situation::Shore => "on shore power",
    }
}

/// Which way a face looks.
pub fn faces(side: Side) -> &'static str {
    match side {
        Side::Left => "to the left wall",
        Side::Right => "to the right wall",
        Side::Front => "to the front",
        Side::Rear => "to the rear",
        Side::Roof => "up",
        Side::Floor => "down",
    }
}

/// What a device is mounted on.
pub fn mounted(device: &CabinetDevice) -> &'static str {
    match device.mounted {
        Some(MountedOn::Face) => "on the face",
        Some(MountedOn::Board) => "on the board behind",
        None => "inside",
    }
}

/// How heat is known.
pub fn heat_from(from: HeatFrom) -> &'static str {
    match from {
        HeatFrom::Typed => "typed",
        HeatFrom::Efficiency => "by its efficiency",
        HeatFrom::Joints => "by its joints and contacts",
        HeatFrom::None => "none worth counting, or not known",
    }
}

/// What takes the heat out.
pub fn cooling(view: &View, cooling: CoolingFound) -> String {
    match cooling {
        CoolingFound::Openings { low, high, height } => format!(
            "openings of {} low and {} high, {} apart",
            area(view, low),
            area(view, high),
            view.show(height)
        ),
        CoolingFound::Fan(flow) => format!("a fan of {}", view.show(flow)),
        CoolingFound::Closed => "only its boards: it is closed".into(),
    }
}

/// A length as a tape has it.
pub fn tape(view: &View, length: Length) -> String {
    crate::views::lining::words::tape(length, view.units())
}

/// Width by height.
pub fn size(view: &View, rect: &FaceRect) -> String {
    format!("{} × {}", tape(view, rect.width), tape(view, rect.height))
}

/// What a number of millimetres is on paper: a template is laid out with a metric rule.
pub fn millimetres(length: Length) -> String {
    format!("{:.1} mm", length.millimetres())
}
