//! Something odd: what is seen and read goes in, causes with how likely they are come out. Nothing is kept. Not here:
//! the form (`asks`), the answer (`answer`), probabilities (the settings study).

mod answer;
mod asks;
mod words;

use super::settings::{framed, settings_of};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_analysis::settings::observable;

const HERE: &str = "/energy/symptom";

/// The page.
pub async fn page(view: View) -> Response {
    let settings = settings_of(&view);
    let can = observable(settings);
    let asked = asks::read(settings, &can, &view.query);
    let main = match &asked {
        None => beginning(settings.bank.is_some()),
        Some(asked) => html! {
            (care())
            div.odd-page {
                section aria-labelledby="seen-heading" {
                    h2.unseen #seen-heading { "What you see" }
                    (asks::form(&view, &can, asked))
                }
                div #symptom-answer data-region aria-live="polite" { (answer::answer(&view, &can, asked)) }
            }
        },
    };
    let lede = "Enter what happens and what you can read; it says what may be the matter. Nothing is kept.";
    view.page(framed(HERE, "Something odd?", lede, &main))
}

fn care() -> Markup {
    html! {
        p.care {
            "Smell, swelling, hissing or a hot battery: leave it, get out, call for help. Measure with probes bare at the very tip only, rings off; "
            "a shorted battery burns, mains voltage kills."
        }
    }
}

/// While there is nothing to ask about.
fn beginning(battery: bool) -> Markup {
    html! {
        section.next.beginning #next-step {
            @if battery {
                h2 { "What charges the battery?" }
                p { "Causes are told apart by what your charger is set to. Add it first." }
                p.row { a.button.primary href={ "/add/item?kind=solar-controller&back=" (HERE) } { "Add the solar controller" } a.button href={ "/add/item?kind=shore-charger&back=" (HERE) } { "Add a shore charger" } }
            } @else {
                h2 { "Which battery is it?" }
                p { "Causes are told apart by your battery's own figures. Add it first." }
                p.row { a.button.primary href={ "/add/item?kind=battery&back=" (HERE) } { "Add the battery" } }
            }
        }
    }
}
