//! Properties of the tables: every accessor answers, rows ascend, marks survive.

#[cfg(test)]
mod tests {
    use wainwright_reference::battery::*;
    use wainwright_reference::cost::*;
    use wainwright_reference::insulation::*;
    use wainwright_reference::joint::*;
    use wainwright_reference::limit::*;
    use wainwright_reference::position::*;
    use wainwright_reference::protection::{self, Family, Speed};
    use wainwright_reference::surroundings::*;
    use wainwright_reference::{Mark, ampacity, conductor, sources, tables};
    use wainwright_units::*;

    fn amps(value: f64) -> Current {
        Current::from_amperes(value)
    }

    fn gauge(number: i8) -> WireSize {
        WireSize::Awg(Awg::new(number).unwrap())
    }

    #[test]
    fn every_table_has_rows_and_every_row_a_document() {
        assert!(tables().count() > 50);
        for table in tables() {
            for row in table.rows() {
                assert!(
                    !row.sourced(()).source.document.is_empty(),
                    "{}",
                    table.name()
                );
            }
        }
    }

    #[test]
    fn memory_and_judgement_are_not_passed_off_as_read() {
        let mark = |gates| protection::gates_mark(gates);
        assert_eq!(mark(Family::Blade), Some(Mark::Memory));
        assert_eq!(mark(Family::Terminal), Some(Mark::Judgement));
        let tinned = conductor::published_resistance(gauge(-3), true).unwrap();
        assert_eq!(
            tinned.mark,
            Mark::Memory,
            "4/0 coated is known from memory only"
        );
        assert_eq!(
            conductor::published_resistance(gauge(0), true)
                .unwrap()
                .mark,
            Mark::Read
        );
        for source in sources()
            .iter()
            .filter(|source| source.document.starts_with("Judgement"))
        {
            assert_eq!(source.mark, Mark::Judgement, "{}", source.id);
        }
        for source in sources()
            .iter()
            .filter(|source| source.mark == Mark::Memory)
        {
            assert!(
                !source.edition.contains("copy"),
                "{} claims a copy",
                source.id
            );
        }
        let memory = sources()
            .into_iter()
            .filter(|source| source.edition.starts_with("memory"));
        for source in memory {
            assert!(source.mark > Mark::Derived, "{}", source.id);
        }
    }

    #[test]
    fn thicker_wire_and_hotter_insulation_carry_more() {
        let limits = [60.0, 75.0, 80.0, 90.0, 105.0, 125.0, 200.0].map(Temperature::from_celsius);
        let sizes = conductor::awg_sizes();
        for pair in sizes.windows(2) {
            for limit in limits {
                let of = |gauge| ampacity::boat_ampacity(gauge, limit).unwrap().value;
                assert!(of(pair[0]) < of(pair[1]), "{} to {}", pair[0], pair[1]);
            }
        }
        for &gauge in &sizes {
            for pair in limits.windows(2) {
                let of = |limit| ampacity::boat_ampacity(gauge, limit).unwrap().value;
                assert!(of(pair[0]) <= of(pair[1]), "{gauge}");
            }
        }
    }

    #[test]
    fn a_limit_between_two_columns_takes_the_cooler_one() {
        let at = |celsius| {
            ampacity::published_ampacity(gauge(10), Temperature::from_celsius(celsius))
                .map(|row| row.value)
        };
        assert_eq!(at(59.0), None);
        assert_eq!(at(85.0), at(80.0));
        assert_eq!(at(85.0), Some(amps(50.0)));
        assert_eq!(
            ampacity::published_ampacity(
                WireSize::Sae(Awg::new(10).unwrap()),
                Temperature::from_celsius(105.0)
            ),
            None
        );
    }

    #[test]
    fn resistance_falls_as_wire_gets_thicker() {
        for tinned in [false, true] {
            let line = |size| {
                conductor::published_resistance(size, tinned)
                    .unwrap()
                    .value
                    .line
            };
            for pair in conductor::awg_sizes().windows(2) {
                assert!(line(WireSize::Awg(pair[0])) > line(WireSize::Awg(pair[1])));
            }
            for pair in conductor::metric_sizes().windows(2) {
                assert!(line(WireSize::Metric(pair[0])) > line(WireSize::Metric(pair[1])));
            }
        }
    }

    #[test]
    fn every_insulation_class_is_complete_and_only_pvc_fears_foam() {
        let ids = insulation_ids();
        let asked = [
            "gpt", "hdt", "gxl", "sxl", "txl", "boat-105", "thwn", "mtw", "h07v-k", "h07rn-f",
            "silicone",
        ];
        assert_eq!(ids, asked);
        for id in ids {
            let class = insulation(id).unwrap();
            assert!(
                class.short_limit.value > class.continuous_limit.value,
                "{id}"
            );
            assert_eq!(
                class.touches_foam_ok.value,
                class.material != Material::Pvc,
                "{id}"
            );
            for number in [22, 18, 10, 6, 2, -3] {
                assert!(wall_thickness(id, gauge(number)).is_some(), "{id} {number}");
            }
        }
        assert!(insulation("no-such").is_none());
    }

    #[test]
    fn walls_do_not_get_thinner_with_size() {
        for id in insulation_ids() {
            let walls = (-3..=24)
                .rev()
                .map(|number| wall_thickness(id, gauge(number)).unwrap().value);
            let walls: Vec<Length> = walls.collect();
            assert!(walls.windows(2).all(|pair| pair[0] <= pair[1]), "{id}");
        }
    }

    #[test]
    fn gates_ascend_in_current_and_descend_in_time() {
        for &family in Family::ALL {
            let gates: Vec<_> = protection::gates(family)
                .into_iter()
                .map(|gate| gate.value)
                .collect();
            assert!(gates.len() >= 4, "{family}");
            assert_eq!(
                gates[0].latest, None,
                "{family} may carry its first gate for ever"
            );
            for gate in &gates {
                let earliest = gate.earliest.unwrap();
                assert!(
                    gate.latest.is_none_or(|latest| earliest < latest),
                    "{family}"
                );
            }
            for pair in gates.windows(2) {
                assert!(pair[0].multiple < pair[1].multiple, "{family}");
                assert!(pair[0].earliest > pair[1].earliest, "{family}");
                assert!(
                    pair[0]
                        .latest
                        .is_none_or(|latest| Some(latest) > pair[1].latest),
                    "{family}"
                );
            }
        }
    }

    #[test]
    fn every_family_has_name_speed_voltage_ratings_resistance_and_cost() {
        for &family in Family::ALL {
            assert!(
                protection::name(family).is_some() && protection::speed(family).is_some(),
                "{family}"
            );
            assert!(protection::voltage_rating(family).unwrap().value >= Voltage::from_volts(32.0));
            let ratings = protection::ratings(family);
            assert!(
                ratings.windows(2).all(|pair| pair[0].value < pair[1].value),
                "{family}"
            );
            for rating in &ratings {
                assert!(
                    protection::cold_resistance(family, rating.value)
                        .unwrap()
                        .value
                        > Resistance::ZERO
                );
            }
            let cost = protection_cost(family).unwrap().value;
            assert!(cost.fuse <= cost.most, "{family}");
        }
        assert_eq!(
            protection::speed(Family::MaxiBlade).unwrap().value,
            Speed::Slow
        );
        assert_eq!(protection::speed(Family::Blade).unwrap().value, Speed::Fast);
    }

    #[test]
    fn interrupt_capacity_falls_with_voltage() {
        let at = |volts| {
            protection::interrupt_at(Family::Terminal, Voltage::from_volts(volts))
                .map(|row| row.value)
        };
        assert_eq!(at(13.0), Some(amps(10_000.0)));
        assert_eq!(
            at(14.6),
            Some(amps(5000.0)),
            "above 14 V the 32 V row holds"
        );
        assert_eq!(at(58.4), None);
        assert_eq!(
            protection::interrupt_at(Family::Blade, Voltage::from_volts(58.4)),
            None
        );
    }

    #[test]
    fn ratings_are_found_from_both_sides() {
        let least =
            |value| protection::rating_at_least(Family::Blade, amps(value)).map(|row| row.value);
        let most =
            |value| protection::rating_at_most(Family::Blade, amps(value)).map(|row| row.value);
        assert_eq!(
            (least(5.1), least(7.5), least(40.1)),
            (Some(amps(7.5)), Some(amps(7.5)), None)
        );
        assert_eq!(
            (most(0.9), most(7.4), most(99.0)),
            (None, Some(amps(5.0)), Some(amps(40.0)))
        );
        assert_eq!(
            protection::colour(Family::Blade, amps(15.0)).unwrap().value,
            "blue"
        );
        assert_eq!(protection::colour(Family::Anl, amps(40.0)), None);
    }

    #[test]
    fn the_default_resistance_rule_continues_the_measured_blades() {
        let cold = |family, rating| protection::cold_resistance(family, amps(rating)).unwrap();
        assert_eq!(
            cold(Family::Blade, 30.0).value,
            Resistance::from_milliohms(1.97)
        );
        assert!(cold(Family::Blade, 35.0).value < cold(Family::Blade, 30.0).value);
        assert!(cold(Family::ClassT, 250.0).value <= Resistance::from_milliohms(0.3));
        assert!(protection::cold_resistance(Family::Blade, amps(0.0)).is_none());
        // The warm drop at rating over the cold one: 1.4 to 1.5 is quoted for large ratings.
        let drop = protection::blade_drop_at_rating(amps(10.0)).unwrap().value;
        let warm = drop / (amps(10.0) * cold(Family::Blade, 10.0).value);
        assert!((1.4..=1.5).contains(&warm), "{warm}");
    }

    #[test]
    fn positions_and_interrupt_minimums_answer() {
        let reach = |profile, situation| unfused_reach(profile, situation).map(|row| row.value);
        for &situation in Situation::ALL {
            let inches = reach(Profile::Us, situation).unwrap();
            assert_eq!(
                Length::parse(inches.text).unwrap().millimetres().round(),
                inches.length.millimetres().round()
            );
        }
        assert_eq!(
            reach(Profile::Eu, Situation::Open).unwrap().length,
            Length::from_millimetres(200.0)
        );
        assert_eq!(reach(Profile::Eu, Situation::Sheathed), None);
        assert_eq!(
            least_interrupt(amps(650.0)).unwrap().value.main,
            amps(1500.0)
        );
        assert_eq!(
            least_interrupt(amps(651.0)).unwrap().value.main,
            amps(3000.0)
        );
        assert!(least_interrupt(amps(2201.0)).is_none());
        assert_eq!(least_interrupt_shore().unwrap().value.branch, amps(3000.0));
        assert_eq!(large_bank().unwrap().value.interrupt, amps(20_000.0));
    }

    #[test]
    fn joints_and_limits_answer() {
        for &joint in Joint::ALL {
            let row = joint_resistance(joint).unwrap().value;
            assert!(
                row.good_low <= row.good_high && row.good_high < row.suspect,
                "{joint}"
            );
        }
        assert!(
            joint_heat(JointSize::Small).unwrap().value
                < joint_heat(JointSize::Large).unwrap().value
        );
        assert!(
            Element::ALL
                .iter()
                .all(|&element| element_drop(element).is_some())
        );
        assert!(
            RatioLimit::ALL
                .iter()
                .all(|&limit| ratio_limit(limit).is_some())
        );
        assert!(
            SizeLimit::ALL
                .iter()
                .all(|&limit| size_limit(limit).is_some())
        );
        assert!(
            LengthLimit::ALL
                .iter()
                .all(|&limit| length_limit(limit).is_some())
        );
        assert_eq!(
            ratio_limit(RatioLimit::ContinuousShare).unwrap().mark,
            Mark::Memory
        );
        assert!(Foam::ALL.iter().all(|&foam| {
            foam_conductivity(foam).is_some_and(|row| row.value.low < row.value.high)
        }));
        assert!(Air::ALL.iter().all(|&air| air_temperature(air).is_some()));
        assert!(Work::ALL.iter().all(|&work| work_cost(work).is_some()));
    }

    #[test]
    fn the_lfp_curve_rises_and_is_interpolated_inside_its_rows() {
        let curve = |percent| {
            lfp_open_circuit(Ratio::from_percent(percent))
                .unwrap()
                .value
                .volts()
        };
        for step in 0..1000 {
            let here = f64::from(step) / 10.0;
            assert!(curve(here) < curve(here + 0.1), "{here} %");
        }
        assert!((curve(50.0) - 3.2995).abs() < 1e-12);
        assert!((curve(22.5) - (3.2343 + 3.2547) / 2.0).abs() < 1e-9);
        assert_eq!(curve(130.0), 3.5305);
        assert!(
            lfp_hysteresis(Ratio::from_fraction(0.5)).unwrap().value
                < Voltage::from_millivolts(20.0)
        );
    }

    #[test]
    fn measured_lfp_resistance_is_bilinear_and_falls_with_heat() {
        let at = |celsius| {
            let hundred = Charge::from_ampere_hours(100.0);
            let half = Ratio::from_fraction(0.5);
            lfp_resistance(
                Flow::Discharge,
                half,
                Temperature::from_celsius(celsius),
                hundred,
            )
            .unwrap()
            .value
            .milliohms()
        };
        assert!((at(25.0) - 1.435).abs() < 1e-9);
        assert!((at(32.5) - (1.435 + 1.151) / 2.0).abs() < 1e-9);
        assert!(at(10.0) > at(20.0) && at(20.0) > at(40.0));
        assert_eq!(at(-20.0), at(10.0));
        let none = Charge::from_ampere_hours(0.0);
        assert!(
            lfp_resistance(
                Flow::Charge,
                Ratio::ONE,
                Temperature::from_celsius(25.0),
                none
            )
            .is_none()
        );
    }

    #[test]
    fn every_chemistry_is_ordered_by_state_spread_and_threshold() {
        let hundred = Charge::from_ampere_hours(100.0);
        for &chemistry in Chemistry::ALL {
            let cells = cells_of_12_volts(chemistry).unwrap().value;
            let nominal = f64::from(cells) * nominal_cell(chemistry).unwrap().value.volts();
            assert!((12.0..=12.8).contains(&nominal), "{chemistry}");
            let emf = |state| cell_emf(chemistry, state).unwrap().value;
            assert!(
                emf(ChargeState::Full) > emf(ChargeState::Resting),
                "{chemistry}"
            );
            assert!(
                emf(ChargeState::Resting) > emf(ChargeState::Low),
                "{chemistry}"
            );
            let ohms = |spread| cell_resistance(chemistry, spread, hundred).unwrap().value;
            assert!(ohms(Spread::Low) < ohms(Spread::Typical), "{chemistry}");
            assert!(ohms(Spread::Typical) < ohms(Spread::High), "{chemistry}");
            assert!(pack_extra_resistance(chemistry, Spread::High).is_some());
            let charge = charge_voltages(chemistry).unwrap();
            assert!(least_voltage(chemistry).unwrap().value < charge.load_disconnect.value);
            assert!(charge.load_disconnect.value < charge.float.value);
            assert!(charge.float.value < charge.absorption.value);
            assert!(charge.absorption.value < charge.absorption_most.value);
            let limit = |flow| current_limit(chemistry, flow, hundred).unwrap().value;
            assert!(limit(Flow::Discharge) >= limit(Flow::Charge));
        }
        let guard = protection(Chemistry::Lfp).unwrap();
        assert!(guard.over_voltage_release.value < guard.over_voltage.value);
        assert!(guard.under_voltage_release.value > guard.under_voltage.value);
        assert!(protection(Chemistry::Agm).is_none());
        assert_eq!(
            cell_emf(Chemistry::Lfp, ChargeState::Full).unwrap().mark,
            Mark::Judgement
        );
        assert_eq!(short_circuit_factors().unwrap().highest_voltage.value, 1.05);
    }

    #[test]
    fn cost_rises_with_copper() {
        let sizes = conductor::awg_sizes();
        for pair in sizes.windows(2) {
            let cost = |gauge| wire_cost(WireSize::Awg(gauge)).unwrap().value;
            assert!(cost(pair[0]) < cost(pair[1]));
        }
        for area in conductor::metric_sizes() {
            assert!(
                wire_cost(WireSize::Metric(area)).is_some()
                    && lug_cost(WireSize::Metric(area)).is_some()
            );
        }
        assert_eq!(lug_cost(gauge(16)).unwrap().mark, Mark::Judgement);
    }
}
