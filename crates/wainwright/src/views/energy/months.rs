//! What the twelve months say, in sentences. Not here: the odds of each month.

use super::words::{self, Verdict, verdict};
use wainwright_analysis::result::trip::TripOutlook;

/// Which months run empty too often, and where the trip's own month lies.
pub fn sentence(outlook: &TripOutlook) -> String {
    let accepted = outlook.accepted.value;
    let over: Vec<bool> = outlook
        .months
        .iter()
        .map(|month| month.energy.share > accepted)
        .collect();
    let own = words::month(outlook.weather.month);
    match spans(&over).as_slice() {
        _ if over.is_empty() => String::new(),
        [] => format!("The battery lasts in every month; your trip is in {own}."),
        _ if over.iter().all(|over| *over) => {
            format!("The battery runs empty too often in every month; your trip is in {own}.")
        }
        all => {
            let all: Vec<String> = all.iter().map(|span| span_words(*span)).collect();
            let its = if over
                .get(outlook.weather.month.saturating_sub(1) as usize)
                .copied()
                .unwrap_or(false)
            {
                "one of them"
            } else {
                "none of them"
            };
            format!(
                "It runs empty more often than you accept in {}; your trip is in {own}, {its}.",
                all.join(" and ")
            )
        }
    }
}

/// How a month fares.
pub fn fares(outlook: &TripOutlook, month: usize) -> Option<Verdict> {
    let month = outlook.months.get(month)?;
    Some(verdict(month.energy, outlook.accepted.value))
}

/// Runs of months round the year, as first and last, 1 is January.
fn spans(over: &[bool]) -> Vec<(u32, u32)> {
    let count = over.len();
    let is = |month: usize| over.get(month % count.max(1)).copied().unwrap_or(false);
    let starts = (0..count).filter(|month| is(*month) && !is(month + count - 1));
    starts
        .map(|start| {
            let length = (0..count).take_while(|more| is(start + more)).count();
            let last = (start + length - 1) % count;
            (start as u32 + 1, last as u32 + 1)
        })
        .collect()
}

fn span_words((first, last): (u32, u32)) -> String {
    let (from, to) = (words::month(first), words::month(last));
    match (last + 12 - first) % 12 {
        0 => from.into(),
        1 => format!("{from} and {to}"),
        _ => format!("{from} to {to}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn months_over_the_turn_of_the_year_are_one_span() {
        let mut over = [false; 12];
        for month in [10, 11, 0, 1] {
            over[month] = true;
        }
        assert_eq!(spans(&over), [(11, 2)]);
        assert_eq!(span_words((11, 2)), "November to February");
        over[5] = true;
        assert_eq!(spans(&over), [(6, 6), (11, 2)]);
        assert_eq!(spans(&[false; 12]), []);
        assert_eq!(span_words((6, 6)), "June");
        assert_eq!(span_words((12, 1)), "December and January");
    }
}
