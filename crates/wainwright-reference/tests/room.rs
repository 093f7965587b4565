//! Tables of materials and of the room: every accessor answers, marks survive, and figures
//! that two sources give agree.

#[cfg(test)]
mod tests {
    use wainwright_reference::climate_room::*;
    use wainwright_reference::material::*;
    use wainwright_reference::surroundings::{Foam, foam_conductivity};
    use wainwright_reference::{Mark, load_errors};
    use wainwright_units::*;

    #[test]
    fn every_material_has_a_conductivity_or_is_known_not_to() {
        assert_eq!(load_errors(), &[]);
        for &material in Material::ALL {
            let known = conductivity(material).is_some();
            let open = [Material::SprayFoam, Material::Hdpe];
            assert_eq!(known, !open.contains(&material), "{material}");
            let tight = [
                Material::Steel,
                Material::Stainless,
                Material::Aluminium,
                Material::Glass,
            ];
            let faced = material == Material::PolyisoFaced;
            assert_eq!(
                vapour_factor(material).is_none(),
                tight.contains(&material) || faced,
                "{material}"
            );
            let unweighed = [Material::GlassFibre, Material::Stainless];
            assert_eq!(
                density(material).is_none(),
                unweighed.contains(&material),
                "{material}"
            );
        }
    }

    #[test]
    fn foam_boards_lie_near_the_range_of_foam_around_wires() {
        for (board, foam) in [
            (Material::Polyiso, Foam::Pir),
            (Material::Eps, Foam::Eps),
            (Material::Xps, Foam::Xps),
        ] {
            let range = foam_conductivity(foam).unwrap().value;
            let value = conductivity(board).unwrap().value.watts_per_kelvin_metre();
            let (low, high) = (
                range.low.watts_per_kelvin_metre(),
                range.high.watts_per_kelvin_metre(),
            );
            // Two sources; 2 % is less than boards of one maker differ.
            assert!(value >= 0.98 * low && value <= 1.02 * high, "{board}");
        }
        let inch = 0.0254
            / conductivity(Material::Polyiso)
                .unwrap()
                .value
                .watts_per_kelvin_metre();
        assert!((inch / 0.176_110_2 - 5.6).abs() < 0.005, "R 5.6 per inch");
    }

    #[test]
    fn areal_masses_are_those_printed() {
        // kg/m2, to half of the last digit printed.
        for (material, millimetres, printed) in [
            (Material::Softwood, 12.7, 5.65),
            (Material::Plywood, 18.26, 8.40),
            (Material::Polyiso, 38.1, 1.14),
            (Material::Xps, 38.1, 1.24),
            (Material::Aluminium, 0.76, 2.13),
            (Material::Steel, 0.8, 6.24),
        ] {
            let mass = density(material).unwrap().value * millimetres / 1000.0;
            assert!((mass - printed).abs() < 0.005_01, "{material}: {mass}");
        }
    }

    #[test]
    fn every_figure_of_the_room_answers() {
        for &one in Film::ALL {
            assert!(film(one).unwrap().value > 0.0, "{one}");
        }
        for &one in SkinSun::ALL {
            assert!(skin_sun(one).is_some(), "{one}");
        }
        for &one in PeopleFigure::ALL {
            let span = people(one).unwrap().value;
            assert!(
                0.0 < span.low && span.low <= span.usual && span.usual <= span.high,
                "{one}"
            );
        }
        for &one in Design::ALL {
            assert!(design(one).unwrap().value > 0.0, "{one}");
        }
        for &one in DesignTemperature::ALL {
            assert!(design_temperature(one).is_some(), "{one}");
        }
        for &one in DesignHumidity::ALL {
            assert!(design_humidity(one).unwrap().value < Ratio::ONE, "{one}");
        }
        for &one in Vent::ALL {
            assert!(vent(one).unwrap().value < Ratio::ONE, "{one}");
        }
        for &one in CabinetSkin::ALL {
            assert!(cabinet_skin(one).unwrap().value > 0.0, "{one}");
        }
        for &one in Sheet::ALL {
            assert!(sheet_vapour(one).unwrap().value > Length::ZERO, "{one}");
        }
        for &one in Radiating::ALL {
            assert!(emissivity(one).unwrap().value <= Ratio::ONE, "{one}");
        }
        assert_eq!(studs().len(), 5);
        assert!((sleeper_air().unwrap().value.litres_per_second() - 7.5).abs() < 1e-9);
    }

    #[test]
    fn grades_and_openings_are_those_of_the_standards() {
        let (inside, outside) = heating_grade(3).unwrap().value;
        assert_eq!((inside.celsius(), outside.celsius()), (20.0, -15.0));
        assert_eq!(heating_grade(1), None);
        assert_eq!(heating_grade_most_u(3).unwrap().mark, Mark::Memory);
        assert_eq!(heating_grade_most_u(2), None);
        let plan = Area::from_square_metres;
        let cm2 = |area: Area| (area.square_metres() * 1e4).round();
        let small = fixed_openings(plan(5.0), true).unwrap().value;
        assert_eq!((cm2(small.high), cm2(small.low)), (75.0, 10.0));
        let large = fixed_openings(plan(6.7), true).unwrap().value;
        assert_eq!((cm2(large.high), cm2(large.low)), (100.0, 15.0));
        let none = fixed_openings(plan(6.7), false).unwrap().value;
        assert_eq!(
            (cm2(none.high), cm2(none.high_in_roof), cm2(none.low)),
            (30.0, 15.0, 5.0)
        );
        assert_eq!(fixed_openings(plan(10.5), true), None);
    }

    #[test]
    fn mesh_loses_less_the_more_it_is_open() {
        for &mesh in Mesh::ALL {
            let loss = |open| mesh_loss(mesh, Ratio::from_fraction(open)).map(|row| row.value);
            let steps: Vec<f64> = (30..=75)
                .filter_map(|one| loss(f64::from(one) / 100.0))
                .collect();
            assert_eq!(steps.len(), 46, "{mesh}");
            assert!(steps.windows(2).all(|two| two[0] > two[1]), "{mesh}");
            assert_eq!((loss(0.2), loss(0.9)), (None, None));
        }
        let at = mesh_loss(Mesh::RoundWire, Ratio::from_fraction(0.6)).unwrap();
        assert!((at.value - 0.92).abs() < 1e-9);
    }
}
