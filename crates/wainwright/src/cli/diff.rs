//! The lines in which two texts differ. Not here: how a step of the undo
//! history is kept (see [`crate::session`]).

/// Most line pairs compared for the least difference; larger stretches are
/// shown as wholly replaced.
const MOST_PAIRS: usize = 4_000_000;

/// Unchanged lines shown around a change.
const AROUND: usize = 2;

/// One line of the comparison.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Line<'t> {
    /// In both texts.
    Same(&'t str),
    /// In the old one only.
    Removed(&'t str),
    /// In the new one only.
    Added(&'t str),
    /// Unchanged lines left out; the number of the line that follows.
    Gap(usize),
}

/// The differing lines with a little of what stands around them.
pub fn diff<'t>(old: &'t str, new: &'t str) -> Vec<Line<'t>> {
    let (a, b): (Vec<&str>, Vec<&str>) = (old.lines().collect(), new.lines().collect());
    let head = a.iter().zip(&b).take_while(|(x, y)| x == y).count();
    let (a_rest, b_rest) = (
        a.get(head..).unwrap_or_default(),
        b.get(head..).unwrap_or_default(),
    );
    let tail = a_rest
        .iter()
        .rev()
        .zip(b_rest.iter().rev())
        .take_while(|(x, y)| x == y)
        .count();
    let (a_mid, a_tail) = a_rest.split_at(a_rest.len() - tail);
    let (b_mid, _) = b_rest.split_at(b_rest.len() - tail);
    let mut lines: Vec<Line> = a.iter().take(head).map(|l| Line::Same(l)).collect();
    lines.extend(middle(a_mid, b_mid));
    lines.extend(a_tail.iter().map(|l| Line::Same(l)));
    shortened(lines)
}

/// The longest common sequence of lines by the usual table.
fn middle<'t>(a: &[&'t str], b: &[&'t str]) -> Vec<Line<'t>> {
    let removed = a.iter().map(|l| Line::Removed(l));
    let added = b.iter().map(|l| Line::Added(l));
    if a.len().saturating_mul(b.len()) > MOST_PAIRS {
        return removed.chain(added).collect();
    }
    let width = b.len() + 1;
    let mut common = vec![0_usize; (a.len() + 1) * width];
    let at = |common: &[usize], i: usize, j: usize| common.get(i * width + j).copied().unwrap_or(0);
    for (i, x) in a.iter().enumerate().rev() {
        for (j, y) in b.iter().enumerate().rev() {
            let best = if x == y {
                at(&common, i + 1, j + 1) + 1
            } else {
                at(&common, i + 1, j).max(at(&common, i, j + 1))
            };
            if let Some(cell) = common.get_mut(i * width + j) {
                *cell = best;
            }
        }
    }
    let (mut lines, mut i, mut j) = (Vec::new(), 0, 0);
    loop {
        match (a.get(i), b.get(j)) {
            (None, None) => return lines,
            (Some(x), Some(y)) if x == y => {
                lines.push(Line::Same(x));
                (i, j) = (i + 1, j + 1);
            }
            (Some(x), y) if y.is_none() || at(&common, i + 1, j) >= at(&common, i, j + 1) => {
                lines.push(Line::Removed(x));
                i += 1;
            }
            (_, Some(y)) => {
                lines.push(Line::Added(y));
                j += 1;
            }
            (Some(_), None) => i += 1,
        }
    }
}

fn shortened(lines: Vec<Line<'_>>) -> Vec<Line<'_>> {
    let changed: Vec<usize> = lines
        .iter()
        .enumerate()
        .filter(|(_, l)| !matches!(l, Line::Same(_)))
        .map(|(index, _)| index)
        .collect();
    let near = |index: usize| {
        let from = changed.partition_point(|c| c + AROUND < index);
        changed.get(from).is_some_and(|c| *c <= index + AROUND)
    };
    let (mut kept, mut number, mut skipping) = (Vec::new(), 1, false);
    for (index, line) in lines.into_iter().enumerate() {
        let in_new = !matches!(line, Line::Removed(_));
        if near(index) {
            if skipping || (kept.is_empty() && number > 1) {
                kept.push(Line::Gap(number));
            }
            skipping = false;
            kept.push(line);
        } else {
            skipping = true;
        }
        number += usize::from(in_new);
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn one_changed_line_is_shown_with_its_neighbours() {
        let lines = diff("a\nb\nc\nd\ne\nf\n", "a\nb\nc\nX\ne\nf\n");
        let expected = [
            Line::Gap(2),
            Line::Same("b"),
            Line::Same("c"),
            Line::Removed("d"),
            Line::Added("X"),
            Line::Same("e"),
            Line::Same("f"),
        ];
        assert_eq!(lines, expected);
    }

    #[test]
    fn equal_texts_differ_in_nothing() {
        assert_eq!(diff("a\nb\n", "a\nb\n"), []);
    }

    proptest! {
        /// What is removed and added are just the lines in which the texts differ.
        #[test]
        fn the_middle_rebuilds_both_texts(a in "[abc\n]{0,24}", b in "[abc\n]{0,24}") {
            let (x, y): (Vec<&str>, Vec<&str>) = (a.lines().collect(), b.lines().collect());
            let lines = middle(&x, &y);
            let old: Vec<&str> = lines.iter().filter_map(|l| match l {
                Line::Same(t) | Line::Removed(t) => Some(*t),
                _ => None,
            }).collect();
            let new: Vec<&str> = lines.iter().filter_map(|l| match l {
                Line::Same(t) | Line::Added(t) => Some(*t),
                _ => None,
            }).collect();
            prop_assert_eq!(old, x);
            prop_assert_eq!(new, y);
        }
    }
}
