//! How everything is held down: what force is asked of each thing's fasteners,
//! and what they hold. Not here: the forces (the road study).

use super::{ask, begin, framed, road_of};
use crate::views::road::words;
use crate::web::act::{Sent, after, blocking};
use crate::web::html::bar::share_bar;
use crate::web::html::{back, encoded, revision, slug};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_analysis::Ask;
use wainwright_analysis::result::road::{HoldResult, RoadWanted};
use wainwright_model::{Edit, Hold, HoldAgainst, Value, path};

const HERE: &str = "/layout/hold";
const TITLE: &str = "Held down";
const LEDE: &str = "What tries to tear each thing loose, and what holds it.";

/// The page.
pub async fn page(view: View) -> Response {
    let road = road_of(&view);
    if !road.begun {
        return begin::page(
            &view,
            HERE,
            TITLE,
            LEDE,
            "Does everything stay where it is when you brake?",
        );
    }
    let mut holds: Vec<&HoldResult> = road.holds.iter().collect();
    holds.sort_by(|one, other| weakness(other).total_cmp(&weakness(one)));
    let (light, heavy): (Vec<_>, Vec<_>) = holds.iter().partition(|hold| is_light(hold));
    let main = html! {
        div #hold-page data-region {
            (care())
            (choice(&view))
            (verdict(&holds))
            @if holds.is_empty() {
                p { "No thing has a mass yet." }
                p { a.button.primary href="/layout" { "Place and weigh things" } }
            } @else {
                (table(&view, &heavy))
                @if !light.is_empty() {
                    details #light-things {
                        summary { (light.len()) " light things nobody said how they are held" }
                        (table(&view, &light))
                    }
                }
            }
        }
    };
    view.page(framed(HERE, TITLE, LEDE, &main))
}

/// Another rule to hold things against was chosen.
pub async fn against(view: View, sent: Sent) -> Response {
    let chosen = sent.0.get("against").and_then(HoldAgainst::parse);
    let Some(chosen) = chosen else {
        return view.missing("There is no such rule.");
    };
    let edits = [Edit::Set {
        path: path(["towing", "hold_against"]),
        value: Value::from(chosen.as_str()),
    }];
    let label = format!("Hold against: {}", words::against(chosen));
    let done = blocking(|| view.app.session.apply(&edits, sent.revision(), &label));
    after(&view, &sent, done)
}

/// Below this a thing that flies off hurts little [kg].
const LIGHT_KILOGRAMS: f64 = 2.0;

fn is_light(hold: &HoldResult) -> bool {
    hold.how.is_none() && hold.mass.kilograms() < LIGHT_KILOGRAMS
}

/// Things nothing is known of come between those that fail and those that hold;
/// of what is loose or not said the heavy ones first.
fn weakness(hold: &HoldResult) -> f64 {
    match (&hold.strength, hold.how) {
        (Some(strength), _) => strength.used.fraction(),
        (None, Some(Hold::Loose)) => 1e3 + hold.mass.kilograms(),
        (None, _) => 1.0 + hold.mass.kilograms() * 1e-6,
    }
}

/// Whether it could tear loose.
fn is_weak(hold: &HoldResult) -> bool {
    weakness(hold) > 1.001
}

fn care() -> Markup {
    html! {
        p.care {
            "A loose thing becomes a missile. Batteries, tanks and ovens come first. Bolt into the frame or through plates, "
            "lift heavy things with two people, and check every fastener after the first miles."
        }
    }
}

/// What things are held against.
fn choice(view: &View) -> Markup {
    let now = road_of(view)
        .aims
        .hold_against
        .as_ref()
        .map(|known| known.value);
    html! {
        form.against method="post" action="/layout/against" data-live {
            (revision(view.now.revision))
            (back(HERE))
            div.field {
                label for="against" { "Held against" }
                select #against name="against" {
                    @for each in HoldAgainst::ALL {
                        option value=(each.as_str()) selected[now == Some(*each)] { (words::against(*each)) }
                    }
                }
            }
            button { "Use this rule" }
        }
        @if let Some(profile) = &road_of(view).aims.hold_profile {
            p.hint {
                "Forwards " (times(profile.value.forward)) ", rearwards " (times(profile.value.rearward))
                ", to the sides " (times(profile.value.sideways)) ", upwards " (times(profile.value.upward))
                " its weight."
            }
        }
    }
}

fn times(value: f64) -> String {
    format!("{value} ×")
}

fn verdict(holds: &[&HoldResult]) -> Markup {
    let weak = holds.iter().filter(|hold| is_weak(hold)).count();
    let unknown = holds.iter().filter(|hold| hold.strength.is_none()).count();
    html! {
        @if !holds.is_empty() {
            h2 #hold-verdict {
                @if weak > 0 { (weak) " of " (holds.len()) " things could tear loose" }
                @else if unknown > 0 { "Of " (unknown) " things it is not said what holds them" }
                @else { "Everything is held" }
            }
        }
    }
}

fn table(view: &View, holds: &[&HoldResult]) -> Markup {
    html! {
        table.cards {
            thead { tr {
                th scope="col" { "Thing" } th.number scope="col" { "Mass" } th.number scope="col" { "Asked" }
                th scope="col" { "Fastened with" } th.number scope="col" { "Holds" } th scope="col" { "Used" }
                th scope="col" { "Lacking" }
            } }
            tbody { @for hold in holds { (row(view, hold)) } }
        }
    }
}

fn row(view: &View, hold: &HoldResult) -> Markup {
    let id = hold.item.as_str();
    let name = words::item(&view.study().project, id);
    let strength = hold.strength.as_ref();
    let asked = strength.map_or(hold.forces.asked, |strength| strength.asked);
    html! {
        tr id={ "hold-" (slug(id)) } {
            th scope="row" { a href={ "/edit/item/" (encoded(id)) "?back=" (HERE) "#field-held" } { (name) } }
            td.number data-label="Mass" { (view.show(hold.mass)) }
            td.number data-label="Asked" { (view.show(asked)) }
            td data-label="Fastened with" { (fastened(view, hold)) }
            td.number data-label="Holds" { (held(view, hold)) }
            td data-label="Used" {
                @if let Some(strength) = strength {
                    (share_bar(strength.used.fraction(), &format!("{name}: {} used", view.show(strength.used))))
                    @if strength.used.fraction() > 1.0 { span.over { "lacks " (view.show(strength.left.abs())) } }
                }
            }
            td.long data-label="Lacking" {
                (lacking(view, hold))
                (ask::workings(view, &format!("how-hold-{}", slug(id)), &name, &Ask::TieDown { item: id.to_owned() }))
            }
        }
    }
}

fn fastened(view: &View, hold: &HoldResult) -> Markup {
    let Some(how) = hold.how else {
        return html! { span.hint { "not said" } };
    };
    let strength = hold.strength.as_ref();
    let size = strength
        .and_then(|strength| strength.size.as_ref())
        .map(|size| view.show(size.value));
    let ground = strength.and_then(|strength| strength.ground.as_ref());
    html! {
        @if how == Hold::Loose { span.over { "nothing: it is loose" } } @else {
            @if let Some(strength) = strength { (strength.count.value) " " }
            @match (&size, how) {
                (Some(size), Hold::Strapped) => { "straps, each on a " (size) " screw" },
                (Some(size), _) => { (size) " " (words::hold(how)) },
                (None, _) => (words::hold(how)),
            }
            @if let Some(ground) = ground { " into " (words::ground(ground.value)) }
        }
    }
}

/// What its fasteners hold.
fn held(view: &View, hold: &HoldResult) -> String {
    match (&hold.strength, hold.how) {
        (Some(strength), _) => view.show(strength.held),
        (None, Some(Hold::Loose)) => "nothing".into(),
        (None, _) => "not known".into(),
    }
}

/// What would have to be typed to know more.
fn lacking(view: &View, hold: &HoldResult) -> Markup {
    let id = hold.item.as_str();
    let own = |missing: &&wainwright_analysis::result::road::RoadMissing| {
        let of_hold = matches!(missing.wanted, RoadWanted::Hold | RoadWanted::Fasteners);
        let names: Vec<&str> = missing.path.iter().map(String::as_str).collect();
        of_hold && names.starts_with(&["item", id])
    };
    let lacking: Vec<_> = road_of(view).missing.iter().filter(own).collect();
    html! {
        @for missing in &lacking {
            @if let Some(field) = missing.path.last() {
                a href={ "/edit/item/" (encoded(id)) "?back=" (HERE) "#field-" (slug(field)) } { (words::wanted(missing.wanted)) }
                " "
            }
        }
        @if lacking.is_empty() && hold.how.is_none() {
            a href={ "/edit/item/" (encoded(id)) "?back=" (HERE) "#field-held" } { "how it is fastened" }
        }
    }
}
