//! Every rule, in the order in which findings of equal weight are shown.
//! Not here: what the rules do.

use crate::rule::{Rule, RuleDoc};
use crate::towing::{
    brakes_asked_for::BrakesAskedFor, coupler_underrated::CouplerUnderrated,
    door_blocked::DoorBlocked, front_too_large::FrontTooLarge, lopsided_load::LopsidedLoad,
    nose_high::NoseHigh, not_held::NotHeld, rating_exceeded::RatingExceeded, sticks_out::SticksOut,
    sway_little_damped::SwayLittleDamped, things_collide::ThingsCollide,
    tips_on_its_tail::TipsOnItsTail, tongue_too_heavy::TongueTooHeavy,
    tongue_too_light::TongueTooLight, weakly_held::WeaklyHeld,
    weighings_disagree::WeighingsDisagree, weight_unknown::WeightUnknown,
};
use crate::wiring::{
    battery_overdrawn::BatteryOverdrawn, derated_by_bundle::DeratedByBundle,
    derated_by_hot_place::DeratedByHotPlace, frame_as_return::FrameAsReturn,
    fuse_behind_switch::FuseBehindSwitch, fuse_run_hard::FuseRunHard, fuse_too_small::FuseTooSmall,
    gear_unplaced::GearUnplaced, hot_joint::HotJoint,
    insulation_fails_in_short::InsulationFailsInShort,
    interrupt_rating_too_low::InterruptRatingTooLow, inverter_lead_weak::InverterLeadWeak,
    loose_terminal::LooseTerminal, not_selective::NotSelective,
    overheated_conductor::OverheatedConductor, overloaded_chain::OverloadedChain,
    oversized_fuse::OversizedFuse, parallel_batteries_unprotected::ParallelBatteriesUnprotected,
    pvc_against_foam::PvcAgainstFoam, reversed_polarity::ReversedPolarity,
    self_resetting_breaker::SelfResettingBreaker,
    shared_charger_protection::SharedChargerProtection, short_never_cleared::ShortNeverCleared,
    sources_add_up::SourcesAddUp, supply_collapses::SupplyCollapses,
    switch_overloaded::SwitchOverloaded, thin_supplied_lead::ThinSuppliedLead,
    unfused_source_stretch::UnfusedSourceStretch, unsized_wire::UnsizedWire,
    untold_figure::UntoldFigure, voltage_drop::VoltageDrop,
    voltage_rating_too_low::VoltageRatingTooLow, wire_below_minimum_size::WireBelowMinimumSize,
    wire_through_opening::WireThroughOpening, wire_too_short::WireTooShort,
};

/// Every rule.
pub fn catalogue() -> &'static [&'static dyn Rule] {
    &[
        &ReversedPolarity,
        &UnfusedSourceStretch,
        &InterruptRatingTooLow,
        &OversizedFuse,
        &SourcesAddUp,
        &FuseBehindSwitch,
        &InsulationFailsInShort,
        &ShortNeverCleared,
        &OverheatedConductor,
        &OverloadedChain,
        &VoltageRatingTooLow,
        &DeratedByBundle,
        &DeratedByHotPlace,
        &FuseTooSmall,
        &FuseRunHard,
        &ThinSuppliedLead,
        &SupplyCollapses,
        &InverterLeadWeak,
        &VoltageDrop,
        &BatteryOverdrawn,
        &ParallelBatteriesUnprotected,
        &SharedChargerProtection,
        &SelfResettingBreaker,
        &SwitchOverloaded,
        &HotJoint,
        &PvcAgainstFoam,
        &FrameAsReturn,
        &WireThroughOpening,
        &WireTooShort,
        &WireBelowMinimumSize,
        &NotSelective,
        &UnsizedWire,
        &UntoldFigure,
        &LooseTerminal,
        &GearUnplaced,
        &RatingExceeded,
        &TongueTooLight,
        &TipsOnItsTail,
        &SwayLittleDamped,
        &WeaklyHeld,
        &CouplerUnderrated,
        &BrakesAskedFor,
        &TongueTooHeavy,
        &LopsidedLoad,
        &NoseHigh,
        &NotHeld,
        &DoorBlocked,
        &ThingsCollide,
        &FrontTooLarge,
        &WeighingsDisagree,
        &SticksOut,
        &WeightUnknown,
    ]
}

/// The rule with this id.
pub fn rule(id: &str) -> Option<&'static dyn Rule> {
    catalogue().iter().copied().find(|rule| rule.doc().id == id)
}

/// The page of every rule, in catalogue order.
pub fn docs() -> impl Iterator<Item = &'static RuleDoc> {
    catalogue().iter().map(|rule| rule.doc())
}
