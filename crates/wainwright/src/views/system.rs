//! The trailer's wiring as a whole, as plain data: limits in force, joints,
//! loose ends, and what was assumed or is missing.

use super::basis::BasisView;
use super::state::state_id;
use serde::Serialize;
use wainwright_analysis::known::Known;
use wainwright_analysis::result::{
    Assessment, AssumedValue, JointOwner, JointResult, Limits, Wanted,
};

/// The wiring as a whole.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SystemView {
    /// Nominal voltage [V].
    pub volts: Option<f64>,
    /// Usable capacity of all batteries [Ah].
    pub capacity_amp_hours: Option<f64>,
    /// The limits in force.
    pub limits: Vec<LimitView>,
}

/// One limit in force.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LimitView {
    /// Its name.
    pub name: &'static str,
    /// In the unit below.
    pub value: f64,
    /// `share`, `metres` or `celsius`.
    pub unit: &'static str,
    /// Where it came from.
    pub basis: BasisView,
}

/// A contact or joint.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct JointView {
    /// `wire.<id>.from`, `wire.<id>.to`, or `item.<id>` with `.way` for a switch.
    pub at: String,
    /// [Ω]
    pub ohms: f64,
    /// Where that came from.
    pub basis: BasisView,
    /// Worst lasting heat [W].
    pub watts: f64,
    /// Current then [A].
    pub amps: f64,
    /// State id.
    pub state: Option<String>,
}

/// A value nobody gave.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct AssumptionView {
    /// Where it can be typed.
    pub path: String,
    /// The stand-in.
    pub value: String,
    /// Why this one.
    pub basis: BasisView,
}

/// A value without which part of the study was left out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct MissingView {
    /// Where it can be typed.
    pub path: String,
    /// What is wanted there.
    pub wanted: &'static str,
}

impl SystemView {
    /// The same as plain data.
    pub fn of(assessment: &Assessment) -> Self {
        Self {
            volts: assessment.system_volts.as_ref().map(|v| v.value.volts()),
            capacity_amp_hours: assessment.capacity.map(|c| c.ampere_hours()),
            limits: limits(&assessment.limits),
        }
    }
}

impl JointView {
    /// The same as plain data.
    pub fn of(joint: &JointResult, assessment: &Assessment) -> Self {
        let state = assessment.states.get(joint.state);
        Self {
            at: owner(&joint.owner),
            ohms: joint.resistance.value.ohms(),
            basis: BasisView::of(&joint.resistance.basis),
            watts: joint.heat.watts(),
            amps: joint.amps.amperes(),
            state: state.map(|s| state_id(&s.kind)),
        }
    }
}

/// Every value nobody gave.
pub fn assumptions(assessment: &Assessment) -> Vec<AssumptionView> {
    assumed(&assessment.assumptions)
}

/// Each of these values.
pub fn assumed(all: &[AssumedValue]) -> Vec<AssumptionView> {
    let all = all.iter();
    all.map(|assumed| AssumptionView {
        path: assumed.path.join("."),
        value: assumed.value.clone(),
        basis: BasisView::of(&assumed.basis),
    })
    .collect()
}

/// Every value that is missing.
pub fn missing(assessment: &Assessment) -> Vec<MissingView> {
    let all = assessment.missing.iter();
    all.map(|missing| MissingView {
        path: missing.path.join("."),
        wanted: wanted(missing.wanted),
    })
    .collect()
}

fn limits(limits: &Limits) -> Vec<LimitView> {
    fn limit<T: Copy>(
        name: &'static str,
        known: &Known<T>,
        unit: &'static str,
        number: fn(T) -> f64,
    ) -> LimitView {
        LimitView {
            name,
            value: number(known.value),
            unit,
            basis: BasisView::of(&known.basis),
        }
    }
    vec![
        limit("drop_critical", &limits.drop_critical, "share", |r| {
            r.fraction()
        }),
        limit("drop_other", &limits.drop_other, "share", |r| r.fraction()),
        limit("unfused_length", &limits.unfused, "metres", |l| l.metres()),
        limit(
            "unfused_sheathed_length",
            &limits.unfused_sheathed,
            "metres",
            |l| l.metres(),
        ),
        limit("continuous_share", &limits.continuous_share, "share", |r| {
            r.fraction()
        }),
        limit("summer_air", &limits.summer_air, "celsius", |t| t.celsius()),
        limit("roof_air", &limits.cavity_air, "celsius", |t| t.celsius()),
    ]
}

fn owner(owner: &JointOwner) -> String {
    match owner {
        JointOwner::WireEnd(id, false) => format!("wire.{id}.from"),
        JointOwner::WireEnd(id, true) => format!("wire.{id}.to"),
        JointOwner::Contact(id, 0) => format!("item.{id}"),
        JointOwner::Contact(id, way) => format!("item.{id}.{way}"),
    }
}

/// Words for a missing value.
pub fn wanted(wanted: Wanted) -> &'static str {
    match wanted {
        Wanted::Size => "a wire size",
        Wanted::Length => "a length",
        Wanted::Insulation => "an insulation class",
        Wanted::Rating => "a rating",
        Wanted::Demand => "what the load takes",
        Wanted::Kind => "a kind or a part",
        Wanted::Terminal => "a terminal that exists",
    }
}
