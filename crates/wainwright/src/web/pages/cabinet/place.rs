//! Moving a device on a face: from places on the face back to its spot in the box. One change of the project each. Not
//! here: the fields (`chosen`), what is seen where on a face (the cabinet study).

use super::drawing::steps;
use crate::web::act::{Sent, after, blocking};
use crate::web::html::shell::Page;
use crate::web::view::View;
use axum::http::StatusCode;
use axum::response::Response;
use maud::html;
use wainwright_analysis::cabinets::study;
use wainwright_analysis::result::cabinet::{CabinetDevice, CabinetResult};
use wainwright_model::{Edit, Extent, FieldExt, Side, Spot, Value, path};
use wainwright_units::{Length, Quantity};

/// A device was put somewhere.
pub async fn moved(view: View, sent: Sent) -> Response {
    let all = blocking(|| study(&view.study().project, None));
    let wanted = |name: &str| sent.0.get(name).unwrap_or("");
    let cabinet = all
        .iter()
        .find(|one| one.cabinet.as_str() == wanted("cabinet"));
    let device = cabinet.and_then(|one| {
        let device = one
            .devices
            .iter()
            .find(|one| one.item.as_str() == wanted("item"))?;
        Some((one, device))
    });
    let item = view.study().project.items.get(wanted("item"));
    let (Some((cabinet, device)), Some(item)) = (device, item) else {
        return view.missing("What was to be moved is not in this cabinet any more.");
    };
    let target = match target(&view, device, &sent) {
        Ok(target) => target,
        Err(why) => return refused(&view, &sent, &why),
    };
    let size = item.body.size.value().copied();
    let (Some(size), Some(place)) = (size, cabinet.place) else {
        return refused(&view, &sent, "the cabinet or the device has no size yet");
    };
    let behind = device.behind.unwrap_or(Length::ZERO);
    let spot = match item.body.spot.value() {
        Some(spot) => shifted(cabinet, device, *spot, target),
        None => Some(placed(cabinet.faces.value, place, size, target, behind)),
    };
    let Some(spot) = spot else {
        return refused(&view, &sent, "the device has no place on this face yet");
    };
    let edit = Edit::Set {
        path: path(["item", device.item.as_str(), "spot"]),
        value: Value::Text(spot.typed(view.units())),
    };
    let label = format!("Move {}", device.label);
    let done = blocking(|| view.app.session.apply(&[edit], sent.revision(), &label));
    after(&view, &sent, done)
}

/// Where on the face it is to be: by a step, or by two lengths.
fn target(view: &View, device: &CabinetDevice, sent: &Sent) -> Result<(Length, Length), String> {
    let now = device
        .rect
        .map_or((Length::ZERO, Length::ZERO), |rect| (rect.x, rect.y));
    let step = Length::from_metres(steps(view.units()).0 / 1000.0);
    match sent.0.get("by") {
        Some("left") => return Ok((now.0 - step, now.1)),
        Some("right") => return Ok((now.0 + step, now.1)),
        Some("up") => return Ok((now.0, now.1 + step)),
        Some("down") => return Ok((now.0, now.1 - step)),
        Some(_) => return Ok(now),
        None => {}
    }
    let read = |name: &str| match sent.0.get(name).map(str::trim) {
        None | Some("0") => Ok(Length::ZERO),
        Some(text) => Length::parse(text).map_err(|error| error.to_string()),
    };
    Ok((read("x")?, read("y")?))
}

/// Whether x on the face grows with its axis of the box, and whether y does.
const fn grows(side: Side) -> (bool, bool) {
    (
        matches!(side, Side::Left | Side::Rear | Side::Roof),
        !matches!(side, Side::Roof | Side::Floor),
    )
}

/// Axes of the box that are x and y of a face, and the one into it: 0 along, 1 across, 2 up.
const fn axes(side: Side) -> [usize; 3] {
    match side {
        Side::Left | Side::Right => [0, 2, 1],
        Side::Front | Side::Rear => [1, 2, 0],
        Side::Roof | Side::Floor => [1, 0, 2],
    }
}

fn of_spot(spot: Spot) -> [Length; 3] {
    [spot.from_front, spot.from_left, spot.above_floor]
}

fn to_spot([from_front, from_left, above_floor]: [Length; 3]) -> Spot {
    Spot {
        from_front,
        from_left,
        above_floor,
    }
}

/// The spot moved by what the device moves on the face.
fn shifted(
    cabinet: &CabinetResult,
    device: &CabinetDevice,
    spot: Spot,
    target: (Length, Length),
) -> Option<Spot> {
    let rect = device.rect?;
    let (right, up) = grows(cabinet.faces.value);
    let [across, higher, _] = axes(cabinet.faces.value);
    let mut at = of_spot(spot);
    for (axis, by, grows) in [
        (across, target.0 - rect.x, right),
        (higher, target.1 - rect.y, up),
    ] {
        let place = at.get_mut(axis)?;
        *place += if grows { by } else { -by };
    }
    Some(to_spot(at))
}

/// The spot of a device without one, so far behind the face.
fn placed(
    side: Side,
    (corner, room): (Spot, Extent),
    size: Extent,
    target: (Length, Length),
    behind: Length,
) -> Spot {
    let (right, up) = grows(side);
    let inwards = !matches!(side, Side::Right | Side::Rear | Side::Roof);
    let [across, higher, deep] = axes(side);
    let (room, size) = (
        [room.along, room.across, room.up],
        [size.along, size.across, size.up],
    );
    let mut at = of_spot(corner);
    for (axis, from, grows) in [
        (across, target.0, right),
        (higher, target.1, up),
        (deep, behind, inwards),
    ] {
        let (Some(place), Some(room), Some(size)) =
            (at.get_mut(axis), room.get(axis), size.get(axis))
        else {
            continue;
        };
        *place += if grows { from } else { *room - *size - from };
    }
    to_spot(at)
}

fn refused(view: &View, sent: &Sent, why: &str) -> Response {
    let page = Page {
        tab: None,
        title: "Not moved".into(),
        lede: "The project is as it was before.",
        main: html! {
            p.callout role="alert" { "Not moved: " (why) "." }
            p { a.button.primary href=(sent.back()) { "Back" } }
        },
    };
    view.refused(StatusCode::UNPROCESSABLE_ENTITY, page)
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIDES: [Side; 6] = [
        Side::Left,
        Side::Right,
        Side::Front,
        Side::Rear,
        Side::Roof,
        Side::Floor,
    ];

    /// A device put at a place of a face is seen at that place, whichever way the face looks.
    #[test]
    fn what_is_put_somewhere_is_seen_there() {
        for side in SIDES {
            let word = side.as_str();
            let text = format!(
                "[item.a]\nkind = \"load\"\nsize = \"100 mm x 60 mm x 40 mm\"\nspot = \"1000 mm, 300 mm, 200 mm\"\n\n\
                 [cabinet.c]\nholds = [\"a\"]\nspot = \"900 mm, 200 mm, 100 mm\"\nsize = \"800 mm x 500 mm x 700 mm\"\nfaces = \"{word}\"\n"
            );
            let project = wainwright_model::parse(&text, wainwright_analysis::catalogue()).project;
            let cabinet = study(&project, None).remove(0);
            let device = &cabinet.devices[0];
            let target = (Length::from_metres(0.123), Length::from_metres(0.045));
            let item = project.items.get("a").unwrap();
            let (spot, size) = (
                *item.body.spot.value().unwrap(),
                *item.body.size.value().unwrap(),
            );
            let behind = device.behind.unwrap();
            let moved = shifted(&cabinet, device, spot, target).unwrap();
            let put = placed(side, cabinet.place.unwrap(), size, target, behind);
            for spot in [moved, put] {
                let typed = spot.typed(wainwright_units::System::Metric);
                let again = text.replace("1000 mm, 300 mm, 200 mm", &typed);
                assert_ne!(again, text);
                let project =
                    wainwright_model::parse(&again, wainwright_analysis::catalogue()).project;
                let found = study(&project, None).remove(0).devices[0].clone();
                let rect = found.rect.unwrap();
                assert!((rect.x.metres() - 0.123).abs() < 6e-4, "{word}: {rect:?}");
                assert!((rect.y.metres() - 0.045).abs() < 6e-4, "{word}: {rect:?}");
                let off = found.behind.unwrap().metres() - behind.metres();
                assert!(off.abs() < 6e-4, "{word}: {off}");
            }
        }
    }
}
