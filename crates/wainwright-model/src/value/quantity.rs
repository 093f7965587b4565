//! Reading numbers with units, held against the range of the field.
//!
//! Not here: what units there are (the units crate), wire sizes.

use super::{FieldValue, Mismatch, shown};
use crate::schema::ValueKind;
use crate::syntax::{Node, NodeValue};
use wainwright_units::{
    Airflow, Altitude, Angle, Area, Charge, CrossSection, Current, Duration, Force, Length, Mass,
    Power, Quantity, Ratio, Resistance, Speed, Stiffness, System, Temperature, Voltage, Volume,
};

/// Reads a quantity and holds it against the range of the field.
fn quantity<Q: Quantity>(node: &Node, kind: &ValueKind) -> Result<Q, Mismatch> {
    let text = match &node.value {
        NodeValue::Text(text) => text.clone(),
        NodeValue::Integer(integer) if Q::NAME == Ratio::NAME => integer.to_string(),
        NodeValue::Number(number) if Q::NAME == Ratio::NAME => number.to_string(),
        _ => return Err(unquoted::<Q>(node, kind)),
    };
    let value = Q::parse(&text)?;
    let ValueKind::Quantity {
        low,
        high,
        above_low,
        ..
    } = kind
    else {
        return Ok(value);
    };
    let base = value.base();
    let inside = base <= *high
        && if *above_low {
            base > *low
        } else {
            base >= *low
        };
    if inside {
        Ok(value)
    } else {
        Err(Mismatch::new(
            shown(node),
            range::<Q>(*low, *high, *above_low),
        ))
    }
}

fn unquoted<Q: Quantity>(node: &Node, kind: &ValueKind) -> Mismatch {
    let examples = match kind {
        ValueKind::Quantity { examples, .. } => *examples,
        _ => Q::EXAMPLES,
    };
    let example = examples.first().copied().unwrap_or("");
    let unit =
        example.trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, '.' | ' ' | '-'));
    let hint = match &node.value {
        NodeValue::Integer(integer) => {
            Some(format!("write \"{integer} {unit}\" if that is the unit"))
        }
        NodeValue::Number(number) => Some(format!("write \"{number} {unit}\" if that is the unit")),
        _ => None,
    };
    Mismatch::new(
        shown(node),
        format!(
            "a {} with its unit in quotes, such as \"{example}\"",
            Q::NAME
        ),
    )
    .hint(hint)
}

fn range<Q: Quantity>(low: f64, high: f64, above_low: bool) -> String {
    let high = Q::from_base(high).show(System::Metric);
    let name = Q::NAME;
    if above_low {
        return format!("a {name} above zero, at most {high}");
    }
    format!(
        "a {name} from {} to {high}",
        Q::from_base(low).show(System::Metric)
    )
}

macro_rules! quantities {
    ($($Quantity:ident),+) => { $(
        impl FieldValue for $Quantity {
            const KIND: ValueKind = ValueKind::Quantity {
                name: <$Quantity as Quantity>::NAME,
                low: <$Quantity as Quantity>::LEGAL.low,
                high: <$Quantity as Quantity>::LEGAL.high,
                above_low: false,
                examples: <$Quantity as Quantity>::EXAMPLES,
            };

                    fn read(node: &Node, kind: &ValueKind) -> Result<Self, Mismatch> {
                quantity::<Self>(node, kind)
            }
        }
    )+ };
}

quantities!(
    Airflow,
    Altitude,
    Angle,
    Area,
    Charge,
    CrossSection,
    Current,
    Duration,
    Force,
    Length,
    Mass,
    Power,
    Ratio,
    Resistance,
    Speed,
    Stiffness,
    Temperature,
    Voltage,
    Volume
);
