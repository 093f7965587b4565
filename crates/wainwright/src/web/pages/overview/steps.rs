//! The steps from an empty file to the first answer, with what is done
//! already. Not here: what comes after the first answer (`next`).

use crate::web::html::loose::{loose_ends, needed};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_model::{Id, Item, Kind};

/// One step.
struct Step {
    done: bool,
    words: &'static str,
    why: &'static str,
    place: String,
}

/// All steps; the first that is not done has the button.
pub fn steps(view: &View) -> Markup {
    let steps = all(view);
    let first = steps.iter().position(|step| !step.done);
    html! {
        ol.steps {
            @for (index, step) in steps.iter().enumerate() {
                li.done[step.done] {
                    @if step.done {
                        span { span.unseen { "Done: " } (step.words) }
                    } @else {
                        a.button.primary[first == Some(index)] href=(step.place) { (step.words) }
                        span.hint { (step.why) }
                    }
                }
            }
        }
        @if !needed(view).is_empty() { (loose_ends(view, None)) }
    }
}

fn all(view: &View) -> [Step; 5] {
    let project = &view.study().project;
    let has = |kinds: &[Kind]| {
        let is = |(_, item): (&Id, &Item)| kinds.contains(&item.spec.kind());
        project.items.iter().any(is)
    };
    let add = |kind: &str| format!("/add/item?kind={kind}");
    let joined = !project.wires.is_empty() && needed(view).is_empty();
    [
        Step {
            done: has(&[Kind::Battery]),
            words: "Add the battery",
            why: "Chemistry, cells and capacity are on its label.",
            place: add("battery"),
        },
        Step {
            done: has(&[Kind::Fuse, Kind::Breaker]),
            words: "Add the main fuse",
            why: "It belongs within a hand's breadth of the battery.",
            place: add("fuse"),
        },
        Step {
            done: has(&[Kind::Load, Kind::Outlet, Kind::Inverter]),
            words: "Add something that uses power",
            why: "A lamp will do for a start.",
            place: add("load"),
        },
        Step {
            done: has(&[Kind::BusBar, Kind::FuseBlock]),
            words: "Add a bus bar or fuse block",
            why: "Where wires branch. Not needed for a single lamp.",
            place: "/add/item".into(),
        },
        Step {
            done: joined,
            words: "Join them with wires",
            why: "From plus through the fuse to what uses power, and back to minus.",
            place: needed(view).first().map_or_else(
                || "/add/wire".into(),
                |loose| crate::web::html::loose::join_address(&loose.item, &loose.terminal),
            ),
        },
    ]
}
