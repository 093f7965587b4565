//! Tables of the wiring plan: lugs, holders, bars, colours, allowances.

#[cfg(test)]
mod tests {
    use wainwright_reference::colour::*;
    use wainwright_reference::conductor;
    use wainwright_reference::cost::{Hardware, hardware_cost};
    use wainwright_reference::insulation::Material;
    use wainwright_reference::lug::*;
    use wainwright_reference::plan::*;
    use wainwright_reference::protection::{self, Family};
    use wainwright_reference::{Mark, PARTS_TOML};
    use wainwright_units::*;

    fn amps(value: f64) -> Current {
        Current::from_amperes(value)
    }

    fn size(text: &str) -> WireSize {
        WireSize::parse(text).unwrap()
    }

    #[test]
    fn densities_give_the_printed_mass_of_120_square_millimetres() {
        // 120 mm2 times 8.89 = 1066.8 kg/km.
        let kilograms_per_kilometre = metal_density().unwrap().value * 120e-6 * 1000.0;
        assert!((kilograms_per_kilometre - 1066.8).abs() < 1e-6);
        for &material in Material::ALL {
            let density = insulation_density(material).unwrap().value;
            assert!((900.0..1600.0).contains(&density), "{material}");
        }
        assert_eq!(metal_density().unwrap().mark, Mark::Read);
        assert_eq!(
            insulation_density(Material::Xlpe).unwrap().mark,
            Mark::Judgement
        );
    }

    #[test]
    fn allowances_grow_with_the_wire() {
        assert_eq!(
            allowance(Allowance::BendShare).unwrap().value,
            Ratio::from_percent(5.0)
        );
        assert_eq!(
            allowance(Allowance::WasteShare).unwrap().value,
            Ratio::from_percent(10.0)
        );
        assert_eq!(drop_loop().unwrap().value, Length::from_millimetres(150.0));
        assert_eq!(grommets_per_pass().unwrap().value, 1.0);
        let end = |text| {
            termination_allowance(size(text))
                .unwrap()
                .value
                .millimetres()
                .round()
        };
        assert_eq!(
            [end("16 AWG"), end("10 AWG"), end("4 AWG"), end("2/0 AWG")],
            [100.0, 100.0, 150.0, 250.0]
        );
        for pair in conductor::awg_sizes().windows(2) {
            let of = |gauge| shrink_length(WireSize::Awg(gauge)).unwrap().value;
            assert!(of(pair[0]) <= of(pair[1]));
        }
        let factor = |mm| bend_radius_factor(Length::from_millimetres(mm)).map(|row| row.value);
        assert_eq!(
            [
                factor(3.0),
                factor(8.0),
                factor(8.1),
                factor(20.0),
                factor(50.0)
            ],
            [Some(4.0), Some(4.0), Some(5.0), Some(6.0), None]
        );
    }

    #[test]
    fn every_usual_wire_has_a_lug_and_thick_wire_no_small_stud() {
        for gauge in conductor::awg_sizes() {
            let range = lug_studs(WireSize::Awg(gauge)).unwrap().value;
            assert!(range.least < range.most, "{gauge}");
        }
        for area in conductor::metric_sizes() {
            assert!(lug_studs(WireSize::Metric(area)).is_some(), "{area:?}");
        }
        let fits = |text, stud| lug_fits(size(text), stud).unwrap().value;
        assert!(fits("16 AWG", Stud::M4) && !fits("16 AWG", Stud::M10));
        assert!(fits("2/0 AWG", Stud::M8) && !fits("2/0 AWG", Stud::M5));
        assert!(fits("16 mm2", Stud::M8));
    }

    #[test]
    fn studs_ascend_and_lie_near_their_inch_neighbour() {
        for pair in Stud::ALL.windows(2) {
            let of = |it| stud(it).unwrap().value.diameter;
            assert!(of(pair[0]) < of(pair[1]));
        }
        for &it in &[Stud::M6, Stud::M8, Stud::M10, Stud::M12] {
            let row = stud(it).unwrap().value;
            let inch = Length::parse(row.us).unwrap();
            // Inch and metric studs are exchanged within 0.75 mm.
            assert!((inch - row.diameter).millimetres().abs() <= 0.75, "{it}");
        }
    }

    #[test]
    fn insulated_terminals_have_their_trade_colours() {
        let colour = |text| terminal_colour(size(text)).map(|row| row.value);
        assert_eq!(colour("18 AWG"), Some("red"));
        assert_eq!(colour("14 AWG"), Some("blue"));
        assert_eq!(colour("16 AWG"), Some("blue"));
        assert_eq!(colour("10 AWG"), Some("yellow"));
        assert_eq!(colour("8 AWG"), None);
        assert_eq!(colour("1 mm2"), Some("red"));
        assert_eq!(colour("2.5 mm2"), Some("blue"));
        assert_eq!(colour("4 mm2"), Some("yellow"));
        assert_eq!(colour("10 mm2"), None);
    }

    #[test]
    fn connections_answer_for_every_kind_with_terminals_and_fit_a_wire() {
        for kind in [
            "battery",
            "solar-module",
            "solar-controller",
            "shore-charger",
            "dcdc-charger",
            "vehicle-supply",
            "inverter",
            "fuse",
            "breaker",
            "fuse-block",
            "bus-bar",
            "switch",
            "switch-bank",
            "shunt",
            "outlet",
            "load",
            "frame",
            "splice",
        ] {
            let found = connection(kind, None).unwrap().value;
            let bolted = matches!(found.style, ConnectionStyle::Stud | ConnectionStyle::Screw);
            assert_eq!(found.stud.is_some(), bolted, "{kind}");
        }
        let stud = |kind, variant| connection(kind, Some(variant)).unwrap().value.stud;
        assert_eq!(stud("fuse", "strip-small"), Some(Stud::M5));
        assert_eq!(stud("fuse", "anl"), Some(Stud::M8));
        assert_eq!(stud("fuse", "glass"), None);
        assert_eq!(stud("fuse-block", "way"), Some(Stud::M4));
        assert_eq!(
            stud("bus-bar", "bus-bar-10"),
            Some(Stud::M6),
            "falls back to the kind"
        );
        assert_eq!(connection("tank", None), None);
    }

    #[test]
    fn every_family_has_a_holder_and_the_smallest_fitting_one_is_found() {
        for &family in Family::ALL {
            let holders = holders(family);
            assert!(!holders.is_empty(), "{family}");
            let most = holders.last().unwrap().value.most;
            let least = protection::ratings(family)[0].value;
            assert!(least <= most, "{family}");
            for holder in holders {
                assert!(holder.value.wire_low < holder.value.wire_high, "{family}");
            }
        }
        let mount = |family, wire, rating| {
            holder_for(family, size(wire), amps(rating)).map(|row| row.value.mount)
        };
        assert_eq!(mount(Family::Blade, "10 AWG", 30.0), Some(Mount::InLine));
        assert_eq!(mount(Family::Blade, "8 AWG", 30.0), None);
        assert_eq!(mount(Family::Blade, "10 AWG", 40.0), None);
        assert_eq!(mount(Family::MaxiBlade, "6 AWG", 60.0), Some(Mount::InLine));
        assert_eq!(mount(Family::MaxiBlade, "4 AWG", 60.0), Some(Mount::Block));
        assert_eq!(mount(Family::ClassT, "4/0 AWG", 300.0), Some(Mount::Block));
    }

    #[test]
    fn bars_are_generic_parts_with_the_same_ways_and_rating() {
        for &kind in BarKind::ALL {
            let bars = bars(kind);
            assert!(bars.len() >= 3, "{kind}");
            assert!(
                bars.windows(2)
                    .all(|pair| pair[0].value.ways <= pair[1].value.ways)
            );
            for bar in bars {
                let head = format!("[part.{}]\n", bar.value.part);
                let (_, text) = PARTS_TOML
                    .split_once(&head)
                    .unwrap_or_else(|| panic!("{head}"));
                let text = text.split("\n[").next().unwrap();
                let ways = match kind {
                    BarKind::BusBar => format!("ways = {}\n", bar.value.ways),
                    BarKind::FuseBlock => format!(
                        "fuses = [{}]",
                        vec!["\"\""; bar.value.ways as usize].join(", ")
                    ),
                };
                let rating = format!("rating = \"{} A\"", bar.value.rating.amperes());
                assert!(
                    text.contains(&ways) && text.contains(&rating),
                    "{head}{text}"
                );
            }
        }
        let part =
            |kind, ways, most| smallest_bar(kind, ways, amps(most)).map(|bar| bar.value.part);
        assert_eq!(part(BarKind::BusBar, 3, 250.0), Some("bus-bar-4"));
        assert_eq!(part(BarKind::BusBar, 6, 200.0), Some("bus-bar-6-250a"));
        assert_eq!(part(BarKind::BusBar, 10, 150.0), Some("bus-bar-12"));
        assert_eq!(part(BarKind::FuseBlock, 7, 80.0), Some("fuse-block-8"));
        assert_eq!(part(BarKind::FuseBlock, 13, 80.0), None);
    }

    #[test]
    fn the_main_fuse_follows_the_fault_current() {
        let family = |fault, volts| {
            main_fuse_family(amps(fault), Voltage::from_volts(volts)).map(|row| row.value)
        };
        // Bolted shorts of a 4-cell pack of 20, 5 and 2 milliohms: 660, 2640, 6600 A.
        assert_eq!(family(660.0, 13.6), Some(Family::StripSmall));
        assert_eq!(family(2640.0, 13.6), Some(Family::Anl));
        assert_eq!(family(6600.0, 13.6), Some(Family::Terminal));
        assert_eq!(
            family(6600.0, 14.6),
            Some(Family::ClassT),
            "the 10 kA hold up to 14 V only"
        );
        assert_eq!(family(25_000.0, 13.6), None);
        let row = main_fuse_family(amps(660.0), Voltage::from_volts(13.6)).unwrap();
        assert_eq!(row.mark, Mark::Judgement);
    }

    #[test]
    fn every_standard_has_a_colour_for_every_role() {
        for &standard in ColourStandard::ALL {
            for &role in ColourRole::ALL {
                assert!(
                    conductor_colour(standard, role).is_some(),
                    "{standard} {role}"
                );
            }
            let of = |role| conductor_colour(standard, role).unwrap().value.main;
            assert_ne!(
                of(ColourRole::PlusMain),
                of(ColourRole::Minus),
                "{standard}"
            );
            assert_eq!(of(ColourRole::PlusMain), "red", "{standard}");
        }
        let boat = |role| conductor_colour(ColourStandard::Abyc, role).unwrap();
        assert_eq!(boat(ColourRole::Minus).value.main, "yellow");
        assert_eq!(boat(ColourRole::Minus).value.also, Some("black"));
        assert_eq!(boat(ColourRole::Pump).value.main, "brown");
        assert_eq!(boat(ColourRole::Blower).value.stripe, Some("yellow"));
        assert_eq!(boat(ColourRole::Lighting).mark, Mark::Read);
        assert_eq!(boat(ColourRole::SolarPlus).mark, Mark::Judgement);
        let bond = conductor_colour(ColourStandard::Iec60445, ColourRole::Bond).unwrap();
        assert_eq!(
            (bond.value.main, bond.value.stripe),
            ("green", Some("yellow"))
        );
    }

    #[test]
    fn large_blades_have_colours_and_hardware_has_prices() {
        let colour =
            |amperes| protection::colour(Family::MaxiBlade, amps(amperes)).map(|row| row.value);
        assert_eq!(
            (colour(20.0), colour(60.0), colour(35.0)),
            (Some("yellow"), Some("blue"), None)
        );
        for &hardware in Hardware::ALL {
            let cost = hardware_cost(hardware).unwrap();
            assert!(
                cost.value > 0.0 && cost.mark == Mark::Judgement,
                "{hardware}"
            );
        }
    }
}
