//! The generic parts library: headers, sources, and electrical self-consistency, by a plain scan of the lines.
//!
//! Whether every field is legal for its kind is for the crate that reads the project file to test.

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use wainwright_reference::battery::{Chemistry, cells_of_12_volts, charge_voltages};
    use wainwright_reference::protection::{Family, interrupt_at};
    use wainwright_reference::{Mark, PARTS_TOML};
    use wainwright_units::*;

    type Part = BTreeMap<String, String>;

    fn parts() -> BTreeMap<String, Part> {
        let mut parts: BTreeMap<String, Part> = BTreeMap::new();
        let mut current = String::new();
        for line in PARTS_TOML
            .lines()
            .filter(|line| !line.is_empty() && !line.starts_with('#'))
        {
            if let Some(header) = line.strip_prefix('[') {
                let id = header
                    .strip_prefix("part.")
                    .and_then(|rest| rest.strip_suffix(']'))
                    .unwrap();
                assert!(
                    id.chars()
                        .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-'),
                    "{id}"
                );
                assert!(
                    parts.insert(id.to_owned(), Part::new()).is_none(),
                    "{id} twice"
                );
                current = id.to_owned();
            } else {
                let (key, value) = line.split_once(" = ").unwrap();
                let part = parts.get_mut(&current).unwrap();
                let value = value.trim_matches('"').to_owned();
                assert!(
                    part.insert(key.to_owned(), value).is_none(),
                    "{current}.{key} twice"
                );
            }
        }
        parts
    }

    fn of_kind(kind: &str) -> Vec<(String, Part)> {
        let found: Vec<_> = parts()
            .into_iter()
            .filter(|(_, part)| part["kind"] == kind)
            .collect();
        assert!(!found.is_empty(), "{kind}");
        found
    }

    fn get<Q: Quantity>(part: &Part, key: &str) -> Q {
        let text = part
            .get(key)
            .unwrap_or_else(|| panic!("{part:?} has no {key}"));
        Q::parse(text).unwrap_or_else(|error| panic!("{key} of {part:?}: {error}"))
    }

    fn volts(part: &Part, key: &str) -> f64 {
        get::<Voltage>(part, key).volts()
    }

    fn amps(part: &Part, key: &str) -> f64 {
        get::<Current>(part, key).amperes()
    }

    fn watts(part: &Part, key: &str) -> f64 {
        get::<Power>(part, key).watts()
    }

    #[test]
    fn every_part_has_kind_label_and_a_marked_source() {
        let parts = parts();
        assert!(parts.len() >= 60);
        for (id, part) in &parts {
            assert!(
                !part["kind"].is_empty() && !part["label"].is_empty(),
                "{id}"
            );
            let (mark, rest) = part["source"].split_once(": ").unwrap();
            assert!(
                Mark::from_id(mark).is_some() && !rest.is_empty(),
                "{id}: {mark}"
            );
        }
    }

    #[test]
    fn every_kind_that_needs_a_part_has_one() {
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
            of_kind(kind);
        }
    }

    #[test]
    fn batteries_agree_with_their_chemistry() {
        for (id, part) in of_kind("battery") {
            let chemistry = Chemistry::from_id(&part["chemistry"]).unwrap();
            let cells: f64 = part["cells"].parse().unwrap();
            let of_12 = f64::from(cells_of_12_volts(chemistry).unwrap().value);
            assert!(cells == of_12 || cells == 2.0 * of_12, "{id}");
            let hours = get::<Charge>(&part, "capacity").ampere_hours();
            assert!(
                amps(&part, "charge_limit") <= hours && amps(&part, "discharge_limit") <= hours,
                "{id}"
            );
            // A bolted short gives 5 to 40 A per Ah over the sound packs of every class.
            let short = cells * 3.3 / get::<Resistance>(&part, "resistance").ohms();
            assert!((5.0..45.0).contains(&(short / hours)), "{id}: {short} A");
            if chemistry == Chemistry::Lfp {
                assert!(
                    amps(&part, "trip_current") > amps(&part, "discharge_limit"),
                    "{id}"
                );
                assert!(volts(&part, "low_cutoff") < cells * 3.2, "{id}");
                let most = charge_voltages(chemistry)
                    .unwrap()
                    .absorption_most
                    .value
                    .volts();
                assert!(
                    (volts(&part, "high_cutoff") - cells * most).abs() < 0.01,
                    "{id}"
                );
            }
        }
    }

    #[test]
    fn a_solar_module_is_its_own_curve() {
        for (id, part) in of_kind("solar-module") {
            let product = volts(&part, "best_voltage") * amps(&part, "best_current");
            // Nameplate digits.
            assert!((product / watts(&part, "power") - 1.0).abs() < 0.01, "{id}");
            assert!(
                volts(&part, "open_voltage") > 1.1 * volts(&part, "best_voltage"),
                "{id}"
            );
            assert!(
                amps(&part, "short_current") > 1.02 * amps(&part, "best_current"),
                "{id}"
            );
        }
    }

    #[test]
    fn chargers_stay_between_full_and_the_most_a_four_cell_pack_takes() {
        let most = 4.0
            * charge_voltages(Chemistry::Lfp)
                .unwrap()
                .absorption_most
                .value
                .volts();
        for kind in ["solar-controller", "shore-charger", "dcdc-charger"] {
            for (id, part) in of_kind(kind) {
                let charge = volts(&part, "charge_voltage");
                assert!(charge > 13.4 && charge <= most, "{id}");
                assert!(amps(&part, "output_current") > 0.0, "{id}");
                if let Some(text) = part.get("efficiency") {
                    assert!(
                        (0.8..1.0).contains(&Ratio::parse(text).unwrap().fraction()),
                        "{id}"
                    );
                }
            }
        }
    }

    #[test]
    fn inverters_surge_above_their_power_and_idle_far_below() {
        for (id, part) in of_kind("inverter") {
            let cutoff = volts(&part, "low_cutoff");
            assert!(watts(&part, "surge") >= watts(&part, "power"), "{id}");
            assert!(
                amps(&part, "idle_current") * cutoff < 0.05 * watts(&part, "power"),
                "{id}"
            );
            assert!(
                cutoff == if id.contains("24v") { 21.0 } else { 10.5 },
                "{id}"
            );
        }
    }

    #[test]
    fn fuses_interrupt_what_the_table_of_their_family_says() {
        for (id, part) in of_kind("fuse") {
            let family = Family::from_id(&part["family"]).unwrap();
            let voltage: Voltage = get(&part, "voltage");
            assert_eq!(
                get::<Current>(&part, "interrupt"),
                interrupt_at(family, voltage).unwrap().value,
                "{id}"
            );
        }
        for (id, part) in of_kind("breaker") {
            let table = interrupt_at(Family::Breaker, get(&part, "voltage"))
                .unwrap()
                .value;
            assert_eq!(get::<Current>(&part, "interrupt"), table, "{id}");
            assert!(
                part.contains_key("reset") && amps(&part, "rating") > 0.0,
                "{id}"
            );
        }
    }

    #[test]
    fn blocks_and_banks_have_as_many_ways_as_their_name_says() {
        for (id, part) in of_kind("fuse-block") {
            let ways: usize = id.rsplit('-').next().unwrap().parse().unwrap();
            assert_eq!(part["fuses"].matches("\"\"").count(), ways, "{id}");
        }
        for (id, part) in of_kind("switch-bank") {
            assert!(
                id.contains(&part["ways"]) && part["note"].contains("jumpers"),
                "{id}"
            );
            if let Some(fuses) = part.get("fuses") {
                assert_eq!(
                    fuses.matches(" A\"").count().to_string(),
                    part["ways"],
                    "{id}"
                );
            }
        }
    }

    #[test]
    fn every_load_states_exactly_one_way_to_draw() {
        for (id, part) in of_kind("load") {
            let ways = ["power", "current", "resistance"]
                .iter()
                .filter(|key| part.contains_key(**key));
            assert_eq!(ways.count(), 1, "{id}");
            if part.contains_key("surge") && part.contains_key("power") {
                assert!(amps(&part, "surge") > watts(&part, "power") / 12.0, "{id}");
            }
        }
    }

    /// Litres inside the outer size, and the largest side in metres.
    fn outer(part: &Part) -> (f64, f64) {
        let sides = part["size"]
            .split(" x ")
            .map(|side| Length::parse(side).unwrap().metres());
        let sides: Vec<f64> = sides.collect();
        assert_eq!(sides.len(), 3, "{part:?}");
        assert!(sides.iter().all(|&side| side > 0.0), "{part:?}");
        let most = sides.iter().copied().fold(0.0, f64::max);
        (1000.0 * sides.iter().product::<f64>(), most)
    }

    #[test]
    fn every_part_but_the_frame_has_mass_and_size_of_a_real_thing() {
        for (id, part) in parts() {
            if part["kind"] == "frame" {
                assert!(!part.contains_key("mass"), "the empty trailer holds it");
                continue;
            }
            let (litres, longest) = outer(&part);
            assert!(longest <= 2.5, "{id}: {longest} m");
            let density = get::<Mass>(&part, "mass").kilograms() / litres;
            // From bedding, bicycles and light furniture in their boxes to metal blocks.
            assert!((0.01..3.0).contains(&density), "{id}: {density} kg/L");
            if part["kind"] == "battery" {
                assert!((0.7..3.0).contains(&density), "{id}: {density} kg/L");
            }
        }
    }

    #[test]
    fn tanks_hold_what_they_say_inside_their_size() {
        for (id, part) in of_kind("tank") {
            let capacity = get::<Volume>(&part, "capacity").litres();
            let (litres, _) = outer(&part);
            assert!(litres > capacity, "{id}: {litres} L around {capacity} L");
            if id.starts_with("tank-") {
                assert!(
                    litres < 1.3 * capacity,
                    "{id}: {litres} L around {capacity} L"
                );
            }
            assert!(
                get::<Mass>(&part, "mass").kilograms() < 0.25 * capacity,
                "{id}"
            );
        }
    }

    #[test]
    fn what_is_used_up_ends_lighter_and_a_cylinder_loses_its_filling() {
        for (id, part) in of_kind("cargo") {
            let start: Mass = get(&part, "mass");
            if part.contains_key("mass_end") {
                assert!(get::<Mass>(&part, "mass_end") < start, "{id}");
            }
            if let Some(filling) = id
                .strip_prefix("gas-")
                .and_then(|rest| rest.rsplit('-').next())
            {
                let used = start - get::<Mass>(&part, "mass_end");
                let printed = Mass::parse(filling).unwrap();
                assert!((used - printed).kilograms().abs() < 1e-9, "{id}");
            }
        }
        of_kind("furniture");
        of_kind("person");
    }
}
