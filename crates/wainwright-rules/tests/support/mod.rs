//! Helpers of the stories: project text in, findings out.

#![allow(dead_code, reason = "each file of stories uses some of it")]
#![allow(
    clippy::panic,
    clippy::expect_used,
    reason = "a story fails by stopping"
)]

use wainwright_analysis::{Assessment, assess, catalogue};
use wainwright_model::{Project, apply, parse};
use wainwright_rules::{Finding, Fix, MOST_TRIALS, fixes, judge};

/// A small system with nothing wrong but a notice.
pub const CLEAN: &str = include_str!("clean.toml");

/// A switch panel fed by jumpers from switch to switch.
pub const CHAIN: &str = include_str!("chain.toml");

/// A text with some of its passages replaced; each must be there.
pub fn with(text: &str, changes: &[(&str, &str)]) -> String {
    let mut text = text.to_string();
    for (old, new) in changes {
        assert!(text.contains(old), "the story has no {old:?}");
        text = text.replacen(old, new, 1);
    }
    text
}

/// The clean system with changes.
pub fn clean_with(changes: &[(&str, &str)]) -> Story {
    Story::new(&with(CLEAN, changes))
}

/// The clean system with more at its end.
pub fn clean_and(more: &str) -> Story {
    Story::new(&format!("{CLEAN}\n{more}"))
}

/// One project, assessed and judged.
pub struct Story {
    pub text: String,
    pub project: Project,
    pub assessment: Assessment,
    pub findings: Vec<Finding>,
}

impl Story {
    /// Reads, assesses and judges; the text must be free of problems.
    pub fn new(text: &str) -> Self {
        let story = Self::unfinished(text);
        let problems = parse(text, catalogue()).problems;
        assert!(
            problems.is_empty(),
            "the story's text has problems: {problems:?}"
        );
        story
    }

    /// The same for a text that may have problems.
    pub fn unfinished(text: &str) -> Self {
        let project = parse(text, catalogue()).project;
        let assessment = assess(&project);
        let findings = judge(&project, &assessment);
        Self {
            text: text.to_string(),
            project,
            assessment,
            findings,
        }
    }

    /// The findings of one rule.
    pub fn of(&self, rule: &str) -> Vec<&Finding> {
        self.findings
            .iter()
            .filter(|finding| finding.rule == rule)
            .collect()
    }

    /// The only finding of one rule.
    pub fn one(&self, rule: &str) -> &Finding {
        let found = self.of(rule);
        assert_eq!(found.len(), 1, "{rule}: {:#?}", self.headlines());
        found[0]
    }

    /// That a rule is silent.
    pub fn silent(&self, rule: &str) {
        let found: Vec<&str> = self.of(rule).iter().map(|f| f.headline.as_str()).collect();
        assert!(found.is_empty(), "{rule} speaks: {found:?}");
    }

    /// The finding of a rule whose first subject has this key.
    pub fn at(&self, rule: &str, subject: &str) -> &Finding {
        let key = format!("{rule}:{subject}");
        self.findings
            .iter()
            .find(|finding| finding.key() == key)
            .unwrap_or_else(|| panic!("no {key} in {:#?}", self.headlines()))
    }

    /// All headlines with rule and severity, for messages.
    pub fn headlines(&self) -> Vec<String> {
        self.findings
            .iter()
            .map(|f| format!("{} {}: {}", f.severity, f.rule, f.headline))
            .collect()
    }

    /// The proven fixes of a finding.
    pub fn fixes(&self, finding: &Finding) -> Vec<Fix> {
        fixes(
            &self.text,
            &self.project,
            &self.assessment,
            finding,
            MOST_TRIALS,
        )
    }

    /// The story after a fix.
    pub fn after(&self, fix: &Fix) -> Story {
        let applied = apply(&self.text, &fix.edits).expect("the fix applies");
        Story::unfinished(&applied.text)
    }

    /// That a finding has a fix, and that each of its fixes, applied
    /// independently of the prover, removes it and brings nothing as bad.
    pub fn fixed(&self, finding: &Finding) -> Vec<Fix> {
        let fixes = self.fixes(finding);
        assert!(!fixes.is_empty(), "no fix for {}", finding.headline);
        for fix in &fixes {
            let after = self.after(fix);
            for other in &after.findings {
                assert_ne!(
                    other.key(),
                    finding.key(),
                    "still there after: {}",
                    fix.title
                );
                let told = |before: &Finding| {
                    let first = other.subjects.first();
                    before.rule == other.rule
                        && before.severity <= other.severity
                        && (before.key() == other.key()
                            || first.is_some_and(|first| before.subjects.contains(first)))
                };
                let new = !self.findings.iter().any(told);
                assert!(
                    !new || other.severity > finding.severity,
                    "{} brings {}",
                    fix.title,
                    other.headline
                );
            }
            assert!(fix.mends.contains(&finding.key()));
        }
        fixes
    }
}

/// Titles of fixes, for messages.
pub fn titles(fixes: &[Fix]) -> Vec<&str> {
    fixes.iter().map(|fix| fix.title.as_str()).collect()
}
