//! Reading lists: of ids, of numbers, of quantities, of sides, of fuse ratings.

use super::{FieldValue, Mismatch, shown};
use crate::choices::Side;
use crate::schema::ValueKind;
use crate::spot::Spot;
use crate::syntax::{Node, NodeValue};
use wainwright_units::{Current, Ratio, Speed, Temperature};

/// Most elements of a list that are read.
const LONGEST_LIST: usize = 1_000;

fn list<T>(
    node: &Node,
    expected: &str,
    each: impl Fn(&Node) -> Result<T, Mismatch>,
) -> Result<Vec<T>, Mismatch> {
    let NodeValue::List(nodes) = &node.value else {
        let hint =
            matches!(node.value, NodeValue::Text(_)).then(|| format!("write [{}]", shown(node)));
        return Err(Mismatch::new(shown(node), expected).hint(hint));
    };
    if nodes.len() > LONGEST_LIST {
        return Err(Mismatch::new(
            format!("a list of {}", nodes.len()),
            format!("at most {LONGEST_LIST}"),
        ));
    }
    let read = |inner: &Node| {
        each(inner).map_err(|mismatch| Mismatch {
            element: Some(inner.span.clone()),
            ..mismatch
        })
    };
    nodes.iter().map(read).collect()
}

impl FieldValue for Vec<String> {
    const KIND: ValueKind = ValueKind::List(&ValueKind::Text);

    fn read(node: &Node, kind: &ValueKind) -> Result<Self, Mismatch> {
        let inner = match kind {
            ValueKind::List(inner) => inner,
            _ => &ValueKind::Text,
        };
        list(node, "a list such as [\"fridge\", \"lights\"]", |each| {
            String::read(each, inner)
        })
    }
}

impl FieldValue for Vec<u32> {
    const KIND: ValueKind = ValueKind::List(&ValueKind::Integer {
        low: 1,
        high: 1_000,
    });

    fn read(node: &Node, kind: &ValueKind) -> Result<Self, Mismatch> {
        let inner = match kind {
            ValueKind::List(inner) => inner,
            _ => &u32::KIND,
        };
        list(node, "a list of numbers such as [1, 3]", |each| {
            u32::read(each, inner)
        })
    }
}

impl FieldValue for Vec<f64> {
    const KIND: ValueKind = ValueKind::List(&f64::KIND);

    fn read(node: &Node, kind: &ValueKind) -> Result<Self, Mismatch> {
        let inner = match kind {
            ValueKind::List(inner) => inner,
            _ => &f64::KIND,
        };
        list(node, "a list of numbers such as [0.52, 0.55]", |each| {
            f64::read(each, inner)
        })
    }
}

/// Lists of values that are read one by one as they are alone.
macro_rules! lists {
    ($($Type:ident like $example:literal),+ $(,)?) => { $(
        impl FieldValue for Vec<$Type> {
            const KIND: ValueKind = ValueKind::List(&$Type::KIND);

            fn read(node: &Node, kind: &ValueKind) -> Result<Self, Mismatch> {
                let inner = match kind {
                    ValueKind::List(inner) => inner,
                    _ => &$Type::KIND,
                };
                list(node, concat!("a list such as ", $example), |each| $Type::read(each, inner))
            }
        }
    )+ };
}

lists!(
    Temperature like "[\"34 °F\", \"38 °F\"]",
    Speed like "[\"9 mph\", \"10 mph\"]",
    Ratio like "[\"100 %\", \"40 %\"]",
    Side like "[\"left\", \"right\"]",
);

impl FieldValue for Vec<Spot> {
    const KIND: ValueKind = ValueKind::List(&ValueKind::Spot);

    fn read(node: &Node, _: &ValueKind) -> Result<Self, Mismatch> {
        list(
            node,
            "a list of places such as [\"0 in, 2 in, 70 in\", \"9 ft, 2 in, 70 in\"]",
            |each| Spot::read(each, &ValueKind::Spot),
        )
    }
}

impl FieldValue for Vec<Option<Current>> {
    const KIND: ValueKind = ValueKind::Ratings;

    fn read(node: &Node, _: &ValueKind) -> Result<Self, Mismatch> {
        list(
            node,
            "a list of fuse ratings such as [\"15 A\", \"\"]",
            |each| match &each.value {
                NodeValue::Text(text) if text.trim().is_empty() => Ok(None),
                _ => Current::read(each, &Current::KIND.positive()).map(Some),
            },
        )
    }
}
