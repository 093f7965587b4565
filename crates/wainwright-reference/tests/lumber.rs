//! Tables of boards, sheets and fastening: formulas reproduce printed columns, accessors answer.

#[cfg(test)]
mod tests {
    use wainwright_reference::Mark;
    use wainwright_reference::fastener::*;
    use wainwright_reference::lumber::*;
    use wainwright_units::{Length, Ratio};

    fn inches(value: f64) -> Length {
        Length::from_inches(value)
    }

    #[test]
    fn printed_factors_are_twelve_and_nominal_over_the_face() {
        for width in pattern_widths() {
            let width = width.value;
            let (face, nominal) = (width.exposed.inches(), width.nominal.inches());
            // Printed with two decimals.
            assert!(
                (12.0 / face - width.lineal_per_square_foot).abs() < 0.0051,
                "{nominal}"
            );
            assert!(
                (nominal / face - width.board_feet_per_square_foot).abs() < 0.0051,
                "{nominal}"
            );
            assert!(
                (width.overall.inches() - face - 0.25).abs() < 1e-9,
                "{nominal}"
            );
        }
        assert_eq!(pattern_widths().len(), 4);
        let older = older_exposed(inches(6.0)).unwrap().value;
        assert!(older > pattern_width(inches(6.0)).unwrap().value.exposed);
    }

    #[test]
    fn dressed_sizes_are_below_nominal_and_grow() {
        let pairs = [
            (dry_thickness(inches(1.0)), 0.75),
            (dry_thickness(inches(2.0)), 1.5),
            (dry_width(inches(6.0)), 5.5),
            (dry_width(inches(8.0)), 7.25),
            (dry_width(inches(12.0)), 11.25),
            (green_width(inches(6.0)), 5.625),
            (green_width(inches(8.0)), 7.5),
            (green_thickness(inches(1.0)), 0.78125),
        ];
        for (found, printed) in pairs {
            assert!(
                (found.unwrap().value.inches() - printed).abs() < 1e-9,
                "{printed}"
            );
        }
        let mut before = Length::ZERO;
        for nominal in 2..=12 {
            let nominal = inches(f64::from(nominal));
            let actual = dry_width(nominal).unwrap().value;
            assert!(before < actual && actual < nominal);
            before = actual;
        }
        assert_eq!(dry_width(inches(13.0)), None);
    }

    #[test]
    fn plywood_lies_about_its_category_with_the_stated_tolerance() {
        for panel in plywood() {
            let panel = panel.value;
            let category = match panel.category.split_once('/') {
                Some((over, under)) => over.parse::<f64>().unwrap() / under.parse::<f64>().unwrap(),
                None => panel.category.parse().unwrap(),
            };
            let tolerance = if category > 13.0 / 16.0 {
                0.05 * category
            } else {
                1.0 / 32.0
            };
            // Printed with three decimals, the half rounded up: 11/32 in minus 1/32 in is 0.3125.
            assert!(
                (panel.least.inches() - (category - tolerance)).abs() < 0.0011,
                "{}",
                panel.category
            );
            assert!(
                (panel.most.inches() - (category + tolerance)).abs() < 0.0011,
                "{}",
                panel.category
            );
        }
        assert!(plywood_category("15/32").is_some() && plywood_category("7/32").is_none());
    }

    #[test]
    fn every_id_has_a_row() {
        for &material in LiningMaterial::ALL {
            let span = density(material).unwrap().value;
            assert!(
                span.low <= span.usual && span.usual <= span.high,
                "{material}"
            );
        }
        for &species in Species::ALL {
            let wood = wood_movement(species).unwrap().value;
            assert!(wood.radial < wood.tangential, "{species}");
        }
        for &work in Work::ALL {
            assert!(waste(work).is_some(), "{work}");
        }
        for &rule in LayingRule::ALL {
            assert!(laying_rule(rule).is_some(), "{rule}");
        }
        for &rule in FasteningRule::ALL {
            assert!(fastening_rule(rule).is_some(), "{rule}");
        }
        for &share in ScrewShare::ALL {
            assert!(screw_share(share).is_some(), "{share}");
        }
        assert_eq!(courses_between_joints().unwrap().value, 2);
        assert!(sheet_sizes().len() >= 8);
    }

    #[test]
    fn wide_boards_take_two_fasteners() {
        let count = |nominal| fasteners_per_crossing(inches(nominal)).unwrap().value;
        assert_eq!([count(4.0), count(6.0), count(8.0)], [1, 1, 2]);
    }

    #[test]
    fn marks_say_what_is_not_read() {
        assert_eq!(wood_movement(Species::RedOak).unwrap().mark, Mark::Read);
        assert_eq!(
            wood_movement(Species::WesternRedcedar).unwrap().mark,
            Mark::Memory
        );
        assert_eq!(
            laying_rule(LayingRule::LiningJointsApart).unwrap().mark,
            Mark::Judgement
        );
        assert_eq!(
            waste(Work::Lining).unwrap().value.usual,
            Ratio::from_percent(10.0)
        );
        // The formulas' factors are 15 700 and 2 850 lbf for each inch.
        let ratio = screw_share(ScrewShare::UltimateOverAllowable).unwrap();
        assert!((ratio.value.fraction() - 15_700.0 / 2_850.0).abs() < 0.01);
        assert_eq!(ratio.mark, Mark::Memory);
    }

    #[test]
    fn the_rule_for_loads_is_three_pounds_for_each_inch() {
        // 3 lb/ft² over 1 in: 3 × 0.45359237 / (0.3048² × 0.0254) kg/m³, printed without decimals.
        let rule = density(LiningMaterial::PlywoodRule).unwrap().value.usual;
        assert!((rule - 3.0 * 0.453_592_37 / (0.3048 * 0.3048 * 0.0254)).abs() < 0.5);
    }
}
