//! Where nothing is said about living in the box: one next step. Not here: the forms.

use super::HERE;
use crate::web::view::View;
use maud::{Markup, html};

/// The next step.
pub fn beginning(view: &View) -> Markup {
    let project = &view.study().project;
    let sized = project.trailer.inside_length.is_some()
        && project.trailer.inside_width.is_some()
        && project.trailer.inside_height.is_some();
    let (place, word) = match sized {
        false => ("trailer", "Type the inside of the box"),
        true => ("living", "Say who sleeps in it, and how cold it gets"),
    };
    html! {
        section.next.beginning #next-step aria-labelledby="next-heading" {
            h2 #next-heading { "Will it be warm, dry and with air enough?" }
            p { "Say the size of the box, its layers, who sleeps in it and how cold it gets. What leaves through each wall, where water forms and how the air is at dawn follows." }
            p.row { a.button.primary href={ "/edit/" (place) "?back=" (HERE) } { (word) } }
        }
    }
}
