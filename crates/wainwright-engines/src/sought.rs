//! The least value that is enough, when more is never worse: one search for every question of that
//! kind. No equation is here.

use crate::refusal::Refusal;

/// Most halvings of a search; sixty narrow any range to the last digit of a number.
pub(crate) const MOST_HALVINGS: usize = 60;

/// Share of the range at which a search stops.
const FINE: f64 = 1e-12;

/// The least value that is enough.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sought<T> {
    /// That value; the largest that was allowed when even that is not enough.
    pub value: T,
    /// Whether it is enough.
    pub reached: bool,
    /// Halvings it took.
    pub steps: usize,
    /// How far below it the least value may still lie, in the unit of the value.
    pub residual: f64,
}

impl<T> Sought<T> {
    /// The same answer with its value in another form.
    pub fn map<U>(self, change: impl FnOnce(T) -> U) -> Sought<U> {
        Sought {
            value: change(self.value),
            reached: self.reached,
            steps: self.steps,
            residual: self.residual,
        }
    }
}

/// Searches between two bounds for the least value that is enough, by halving.
///
/// # Errors
/// What the question itself refuses.
pub(crate) fn least_enough(
    least: f64,
    most: f64,
    mut enough: impl FnMut(f64) -> Result<bool, Refusal>,
) -> Result<Sought<f64>, Refusal> {
    let answer = |value, reached, steps, residual| Sought {
        value,
        reached,
        steps,
        residual,
    };
    if enough(least)? {
        return Ok(answer(least, true, 0, 0.0));
    }
    if !enough(most)? {
        return Ok(answer(most, false, 0, 0.0));
    }
    let (mut low, mut high, mut steps) = (least, most, 0);
    while steps < MOST_HALVINGS && high - low > FINE * (most - least) {
        let middle = 0.5 * (low + high);
        if enough(middle)? {
            high = middle;
        } else {
            low = middle;
        }
        steps += 1;
    }
    Ok(answer(high, true, steps, high - low))
}

#[cfg(test)]
mod tests {
    use super::least_enough;

    #[test]
    fn the_least_value_is_found_or_said_to_be_out_of_reach() {
        let root = least_enough(0.0, 10.0, |value| Ok(value * value >= 2.0)).unwrap();
        assert!(root.reached && (root.value - 2.0_f64.sqrt()).abs() < 1e-10);
        assert!(root.steps <= super::MOST_HALVINGS && root.residual < 1e-10);
        let none = least_enough(0.0, 1.0, |value| Ok(value >= 2.0)).unwrap();
        assert!(!none.reached && none.value == 1.0);
        let at_once = least_enough(3.0, 9.0, |value| Ok(value >= 2.0)).unwrap();
        assert!(at_once.reached && at_once.value == 3.0 && at_once.steps == 0);
    }
}
