//! How likely a sum of squares is by chance alone. Not here: below which chance one stops
//! believing it.

use wainwright_units::Ratio;

use crate::refusal::{Refusal, not_below_zero, require};

/// Most degrees of freedom.
const MOST_FREEDOM: usize = 10_000;
/// Most terms of the series or of the fraction; near the middle of a wide distribution they go down
/// slowly at first.
const MOST_TERMS: usize = 20_000;
/// Change of the last term that counts as none, relative.
const CLOSE: f64 = 1e-15;
/// Keeps the fraction from dividing by zero.
const TINY: f64 = 1e-300;

/// Probability that readings with the stated uncertainties alone give at least this sum of squares:
/// the upper tail of the chi-squared distribution, Q(ν/2, χ²/2) with the regularised incomplete gamma
/// function.
///
/// # Errors
/// A sum below zero, no degree of freedom or more than 10 000.
pub fn chi_squared_tail(chi_squared: f64, degrees_of_freedom: usize) -> Result<Ratio, Refusal> {
    not_below_zero("sum of squares", chi_squared)?;
    require(
        "degrees of freedom",
        degrees_of_freedom as f64,
        (1..=MOST_FREEDOM).contains(&degrees_of_freedom),
        "1 to 10 000",
    )?;
    let (a, x) = (0.5 * degrees_of_freedom as f64, 0.5 * chi_squared);
    if x == 0.0 {
        return Ok(Ratio::from_fraction(1.0));
    }
    // x^a e^−x/Γ(a), the factor of both forms.
    let factor = (a * x.ln() - x - log_gamma_of_half(degrees_of_freedom)).exp();
    let tail = if x < a + 1.0 {
        series(a, x).map(|sum| 1.0 - factor * sum)
    } else {
        fraction(a, x).map(|value| factor * value)
    };
    tail.map(|value| Ratio::from_fraction(value.clamp(0.0, 1.0)))
}

/// ln Γ(n/2): a product of whole or half numbers.
fn log_gamma_of_half(n: usize) -> f64 {
    let (first, start) = if n.is_multiple_of(2) {
        (2, 0.0)
    } else {
        (1, 0.5 * std::f64::consts::PI.ln())
    };
    (first..n)
        .step_by(2)
        .map(|k| (0.5 * k as f64).ln())
        .sum::<f64>()
        + start
}

/// Σ xᵏ/(a(a + 1)…(a + k)), for x below a + 1.
fn series(a: f64, x: f64) -> Result<f64, Refusal> {
    let (mut term, mut sum) = (1.0 / a, 1.0 / a);
    for k in 1..=MOST_TERMS {
        term *= x / (a + k as f64);
        sum += term;
        if term <= CLOSE * sum {
            return Ok(sum);
        }
    }
    Err(too_slow())
}

/// 1/(x + 1 − a − 1(1 − a)/(x + 3 − a − 2(2 − a)/(x + 5 − a − …))), for x above a + 1, from the front.
fn fraction(a: f64, x: f64) -> Result<f64, Refusal> {
    let mut b = x + 1.0 - a;
    let (mut c, mut d) = (1.0 / TINY, 1.0 / b);
    let mut value = d;
    for k in 1..=MOST_TERMS {
        let n = k as f64;
        let numerator = n * (a - n);
        b += 2.0;
        d = away_from_zero(numerator * d + b).recip();
        c = away_from_zero(b + numerator / c);
        value *= c * d;
        if (c * d - 1.0).abs() <= CLOSE {
            return Ok(value);
        }
    }
    Err(too_slow())
}

fn away_from_zero(value: f64) -> f64 {
    if value.abs() < TINY { TINY } else { value }
}

fn too_slow() -> Refusal {
    Refusal::new("terms of the tail probability", MOST_TERMS as f64, "fewer")
}
