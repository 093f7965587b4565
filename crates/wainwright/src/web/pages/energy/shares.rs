//! Where energy comes from and goes, as bars. Not here: the sums.

use crate::views::energy::working::of_energy;
use crate::web::html::working::working;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::trip::{EnergyShare, TripOutlook};
use wainwright_units::Energy;

/// Uses that are shown unfolded.
const UNFOLDED: usize = 8;

/// One bar.
struct Bar {
    name: String,
    energy: Energy,
    /// Part of it that is lost on the way.
    lost: Energy,
    class: &'static str,
}

/// Sources, uses, and what comes to nothing.
pub fn shares(view: &View, outlook: &TripOutlook) -> Markup {
    let energy = &outlook.energy;
    let mut from: Vec<Bar> = sorted(&energy.given, "given");
    let mut to: Vec<Bar> = sorted(&energy.taken, "taken");
    let battery = |energy| Bar {
        name: "Taken out of the battery".into(),
        energy,
        lost: Energy::ZERO,
        class: "given",
    };
    if energy.from_battery > Energy::ZERO {
        from.push(battery(energy.from_battery));
    }
    let losses = Bar {
        name: "Lost in the battery".into(),
        energy: energy.battery_losses,
        lost: Energy::ZERO,
        class: "lost",
    };
    let folded = to.split_off(to.len().min(UNFOLDED));
    to.push(losses);
    let nothing = [
        ("Sun that nobody could use", energy.spilled, "spilled"),
        ("Wanted and not there", energy.unserved, "unserved"),
    ];
    let nothing: Vec<Bar> = nothing
        .into_iter()
        .filter(|(_, energy, _)| *energy > Energy::ZERO)
        .map(|(name, energy, class)| Bar {
            name: name.into(),
            energy,
            lost: Energy::ZERO,
            class,
        })
        .collect();
    let all = from.iter().chain(&to).chain(&nothing);
    let most = all.map(|bar| bar.energy.watt_hours()).fold(1.0, f64::max);
    html! {
        section #shares aria-labelledby="shares-heading" {
            h2 #shares-heading { "Where energy comes from and goes" }
            p.hint { "The mean of all trips, over the whole trip." }
            div.share-columns {
                div { h3 { "It comes from" } (bars(view, &from, most)) }
                div {
                    h3 { "It goes to" }
                    (bars(view, &to, most))
                    @if !folded.is_empty() {
                        details #more-uses { summary { (folded.len()) " more, each with less" } (bars(view, &folded, most)) }
                    }
                }
                @if !nothing.is_empty() { div { h3 { "It comes to nothing" } (bars(view, &nothing, most)) } }
            }
            details.how #how-shares {
                summary { "Working" span.unseen { " of these sums" } }
                (working(&of_energy(outlook, view.units())))
            }
        }
    }
}

fn sorted(shares: &[EnergyShare], class: &'static str) -> Vec<Bar> {
    let mut all: Vec<Bar> = shares
        .iter()
        .map(|share| Bar {
            name: share.label.clone(),
            energy: share.energy,
            lost: share.lost,
            class,
        })
        .collect();
    all.sort_by(|one, other| other.energy.total_cmp(&one.energy));
    all
}

fn bars(view: &View, all: &[Bar], most: f64) -> Markup {
    let long = |energy: Energy| {
        format!(
            "{:.1}",
            (energy.watt_hours() / most * 100.0).clamp(0.0, 100.0)
        )
    };
    html! {
        @if all.is_empty() { p { "Nothing." } }
        ul.plain.energy-bars {
            @for bar in all {
                li {
                    span.energy-name { (bar.name) }
                    svg class={ "energy-bar " (bar.class) } viewBox="0 0 100 12" preserveAspectRatio="none" role="img"
                        aria-label={ (bar.name) ": " (view.show(bar.energy)) } {
                        rect.level x="0" y="1" width=(long(bar.energy)) height="10" {}
                        @if bar.lost > Energy::ZERO { rect.of-it x="0" y="1" width=(long(bar.lost)) height="10" {} }
                    }
                    span.energy-value {
                        (view.show(bar.energy))
                        @if bar.lost > Energy::ZERO { span.hint { " " (view.show(bar.lost)) " of it lost in the inverter" } }
                    }
                }
            }
        }
    }
}
