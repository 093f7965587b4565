//! What helps most: each change with the odds before and after, and the way to put it in the project. Not here: which
//! changes were tried (the trip study).

use super::address;
use crate::views::energy::put_in::{self, Way};
use crate::views::energy::words::{self, capital};
use crate::views::energy::working::of_help;
use crate::web::act::{Sent, after, blocking};
use crate::web::html::working::working;
use crate::web::html::{back, count, encoded, revision};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_analysis::result::trip::{Help, TripOutlook};

/// Changes that are shown unfolded.
const UNFOLDED: usize = 5;

/// The list, the best first; what makes no clear difference is folded away.
pub fn helps(view: &View, outlook: &TripOutlook) -> Markup {
    let (clear, unclear): (Vec<&Help>, Vec<&Help>) = outlook
        .helps
        .iter()
        .partition(|help| help.gain > help.margin);
    html! {
        section #helps aria-labelledby="helps-heading" {
            h2 #helps-heading { "What helps most" }
            @if outlook.helps.is_empty() {
                p { "Nothing was found to try on this trip." }
            } @else if clear.is_empty() {
                p { "None of " (count(outlook.helps.len(), "change", "changes")) " that were tried makes a clear difference." }
            } @else {
                p.hint { "Each was tried in the same weather: how often it happens now (thin mark) and with the change (bar)." }
                @let (first, rest) = clear.split_at(clear.len().min(UNFOLDED));
                (list(view, outlook, first, 0))
                @if !rest.is_empty() {
                    details #more-helps {
                        summary { (count(rest.len(), "more change helps", "more changes help")) ", each less" }
                        (list(view, outlook, rest, first.len()))
                    }
                }
            }
            @if !unclear.is_empty() {
                details #no-difference {
                    summary { (count(unclear.len(), "change makes", "changes make")) " no clear difference" }
                    (list(view, outlook, &unclear, clear.len()))
                }
            }
        }
    }
}

fn list(view: &View, outlook: &TripOutlook, helps: &[&Help], from: usize) -> Markup {
    html! {
        ol.helps {
            @for (number, help) in helps.iter().enumerate() { (one(view, outlook, help, from + number)) }
        }
    }
}

fn one(view: &View, outlook: &TripOutlook, help: &Help, number: usize) -> Markup {
    let project = &view.study().project;
    let name = words::help(project, &help.what, view.units());
    let (before, with) = (words::before(outlook, help.of), help.chance.share);
    let runs_out = words::runs_out(help.of);
    let told = format!(
        "{name}: {runs_out} in {} trips instead of {}",
        words::of_hundred(with),
        words::of_hundred(before)
    );
    html! {
        li data-help=(number) {
            div.help-words {
                b { (name) }
                span.help-odds {
                    span.hint { (capital(runs_out)) ": " }
                    (words::of_hundred(before)) " → " b { (words::of_hundred(with)) }
                    " " span.hint { "± " (points(help.margin.fraction())) }
                }
                @if let Some(mass) = help.mass { span.hint { "adds " (view.show(mass)) } }
            }
            (bar(before.fraction(), with.fraction(), &told))
            (way(view, outlook, help, &name))
            details.how id={ "how-help-" (number) } {
                summary { "Working" span.unseen { " of: " (name) } }
                (working(&of_help(help, before)))
            }
        }
    }
}

/// Points of a hundred, with a tenth where it matters.
fn points(share: f64) -> String {
    let points = share * 100.0;
    if points < 1.0 {
        format!("{points:.1}")
    } else {
        format!("{points:.0}")
    }
}

/// Odds with the change as a bar, odds now as a mark.
fn bar(before: f64, with: f64, words: &str) -> Markup {
    let x = |share: f64| format!("{:.1}", (share * 100.0).clamp(0.0, 100.0));
    html! {
        svg.help-bar viewBox="0 0 100 12" preserveAspectRatio="none" role="img" aria-label=(words) {
            rect.track x="0" y="2" width="100" height="8" {}
            rect.level x="0" y="2" width=(x(with)) height="8" {}
            rect.before x=(format!("{:.1}", (before * 100.0 - 0.4).clamp(0.0, 99.2))) y="0" width="0.8" height="12" {}
        }
    }
}

fn way(view: &View, outlook: &TripOutlook, help: &Help, name: &str) -> Markup {
    let project = &view.study().project;
    let here = address("/energy", &outlook.trip);
    html! {
        @match put_in::way(project, outlook.trip.as_str(), &help.what) {
            Some(Way::Press(key)) => form method="post" action="/energy/help" data-live {
                (revision(view.now.revision))
                (back(&here))
                input type="hidden" name="trip" value=(outlook.trip);
                input type="hidden" name="key" value=(key);
                input type="hidden" name="label" value=(name);
                button { "Put it in the project" span.unseen { ": " (name) } }
            },
            Some(Way::Form(place, word)) => {
                @let join = if place.contains('?') { "&" } else { "?" };
                a.button href={ (place) (join) "back=" (encoded(&here)) } { (word) span.unseen { ": " (name) } }
            },
            None => {},
        }
    }
}

/// A change is to be made.
pub async fn put_in(view: View, sent: Sent) -> Response {
    let (trip, key) = (
        sent.0.get("trip").unwrap_or(""),
        sent.0.get("key").unwrap_or(""),
    );
    let Some(edits) = put_in::edits(&view.study().project, trip, key) else {
        return view
            .missing("This change does not fit the project any more. Look at the trip again.");
    };
    let label = sent.0.get("label").unwrap_or("Change what helps a trip");
    let done = blocking(|| view.app.session.apply(&edits, sent.revision(), label));
    after(&view, &sent, done)
}
