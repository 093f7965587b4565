//! The devices of a cabinet as a list, and the chosen one with its place as fields and buttons. Works without the
//! script. Not here: taking over a place (`place`).

use super::{Asked, address, words};
use crate::web::html::{back, encoded, revision};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::cabinet::{CabinetDevice, CabinetResult};

/// All devices.
pub fn devices(view: &View, asked: &Asked, cabinet: &CabinetResult) -> Markup {
    html! {
        section #devices aria-labelledby="devices-heading" {
            h3 #devices-heading { "What it holds" }
            @if cabinet.devices.is_empty() {
                p { "Nothing yet." }
                p.row { a.button href=(format!("/edit/cabinet/{}?back=/lining/cabinet", encoded(cabinet.cabinet.as_str()))) { "Say what it holds" } }
            } @else {
                table.cards.device-list {
                    thead { tr { th scope="col" { "Device" } th scope="col" { "Where" } th.number scope="col" { "From the left" } th.number scope="col" { "From below" } th.number scope="col" { "Size seen" } } }
                    tbody { @for device in &cabinet.devices { (row(view, asked, cabinet, device)) } }
                }
            }
        }
    }
}

fn row(view: &View, asked: &Asked, cabinet: &CabinetResult, device: &CabinetDevice) -> Markup {
    let chosen = asked.item.as_deref() == Some(device.item.as_str());
    html! {
        tr {
            th scope="row" {
                a href=(address(&cabinet.cabinet, Some(&device.item))) data-live data-key=(format!("item.{}", device.item))
                    aria-current=[chosen.then_some("true")] { (device.label) }
            }
            td data-label="Where" { (words::mounted(device)) }
            @match device.rect {
                Some(rect) => {
                    td.number data-label="From the left" { (words::tape(view, rect.x)) }
                    td.number data-label="From below" { (words::tape(view, rect.y)) }
                    td.number data-label="Size" { (words::size(view, &rect)) }
                },
                None => td data-label="Place" colspan="3" { "no spot or no size" },
            }
        }
    }
}

/// The chosen device.
pub fn chosen(view: &View, asked: &Asked, cabinet: &CabinetResult) -> Markup {
    let Some(device) = asked.device(cabinet) else {
        return html! {
            section #chosen-device { p.hint { "Choose a device in the drawing or in the list to move it." } }
        };
    };
    let here = address(&cabinet.cabinet, Some(&device.item));
    html! {
        section #chosen-device aria-labelledby="chosen-name" {
            h3 #chosen-name { (device.label) }
            @match device.rect {
                Some(_) => (moves(view, cabinet, device, &here)),
                None => (unplaced(view, cabinet, device, &here)),
            }
            dl.small-figures {
                @if let Some(hole) = &device.hole {
                    div { dt { "Hole" } dd { @if hole.round { "⌀ " (words::tape(view, hole.rect.width)) } @else { (words::size(view, &hole.rect)) } } }
                }
                @if let Some(depth) = device.depth {
                    div { dt { "Depth" } dd { (words::tape(view, depth.needed)) " of " (words::tape(view, depth.there)) } }
                }
                @if let Some(clear) = &device.clear { div { dt { "Free before it" } dd { (words::tape(view, clear.needed)) } } }
            }
            p.row { a.button href=(format!("/edit/item/{}?back={}", encoded(device.item.as_str()), encoded(&here))) { "Change this device" } }
        }
    }
}

fn hidden(view: &View, cabinet: &CabinetResult, device: &CabinetDevice, here: &str) -> Markup {
    html! {
        (revision(view.now.revision))
        (back(here))
        input type="hidden" name="cabinet" value=(cabinet.cabinet.as_str());
        input type="hidden" name="item" value=(device.item.as_str());
    }
}

fn moves(view: &View, cabinet: &CabinetResult, device: &CabinetDevice, here: &str) -> Markup {
    let Some(rect) = device.rect else {
        return html! {};
    };
    html! {
        form.face-fields method="post" action="/lining/cabinet/move" data-live {
            (hidden(view, cabinet, device, here))
            div.field { label for="face-x" { "From the left" } input #face-x name="x" value=(words::tape(view, rect.x)) autocomplete="off"; }
            div.field { label for="face-y" { "From below" } input #face-y name="y" value=(words::tape(view, rect.y)) autocomplete="off"; }
            p.row { button.primary { "Put it there" } }
        }
        form.face-steps method="post" action="/lining/cabinet/move" data-live aria-label="Move by a small step" {
            (hidden(view, cabinet, device, here))
            @for (by, sign, word) in [("left", "←", "Left"), ("down", "↓", "Down"), ("up", "↑", "Up"), ("right", "→", "Right")] {
                button name="by" value=(by) { (sign) span.unseen { " " (word) } }
            }
        }
    }
}

fn unplaced(view: &View, cabinet: &CabinetResult, device: &CabinetDevice, here: &str) -> Markup {
    let item = view.study().project.items.get(device.item.as_str());
    let sized = item.is_some_and(|item| item.body.size.is_some());
    html! {
        @if sized && cabinet.place.is_some() {
            form method="post" action="/lining/cabinet/move" data-live {
                (hidden(view, cabinet, device, here))
                p { "It has no place yet." }
                p.row { button.primary name="by" value="corner" { "Put it in the lower left corner" } }
            }
        } @else {
            p { "It can be drawn when its size is typed." }
        }
    }
}
