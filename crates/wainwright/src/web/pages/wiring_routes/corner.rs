//! A corner of a trunk was moved, added or taken away. The other corners keep
//! their text. Not here: dragging (`routes.js`).

use super::HERE;
use crate::web::act::{Sent, after, blocking};
use crate::web::html::shell::{Page, Tab};
use crate::web::html::{back, revision};
use crate::web::view::View;
use axum::http::StatusCode;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_model::{Edit, Spot, Value, path, typed};
use wainwright_units::Length;

/// The form the script sends when a corner is let go.
pub fn drop_form(view: &View) -> Markup {
    html! {
        form #drop-corner method="post" action="/wiring/routes/corner" data-live hidden {
            (revision(view.now.revision))
            (back(HERE))
            @for name in ["trunk", "corner", "spot"] { input type="hidden" name=(name); }
            input type="hidden" name="act" value="set";
        }
    }
}

/// A changed corner was sent.
pub async fn corner(view: View, sent: Sent) -> Response {
    let id = sent.0.get("trunk").unwrap_or("");
    let Some(trunk) = view.study().project.trunks.get(id) else {
        return view
            .missing("The trunk is not there any more; it may have been renamed or deleted.");
    };
    let spots = trunk
        .path
        .as_ref()
        .map_or(Vec::new(), |path| path.value.clone());
    let number: Option<usize> = sent.0.get("corner").and_then(|text| text.parse().ok());
    let Some(number) = number.filter(|number| *number < spots.len()) else {
        return view.missing("The trunk has no such corner any more.");
    };
    let (texts, verb) = match changed(&view, id, &spots, number, &sent) {
        Ok(done) => done,
        Err(why) => return refused(&view, &sent, &why),
    };
    let edits = [Edit::Set {
        path: path(["trunk", id, "path"]),
        value: Value::List(texts.into_iter().map(Value::Text).collect()),
    }];
    let name = super::trunk_name(&view, id);
    let label = format!("{verb} of {name}");
    let done = blocking(|| view.app.session.apply(&edits, sent.revision(), &label));
    after(&view, &sent, done)
}

/// The corners as texts after the change, and what was done.
fn changed(
    view: &View,
    id: &str,
    spots: &[Spot],
    number: usize,
    sent: &Sent,
) -> Result<(Vec<String>, String), String> {
    let mut texts = own_texts(view, id, spots);
    let named = number + 1;
    match sent.0.get("act") {
        Some("remove") if spots.len() > 2 => {
            texts.remove(number);
            Ok((texts, format!("Remove corner {named}")))
        }
        Some("remove") => Err("A trunk keeps two corners at least.".into()),
        Some("add") => {
            // After the last corner: between it and the one before.
            let at = named.min(spots.len().saturating_sub(1));
            let ends = (
                at.checked_sub(1).and_then(|before| spots.get(before)),
                spots.get(at),
            );
            let (Some(one), Some(other)) = ends else {
                return Err("A trunk needs two corners before one can be put between them.".into());
            };
            texts.insert(at, between(*one, *other).typed(view.units()));
            Ok((texts, format!("Split after corner {named}")))
        }
        _ => {
            let text = sent.0.get("spot").unwrap_or("");
            let spot = Spot::parse(text).map_err(|error| error.to_string())?;
            if let Some(own) = texts.get_mut(number) {
                // What was typed is kept as typed; what was dragged is rounded.
                *own = if text.contains('.') {
                    spot.typed(view.units())
                } else {
                    text.trim().to_owned()
                };
            }
            Ok((texts, format!("Move corner {named}")))
        }
    }
}

/// The corners as they stand in the file.
fn own_texts(view: &View, id: &str, spots: &[Spot]) -> Vec<String> {
    let said = typed(&view.study().text, &path(["trunk", id]));
    let said = said.into_iter().find(|(name, _)| name == "path");
    let texts: Vec<String> = match said {
        Some((_, Value::List(values))) => values
            .into_iter()
            .filter_map(|value| match value {
                Value::Text(text) => Some(text),
                _ => None,
            })
            .collect(),
        _ => Vec::new(),
    };
    if texts.len() == spots.len() {
        texts
    } else {
        spots.iter().map(|spot| spot.typed(view.units())).collect()
    }
}

fn between(one: Spot, other: Spot) -> Spot {
    let middle = |a: Length, b: Length| Length::from_metres((a.metres() + b.metres()) / 2.0);
    Spot {
        from_front: middle(one.from_front, other.from_front),
        from_left: middle(one.from_left, other.from_left),
        above_floor: middle(one.above_floor, other.above_floor),
    }
}

fn refused(view: &View, sent: &Sent, why: &str) -> Response {
    let page = Page {
        tab: Some(Tab::Wiring),
        title: "Not changed".into(),
        lede: "The trunk is as it was before.",
        main: html! {
            p.callout role="alert" { (why) }
            p { a.button.primary href=(sent.back()) { "Back" } }
        },
    };
    view.refused(StatusCode::UNPROCESSABLE_ENTITY, page)
}
