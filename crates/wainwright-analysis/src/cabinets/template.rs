//! What is drawn on paper for the face of a cabinet, in true size. Not here: pages and lines (the drawing).

use crate::result::cabinet::{
    CabinetResult, CabinetTemplate, FaceRect, TemplateCut, TemplateDrill,
};
use wainwright_model::MountedOn;
use wainwright_units::Length;

/// Drill for the corners of a hole with corners: a jigsaw turns in it.
const CORNER: Length = Length::from_metres(0.010);
/// Drill for the middle of a round hole: the pilot of a hole saw.
const PILOT: Length = Length::from_metres(0.006);

/// What is drawn for the face; `None` without a size.
pub fn template(cabinet: &CabinetResult) -> Option<CabinetTemplate> {
    let face = cabinet.face?;
    let mut cuts = Vec::new();
    let mut drills = Vec::new();
    let mut outlines = Vec::new();
    for device in &cabinet.devices {
        let Some(rect) = device.rect else { continue };
        outlines.push((device.item.clone(), rect));
        let on_face = device.mounted != Some(MountedOn::Board);
        let Some(hole) = device.hole.filter(|_| on_face) else {
            continue;
        };
        let centre = middle(hole.rect);
        if hole.round {
            drills.push(TemplateDrill {
                x: centre.0,
                y: centre.1,
                diameter: PILOT.min(hole.rect.width),
            });
        } else {
            drills.extend(corners(hole.rect));
        }
        cuts.push(TemplateCut {
            item: device.item.clone(),
            hole,
            centre,
        });
    }
    Some(CabinetTemplate {
        board: face.board,
        inside: FaceRect {
            x: Length::ZERO,
            y: Length::ZERO,
            width: face.width,
            height: face.height,
        },
        cuts,
        drills,
        outlines,
    })
}

fn middle(rect: FaceRect) -> (Length, Length) {
    (rect.x + rect.width * 0.5, rect.y + rect.height * 0.5)
}

/// Drills in the corners of a hole, just inside of its edges.
fn corners(rect: FaceRect) -> [TemplateDrill; 4] {
    let diameter = CORNER.min(rect.width).min(rect.height);
    let in_by = diameter * 0.5;
    let (left, right) = (rect.x + in_by, rect.x + rect.width - in_by);
    let (low, high) = (rect.y + in_by, rect.y + rect.height - in_by);
    [(left, low), (right, low), (left, high), (right, high)].map(|(x, y)| TemplateDrill {
        x,
        y,
        diameter,
    })
}
