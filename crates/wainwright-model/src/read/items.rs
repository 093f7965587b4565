//! Parts and items: their kind, their fields, and an item's fields laid over those of its part.
//!
//! Not here: whether a part is there (`references`).

use super::fields::Fields;
use super::{Catalogue, Reader};
use crate::kinds::{Body, ItemHead, KINDS, Kind, PartHead, Spec};
use crate::place::{Field, Given, Id, Origin, Place, Table};
use crate::problem::{Complaint, ProblemSeverity};
use crate::project::{Item, Part};
use crate::schema::FieldSpec;

/// Reads all `[part.<id>]`.
pub(super) fn parts(reader: &mut Reader<'_>) -> Table<Part> {
    reader.keyed("part", |fields| {
        let head = PartHead::take(fields);
        let kind = head.kind.as_ref().map_or(Kind::Unknown, |kind| kind.value);
        let body = Body::take(fields);
        let spec = spec(kind, fields, PartHead::FIELDS);
        let at = fields.place();
        let PartHead {
            label,
            kind,
            note,
            supplied,
            source,
        } = head;
        Part {
            label,
            kind,
            note,
            supplied,
            source,
            body,
            spec,
            at,
        }
    })
}

/// Reads all `[item.<id>]`, each laid over its part.
pub(super) fn items(
    reader: &mut Reader<'_>,
    parts: &Table<Part>,
    catalogue: &Catalogue,
) -> Table<Item> {
    reader.keyed("item", |fields| item(fields, parts, catalogue))
}

fn item(fields: &mut Fields<'_, '_>, parts: &Table<Part>, catalogue: &Catalogue) -> Item {
    let head = ItemHead::take(fields);
    let part = head
        .part
        .as_ref()
        .and_then(|part| find(parts, catalogue, &part.value));
    let part_kind = part.map_or(Kind::Unknown, |part| part.spec.kind());
    let own_kind = head.kind.as_ref().map(|kind| kind.value);
    if let Some(own) = own_kind.filter(|own| part_kind != Kind::Unknown && *own != part_kind) {
        fields.complain_at_key(
            "kind",
            error(
                format!("the kind {}", own.as_str()),
                format!("the kind of its part, {}", part_kind.as_str()),
                "delete the kind or the part",
            ),
        );
    }
    if !fields.has("kind") && !fields.has("part") {
        fields.complain_at_key(
            "kind",
            error(
                "nothing".into(),
                "a `kind` or a `part`".into(),
                "add a line such as kind = \"load\"",
            ),
        );
    }
    let kind = own_kind.unwrap_or(part_kind);
    let body = Body::take(fields);
    let own = spec(kind, fields, ItemHead::FIELDS);
    let at = fields.place();
    let ItemHead {
        label,
        part: part_id,
        kind,
        note,
        supplied,
    } = head;
    let own = Item {
        label,
        part: part_id,
        kind,
        note,
        supplied,
        body,
        spec: own,
        at,
    };
    match (part, &own.part) {
        (Some(part), Some(id)) => over(own.clone(), part.clone(), &id.value),
        _ => own,
    }
}

/// The part of this id, one's own before the library's.
pub(super) fn find<'p>(
    parts: &'p Table<Part>,
    catalogue: &'p Catalogue,
    id: &str,
) -> Option<&'p Part> {
    Id::new(id)?;
    parts.get(id).or_else(|| catalogue.get(id))
}

fn spec(kind: Kind, fields: &mut Fields<'_, '_>, head: &'static [FieldSpec]) -> Spec {
    let spec = Spec::take(kind, fields);
    // Without a kind nothing is known about the other keys, so nothing is said about them.
    if let Some(row) = KINDS.iter().find(|row| row.kind == kind) {
        fields.finish(&[head, Body::FIELDS, row.fields]);
    } else if !fields.has("kind") && !fields.has("part") {
        fields.finish_required(head);
    }
    if kind == Kind::Load {
        one_way_to_draw(fields);
    }
    spec
}

/// The three ways to say what a load takes; one of them at a time.
const DRAWS: [&str; 3] = ["power", "current", "resistance"];

fn one_way_to_draw(fields: &mut Fields<'_, '_>) {
    let given = fields.present(&DRAWS);
    if let [first, second, ..] = given.as_slice() {
        let complaint = error(
            format!("both `{first}` and `{second}`"),
            "one of power, current and resistance".into(),
            "delete the others",
        );
        fields.complain_at_key(second, complaint);
    }
}

fn error(found: String, expected: String, hint: &str) -> Complaint<'static> {
    Complaint {
        at: 0,
        path: "",
        found,
        expected,
        hint: Some(hint.to_owned()),
        severity: ProblemSeverity::Error,
    }
}

/// The item's fields over those of its part, which get the part as their origin.
fn over(own: Item, part: Part, part_id: &str) -> Item {
    let from_part = |at: &mut Place| at.origin = Origin::Part(part_id.to_owned());
    let (mut base, mut body) = (part.spec, part.body);
    base.each_place(from_part);
    body.each_place(from_part);
    if let (Spec::Load(own), Spec::Load(base)) = (&own.spec, &mut base)
        && (own.power.is_some() || own.current.is_some() || own.resistance.is_some())
    {
        (base.power, base.current, base.resistance) = (None, None, None);
    }
    Item {
        label: own.label.or_else(|| marked(part.label, from_part)),
        part: own.part,
        kind: own.kind.or_else(|| marked(part.kind, from_part)),
        note: own.note,
        supplied: own.supplied.or_else(|| marked(part.supplied, from_part)),
        body: own.body.or(body),
        spec: own.spec.or_same_kind(base),
        at: own.at,
    }
}

fn marked<T>(field: Field<T>, mark: impl Fn(&mut Place)) -> Field<T> {
    field.map(|mut given: Given<T>| {
        mark(&mut given.at);
        given
    })
}
