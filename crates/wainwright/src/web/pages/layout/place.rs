//! Taking over where a thing was put: from the drawing, from the fields, by a
//! button. One change of the project each. Not here: the fields (`chosen`).

use super::chosen::{FIELDS, Typed, texts};
use super::{Asked, road_of, whole};
use crate::views::road::words;
use crate::web::act::{Sent, after, blocking};
use crate::web::html::revision;
use crate::web::view::{Query, View};
use axum::http::StatusCode;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_analysis::result::road::RoadResult;
use wainwright_analysis::road::road_with;
use wainwright_model::{Edit, Extent, FieldExt, Id, Item, Spot, Value, path};
use wainwright_units::{Length, Mass, Quantity};

/// Rows and columns of places that are tried for a thing nobody placed yet.
const TRIED_ALONG: u32 = 15;
const TRIED_ACROSS: u32 = 7;

/// The form the script sends when a thing is let go.
pub fn drop_form(view: &View) -> Markup {
    html! {
        form #drop method="post" action="/layout/place" data-live hidden {
            (revision(view.now.revision))
            input type="hidden" name="back" value="/layout";
            input type="hidden" name="item" value="";
            input type="hidden" name="spot" value="";
        }
    }
}

/// A place, a mass or a size was sent.
pub async fn placed(view: View, sent: Sent) -> Response {
    let id = sent.0.get("item").unwrap_or("");
    let Some(item) = view.study().project.items.get(id) else {
        return view.missing("What was to be placed is not there any more.");
    };
    match edits(&view, id, item, &sent.0) {
        Ok(edits) => apply(&view, &sent, id, item, &edits),
        Err(typed) => {
            let asked = Asked {
                item: Some(id.to_owned()),
                ..Asked::at(&view, sent.back())
            };
            let mut page = whole(&view, &asked, &typed);
            let first = typed.errors.iter().next();
            let trouble = first
                .map(|(name, error)| format!("Not saved: {}: {error}.", name.replace('_', " ")));
            page.main = html! {
                @if let Some(trouble) = trouble { p.callout role="alert" { (trouble) } }
                (page.main)
            };
            view.refused(StatusCode::UNPROCESSABLE_ENTITY, page)
        }
    }
}

fn apply(view: &View, sent: &Sent, id: &str, item: &Item, edits: &[Edit]) -> Response {
    let name = words::item(&view.study().project, id);
    let moves = |edit: &Edit| matches!(edit, Edit::Set { path, .. } if path.last().is_some_and(|field| field == "spot"));
    let verb = match (edits.iter().any(moves), item.body.spot.is_some()) {
        (true, true) => "Move",
        (true, false) => "Place",
        (false, _) => "Change",
    };
    let label = format!("{verb} {name}");
    let done = blocking(|| view.app.session.apply(edits, sent.revision(), &label));
    after(view, sent, done)
}

/// The least edits that make the item say what was sent.
fn edits(view: &View, id: &str, item: &Item, sent: &Query) -> Result<Vec<Edit>, Typed> {
    let set = |field: &str, text: String| Edit::Set {
        path: path(["item", id, field]),
        value: Value::Text(text),
    };
    if let Some(text) = sent.get("spot") {
        let spot = Spot::parse(text)
            .map_err(|error| wrong(view, item, sent, "from_front", error.to_string()))?;
        return Ok(vec![set("spot", spot.typed(view.units()))]);
    }
    let mut edits = Vec::new();
    if let Some(text) = spot_text(view, item, sent)? {
        edits.push(set("spot", text));
    }
    let was = texts(view, item);
    for name in ["mass", "size"] {
        let text = sent.get(name).map(str::trim).unwrap_or_default();
        if text.is_empty() || was.get(name).is_some_and(|was| was == text) {
            continue;
        }
        let bad = match name {
            "mass" => Mass::parse(text).err(),
            _ => Extent::parse(text).err(),
        };
        match bad {
            Some(error) => return Err(wrong(view, item, sent, name, error.to_string())),
            None => edits.push(set(name, text.to_owned())),
        }
    }
    Ok(edits)
}

/// The text of the spot from its three fields; none when nothing about it changed.
fn spot_text(view: &View, item: &Item, sent: &Query) -> Result<Option<String>, Typed> {
    let names = ["from_front", "from_left", "above_floor"];
    let given = names.map(|name| sent.get(name).map(str::trim).unwrap_or_default());
    let was = texts(view, item);
    let same = names
        .iter()
        .zip(given)
        .all(|(name, text)| was.get(name).map_or("", String::as_str) == text);
    if same || given.iter().all(|text| text.is_empty()) {
        return Ok(None);
    }
    for (name, text) in names.into_iter().zip(given) {
        if text.is_empty() {
            let why = "a length is needed; 0 is one".to_owned();
            return Err(wrong(view, item, sent, name, why));
        }
        if let Err(error) = Length::parse(text)
            && text != "0"
        {
            return Err(wrong(view, item, sent, name, error.to_string()));
        }
    }
    let text = given.join(", ");
    match Spot::parse(&text) {
        Ok(_) => Ok(Some(text)),
        Err(error) => Err(wrong(view, item, sent, "from_front", error.to_string())),
    }
}

/// What was typed, with what is wrong in one field.
fn wrong(view: &View, item: &Item, sent: &Query, name: &str, why: String) -> Typed {
    let mut typed = Typed {
        texts: texts(view, item),
        ..Typed::default()
    };
    for (field, _, _) in FIELDS {
        if let Some(text) = sent.get(field) {
            typed.texts.insert(field, text.to_owned());
        }
        if field == name {
            typed.errors.insert(field, why.clone());
        }
    }
    typed
}

/// A thing without a place is to be put where the floor is free.
pub async fn middle(view: View, sent: Sent) -> Response {
    let id = sent.0.get("item").and_then(Id::new);
    let item = id
        .as_ref()
        .and_then(|id| view.study().project.items.get(id.as_str()));
    let (Some(id), Some(item)) = (id.as_ref(), item) else {
        return view.missing("What was to be placed is not there any more.");
    };
    let Some(spot) = blocking(|| free_place(&view, id, item)) else {
        return view
            .missing("The inside of the box is not known yet; type its length and width first.");
    };
    let edits = [Edit::Set {
        path: path(["item", id.as_str(), "spot"]),
        value: Value::Text(spot.typed(view.units())),
    }];
    apply(&view, &sent, id.as_str(), item, &edits)
}

/// The place nearest to the middle of the floor where it is in nobody's way;
/// the middle itself when there is none.
fn free_place(view: &View, id: &Id, item: &Item) -> Option<Spot> {
    let trailer = &road_of(view).trailer;
    let inside = (
        trailer.inside_length.as_ref()?.value,
        trailer.inside_width.as_ref()?.value,
    );
    let size = item.body.size.value();
    let own = size.map_or((Length::ZERO, Length::ZERO), |size| {
        (size.along, size.across)
    });
    let room = (
        (inside.0.metres() - own.0.metres()).max(0.0),
        (inside.1.metres() - own.1.metres()).max(0.0),
    );
    let mut places: Vec<(f64, Spot)> = Vec::new();
    for along in 0..=TRIED_ALONG {
        for across in 0..=TRIED_ACROSS {
            let share = (
                f64::from(along) / f64::from(TRIED_ALONG),
                f64::from(across) / f64::from(TRIED_ACROSS),
            );
            let spot = Spot {
                from_front: Length::from_metres(room.0 * share.0),
                from_left: Length::from_metres(room.1 * share.1),
                above_floor: Length::ZERO,
            };
            let far = (room.0 * (share.0 - 0.5)).hypot(room.1 * (share.1 - 0.5));
            places.push((far, spot));
        }
    }
    places.sort_by(|one, other| one.0.total_cmp(&other.0));
    let free = places.iter().find(|(_, spot)| {
        let road = road_with(&view.study().project, &[(id.clone(), *spot)]);
        !in_the_way(&road, id)
    });
    free.or(places.first()).map(|(_, spot)| *spot)
}

fn in_the_way(road: &RoadResult, id: &Id) -> bool {
    crate::web::trouble::items(road).contains(id)
}

/// Length and width of a thing change places.
pub async fn turned(view: View, sent: Sent) -> Response {
    let id = sent.0.get("item").unwrap_or("");
    let item = view.study().project.items.get(id);
    let Some((item, size)) = item.and_then(|item| Some((item, *item.body.size.value()?))) else {
        return view.missing("What was to be turned is not there any more, or has no size.");
    };
    let turned = Extent {
        along: size.across,
        across: size.along,
        up: size.up,
    };
    let edits = [Edit::Set {
        path: path(["item", id, "size"]),
        value: Value::Text(turned.typed(view.units())),
    }];
    apply(&view, &sent, id, item, &edits)
}
