//! Every rule, in the order in which findings of equal weight are shown.
//! Not here: what the rules do.

use crate::charging::{
    battery_never_full::BatteryNeverFull, cells_never_balance::CellsNeverBalance,
    charge_above_loads::ChargeAboveLoads, charge_above_protection::ChargeAboveProtection,
    charge_current_above_battery::ChargeCurrentAboveBattery,
    compensation_on_lithium::CompensationOnLithium, controller_cannot_wake::ControllerCannotWake,
    disconnect_below_protection::DisconnectBelowProtection, equalise_on_lithium::EqualiseOnLithium,
    float_misset::FloatMisset, lead_acid_profile::LeadAcidProfile, load_dump::LoadDump,
    loads_fail_first::LoadsFailFirst, loads_off_too_long::LoadsOffTooLong,
    module_voltage_above_controller::ModuleVoltageAboveController, no_cold_lockout::NoColdLockout,
    restart_too_near::RestartTooNear, tail_current_misset::TailCurrentMisset,
};
use crate::indoors::{
    air_too_stale::AirTooStale, cabinet_too_hot::CabinetTooHot, devices_overlap::DevicesOverlap,
    does_not_fit_cabinet::DoesNotFitCabinet, fuses_out_of_reach::FusesOutOfReach,
    heater_too_small::HeaterTooSmall, mould_on_surface::MouldOnSurface,
    no_alarm_listed::NoAlarmListed, water_in_wall::WaterInWall,
};
use crate::lining::{
    foam_too_deep::FoamTooDeep, material_unknown::MaterialUnknown, rip_without_saw::RipWithoutSaw,
};
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
        &ModuleVoltageAboveController,
        &ChargeAboveProtection,
        &ChargeAboveLoads,
        &BatteryNeverFull,
        &CellsNeverBalance,
        &FloatMisset,
        &TailCurrentMisset,
        &ChargeCurrentAboveBattery,
        &NoColdLockout,
        &CompensationOnLithium,
        &EqualiseOnLithium,
        &LeadAcidProfile,
        &LoadDump,
        &ControllerCannotWake,
        &DisconnectBelowProtection,
        &LoadsFailFirst,
        &RestartTooNear,
        &LoadsOffTooLong,
        &FoamTooDeep,
        &RipWithoutSaw,
        &MaterialUnknown,
        &AirTooStale,
        &CabinetTooHot,
        &WaterInWall,
        &DoesNotFitCabinet,
        &DevicesOverlap,
        &MouldOnSurface,
        &HeaterTooSmall,
        &FusesOutOfReach,
        &NoAlarmListed,
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
