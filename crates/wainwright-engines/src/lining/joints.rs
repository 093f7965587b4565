//! Where boards of a course are joined: on supports, staggered, and so that the pieces come out of
//! the boards on sale with little waste. What a course is, is not here.

use super::estimate::Shop;
use super::plane::NOTHING;

/// Most ways to join one stretch that are looked at.
const MOST_WAYS: usize = 1500;
/// Most joints of one stretch beyond those it cannot do without.
const MORE_JOINTS: usize = 3;
/// Most steps back of one search for a pattern.
const MOST_STEPS: usize = 20_000;
/// Searches that begin differently.
const STARTS: usize = 3;

/// Rules for joints, and what they are weighed against [m].
#[derive(Debug, Clone, Copy)]
pub(super) struct JointRules {
    pub apart: f64,
    pub in_line: f64,
    pub courses_between: usize,
    pub longest: f64,
    pub least_piece: f64,
    pub worth: f64,
    pub effort: usize,
}

/// A stretch to be boarded, and where it may be joined [m].
#[derive(Debug, Clone)]
pub(super) struct Stretch {
    pub course: usize,
    pub from: f64,
    pub to: f64,
    pub places: Vec<f64>,
}

/// The joints of every stretch, ascending, and what is wrong with them.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Joined {
    pub joints: Vec<Vec<f64>>,
    /// Stretches that no support lets be joined.
    pub too_long: Vec<usize>,
    /// Stretch and joint that break the stagger.
    pub in_line: Vec<(usize, f64)>,
}

/// Finds joints for all stretches together.
pub(super) fn join(stretches: &[Stretch], rules: &JointRules, shop: &Shop) -> Joined {
    let mut too_long = Vec::new();
    let mut ways = Vec::new();
    for (index, stretch) in stretches.iter().enumerate() {
        let mut found = stretch.ways(rules);
        if found.is_empty() {
            too_long.push(index);
            found.push(Vec::new());
        }
        order(&mut found, stretch, rules, shop);
        ways.push(found);
    }
    let search = Search::new(stretches, &ways, rules, shop);
    let chosen = search.best();
    let joints: Vec<Vec<f64>> = (ways.iter().zip(&chosen))
        .map(|(ways, &way)| ways.get(way).cloned().unwrap_or_default())
        .collect();
    Joined {
        too_long,
        in_line: search.conflicts(&chosen),
        joints,
    }
}

/// Whether joints so many courses apart may both be where they are.
pub(super) fn apart(rules: &JointRules, courses: usize, one: f64, other: f64) -> bool {
    let distance = (one - other).abs();
    let staggered = courses != 1 || distance >= rules.apart - NOTHING;
    let out_of_line = courses > rules.courses_between || distance > rules.in_line + NOTHING;
    courses == 0 || (staggered && out_of_line)
}

impl Stretch {
    /// Lists of joints that leave pieces neither too long nor too short.
    fn ways(&self, rules: &JointRules) -> Vec<Vec<f64>> {
        let long = self.to - self.from;
        let fewest = ((long / rules.longest - 1e-9).ceil().max(1.0) as usize) - 1;
        let mut found = Vec::new();
        for joints in fewest..=fewest + MORE_JOINTS {
            // One joint more than needed may save boards; still more only where nothing else goes.
            if joints > fewest + 1 && !found.is_empty() {
                break;
            }
            let mut every = 1;
            loop {
                let thinned: Vec<f64> = self.places.iter().copied().step_by(every).collect();
                let mut list = Vec::new();
                self.extend(&mut Vec::new(), joints, &thinned, rules, &mut list);
                if list.len() <= MOST_WAYS || every > self.places.len() {
                    found.append(&mut list);
                    break;
                }
                every += 1;
            }
        }
        found
    }

    fn extend(
        &self,
        joints: &mut Vec<f64>,
        more: usize,
        places: &[f64],
        rules: &JointRules,
        found: &mut Vec<Vec<f64>>,
    ) {
        if found.len() > MOST_WAYS {
            return;
        }
        let from = joints.last().copied().unwrap_or(self.from);
        let good = |to: f64| {
            to - from <= rules.longest + NOTHING && to - from >= rules.least_piece - NOTHING
        };
        if more == 0 {
            // A stretch that is short by itself is laid in one piece.
            if good(self.to) || joints.is_empty() && self.to - from <= rules.longest + NOTHING {
                found.push(joints.clone());
            }
            return;
        }
        for &place in places.iter().filter(|&&place| place > from && good(place)) {
            if (self.to - place) > more as f64 * rules.longest + NOTHING {
                continue;
            }
            joints.push(place);
            self.extend(joints, more - 1, places, rules, found);
            joints.pop();
        }
    }

    fn lengths(&self, joints: &[f64], into: &mut Vec<f64>) {
        let mut from = self.from;
        for &to in joints.iter().chain([&self.to]) {
            into.push(to - from);
            from = to;
        }
    }
}

/// The cheapest ways of a stretch first.
fn order(ways: &mut Vec<Vec<f64>>, stretch: &Stretch, rules: &JointRules, shop: &Shop) {
    let mut priced: Vec<(f64, Vec<f64>)> = ways
        .drain(..)
        .map(|joints| {
            let mut lengths = Vec::new();
            stretch.lengths(&joints, &mut lengths);
            let joints_cost = joints.len() as f64 * rules.worth * shop.per_metre();
            (shop.cost_of(&mut lengths) + joints_cost, joints)
        })
        .collect();
    priced.sort_by(|one, other| one.0.total_cmp(&other.0));
    ways.extend(priced.into_iter().map(|way| way.1));
}

struct Search<'s> {
    stretches: &'s [Stretch],
    ways: &'s [Vec<Vec<f64>>],
    /// Stretches whose joints matter to those of another one.
    near: Vec<Vec<usize>>,
    rules: &'s JointRules,
    shop: &'s Shop,
}

/// Joints against the rule, then cost: the smaller the better.
type Score = (usize, f64);

impl<'s> Search<'s> {
    fn new(
        stretches: &'s [Stretch],
        ways: &'s [Vec<Vec<f64>>],
        rules: &'s JointRules,
        shop: &'s Shop,
    ) -> Self {
        let reach = rules.courses_between.max(1);
        let near = |one: &Stretch| {
            let others = stretches.iter().enumerate();
            others
                .filter(|(_, other)| (1..=reach).contains(&one.course.abs_diff(other.course)))
                .map(|(index, _)| index)
                .collect()
        };
        Self {
            near: stretches.iter().map(near).collect(),
            stretches,
            ways,
            rules,
            shop,
        }
    }

    fn best(&self) -> Vec<usize> {
        // Work grows with the square of the number of pieces; the cap keeps all surfaces quick.
        let pieces = self.stretches.len().max(20);
        let cap = if self.rules.effort == 0 {
            (20_000_000 / (pieces * pieces)).clamp(100, 3000)
        } else {
            self.rules.effort
        };
        let mut best: Option<(Score, Vec<usize>)> = None;
        for start in 0..STARTS {
            let mut chosen = self.pattern(start);
            let score = self.improve(&mut chosen, cap / STARTS);
            let better = |known: &(Score, Vec<usize>)| less(score, known.0);
            if best.as_ref().is_none_or(better) {
                best = Some((score, chosen));
            }
        }
        best.map_or_else(Vec::new, |best| best.1)
    }

    /// A pattern that keeps the rule, by going back where the next stretch finds no way; where
    /// none is found, one with few joints against it.
    fn pattern(&self, start: usize) -> Vec<usize> {
        let count = self.stretches.len();
        let mut tried = vec![0usize; count];
        let mut chosen: Vec<usize> = Vec::with_capacity(count);
        for _ in 0..MOST_STEPS {
            let at = chosen.len();
            let Some(tries) = tried.get_mut(at) else {
                return chosen;
            };
            let ways = self.ways_of(at);
            let next = (*tries..ways)
                .find(|&nth| self.clashes(at, self.rotated(at, nth, start), &chosen) == 0);
            match next {
                Some(nth) => {
                    *tries = nth + 1;
                    chosen.push(self.rotated(at, nth, start));
                }
                None if at == 0 => break,
                None => {
                    *tries = 0;
                    chosen.pop();
                }
            }
        }
        let mut chosen = Vec::with_capacity(count);
        for at in 0..count {
            let ways = (0..self.ways_of(at)).map(|nth| self.rotated(at, nth, start));
            let least = ways.min_by_key(|&way| self.clashes(at, way, &chosen));
            chosen.push(least.unwrap_or(0));
        }
        chosen
    }

    /// Later starts begin with another of the good ways, course by course.
    fn rotated(&self, at: usize, nth: usize, start: usize) -> usize {
        let ways = self.ways_of(at).max(1);
        let course = self.stretches.get(at).map_or(0, |one| one.course);
        (nth + start * course * (ways / 7 + 1)) % ways
    }

    /// Changes one stretch at a time as long as that helps.
    fn improve(&self, chosen: &mut [usize], cap: usize) -> Score {
        let mut score = self.score(chosen);
        let mut left = cap;
        loop {
            let before = score;
            for at in 0..chosen.len() {
                let Some(mut kept) = chosen.get(at).copied() else {
                    continue;
                };
                let clashes = self.clashes(at, kept, chosen);
                for way in 0..self.ways_of(at) {
                    if left == 0 {
                        return score;
                    }
                    if way == kept || self.clashes(at, way, chosen) > clashes {
                        continue;
                    }
                    left -= 1;
                    set(chosen, at, way);
                    let new = self.score(chosen);
                    if less(new, score) {
                        score = new;
                        kept = way;
                    } else {
                        set(chosen, at, kept);
                    }
                }
            }
            if !less(score, before) {
                return score;
            }
        }
    }

    fn score(&self, chosen: &[usize]) -> Score {
        let mut lengths = Vec::with_capacity(2 * chosen.len());
        let mut joints = 0;
        for (at, &way) in chosen.iter().enumerate() {
            if let Some(stretch) = self.stretches.get(at) {
                stretch.lengths(self.joints(at, way), &mut lengths);
                joints += self.joints(at, way).len();
            }
        }
        let clashes = (0..chosen.len()).map(|at| {
            let way = chosen.get(at).copied().unwrap_or(0);
            self.clashes(at, way, chosen)
        });
        let joint_cost = joints as f64 * self.rules.worth * self.shop.per_metre();
        (clashes.sum(), self.shop.cost_of(&mut lengths) + joint_cost)
    }

    /// Joints of a way of one stretch that clash with those chosen near it.
    fn clashes(&self, at: usize, way: usize, chosen: &[usize]) -> usize {
        let mine = self.joints(at, way);
        mine.iter()
            .filter(|&&joint| self.clash(at, joint, chosen))
            .count()
    }

    fn clash(&self, at: usize, joint: f64, chosen: &[usize]) -> bool {
        let Some(own) = self.stretches.get(at) else {
            return false;
        };
        let near = self.near.get(at).into_iter().flatten();
        near.filter_map(|&other| Some((other, *chosen.get(other)?)))
            .any(|(other, way)| {
                let course = self
                    .stretches
                    .get(other)
                    .map_or(own.course, |one| one.course);
                let courses = own.course.abs_diff(course);
                let theirs = self.joints(other, way);
                theirs
                    .iter()
                    .any(|&their| !apart(self.rules, courses, joint, their))
            })
    }

    fn conflicts(&self, chosen: &[usize]) -> Vec<(usize, f64)> {
        let mut found = Vec::new();
        for (at, &way) in chosen.iter().enumerate() {
            let mine = self.joints(at, way).iter();
            found.extend(
                mine.filter(|&&joint| self.clash(at, joint, chosen))
                    .map(|&joint| (at, joint)),
            );
        }
        found
    }

    fn joints(&self, at: usize, way: usize) -> &[f64] {
        let ways = self.ways.get(at);
        ways.and_then(|ways| ways.get(way))
            .map_or(&[], Vec::as_slice)
    }

    fn ways_of(&self, at: usize) -> usize {
        self.ways.get(at).map_or(0, Vec::len)
    }
}

fn set(chosen: &mut [usize], at: usize, way: usize) {
    if let Some(one) = chosen.get_mut(at) {
        *one = way;
    }
}

fn less(one: Score, other: Score) -> bool {
    one.0 < other.0 || one.0 == other.0 && one.1 < other.1 - 1e-9
}
