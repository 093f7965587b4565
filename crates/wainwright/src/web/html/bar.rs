//! How much of a limit is used, small enough for a table. Not here: whether
//! that is too much.

use maud::{Markup, html};

/// Share of the width at which the limit stands, so that an excess shows.
const LIMIT_AT: f64 = 0.7;

/// From here on little of the limit is left.
const NEAR: f64 = 0.9;

/// A bar for `value` against `limit`, both in one unit and measured from
/// `zero`. Read aloud as `words`.
pub fn bar(value: f64, zero: f64, limit: f64, words: &str) -> Markup {
    let span = limit - zero;
    let share = if span > 0.0 && value.is_finite() {
        ((value - zero) / span).max(0.0)
    } else {
        0.0
    };
    share_bar(share, words)
}

/// A bar for a share of a limit.
pub fn share_bar(share: f64, words: &str) -> Markup {
    let class = match share {
        share if share > 1.0 => "over",
        share if share >= NEAR => "near",
        _ => "well",
    };
    let length = (share * LIMIT_AT).min(1.0) * 100.0;
    html! {
        svg class={ "bar " (class) } viewBox="0 0 100 10" preserveAspectRatio="none"
            role="img" aria-label=(words) {
            rect.track x="0" y="2" width="100" height="6" {}
            rect.level x="0" y="2" width=(format!("{length:.1}")) height="6" {}
            rect.limit x=(format!("{:.1}", LIMIT_AT * 100.0 - 0.6)) y="0" width="1.2" height="10" {}
        }
    }
}
