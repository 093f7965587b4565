//! What the lining rests on: values that are missing, stand-ins, refusals, and what is mounted beside the pieces.

use super::words;
use crate::views::basis::BasisView;
use crate::web::html::count;
use crate::web::html::finding::{place_address, place_words};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::lining::LiningResult;

/// Where a value can be typed, and back to this place afterwards.
pub fn type_it(path: &[String]) -> String {
    let address = place_address(path);
    match address.split_once('#') {
        Some((page, field)) => format!("{page}?back=/lining#{field}"),
        None => format!("{address}?back=/lining"),
    }
}

/// All of it.
pub fn rests(view: &View, found: &LiningResult) -> Markup {
    html! {
        section #rests aria-label="What this rests on" {
            @if !found.missing.is_empty() {
                details.how #left-out open {
                    summary { (count(found.missing.len(), "value", "values")) " would tell more" }
                    ul.plain {
                        @for missing in &found.missing {
                            li {
                                a href=(type_it(&missing.path)) { (place_words(view, &missing.path)) } " "
                                span.basis { "wants " (words::wanted(missing.wanted)) }
                            }
                        }
                    }
                }
            }
            @if !found.assumptions.is_empty() {
                details.how #stand-ins {
                    summary { (count(found.assumptions.len(), "stand-in", "stand-ins")) " in these figures" }
                    ul.plain {
                        @for assumed in &found.assumptions {
                            li {
                                a href=(type_it(&assumed.path)) { (place_words(view, &assumed.path)) } " "
                                b { (assumed.value) } " "
                                span.basis { (BasisView::of(&assumed.basis).words()) }
                            }
                        }
                    }
                }
            }
            @for refused in &found.refused {
                p.callout {
                    @if let Some(side) = refused.side { (words::side(side)) ": " }
                    @if let Some(layer) = &refused.layer { (words::layer(view, layer.as_str())) ": " }
                    (refused.sentence)
                }
            }
        }
    }
}
