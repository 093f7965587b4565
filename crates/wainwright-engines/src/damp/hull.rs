//! Vapour pressure through a section in one moment: the taut string under saturation. Not here:
//! time.

/// Vapour that still air lets through [kg/(m·s·Pa)] (ISO 13788; read).
pub(super) const STILL_AIR: f64 = 2e-10;

/// Vapour at one moment.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Moment {
    /// Indices of the places the string bends at, both ends included.
    pub bends: Vec<usize>,
    /// Pressure at every place [Pa].
    pub pascals: Vec<f64>,
    /// Water that forms at every place [kg/(m²·s)]; below zero where it dries.
    pub forming: Vec<f64>,
    /// Vapour that comes in from the inside [kg/(m²·s)].
    pub entering: f64,
    /// Vapour that leaves to the outside [kg/(m²·s)].
    pub leaving: f64,
}

/// The string between two ends, under saturation, held at saturation where it is wet.
///
/// `metres` rises; `saturation` and `wet` have as many entries, at least two.
pub(super) fn moment(
    metres: &[f64],
    saturation: &[f64],
    wet: &[bool],
    outer_pascals: f64,
    inner_pascals: f64,
) -> Moment {
    let last = metres.len() - 1;
    let mut heights = saturation.to_vec();
    heights[0] = outer_pascals.min(saturation[0]);
    heights[last] = inner_pascals.min(saturation[last]);
    let mut bends = vec![0];
    // A bend that may not be taken back: an end or a wet place.
    let mut held = 0;
    for (next, &is_wet) in wet.iter().enumerate().skip(1) {
        while bends.len() - 1 > held && lifts(metres, &heights, &bends, next) {
            bends.pop();
        }
        bends.push(next);
        if is_wet {
            held = bends.len() - 1;
        }
    }
    let forming = forming(metres, &heights, &bends);
    let rate = |from: usize, to: usize| {
        STILL_AIR * (heights[to] - heights[from]) / (metres[to] - metres[from])
    };
    Moment {
        entering: rate(bends[bends.len() - 2], last),
        leaving: rate(0, bends[1]),
        pascals: between(metres, &heights, &bends),
        forming,
        bends,
    }
}

/// Whether the last bend lies on or above the line from the one before it to the next place.
fn lifts(metres: &[f64], heights: &[f64], bends: &[usize], next: usize) -> bool {
    let (before, at) = (bends[bends.len() - 2], bends[bends.len() - 1]);
    let to_bend = (heights[at] - heights[before]) * (metres[next] - metres[before]);
    let to_next = (heights[next] - heights[before]) * (metres[at] - metres[before]);
    to_bend >= to_next
}

fn forming(metres: &[f64], heights: &[f64], bends: &[usize]) -> Vec<f64> {
    let mut found = vec![0.0; metres.len()];
    for three in bends.windows(3) {
        let (a, b, c) = (three[0], three[1], three[2]);
        let inward = (heights[c] - heights[b]) / (metres[c] - metres[b]);
        let outward = (heights[b] - heights[a]) / (metres[b] - metres[a]);
        found[b] = STILL_AIR * (inward - outward);
    }
    found
}

/// Pressure at every place, straight between the bends.
fn between(metres: &[f64], heights: &[f64], bends: &[usize]) -> Vec<f64> {
    let mut found = heights.to_vec();
    for two in bends.windows(2) {
        let (a, b) = (two[0], two[1]);
        let slope = (heights[b] - heights[a]) / (metres[b] - metres[a]);
        for (at, value) in found.iter_mut().enumerate().take(b).skip(a + 1) {
            *value = heights[a] + slope * (metres[at] - metres[a]);
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::moment;

    #[test]
    fn a_dry_section_has_a_straight_line_and_a_wet_one_a_bend() {
        let metres = [0.0, 1.0, 2.0];
        let dry = moment(
            &metres,
            &[900.0, 1100.0, 1600.0],
            &[false; 3],
            400.0,
            1200.0,
        );
        assert_eq!(dry.bends, [0, 2]);
        assert!((dry.pascals[1] - 800.0).abs() < 1e-9 && dry.entering == dry.leaving);
        let wet = moment(&metres, &[900.0, 700.0, 1600.0], &[false; 3], 400.0, 1200.0);
        assert_eq!(wet.bends, [0, 1, 2]);
        assert!((wet.forming[1] - 2e-10 * (500.0 - 300.0)).abs() < 1e-18);
        assert!((wet.entering - wet.leaving - wet.forming[1]).abs() < 1e-20);
    }

    #[test]
    fn a_wet_place_is_held_at_saturation_while_it_dries() {
        let metres = [0.0, 1.0, 2.0];
        let held = moment(
            &metres,
            &[900.0, 1100.0, 1600.0],
            &[false, true, false],
            400.0,
            1200.0,
        );
        assert_eq!(held.pascals[1], 1100.0);
        assert!(held.forming[1] < 0.0);
    }
}
