//! Cards on paper: the settings of each device on a page of its own, to be taken to it and ticked off. Not here: the
//! page with ranges and reasons.

use super::{range, settings_of, words};
use crate::web::html::shell::{Page, Tab};
use crate::web::pages::lists::paper::{paper_of, papers};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_analysis::result::settings::{DeviceCard, SettingRow};

/// The page.
pub async fn page(view: View) -> Response {
    let choice = paper_of(&view);
    let devices: Vec<&DeviceCard> = settings_of(&view)
        .devices
        .iter()
        .filter(|card| !card.rows.is_empty())
        .collect();
    let all = devices.len();
    view.page(Page {
        tab: Some(Tab::Energy),
        title: "Settings on paper".into(),
        lede: "One page for each device, to tick off beside it. Print at 100 %.",
        main: html! {
            form.controls method="get" action="/print/settings" {
                (papers(choice))
                p.row { button { "Show" } button.primary type="button" data-print hidden { "Print" } a.button href="/energy/settings" { "Back to the settings" } }
            }
            @if devices.is_empty() {
                section.next #next-step {
                    h2 { "There is nothing to set yet" }
                    p.row { a.button.primary href="/energy/settings" { "To the settings" } }
                }
            }
            div.papers {
                @for (number, card) in devices.iter().enumerate() {
                    article.paper.setting-paper.{ (choice.id()) "-portrait" } { (sheet(&view, card, number + 1, all)) }
                }
            }
            script src="/assets/routes.js" defer {}
        },
    })
}

fn sheet(view: &View, card: &DeviceCard, number: usize, all: usize) -> Markup {
    let name = view.study().project.head.name.as_ref();
    html! {
        h2 { (card.label) }
        p.paper-sub { (name.map_or("Unnamed trailer", |name| name.value.as_str())) ": " (words::device(card.kind)) }
        table {
            thead { tr { th scope="col" { "Setting" } th scope="col" { "Set to" } th scope="col" { "Allowed" } th scope="col" { "Was" } th scope="col" { "Done" } } }
            tbody { @for row in &card.rows { (line(view, card, row)) } }
        }
        p { "All voltages at the device's own terminals. Battery maker's sheet first: where it asks for less, less it is." }
        p { "Before you open a cover: shore plug out, solar breaker off. After setting: watch one full charge; nothing may get hot, click or jump." }
        p.write-in { "Set by" span.blank {} "on" span.blank {} }
        p.paper-foot { "Card " (number) " of " (all) }
    }
}

fn line(view: &View, card: &DeviceCard, row: &SettingRow) -> Markup {
    let range = range::range(card, row.what).filter(|_| row.advised.is_some());
    html! {
        tr {
            th scope="row" { (words::name(row.what)) span.hint { (words::meaning(row.what)) } }
            td.paper-value { (row.advised.map_or_else(|| "no value fits".into(), |advised| words::figure(view, advised))) }
            td { @if let Some(range) = range { (words::figure(view, range.low.value)) " " span.to { "to " (words::figure(view, range.high.value)) } } }
            td { (row.now.as_ref().map_or_else(|| "–".into(), |now| words::figure(view, now.value))) }
            td { span.tick-box {} }
        }
    }
}
