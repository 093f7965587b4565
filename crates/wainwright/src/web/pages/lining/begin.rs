//! Where nothing is lined yet: first the box, then layers, typical ones at a press. Not here: the layers' form.

use super::{HERE, rests, words};
use crate::web::act::{Sent, after, blocking};
use crate::web::html::{back, revision};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_analysis::result::lining::{LiningResult, LiningWanted};
use wainwright_model::{Edit, Id, Value, path};
use wainwright_units::System;

/// Said at every layer that is put in this way.
const NOTE: &str = "usual sizes of the shops, not yours: measure and change them";

const WALLS: [&str; 4] = ["left", "right", "front", "rear"];

/// A typical layer.
struct Typical {
    id: &'static str,
    /// On the button.
    button: &'static str,
    label: &'static str,
    on: &'static [&'static str],
    order: i64,
    of: &'static str,
    material: &'static str,
    /// Field, US, metric.
    sizes: &'static [(&'static str, &'static str, &'static str)],
}

/// Usual sizes in shops (judgement): a 4 by 8 ft sheet, a 2500 by 1250 mm one, boards of nominal 1 by 6 in.
const TYPICAL: [Typical; 4] = [
    Typical {
        id: "foam",
        button: "Foam between the ribs",
        label: "Foam between the ribs",
        on: &["left", "right", "front", "roof"],
        order: 2,
        of: "foam",
        material: "xps",
        sizes: &[
            ("thickness", "1 in", "25 mm"),
            ("width", "48 in", "600 mm"),
            ("length", "96 in", "1250 mm"),
            ("gap", "1/8 in", "3 mm"),
        ],
    },
    Typical {
        id: "planks",
        button: "Planks on walls and ceiling",
        label: "Planks",
        on: &["left", "right", "front", "rear", "roof"],
        order: 3,
        of: "planks",
        material: "spruce",
        sizes: &[
            ("thickness", "1/2 in", "12 mm"),
            ("width", "5-1/8 in", "121 mm"),
            ("gap", "1/8 in", "3 mm"),
            ("longest", "8 ft", "2.4 m"),
            ("narrowest", "2 in", "50 mm"),
            ("stagger", "12 in", "300 mm"),
        ],
    },
    Typical {
        id: "panels",
        button: "Plywood on the walls",
        label: "Wall panels",
        on: &WALLS,
        order: 3,
        of: "sheets",
        material: "plywood",
        sizes: &[
            ("thickness", "1/4 in", "6 mm"),
            ("width", "48 in", "1250 mm"),
            ("length", "96 in", "2500 mm"),
            ("gap", "1/8 in", "3 mm"),
        ],
    },
    Typical {
        id: "floor",
        button: "A plywood floor",
        label: "Floor",
        on: &["floor"],
        order: 1,
        of: "sheets",
        material: "plywood",
        sizes: &[
            ("thickness", "1/2 in", "12 mm"),
            ("width", "48 in", "1250 mm"),
            ("length", "96 in", "2500 mm"),
            ("gap", "1/8 in", "3 mm"),
        ],
    },
];

/// What stands on the page before there is a surface with a layer.
pub fn beginning(view: &View, found: &LiningResult) -> Markup {
    let trailer = &view.study().project.trailer;
    let sized = trailer.inside_length.is_some()
        && trailer.inside_width.is_some()
        && trailer.inside_height.is_some();
    html! {
        section.next.beginning #next-step aria-labelledby="next-heading" {
            h2 #next-heading { "What goes on walls, ceiling and floor?" }
            p { "Say the size of the box and its layers. Every side is then drawn with each piece, its number and its size; what to buy and how to cut it follows." }
            @if !sized {
                p.row { a.button.primary href={ "/edit/trailer?back=" (HERE) } { "Type the inside of the box" } }
            } @else if view.study().project.layers.is_empty() {
                p { "Begin with usual layers, and put their sizes right afterwards:" }
                ul.plain.boxes { @for one in &TYPICAL { li { (press(view, one)) } } }
                p.row { a.button href={ "/add/layer?back=" (HERE) } { "Type a layer yourself" } }
            } @else {
                (wanted(view, found))
            }
        }
        @if sized { (rests::rests(view, found)) }
    }
}

/// Layers are there, and none could be laid: the first thing that is missing.
fn wanted(view: &View, found: &LiningResult) -> Markup {
    let first = found
        .missing
        .iter()
        .find(|one| one.wanted != LiningWanted::Price);
    html! {
        @match first {
            Some(missing) => {
                p { "One thing is missing: " (crate::web::html::finding::place_words(view, &missing.path)) " wants " (words::wanted(missing.wanted)) "." }
                p.row { a.button.primary href=(rests::type_it(&missing.path)) { "Type it" } }
            },
            None => p.row { a.button.primary href={ "/add/layer?back=" (HERE) } { "Add a layer" } },
        }
    }
}

fn press(view: &View, one: &Typical) -> Markup {
    let on: Vec<&str> = one.on.iter().map(|side| side_word(side)).collect();
    html! {
        form method="post" action="/lining/begin" {
            (revision(view.now.revision))
            (back(HERE))
            input type="hidden" name="layer" value=(one.id);
            button { (one.button) }
            span.hint { (sizes(view, one)) " on: " (on.join(", ")) }
        }
    }
}

fn side_word(side: &str) -> &str {
    match side {
        "roof" => "ceiling",
        other => other,
    }
}

fn sizes(view: &View, one: &Typical) -> String {
    let of = |name: &str| {
        let found = one.sizes.iter().find(|(field, ..)| *field == name);
        found.map_or("", |(_, us, metric)| chosen(view, us, metric))
    };
    format!("{}, {} thick,", one.material, of("thickness"))
}

fn chosen<'a>(view: &View, us: &'a str, metric: &'a str) -> &'a str {
    match view.units() {
        System::Us => us,
        System::Metric => metric,
    }
}

/// A typical layer was chosen.
pub async fn begun(view: View, sent: Sent) -> Response {
    let wanted = sent.0.get("layer").unwrap_or("");
    let Some(one) = TYPICAL.iter().find(|one| one.id == wanted) else {
        return view.missing("There is no usual layer of that name.");
    };
    let layers = &view.study().project.layers;
    let id = (1..)
        .map(|number| match number {
            1 => one.id.to_owned(),
            number => format!("{}-{number}", one.id),
        })
        .find(|id| Id::new(id).is_some_and(|id| !layers.contains(id.as_str())));
    let edit = Edit::Add {
        table: path(["layer", id.as_deref().unwrap_or(one.id)]),
        fields: fields(&view, one),
        after: None,
    };
    let label = format!("Add a layer: {}", one.label);
    let done = blocking(|| view.app.session.apply(&[edit], sent.revision(), &label));
    after(&view, &sent, done)
}

fn fields(view: &View, one: &Typical) -> Vec<(String, Value)> {
    let text = |name: &str, value: &str| (name.to_owned(), Value::from(value));
    let on = one.on.iter().map(|side| Value::from(*side)).collect();
    let mut all = vec![
        text("label", one.label),
        ("on".to_owned(), Value::List(on)),
        ("order".to_owned(), Value::Integer(one.order)),
        text("of", one.of),
        text("material", one.material),
    ];
    let sizes = one.sizes.iter();
    all.extend(sizes.map(|(name, us, metric)| text(name, chosen(view, us, metric))));
    if one.of == "planks" {
        all.push(text("runs", "along"));
    }
    all.push(text("note", NOTE));
    all
}
