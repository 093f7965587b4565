//! The table of fuses and breakers, each way of a block alone. Not here:
//! other gear.

use super::table::{Cell, Column, Row, Table, actions};
use crate::views::basis::BasisView;
use crate::views::device::id_of;
use crate::web::html::bar::share_bar;
use crate::web::html::encoded;
use crate::web::pages::wiring::afterwards;
use crate::web::view::{View, marked};
use maud::html;
use wainwright_analysis::result::DeviceResult;

/// Every fuse and breaker in the study.
pub fn table(view: &View, state: Option<usize>) -> Table {
    let devices = view.study().assessment.devices.iter();
    Table {
        caption: "Fuses and breakers with rating, current and what they protect",
        columns: vec![
            Column::text("device", "Fuse or breaker"),
            Column::text("family", "Family"),
            Column::number("rating", "Rating"),
            Column::number("amps", "Current"),
            Column::number("fault", "Largest short"),
            Column::number("interrupt", "Can interrupt"),
            Column::text("guards", "Protects"),
            Column::text("", ""),
        ],
        rows: devices.map(|device| row(view, device, state)).collect(),
        find: "main, 30 A, blade …",
        none: "No fuse or breaker is typed yet",
        begin: "The first one belongs as near to the battery as it can be.",
        add: "/add/item?kind=fuse",
        add_words: "Add a fuse",
    }
}

fn row(view: &View, device: &DeviceResult, state: Option<usize>) -> Row {
    let there = state.and_then(|state| device.states.get(state));
    let wires = device
        .guards
        .iter()
        .filter_map(|index| view.study().assessment.wires.get(*index));
    let guards = wires
        .map(|wire| wire.label.as_str())
        .collect::<Vec<_>>()
        .join(", ");
    let rating = view.show(device.rating.value);
    let interrupt = device.interrupt.as_ref();
    Row {
        key: format!("device.{}", id_of(device)),
        text: format!(
            "{} {} {} {rating} {guards}",
            device.label, device.item, device.family
        ),
        cells: vec![
            Cell::shown(
                device.label.clone(),
                html! {
                    a href={ "/wiring?select=item." (encoded(device.item.as_str())) "#panel" } { b { (device.label) } }
                    " " span.basis { (afterwards(device.reclose)) }
                },
            ),
            Cell::text(device.family.clone()),
            Cell::number(
                Some(device.rating.value.amperes()),
                marked(&rating, &BasisView::of(&device.rating.basis)),
            ),
            Cell::number(
                there.map(|t| t.amps.amperes()),
                html! {
                    @if let Some(there) = there {
                        (view.show(there.amps))
                        (share_bar(there.share.fraction(), &format!("{} of its rating", view.show(there.share))))
                    } @else { "–" }
                },
            ),
            Cell::number(
                device.largest_fault.map(|a| a.amperes()),
                html! {
                    (device.largest_fault.map_or_else(|| "–".into(), |amps| view.show(amps)))
                },
            ),
            Cell::number(
                interrupt.map(|a| a.value.amperes()),
                html! {
                    @match interrupt {
                        Some(amps) => (marked(&view.show(amps.value), &BasisView::of(&amps.basis))),
                        None => "–",
                    }
                },
            ),
            Cell::text(guards),
            actions("item", device.item.as_str(), &device.label),
        ],
    }
}
