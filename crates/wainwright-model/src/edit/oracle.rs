//! Oracle: an outline that followed a change is the outline of the changed text, read anew, whatever was changed.

use super::outline::Outline;
use super::patch::{Splice, patches};
use crate::common::{self, Dice, FIXTURE};

#[test]
fn a_followed_outline_is_the_outline_of_the_new_text() {
    let (mut followed, mut read_whole) = (0, 0);
    for case in 0..40_000_u64 {
        let mut dice = Dice::new(case + 3_000_000);
        let mut outline = Outline::new(start(&mut dice));
        for _ in 0..1 + dice.below(3) {
            let sound = outline.faults.is_empty();
            let splices = splices(&mut dice, &outline.text);
            let patches = patches(&outline.text, splices).unwrap();
            outline.change(&patches).unwrap();
            let fresh = Outline::new(outline.text.clone());
            // As texts, because a NaN is not equal to itself.
            let shown = |outline: &Outline| format!("{:?} {:?}", outline.sections, outline.faults);
            assert_eq!(shown(&outline), shown(&fresh), "case {case}: {patches:?}");
            if sound && fresh.faults.is_empty() {
                followed += 1;
            } else {
                read_whole += 1;
            }
        }
    }
    // The mix must keep reaching both ways, or the test says little.
    assert!(
        followed > 10_000 && read_whole > 10_000,
        "{followed} followed, {read_whole} read whole"
    );
}

/// Some lines of the fixture, or any text.
fn start(dice: &mut Dice) -> String {
    if dice.below(4) == 0 {
        return common::text(dice);
    }
    let lines: Vec<&str> = FIXTURE.lines().collect();
    let first = dice.below(lines.len());
    let last = (first + dice.below(30)).min(lines.len());
    let ending = dice.pick(&["\n", "\n", "\r\n"]);
    let open = dice.pick(&["", ending]);
    lines[first..last].join(ending) + open
}

/// One to three stretches that stand apart.
fn splices(dice: &mut Dice, text: &str) -> Vec<Splice> {
    let mut places: Vec<usize> = (0..2 * (1 + dice.below(3)))
        .map(|_| place(dice, text))
        .collect();
    places.sort_unstable();
    let pairs = places.chunks(2);
    let splice = |pair: &[usize]| {
        let short = pair[1].min(line_end(text, pair[0]));
        Splice {
            span: pair[0]..short,
            inserted: String::new(),
        }
    };
    let mut splices: Vec<Splice> = pairs.map(splice).collect();
    splices.dedup_by_key(|splice| splice.span.start);
    for splice in &mut splices {
        splice.inserted = inserted(dice);
    }
    splices
}

fn inserted(dice: &mut Dice) -> String {
    let lines: Vec<&str> = FIXTURE.lines().collect();
    match dice.below(8) {
        0 => common::text(dice).chars().take(40).collect(),
        1 => String::new(),
        2 => dice.pick(&["x", "\"", "#", "\n", " ", "[", "="]).to_owned(),
        _ => format!("{}\n", dice.pick(&lines)),
    }
}

/// Usually the start of a line.
fn place(dice: &mut Dice, text: &str) -> usize {
    let mut at = dice.below(text.len() + 1);
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    match dice.below(4) {
        0 => at,
        _ => text[..at].rfind('\n').map_or(0, |end| end + 1),
    }
}

fn line_end(text: &str, at: usize) -> usize {
    text[at..].find('\n').map_or(text.len(), |end| at + end + 1)
}
