//! The range of a setting with both ends and their reasons, whatever its quantity. Not here: words, drawing.

use wainwright_analysis::result::settings::{
    Bound, DeviceCard, EngineCard, Figure, Reason, SetPoint, SettingKind, ToChange,
};
use wainwright_units::{Current, Duration, Temperature, Voltage};

/// One end of a range.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct End {
    /// The value.
    pub value: Figure,
    /// Why.
    pub reason: Reason,
}

/// The range of a setting, whatever its quantity.
#[derive(Debug, Clone, PartialEq)]
pub struct Range {
    /// The lower end that binds.
    pub low: End,
    /// The upper end that binds.
    pub high: End,
    /// All lower ends.
    pub lows: Vec<End>,
    /// All upper ends.
    pub highs: Vec<End>,
    /// Worth reaching, and whether the range reaches it.
    pub wish: Option<(End, bool)>,
    /// What to change when the range is empty.
    pub change: Option<ToChange>,
}

impl Range {
    fn of<Q: Copy>(point: &SetPoint<Q>, figure: impl Fn(Q) -> Figure) -> Self {
        let end = |bound: &Bound<Q>| End {
            value: figure(bound.value),
            reason: bound.reason,
        };
        let (low, high) = (end(&point.low), end(&point.high));
        let reaches = |wish: &End| number(wish.value) <= number(high.value);
        Self {
            low,
            high,
            lows: point.lows.iter().map(end).collect(),
            highs: point.highs.iter().map(end).collect(),
            wish: point
                .wish
                .as_ref()
                .map(end)
                .map(|wish| (wish, reaches(&wish))),
            change: point.change,
        }
    }
}

/// The range of one setting of a device; none for what is on or off.
pub fn range(card: &DeviceCard, what: SettingKind) -> Option<Range> {
    match (&card.card, what) {
        (EngineCard::Charger(card), SettingKind::ChargeVoltage) => Some(of_volts(&card.absorption)),
        (EngineCard::Charger(card), SettingKind::Float) => Some(of_volts(&card.float)),
        (EngineCard::Charger(card), SettingKind::AbsorptionTime) => Some(Range::of::<Duration>(
            &card.absorption_time,
            Figure::Duration,
        )),
        (EngineCard::Charger(card), SettingKind::Tail) => Some(amperes(&card.tail)),
        (EngineCard::Charger(card), SettingKind::Limit) => Some(amperes(&card.limit)),
        (EngineCard::Charger(card), SettingKind::ColdLockout) => {
            let lockout = card.lockout.as_ref();
            lockout.map(|point| Range::of::<Temperature>(point, Figure::Temperature))
        }
        (EngineCard::Disconnect(card), SettingKind::Off) => Some(of_volts(&card.off)),
        (EngineCard::Disconnect(card), SettingKind::On) => Some(of_volts(&card.on)),
        _ => None,
    }
}

fn of_volts(point: &SetPoint<Voltage>) -> Range {
    Range::of(point, Figure::Voltage)
}

fn amperes(point: &SetPoint<Current>) -> Range {
    Range::of(point, Figure::Current)
}

/// A figure as a bare number, where it has a scale.
pub fn number(figure: Figure) -> Option<f64> {
    match figure {
        Figure::Voltage(value) => Some(value.volts()),
        Figure::Current(value) => Some(value.amperes()),
        Figure::Temperature(value) => Some(value.celsius()),
        Figure::Duration(value) => Some(value.seconds()),
        Figure::Compensation(_) | Figure::Off | Figure::On => None,
    }
}
