//! The tables of climate, weather chains and the measured cell: complete, within bounds, as published.

#[cfg(test)]
mod tests {
    use wainwright_reference::battery::{Chemistry, Flow, lfp_open_circuit};
    use wainwright_reference::climate::*;
    use wainwright_reference::{Mark, cell, weather_chain};
    use wainwright_units::*;

    fn clearness(site: &str) -> Vec<f64> {
        months(site)
            .iter()
            .map(|month| month.value.clearness.unwrap())
            .collect()
    }

    #[test]
    fn every_place_has_twelve_months_in_order() {
        let all = sites();
        assert_eq!(all.len(), 33);
        for place in &all {
            assert_eq!(site(place.value.id), Some(*place));
            assert!(place.value.latitude.degrees().abs() < 72.0);
            let solar_noon = 12.0 + place.value.zone - place.value.longitude.degrees() / 15.0;
            assert!((11.0..13.5).contains(&solar_noon), "{}", place.value.id);
            let of_place = months(place.value.id);
            let numbers: Vec<u32> = of_place.iter().map(|month| month.value.month).collect();
            assert_eq!(numbers, (1..=12).collect::<Vec<_>>());
            for month in of_place {
                let m = month.value;
                assert_eq!(month.mark, Mark::Derived);
                assert!(m.lowest <= m.low && m.low < m.mean && m.mean < m.high);
                assert!((0.0..20.0).contains(&m.wind) && m.deviation.kelvins() > 0.0);
            }
        }
        assert!(months("nowhere").is_empty());
    }

    /// Light is clearness times light above the air in all 396 rows: three decimals of clearness
    /// at up to 11.8 kWh leave 0.0059, half a unit of each light 0.0009.
    #[test]
    fn light_is_clearness_times_light_above() {
        let mut rows = 0;
        for place in sites() {
            for month in months(place.value.id) {
                let m = month.value;
                let Some(clearness) = m.clearness else {
                    assert!(m.global < 0.01, "{} {}", place.value.id, m.month);
                    continue;
                };
                let off = (m.global - clearness * m.above).abs();
                assert!(off <= 0.0005 * m.above + 0.0009, "{} {off}", place.value.id);
                rows += 1;
            }
        }
        assert_eq!(rows, 394, "all but the two dark months of the Arctic");
    }

    /// Clearness of four places by month, printed with two decimals.
    #[test]
    fn clearness_as_printed() {
        let printed = [
            (
                "seattle-wa",
                [34, 39, 42, 48, 50, 51, 56, 52, 49, 44, 35, 35],
            ),
            (
                "phoenix-az",
                [61, 61, 62, 70, 70, 72, 68, 69, 70, 66, 66, 62],
            ),
            (
                "burlington-vt",
                [48, 48, 47, 51, 49, 52, 53, 54, 48, 46, 41, 36],
            ),
            ("miami-fl", [52, 54, 56, 57, 52, 49, 54, 52, 51, 52, 51, 52]),
        ];
        for (site, expected) in printed {
            for (found, percent) in clearness(site).iter().zip(expected) {
                // Half a unit of the print, half a unit of the table.
                let off = (found - f64::from(percent) / 100.0).abs();
                assert!(off <= 0.0056, "{site} {found} {percent}");
            }
        }
    }

    /// Mean light of the twelve months at five places [kWh/(m² d)], printed with two decimals. The
    /// print is the plain mean of months; weighted by days it would be 0.002 to 0.009 more.
    #[test]
    fn light_of_the_year_as_printed() {
        for (site, printed) in [
            ("denver-co", 4.57),
            ("phoenix-az", 5.73),
            ("seattle-wa", 3.39),
            ("miami-fl", 4.80),
            ("burlington-vt", 3.67),
        ] {
            let all = months(site);
            let mean = all.iter().map(|month| month.value.global).sum::<f64>() / 12.0;
            assert!((mean - printed).abs() < 0.0056, "{site} {mean}");
        }
    }

    /// Deviation of daily means 4.6 K in January and 2.2 K in July over all places, as printed.
    #[test]
    fn deviation_of_days_as_printed() {
        let mean = |month: usize| {
            let all = sites();
            let sum: f64 = all
                .iter()
                .map(|place| months(place.value.id)[month].value.deviation.kelvins())
                .sum();
            sum / all.len() as f64
        };
        assert!((mean(0) - 4.6).abs() < 0.05 && (mean(6) - 2.2).abs() < 0.05);
    }

    #[test]
    fn what_is_taken_when_nothing_is_known() {
        let defaults = default_months();
        assert_eq!(defaults.len(), 12);
        for month in &defaults {
            assert_eq!(month.mark, Mark::Judgement);
            assert!((0.4..0.65).contains(&month.value.clearness.unwrap()));
            let number = month.value.month;
            assert!((2.0..5.0).contains(&turbidity(number).unwrap().value));
            let usual = usual_deviation(number).unwrap().value;
            assert_eq!(usual, month.value.deviation);
        }
        assert_eq!(turbidity(13), None);
        let (latitude, _) = default_place().unwrap().value;
        assert!((latitude.degrees() - 38.2).abs() < 0.1);
        let spread = |year| year_spread(year).unwrap().value;
        assert!(spread(Year::Sunny) < spread(Year::Usual));
        assert!(spread(Year::Usual) < spread(Year::Dull));
        assert!(dull_below().unwrap().value < sunny_from().unwrap().value);
        let inland = swing_factor(Setting::Inland).unwrap();
        assert_eq!((inland.value.usual, inland.mark), (0.16, Mark::Memory));
        assert_eq!(swing_factor(Setting::Coast).unwrap().value.usual, 0.19);
        assert_eq!(swing_factor_error().unwrap().value, 0.064);
        assert_eq!(most_climb().unwrap().value, Length::from_metres(500.0));
        assert!(range_over_swing().unwrap().value > 1.0);
        assert!(lowest_deviations().unwrap().value.usual > 1.0);
        assert!(usual_wind().unwrap().value > 1.0);
        assert_eq!(temperature_memory().unwrap().value, 0.66);
    }

    /// Ten chains; rows sum to one within 0.006; classes meet; means in the long run are in them.
    #[test]
    fn chains_are_whole() {
        let chains = weather_chain::chains();
        assert_eq!(chains.len(), 10);
        let mut from = 0.0;
        for (at, chain) in chains.iter().enumerate() {
            let c = chain.value;
            assert_eq!(c.from, from);
            from = c.up_to;
            assert!(c.lowest < c.highest);
            for row in c.rows {
                assert!(
                    (row.iter().sum::<f64>() - 1.0).abs() <= 0.006 + 1e-9,
                    "{at}"
                );
                assert!(row.iter().all(|share| (0.0..=1.0).contains(share)));
            }
            let repaired = if at == 4 { Mark::Derived } else { Mark::Read };
            assert_eq!(chain.mark, repaired, "{at}");
        }
        assert_eq!(from, 1.0);
    }

    /// The table printed for the cell: voltage and entropy at round states of charge.
    #[test]
    fn measured_cell_as_printed() {
        let open = cell::open_circuit().unwrap();
        assert_eq!((open.value.len(), open.mark), (42, Mark::Read));
        for (charge, volts) in [(0.0, 2.286), (0.1, 3.197), (0.5, 3.299), (1.0, 3.530)] {
            let point = open.value.iter().find(|point| point.0 == charge).unwrap();
            assert!((point.1 - volts).abs() < 0.0006, "{charge}");
            let one = lfp_open_circuit(Ratio::from_fraction(charge)).unwrap();
            assert_eq!(one.value.volts(), point.1);
        }
        assert!(open.value.windows(2).all(|pair| pair[0].0 < pair[1].0));
        assert_eq!(cell::hysteresis().unwrap().value.len(), 42);
        let entropy = cell::entropy().unwrap().value;
        let at = |charge| entropy.iter().find(|point| point.0 == charge).unwrap().1;
        assert!((at(0.0) + 0.49).abs() < 0.006 && (at(0.7) - 0.15).abs() < 0.006);
        let out = cell::resistance(Flow::Discharge).unwrap().value;
        let half = out.rows.iter().find(|row| row.0 == 0.5).unwrap();
        assert_eq!(half.1, [0.2082, 0.1435, 0.1151, 0.1151]);
        assert_eq!(out.celsius, [10.0, 25.0, 40.0, 60.0]);
        let within = cell::resistance(Flow::Charge).unwrap().value;
        assert_eq!(within.rows.len(), 11);
    }

    #[test]
    fn cold_cells_give_less_and_take_nothing() {
        let share = |celsius| {
            cell::usable_capacity(Temperature::from_celsius(celsius))
                .unwrap()
                .value
                .fraction()
        };
        assert_eq!(share(-40.0), 0.7);
        assert_eq!(share(0.0), 0.8);
        assert!((share(-10.0) - 0.75).abs() < 1e-12);
        assert_eq!((share(25.0), share(80.0)), (1.0, 0.95));
        assert!(cell::usable_capacity(Temperature::from_celsius(f64::NAN)).is_none());
        let bands = cell::charge_bands();
        assert!(
            bands
                .windows(2)
                .all(|pair| pair[0].value.0 < pair[1].value.0)
        );
        let at = |celsius: f64| {
            let band = bands.iter().rfind(|band| band.value.0.celsius() <= celsius);
            band.unwrap().value.1
        };
        assert_eq!(
            (at(-0.1), at(5.0), at(20.0), at(52.0)),
            (0.0, 0.1, 0.5, 0.0)
        );
        assert_eq!(cell::activation().unwrap().value, 1750.0);
        assert_eq!(cell::activation().unwrap().mark, Mark::Derived);
        assert!(cell::cold_resistance_factor().unwrap().value.low > 2.8);
        assert_eq!(cell::coulombic().unwrap().value.usual.fraction(), 0.998);
        assert!(
            cell::self_discharge_per_month()
                .unwrap()
                .value
                .high
                .fraction()
                < 0.05
        );
        assert!(cell::board_draw().unwrap().value.usual.amperes() < 0.1);
        assert_eq!(cell::heat_capacity().unwrap().value, 1000.0);
        let mass = cell::mass_per_100_ampere_hours().unwrap().value;
        assert!(mass.low < mass.usual && mass.usual < mass.high);
    }

    /// A year at 25 °C and half charge loses 4.2 %; 200 cycles of 60 % at 0.2 per hour 1.69 %.
    #[test]
    fn ageing_as_printed() {
        let c = cell::calendar_ageing().unwrap().value;
        let year = 365.25_f64 * 86_400.0;
        let loss = c.per_root_second * c.constant * year.sqrt();
        assert!((loss - 0.042).abs() < 0.0006, "{loss}");
        let u = cell::cycle_ageing().unwrap().value;
        let percent = (u.by_rate * 0.2 + u.constant) * u.depth_constant * 200_f64.sqrt();
        assert!((percent - 1.69).abs() < 0.006, "{percent}");
        assert!(c.activation > 10_000.0 && c.by_charge > 0.0 && u.by_depth > 0.0);
    }

    #[test]
    fn lead_acid_is_known_from_memory_only() {
        for chemistry in [Chemistry::Agm, Chemistry::Gel, Chemistry::Flooded] {
            let figures = cell::lead_acid(chemistry).unwrap();
            assert_eq!(figures.peukert.mark, Mark::Memory);
            assert!(figures.peukert.value.low > 1.0);
            assert_eq!(figures.usable.value.fraction(), 0.5);
            assert_eq!(figures.rated_time.value.hours(), 20.0);
            assert!(figures.taper.value.low < figures.absorption_time.value.low);
            assert!(figures.round_trip.value.high < 0.9);
            assert!(figures.bulk_until.value.fraction() < 1.0);
            assert!(figures.charge_millivolts_per_kelvin.value.high < 0.0);
            assert!(figures.freezes.value.high.celsius() < 0.0);
            let rested = cell::rested_voltages(chemistry).unwrap().value;
            let of_six = rested.map(|point| (point.1.volts() * 60.0).round() / 10.0);
            assert_eq!(of_six, [11.8, 12.2, 12.7]);
        }
        assert!(cell::lead_acid(Chemistry::Lfp).is_none());
        assert!(cell::rested_voltages(Chemistry::Lfp).is_none());
    }
}
