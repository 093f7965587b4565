//! What the pages of this place ask the road study for, beyond what it finds
//! anyway. Not here: how it is shown.

use crate::views::working::WorkingView;
use crate::web::act::blocking;
use crate::web::html::working::working;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::Ask;
use wainwright_analysis::result::road::Zone;

/// Where an item may stand.
pub fn zone(view: &View, item: &str) -> Option<Zone> {
    let study = view.study();
    wainwright_analysis::road::allowed_zone(&study.project, &study.assessment.road, item)
}

/// The working of a number, folded away under a name; nothing when there is none.
pub fn workings(view: &View, id: &str, name: &str, ask: &Ask) -> Markup {
    let study = view.study();
    let found = blocking(|| wainwright_analysis::working(&study.project, &study.assessment, ask));
    html! {
        @if let Some(found) = found {
            details.how id=(id) {
                summary { "Working" span.unseen { " of " (name) } }
                (working(&WorkingView::of(&found)))
            }
        }
    }
}
