//! Towing tables against the printed rows, and their order.

#[cfg(test)]
mod tests {
    use wainwright_reference::Mark;
    use wainwright_reference::box_trailer::*;
    use wainwright_reference::brake_law::*;
    use wainwright_reference::road::*;
    use wainwright_reference::securing::{self, *};
    use wainwright_reference::tow_vehicle::*;
    use wainwright_reference::towing::*;
    use wainwright_reference::tyre::*;
    use wainwright_reference::water::*;
    use wainwright_units::*;

    fn kilograms(value: f64) -> Mass {
        Mass::from_kilograms(value)
    }

    fn pounds(value: f64) -> Mass {
        Mass::from_pounds(value)
    }

    fn millimetres(value: f64) -> Length {
        Length::from_millimetres(value)
    }

    #[test]
    fn tongue_bands_are_the_printed_ones_and_ordered() {
        let band = |profile| tongue_band(profile).unwrap();
        let percent = |profile| {
            let band = band(profile);
            [band.stop_below, band.ok_low, band.ok_high].map(|row| row.value.percent().round())
        };
        assert_eq!(percent(TowProfile::Us), [7.0, 10.0, 15.0]);
        assert_eq!(percent(TowProfile::Eu), [4.0, 5.0, 8.0]);
        assert_eq!(percent(TowProfile::Uk), [4.0, 5.0, 7.0]);
        assert_eq!(percent(TowProfile::Au), [5.0, 8.0, 10.0]);
        for &profile in TowProfile::ALL {
            let band = band(profile);
            assert!(
                band.stop_below.value < band.ok_low.value && band.ok_low.value < band.ok_high.value
            );
            assert_eq!(band.stop_below.mark, Mark::Judgement, "{profile}");
            assert!(band.advice.starts_with("Never more than"), "{profile}");
        }
        assert_eq!(band(TowProfile::Us).ok_low.mark, Mark::Read);
        assert_eq!(band(TowProfile::Eu).ok_low.mark, Mark::Judgement);
        assert!(band(TowProfile::Eu).advice.contains("S value"));
    }

    #[test]
    fn shares_and_heights_of_towing_are_the_printed_ones() {
        assert!(
            TowLimit::ALL
                .iter()
                .all(|&limit| tow_limit(limit).is_some())
        );
        let percent = |limit| tow_limit(limit).unwrap().value.percent().round();
        assert_eq!(percent(TowLimit::MatchingShare), 85.0);
        assert_eq!(percent(TowLimit::RestorationLow), 50.0);
        assert_eq!(percent(TowLimit::RestorationHigh), 100.0);
        // Measured tilt ratio .903 over 1.063.
        let tilt = tow_limit(TowLimit::TiltShare).unwrap().value.fraction();
        assert!((tilt - 0.903 / 1.063).abs() < 0.005, "{tilt}");
        let rule = rated_vertical_load().unwrap().value;
        assert_eq!(
            (rule.share, rule.least),
            (Ratio::from_percent(4.0), kilograms(25.0))
        );
        let (ball, coupling) = (
            ball_height().unwrap().value,
            coupling_height().unwrap().value,
        );
        assert_eq!(
            (ball.low, ball.high),
            (millimetres(350.0), millimetres(420.0))
        );
        assert_eq!(
            (coupling.low, coupling.high),
            (millimetres(385.0), millimetres(455.0))
        );
    }

    #[test]
    fn hitch_classes_are_found_by_gross_weight_and_state_no_tongue() {
        let name = |mass| hitch_class_for(pounds(mass)).map(|class| class.value.name);
        assert_eq!(name(2000.0), Some("I"));
        assert_eq!(name(2000.5), Some("II"));
        assert_eq!(name(5000.0), Some("III"));
        assert_eq!(name(10_000.0), Some("IV"));
        assert_eq!(name(10_001.0), None);
        assert!(
            hitch_classes()
                .iter()
                .all(|class| class.value.tongue.is_none())
        );
    }

    #[test]
    fn sway_thresholds_hold_at_100_kilometres_an_hour() {
        let sway = sway_damping().unwrap();
        assert_eq!(sway.stop_below.value, Ratio::from_fraction(0.05));
        assert_eq!(sway.caution_below.value, Ratio::from_fraction(0.1));
        assert!((sway.at_metres_per_second.value * 3.6 - 100.0).abs() < 1e-9);
        assert_eq!(sway.caution_below.mark, Mark::Memory);
        assert_eq!(sway.stop_below.mark, Mark::Judgement);
    }

    #[test]
    fn load_indices_rise_and_the_printed_ones_are_read() {
        let mut last = Mass::ZERO;
        for index in 65..=121 {
            let load = tyre_load(index).unwrap();
            assert!(load.value > last, "{index}");
            last = load.value;
        }
        for (index, mass) in [(80, 450.0), (91, 615.0), (100, 800.0), (110, 1060.0)] {
            let load = tyre_load(index).unwrap();
            assert_eq!(
                (load.value, load.mark),
                (kilograms(mass), Mark::Read),
                "{index}"
            );
        }
        assert_eq!(tyre_load(101).unwrap().mark, Mark::Memory);
        assert_eq!((tyre_load(64), tyre_load(122)), (None, None));
        // A pair of index 91 car tyres on a trailer: 1230 kg, of which 1118 kg count.
        let pair = tyre_load(91).unwrap().value * 2.0 / passenger_tyre_factor().unwrap().value;
        assert_eq!(pair.kilograms().round(), 1118.0);
    }

    #[test]
    fn tyres_are_ordered_and_marked() {
        for &kind in TyreKind::ALL {
            let span = cornering_stiffness(kind).unwrap().value;
            assert!(span.low <= span.usual && span.usual <= span.high, "{kind}");
        }
        let bias = cornering_stiffness(TyreKind::Bias).unwrap();
        assert_eq!(
            (bias.value.usual, bias.mark),
            (Ratio::from_fraction(0.12), Mark::Read)
        );
        let relaxation = relaxation_length().unwrap();
        assert_eq!(
            (relaxation.value.usual, relaxation.mark),
            (millimetres(500.0), Mark::Judgement)
        );
        assert_eq!(
            front_axle_factor().unwrap().value,
            Ratio::from_fraction(0.75)
        );
        assert_eq!(load_pressure_exponent().unwrap().value, 0.8);
        // 65 miles per hour.
        assert!((trailer_tyre_speed().unwrap().value * 3.6 - 104.6).abs() < 0.05);
    }

    #[test]
    fn brake_laws_are_dated_named_and_turn_at_their_threshold() {
        let laws = brake_laws();
        let law = |id| laws.iter().find(|law| law.value.id == id).unwrap().value;
        for row in &laws {
            assert!(
                row.value.as_of.len() == 7 && row.value.as_of.starts_with("20"),
                "{}",
                row.value.id
            );
            assert!(!row.value.law.is_empty() && !row.value.place.is_empty());
        }
        for &profile in TowProfile::ALL {
            assert!(!brake_laws_of(profile).is_empty(), "{profile}");
        }
        assert!(law("us-california-camp").asks_brakes(pounds(1500.0)));
        assert!(!law("us-california-camp").asks_brakes(pounds(1499.0)));
        assert!(!law("us-texas").asks_brakes(pounds(4500.0)));
        assert!(law("us-texas").asks_brakes(pounds(4501.0)));
        assert!(!law("eu-o1").asks_brakes(kilograms(750.0)));
        assert_eq!(law("us-federal").applies_to, "commercial use only");
        assert!(CHECK_LOCAL_LAW.contains("local law"));
    }

    #[test]
    fn legal_stops_agree_with_their_printed_decelerations() {
        // v^2 / 2a with 14 and 9.5 ft/s^2 prints 30.7 and 45.3 ft beside the rounded 30 and 45 ft.
        for (all, feet_per_second2, feet) in [(true, 14.0, 30.0), (false, 9.5, 45.0)] {
            let stop = legal_stop(all).unwrap().value;
            assert!((stop.within.feet() - feet).abs() < 1e-9);
            let speed = stop.from_metres_per_second / 0.3048;
            let distance = speed * speed / (2.0 * feet_per_second2);
            assert!((distance - feet).abs() < 1.0, "{distance}");
        }
    }

    #[test]
    fn the_measured_suv_has_the_printed_ratios() {
        let empty = vehicle_class(VehicleClass::MidSuv, Loading::DriverOnly)
            .unwrap()
            .value;
        let laden = vehicle_class(VehicleClass::MidSuv, Loading::Gross)
            .unwrap()
            .value;
        assert!(laden.mass > empty.mass && laden.centre_behind_front > empty.centre_behind_front);
        assert_eq!(
            (empty.yaw_inertia, empty.roll_inertia),
            (3682.0, Some(740.0))
        );
        assert_eq!(laden.roll_inertia, None);
        let half = empty.wheelbase.metres() / 2.0;
        let ratio = empty.yaw_inertia / (empty.mass.kilograms() * half * half);
        let printed = yaw_inertia_ratio().unwrap();
        assert!((ratio - printed.value.usual).abs() < 5e-4, "{ratio}");
        assert_eq!(printed.mark, Mark::Derived);
        let overhang = ball_overhang().unwrap().value;
        assert!(overhang.low < overhang.usual && overhang.usual < overhang.high);
    }

    #[test]
    fn road_figures_are_ordered_and_heating_values_agree_with_their_btu() {
        for &rolling in Rolling::ALL {
            let span = rolling_coefficient(rolling).unwrap().value;
            assert!(span.low < span.usual && span.usual < span.high, "{rolling}");
        }
        for &shape in DragShape::ALL {
            let span = drag_area(shape).unwrap().value;
            assert!(span.low < span.usual && span.usual < span.high, "{shape}");
        }
        // Btu per US gallon: 1055.06 J over 3.785412 L.
        let megajoules = |btu: f64| btu * 1055.06e-6 / 3.785_412;
        let gasoline = heating_value(FuelKind::Gasoline).unwrap().value;
        assert!((gasoline.low - megajoules(112_114.0)).abs() < 0.005);
        assert!((gasoline.high - megajoules(116_090.0)).abs() < 0.005);
        let diesel = heating_value(FuelKind::Diesel).unwrap().value;
        assert!((diesel.usual - megajoules(128_488.0)).abs() < 0.005);
        let line = fuel_line().unwrap();
        assert_eq!(line.value.idle_power, Power::from_watts(22_000.0));
        assert_eq!(line.mark, Mark::Judgement);
        assert_eq!(launch_grade().unwrap().value, Ratio::from_percent(12.0));
        assert_eq!(reaction_time().unwrap().value, Duration::from_seconds(1.0));
        assert!(
            air_density().is_some()
                && road_friction().is_some()
                && side_wind_coefficient().is_some()
        );
    }

    #[test]
    fn hold_profiles_give_the_printed_forces_on_a_35_kilogram_battery() {
        let weight = 35.0 * STANDARD_GRAVITY;
        let hold = |profile| hold_profile(profile).unwrap().value;
        let newtons = |share: f64| (share * weight).round();
        let working = hold(HoldProfile::UsWorking);
        assert_eq!(
            [working.forward, working.rearward].map(newtons),
            [149.0, 172.0]
        );
        assert_eq!(newtons(hold(HoldProfile::EuVan).sideways), 206.0);
        let breaking = hold(HoldProfile::UsBreaking);
        assert_eq!(
            [breaking.forward, breaking.upward].map(newtons),
            [275.0, 69.0]
        );
        // Printed as 1030 N, rounded to tens.
        assert!((hold(HoldProfile::Own).sideways * weight - 1030.0).abs() < 5.0);
        // The smaller of 90 lbf = 400 N and twice the weight.
        let boat = hold(HoldProfile::Boat);
        let most = boat.most.unwrap().newtons();
        assert!((most - 400.0).abs() < 0.5 && boat.forward * weight > most);
        assert_eq!(
            hold_profile(HoldProfile::Own).unwrap().mark,
            Mark::Judgement
        );
        assert_eq!(hold_profile(HoldProfile::Crash).unwrap().mark, Mark::Memory);
    }

    #[test]
    fn bolts_give_the_printed_strengths() {
        let metal = bolt_class(BoltClass::C88).unwrap().value;
        let kilonewtons = |size: f64| {
            let area = bolt_size(millimetres(size))
                .unwrap()
                .value
                .area
                .square_metres()
                * 1e6;
            let shear = metal.tensile_newtons_per_mm2 * metal.shear_share.fraction();
            [metal.proof_newtons_per_mm2, shear].map(|stress| stress * area / 1000.0)
        };
        // Printed: M6 11.66 and 9.65 kN, M8 21.2 and 17.6 kN; half a digit.
        let [proof, shear] = kilonewtons(6.0);
        assert!((proof - 11.66).abs() < 0.005 && (shear - 9.65).abs() < 0.005);
        let [proof, shear] = kilonewtons(8.0);
        assert!((proof - 21.2).abs() < 0.05 && (shear - 17.6).abs() < 0.05);
        assert!(
            BoltClass::ALL
                .iter()
                .all(|&class| bolt_class(class).is_some())
        );
        assert_eq!(
            bolt_size(Length::from_inches(0.25)).unwrap().value.name,
            "1/4 in"
        );
        assert_eq!(bolt_size(millimetres(7.0)), None);
        for size in bolt_sizes() {
            let diameter = size.value.diameter.millimetres();
            let share = size.value.area.square_metres() * 1e6 / (diameter * diameter);
            // Thread takes a fifth to a third of the shank's area, pi/4 of the square.
            assert!((0.5..0.65).contains(&share), "{}: {share}", size.value.name);
        }
    }

    #[test]
    fn wood_gives_the_printed_withdrawal_of_lag_screws() {
        let pounds_per_inch = |wood, inches: f64| {
            let gravity = wood_gravity(wood).unwrap().value.fraction();
            (1800.0 * gravity.powf(1.5) * inches.powf(0.75)).round()
        };
        assert_eq!(pounds_per_inch(Wood::DouglasFirLarch, 0.25), 225.0);
        assert_eq!(pounds_per_inch(Wood::HemFir, 0.3125), 212.0);
        assert_eq!(pounds_per_inch(Wood::SprucePineFir, 0.375), 235.0);
        assert_eq!(pounds_per_inch(Wood::RedOak, 0.5), 587.0);
        assert!(Wood::ALL.iter().all(|&wood| wood_gravity(wood).is_some()));
        assert_eq!(wood_gravity(Wood::Softwood).unwrap().mark, Mark::Judgement);
        assert_eq!(plywood_derate().unwrap().value, Ratio::from_fraction(0.5));
        assert_eq!(screw_diameter(10).unwrap().value, Length::from_inches(0.19));
        assert_eq!(screw_diameter(11), None);
    }

    #[test]
    fn webbing_and_friction_answer() {
        let limit = |width| webbing_limit(millimetres(width)).map(|row| row.value);
        assert_eq!(limit(44.0), None);
        assert_eq!(limit(45.0), Some(kilograms(790.0)));
        assert_eq!(
            limit(Length::from_inches(2.0).millimetres()),
            Some(kilograms(910.0))
        );
        assert_eq!(limit(120.0), Some(kilograms(1810.0)));
        assert!(
            Contact::ALL
                .iter()
                .all(|&contact| securing::friction(contact).is_some())
        );
        assert_eq!(
            securing::friction(Contact::Smooth).unwrap().mark,
            Mark::Judgement
        );
        assert_eq!(lashing_share().unwrap().value, Ratio::from_fraction(0.5));
        assert!(lashing_safety(true).unwrap().value > lashing_safety(false).unwrap().value);
    }

    #[test]
    fn water_weighs_what_a_gallon_weighs() {
        let gallon = Volume::from_gallons(1.0).litres() * water_density().unwrap().value;
        // 8.34 lb is printed, at the density of cool water: 0.1 % apart.
        assert!((kilograms(gallon).pounds() - 8.34).abs() < 0.01);
        assert_eq!(slosh_width().unwrap().value, millimetres(500.0));
        assert!(slosh_note().unwrap().value.contains("baffles"));
    }

    #[test]
    fn usual_box_trailers_are_possible_trailers() {
        let boxes = box_trailers();
        assert_eq!(boxes.len(), 8);
        for found in boxes {
            let it = found.value;
            assert_eq!(box_trailer(it.id), Some(found));
            assert_eq!(found.mark, Mark::Judgement);
            assert!(it.empty_mass.value < it.gross_rating.value, "{}", it.id);
            let share = it.empty_tongue.value / it.empty_mass.value;
            let band = tongue_band(it.profile).unwrap();
            assert!(
                (band.ok_low.value.fraction()..=band.ok_high.value.fraction()).contains(&share)
            );
            // The empty centre lies inside the box, near its middle.
            let centre = it.ball_to_axle.value * (1.0 - share) - it.ball_to_front.value;
            let place = centre / it.inside_length.value;
            assert!((0.4..0.6).contains(&place), "{}: {place}", it.id);
            let axles = f64::from(it.axles);
            assert!(
                it.tyre_rating.value * 2.0 >= it.axle_rating.value,
                "{}",
                it.id
            );
            assert!(
                it.axle_rating.value * axles >= it.gross_rating.value,
                "{}",
                it.id
            );
            assert_eq!(it.axle_spacing.is_some(), it.axles == 2, "{}", it.id);
            assert!(
                it.empty_centre_height.value > it.floor_height.value,
                "{}",
                it.id
            );
            if it.profile == TowProfile::Eu {
                let laden = coupling_height().unwrap().value;
                assert!((laden.low..=laden.high).contains(&it.coupling_height.value));
                assert!(it.brakes || it.gross_rating.value <= kilograms(750.0));
            }
        }
        assert_eq!(
            box_trailer("us-5x8").unwrap().value.inside_length.text,
            "94 in"
        );
        assert_eq!(box_trailer("no-such"), None);
    }
}
