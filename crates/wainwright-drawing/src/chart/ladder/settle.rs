//! Where labels stand beside their marks: each as near to its own mark as the others allow, none over another. Not
//! here: what is written.

/// A label: where its middle would like to be, and how high it is [px].
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Wish {
    /// Middle [px].
    pub at: f64,
    /// Height [px].
    pub high: f64,
}

/// Labels that touch and are moved together.
struct Pile {
    first: usize,
    /// Sum of where the top of the pile would like to be, one for each label.
    tops: f64,
    count: f64,
    high: f64,
}

impl Pile {
    /// Top that moves its labels least, by the sum of squares, inside of the field.
    fn top(&self, from: f64, to: f64) -> f64 {
        (self.tops / self.count).min(to - self.high).max(from)
    }
}

/// Tops of labels whose wishes are in falling order down the sheet, between `from` and `to`; labels that have no room
/// there run over the lower end, still without meeting. Neighbours that would meet are joined and moved as one, which
/// is the least sum of squared moves.
pub(super) fn settle(wishes: &[Wish], from: f64, to: f64) -> Vec<f64> {
    let mut piles: Vec<Pile> = Vec::new();
    for (index, wish) in wishes.iter().enumerate() {
        let mut pile = Pile {
            first: index,
            tops: wish.at - wish.high / 2.0,
            count: 1.0,
            high: wish.high,
        };
        while let Some(above) =
            piles.pop_if(|above| above.top(from, to) + above.high > pile.top(from, to))
        {
            pile = Pile {
                first: above.first,
                tops: above.tops + pile.tops - above.high * pile.count,
                count: above.count + pile.count,
                high: above.high + pile.high,
            };
        }
        piles.push(pile);
    }
    let mut tops = vec![0.0; wishes.len()];
    for (number, pile) in piles.iter().enumerate() {
        let end = piles
            .get(number + 1)
            .map_or(wishes.len(), |next| next.first);
        let mut top = pile.top(from, to);
        for (place, wish) in tops.iter_mut().zip(wishes).take(end).skip(pile.first) {
            *place = top;
            top += wish.high;
        }
    }
    tops
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn wish(at: f64, high: f64) -> Wish {
        Wish { at, high }
    }

    #[test]
    fn labels_with_room_stand_at_their_marks() {
        let tops = settle(&[wish(20.0, 10.0), wish(60.0, 20.0)], 0.0, 100.0);
        assert_eq!(tops, vec![15.0, 50.0]);
    }

    #[test]
    fn two_at_one_place_part_evenly() {
        let tops = settle(&[wish(50.0, 10.0), wish(50.0, 10.0)], 0.0, 100.0);
        assert_eq!(tops, vec![40.0, 50.0]);
    }

    #[test]
    fn the_ends_of_the_field_hold() {
        assert_eq!(
            settle(&[wish(0.0, 10.0), wish(3.0, 10.0)], 0.0, 100.0),
            vec![0.0, 10.0]
        );
        assert_eq!(settle(&[wish(99.0, 10.0)], 0.0, 100.0), vec![90.0]);
    }

    /// Sum of squared moves.
    fn cost(wishes: &[Wish], tops: &[f64]) -> f64 {
        let off = |(wish, top): (&Wish, &f64)| (top + wish.high / 2.0 - wish.at).powi(2);
        wishes.iter().zip(tops).map(off).sum()
    }

    proptest! {
        #[test]
        fn none_meets_another_and_no_small_move_is_better(
            mut places in prop::collection::vec((0.0..300.0f64, 8.0..30.0f64), 1..14),
        ) {
            places.sort_by(|one, other| one.0.total_cmp(&other.0));
            let wishes: Vec<Wish> = places.iter().map(|(at, high)| wish(*at, *high)).collect();
            let need: f64 = wishes.iter().map(|wish| wish.high).sum();
            let to = need.max(300.0);
            let tops = settle(&wishes, 0.0, to);
            let legal = |tops: &[f64]| {
                let ends = tops.iter().zip(&wishes).map(|(top, wish)| top + wish.high);
                let starts = tops.iter().skip(1).copied().chain([to]);
                tops.first().is_none_or(|top| *top >= -1e-9) && ends.zip(starts).all(|(end, next)| end <= next + 1e-9)
            };
            prop_assert!(legal(&tops), "{tops:?}");
            // The problem is convex: when no run of labels gains by moving, this is the best of all.
            for first in 0..tops.len() {
                for last in first..tops.len() {
                    for by in [-0.05, 0.05] {
                        let mut moved = tops.clone();
                        moved[first..=last].iter_mut().for_each(|top| *top += by);
                        prop_assert!(!legal(&moved) || cost(&wishes, &moved) >= cost(&wishes, &tops) - 1e-6);
                    }
                }
            }
        }
    }
}
