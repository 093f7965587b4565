//! Which trip it is about, with the ways to change it. Not here: the forms (see `element`).

use super::address;
use crate::web::html::{count, encoded};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::trips::briefs;
use wainwright_model::Id;

/// Trips to choose from, and links to change what a trip rests on.
pub fn picker(view: &View, here: &str, chosen: &Id) -> Markup {
    let project = &view.study().project;
    let all = briefs(project);
    let back = encoded(&address(here, chosen));
    html! {
        div.trip-picker {
            ul.plain.trip-list aria-label="Trips" {
                @for brief in &all {
                    li {
                        a.button href=(address(here, &brief.trip)) aria-current=[(brief.trip == *chosen).then_some("true")] {
                            (brief.label)
                            @if let Some(nights) = brief.nights { span.hint { (count(nights as usize, "night", "nights")) } }
                        }
                    }
                }
            }
            p.trip-links {
                a href={ "/edit/trip/" (encoded(chosen.as_str())) "?back=" (back) } { "Change this trip" }
                a href={ "/add/trip?back=" (back) } { "Add a trip" }
                a href="/energy/climate" { "Weather" }
                a href={ "#uses" } { "What is used" }
            }
        }
    }
}
