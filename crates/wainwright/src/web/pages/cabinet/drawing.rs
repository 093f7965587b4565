//! The face of a cabinet for wide and for narrow screens, and the meaning of its lines. Not here: drawing it.

use super::{Asked, words};
use crate::web::html::{encoded, revision};
use crate::web::view::View;
use maud::{Markup, PreEscaped, html};
use wainwright_analysis::result::cabinet::{CabinetDevice, CabinetResult, FaceRect};
use wainwright_drawing::face::{Box2, Device, Face, Hole, Measure, Options, face};
use wainwright_drawing::{Css, Style, Tone};
use wainwright_model::{Id, MountedOn};
use wainwright_units::{Length, System};

/// Width and height on a wide screen and on a narrow one [px].
const WIDE: (f64, f64) = (820.0, 480.0);
const NARROW: (f64, f64) = (346.0, 400.0);

/// The drawing.
pub fn drawing(view: &View, asked: &Asked, cabinet: &CabinetResult) -> Markup {
    let Some(found) = drawn(view, asked, cabinet) else {
        let place = format!(
            "/edit/cabinet/{}?back=/lining/cabinet",
            encoded(cabinet.cabinet.as_str())
        );
        return html! {
            section.next #face-missing {
                h2 { "Where does it stand, and how large is it inside?" }
                p { "Its face can be drawn when its spot and its size are typed." }
                p.row { a.button.primary href=(place) { "Type spot and size" } }
            }
        };
    };
    let title = format!(
        "Face of {}, seen by somebody who stands before it",
        cabinet.label
    );
    let one = |(width, height): (f64, f64), prefix: &str| {
        let options = Options {
            width,
            height,
            id_prefix: prefix.to_owned(),
        };
        face(&found, &options).svg(&Style {
            title: title.clone(),
            id_prefix: prefix.to_owned(),
            css: Css::OnPage,
        })
    };
    let (near, far) = steps(view.units());
    html! {
        div.side-plan.face-plan #face-plan data-step=(near) data-far=(far) {
            div.for-wide { (PreEscaped(one(WIDE, "w-"))) }
            div.for-narrow { (PreEscaped(one(NARROW, "n-"))) }
        }
        form #drop-device method="post" action="/lining/cabinet/move" data-live hidden {
            (revision(view.now.revision))
            input type="hidden" name="back" value="";
            input type="hidden" name="cabinet" value=(cabinet.cabinet.as_str());
            input type="hidden" name="item" value="";
            input type="hidden" name="x" value="";
            input type="hidden" name="y" value="";
        }
        div.under-plan {
            div.legend role="group" aria-label="Meaning of the lines" {
                span.key { span.swatch.on-face-box {} "on the face" }
                span.key { span.swatch.behind-box {} "behind it" }
                @if cabinet.devices.iter().any(|one| one.hole.is_some()) { span.key { span.swatch.cut-box {} "hole to cut" } }
                @if !cabinet.overlaps.is_empty() { span.key { span.swatch.bare {} "in the same place" } }
            }
            p.hint {
                "The face looks " (words::faces(cabinet.faces.value)) ". Drag a device, or choose it and use the arrow keys and Enter, or the buttons beside."
            }
        }
    }
}

/// A small and a large step [mm].
pub fn steps(units: System) -> (f64, f64) {
    match units {
        System::Us => (6.35, 25.4),
        System::Metric => (5.0, 50.0),
    }
}

/// A rectangle as the drawing wants it.
pub fn place(rect: &FaceRect) -> Box2 {
    Box2::new(
        rect.x.metres(),
        rect.y.metres(),
        rect.width.metres(),
        rect.height.metres(),
    )
}

fn drawn(view: &View, asked: &Asked, cabinet: &CabinetResult) -> Option<Face> {
    let found = cabinet.face?;
    let measure = |to: Length| {
        vec![vec![Measure {
            from_m: 0.0,
            to_m: to.metres(),
            text: words::tape(view, to),
        }]]
    };
    Some(Face {
        width_m: found.width.metres(),
        height_m: found.height.metres(),
        board: place(&found.board),
        devices: cabinet
            .devices
            .iter()
            .filter_map(|one| device(view, asked, cabinet, one))
            .collect(),
        overlaps: cabinet
            .overlaps
            .iter()
            .filter_map(|(one, other)| common(cabinet, one, other))
            .collect(),
        overlap_word: "same place".into(),
        across: measure(found.width),
        up: measure(found.height),
    })
}

fn device(
    view: &View,
    asked: &Asked,
    cabinet: &CabinetResult,
    one: &CabinetDevice,
) -> Option<Device> {
    let rect = one.rect?;
    let trouble = super::checks::trouble(cabinet, one);
    Some(Device {
        id: one.item.to_string(),
        label: one.label.clone(),
        words: format!(
            "{}, {}, {} from the left and {} from below{}",
            one.label,
            words::size(view, &rect),
            words::tape(view, rect.x),
            words::tape(view, rect.y),
            if trouble { "; look at the checks" } else { "" }
        ),
        place: place(&rect),
        hole: one.hole.map(|hole| Hole {
            place: place(&hole.rect),
            round: hole.round,
        }),
        on_face: one.mounted == Some(MountedOn::Face),
        tone: if trouble { Tone::Bad } else { Tone::Calm },
        selected: asked.item.as_deref() == Some(one.item.as_str()),
    })
}

/// Where two devices are in the same place.
fn common(cabinet: &CabinetResult, one: &Id, other: &Id) -> Option<Box2> {
    let rect = |id: &Id| {
        let device = cabinet.devices.iter().find(|device| device.item == *id)?;
        device.rect.map(|rect| place(&rect))
    };
    let (a, b) = (rect(one)?, rect(other)?);
    let (left, low) = (a.x_m.max(b.x_m), a.y_m.max(b.y_m));
    let right = (a.x_m + a.width_m).min(b.x_m + b.width_m);
    let high = (a.y_m + a.height_m).min(b.y_m + b.height_m);
    Some(Box2::new(left, low, right - left, high - low))
}
