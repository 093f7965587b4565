//! The loop of sizing and checking: the planned text is read, assessed and
//! judged like any other, and what a rule finds tightens the next round. Not
//! here: drawing up (`desk`), choosing (`choose`).

use super::account::{Decision, Obstacle, ObstacleKind};
use super::choose::{Choice, Chooser, Refused, Solved, Unfit};
use super::desk::Desk;
use super::draft::Guard;
use super::measure::{Measured, measure};
use super::spine::MAIN_FUSE;
use super::stock::Shed;
use super::write::Writer;
use super::{Options, Plan, provisional, sized, tighten};
use crate::finding::{Finding, Subject};
use crate::judge::judge;
use crate::severity::Severity;
use crate::view::Graph;
use std::collections::BTreeSet;
use wainwright_analysis::sizing::SizeBench;
use wainwright_analysis::{Assessment, assess, catalogue};
use wainwright_model::{Edit, Project, apply, parse};

/// Most times a plan is drawn up anew because an item of the file did not fit.
const MOST_DRAFTS: usize = 24;

/// The plan of a project.
pub(super) fn plan(text: &str, project: &Project, options: &Options) -> Plan {
    let assessment = assess(project);
    let before = judge(project, &assessment);
    let mut banned: BTreeSet<String> = BTreeSet::new();
    let mut unused: Vec<Obstacle> = Vec::new();
    for _ in 0..MOST_DRAFTS {
        let mut desk = Desk::new(project, &assessment, options, &banned);
        desk.draw();
        desk.close_bars();
        let mut bench = Bench {
            text,
            project,
            before: &before,
            options,
            desk,
        };
        match bench.run() {
            Ok(mut plan) => {
                plan.obstacles.extend(unused);
                return plan;
            }
            Err(old) => {
                if old.key != MAIN_FUSE {
                    unused.push(bench.unused(&old));
                }
                if !banned.insert(old.key) {
                    break;
                }
            }
        }
    }
    Plan {
        obstacles: unused,
        ..Plan::nothing(text, before)
    }
}

/// One draft on trial.
struct Bench<'a> {
    text: &'a str,
    project: &'a Project,
    before: &'a [Finding],
    options: &'a Options,
    desk: Desk<'a>,
}

/// How good a round is: findings left, milder ones left, cost.
type Rank = (usize, usize, f64);

/// A draft with sizes, made on a copy.
struct Made {
    edits: Vec<Edit>,
    text: String,
    project: Project,
    assessment: Assessment,
}

impl Bench<'_> {
    /// Sizes and checks until nothing is left to do; the name of an item of
    /// the file that does not fit its place otherwise.
    fn run(&mut self) -> Result<Plan, Refused> {
        if self.desk.draft.wires.is_empty() {
            let mut plan = Plan::nothing(self.text, self.before.to_vec());
            plan.decisions = std::mem::take(&mut self.desk.account.decisions);
            plan.obstacles = std::mem::take(&mut self.desk.account.obstacles);
            return Ok(plan);
        }
        let first = provisional::choices(&self.desk.draft, self.desk.survey.region());
        let Some(mut made) = self.made(&first, &Measured::default()) else {
            return Ok(self.given_up("The planned text could not be written."));
        };
        self.gear(&made);
        let bench = SizeBench::new(&made.project);
        let shed = Shed::new(self.project);
        let mut last: Option<Vec<Choice>> = None;
        let mut best: Option<(Rank, Plan)> = None;
        for round in 1..=self.options.rounds {
            let graph = Graph::new(&made.assessment, &made.project);
            let measured = measure(&self.desk.draft, &made.assessment, &graph, &self.desk.rooms);
            let solved = self.solve(&bench, &measured, &shed, last.as_deref())?;
            let Some(solved) = solved else {
                return Ok(self.given_up("Nothing that is sold fits."));
            };
            let same = last.as_ref().is_some_and(|known| *known == solved.choices);
            if !same {
                match self.made(&solved.choices, &measured) {
                    Some(next) => made = next,
                    None => return Ok(self.given_up("The planned text could not be written.")),
                }
            }
            let plan = self.judged(&made, &solved, &measured, round);
            let new: Vec<Finding> = plan
                .findings
                .iter()
                .filter(|finding| self.is_new(finding))
                .cloned()
                .collect();
            let graph = Graph::new(&made.assessment, &made.project);
            let seen = (&made.assessment, &graph);
            let counts =
                |f: &&Finding| tighten::is_mild(f) && !tighten::is_shared(seen.0, seen.1, f);
            let mild = new.iter().filter(counts).count();
            let bad = plan.unsolved.len();
            let rank = (bad, mild, plan.cost);
            if best.as_ref().is_none_or(|(known, _)| rank < *known) {
                best = Some((rank, plan));
            }
            let soft = round <= self.options.rounds / 2;
            let changed = tighten::tighten(&mut self.desk, &solved.choices, seen, &new, soft)?;
            if same && !changed {
                break;
            }
            last = Some(solved.choices);
        }
        let plan = best.map(|(_, plan)| plan);
        Ok(plan.unwrap_or_else(|| self.given_up("No round of sizing was allowed.")))
    }

    fn solve(
        &mut self,
        bench: &SizeBench,
        measured: &Measured,
        shed: &Shed,
        last: Option<&[Choice]>,
    ) -> Result<Option<Solved>, Refused> {
        let chooser = Chooser {
            draft: &self.desk.draft,
            bench,
            measured,
            region: self.desk.survey.region(),
            volts: (self.desk.volts, self.desk.highest),
            share: self.desk.continuous_share(),
            last,
        };
        match chooser.solve(shed) {
            Ok(solved) => Ok(Some(solved)),
            Err(Unfit::Old(refused)) => Err(refused),
            Err(Unfit::Nothing(section)) => {
                let guard = self.desk.draft.sections.get(section).map(|s| &s.guard);
                if matches!(guard, Some(Guard::Sum(_))) {
                    return Err(Refused::new(MAIN_FUSE, ""));
                }
                let amps = measured.sections.get(section).map_or(0.0, |seen| seen.amps);
                let name = self
                    .desk
                    .draft
                    .sections
                    .get(section)
                    .map(|s| s.name.clone());
                let text = format!(
                    "No wire and fuse that are sold bear the {amps:.0} A of {}.",
                    name.unwrap_or_default(),
                );
                self.desk
                    .account
                    .cannot(ObstacleKind::NothingFits, text, &[]);
                Ok(None)
            }
        }
    }

    /// The draft in these sizes, made on a copy of the text.
    fn made(&self, choices: &[Choice], measured: &Measured) -> Option<Made> {
        let writer = self.writer(choices, measured);
        let edits = writer.edits();
        let text = apply(self.text, &edits).ok()?.text;
        let parsed = parse(&text, catalogue());
        let assessment = assess(&parsed.project);
        Some(Made {
            edits,
            text,
            project: parsed.project,
            assessment,
        })
    }

    fn writer<'b>(&'b self, choices: &'b [Choice], measured: &'b Measured) -> Writer<'b> {
        Writer {
            project: self.project,
            draft: &self.desk.draft,
            choices,
            measured,
            highest: self.desk.highest,
        }
    }

    fn judged(&self, made: &Made, solved: &Solved, measured: &Measured, rounds: usize) -> Plan {
        let findings = judge(&made.project, &made.assessment);
        let told = |finding: &Finding| self.told(finding);
        let unsolved: Vec<Finding> = findings
            .iter()
            .filter(|f| f.severity.at_least(Severity::Warning) && self.is_new(f) && !told(f))
            .cloned()
            .collect();
        let account = &self.desk.account;
        let mut obstacles = account.obstacles.clone();
        obstacles.retain(|obstacle| {
            let named = |f: &&Finding| obstacle.items.iter().any(|id| names(f, id));
            obstacle.kind != ObstacleKind::Gear
                || obstacle.items.is_empty()
                || findings
                    .iter()
                    .filter(named)
                    .any(|f| GEAR.contains(&f.rule))
        });
        obstacles.extend(unsolved.iter().map(|finding| Obstacle {
            kind: ObstacleKind::Unsolved,
            text: finding.headline.clone(),
            items: Vec::new(),
        }));
        let overhead = super::cost::overhead(&self.desk.draft);
        let cost: f64 = solved.choices.iter().map(|choice| choice.cost).sum();
        Plan {
            edits: made.edits.clone(),
            text: made.text.clone(),
            decisions: self.decisions(solved, measured),
            obstacles,
            assumed_lengths: self.writer(&solved.choices, measured).assumed(),
            cost: cost + overhead,
            lower_bound: solved.lower_bound + overhead,
            findings,
            unsolved,
            rounds,
        }
    }

    /// What was drawn and why, then what was sized and why.
    fn decisions(&self, solved: &Solved, measured: &Measured) -> Vec<Decision> {
        let (draft, volts) = (&self.desk.draft, self.desk.volts);
        let sized = sized::decisions(draft, &solved.choices, measured, volts);
        let drawn = self.desk.account.decisions.iter().cloned();
        drawn.chain(sized).collect()
    }

    /// Whether a finding was not there before the plan.
    fn is_new(&self, finding: &Finding) -> bool {
        let key = finding.key();
        let known =
            |before: &Finding| before.key() == key && before.severity.at_least(finding.severity);
        !self.before.iter().any(known)
    }

    /// What no wiring mends: found already with the thickest wire that makes
    /// sense.
    fn gear(&mut self, made: &Made) {
        let findings = judge(&made.project, &made.assessment);
        for finding in findings {
            let ours = GEAR.contains(&finding.rule) && self.is_new(&finding);
            if ours && finding.severity.at_least(Severity::Warning) {
                let items: Vec<&str> = finding
                    .subjects
                    .iter()
                    .filter_map(|subject| match subject {
                        Subject::Item(id) => Some(id.as_str()),
                        _ => None,
                    })
                    .collect();
                let text = format!("Whatever the wiring is: {}", finding.headline);
                self.desk.account.cannot(ObstacleKind::Gear, text, &items);
            }
        }
    }

    /// Whether the account says of a finding that no wiring mends it.
    fn told(&self, finding: &Finding) -> bool {
        GEAR.contains(&finding.rule)
            && self.desk.account.obstacles.iter().any(|obstacle| {
                obstacle.kind == ObstacleKind::Gear
                    && obstacle.items.iter().any(|id| names(finding, id))
            })
    }

    fn given_up(&mut self, why: &str) -> Plan {
        let mut plan = Plan::nothing(self.text, self.before.to_vec());
        plan.decisions = std::mem::take(&mut self.desk.account.decisions);
        self.desk
            .account
            .cannot(ObstacleKind::NothingFits, why, &[]);
        plan.obstacles = std::mem::take(&mut self.desk.account.obstacles);
        plan
    }

    fn unused(&self, refused: &Refused) -> Obstacle {
        let key = refused.key.as_str();
        let (id, way) = key.split_once('.').unwrap_or((key, ""));
        let label = self.desk.survey.label(id);
        let why = refused.why.trim_end_matches('.');
        let text = match way {
            "" => format!("{label} is not used in the place it is named for: {why}."),
            way => format!("The fuse in way {way} of {label} stays a spare: {why}."),
        };
        Obstacle {
            kind: ObstacleKind::Unused,
            text,
            items: vec![id.to_string()],
        }
    }
}

fn names(finding: &Finding, id: &str) -> bool {
    let named = |subject: &Subject| matches!(subject, Subject::Item(item) if item.as_str() == id);
    finding.subjects.iter().any(named)
}

/// Rules whose findings may rest on the gear alone.
const GEAR: [&str; 4] = [
    "battery-overdrawn",
    "supply-collapses",
    "inverter-lead-weak",
    "voltage-drop",
];

impl Plan {
    /// A plan that adds nothing.
    fn nothing(text: &str, findings: Vec<Finding>) -> Self {
        Self {
            edits: Vec::new(),
            text: text.to_string(),
            decisions: Vec::new(),
            obstacles: Vec::new(),
            assumed_lengths: Vec::new(),
            cost: 0.0,
            lower_bound: 0.0,
            findings,
            unsolved: Vec::new(),
            rounds: 0,
        }
    }
}
