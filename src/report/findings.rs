//! What was found, in the order in which it is told: hose by hose, what follows from a fault under its
//! cause, notes of one kind together.

use std::borrow::Borrow;
use std::collections::{BTreeSet, HashMap, HashSet};

use super::verdict::Verdict;
use crate::checks::{self, Finding, Severity};
use crate::engine::{RoutingSolution, RunSolution};
use crate::model::{Routing, Run};
use crate::units::{Length, LengthUnit};

/// The findings of one routing, by their places in the list that they came in.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Findings {
    /// Hoses with faults or warnings: those with faults first, else in the order of the bay.
    pub hoses: Vec<OnHose>,
    /// Faults and warnings about the bay as a whole.
    pub bay: Vec<Cause>,
    /// In the order of the rules.
    pub notes: Vec<Notes>,
    /// One for each cause and each kind of note.
    pub verdict: Verdict,
}

/// Faults and warnings of one hose.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OnHose {
    /// Its place in the routing.
    pub place: usize,
    /// Worst first.
    pub causes: Vec<Cause>,
}

/// A finding, and those on the same stretch of hose that come of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cause {
    /// The finding.
    pub finding: usize,
    /// What comes of it, worst first.
    pub follows: Vec<usize>,
}

/// Notes of one rule.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Notes {
    /// Id of the rule.
    pub rule: &'static str,
    /// In the order of the hoses.
    pub findings: Vec<usize>,
}

impl Notes {
    /// What they say in a few words.
    pub fn title(&self) -> &'static str {
        checks::rule(self.rule).map_or(self.rule, |rule| rule.title)
    }

    /// The names of the hoses that they are about, each once.
    pub fn hoses<'a, F: Borrow<Finding>>(
        &self,
        findings: &[F],
        routing: &'a Routing,
    ) -> Vec<&'a str> {
        let is_of = |id: &str| {
            let mut own = self.findings.iter().filter_map(|index| findings.get(*index));
            own.any(|finding| finding.borrow().run.as_deref() == Some(id))
        };
        routing.runs.iter().filter(|run| is_of(&run.id)).map(Run::shown_name).collect()
    }
}

/// Where a finding is, measured on the hose as it is cut: `3 5/8 in from cut end A`; empty without a place.
pub fn from_cut_end(finding: &Finding, run: Option<&RunSolution>, unit: LengthUnit) -> String {
    finding.at_mm.zip(run).map_or_else(String::new, |(at_mm, run)| {
        format!("{} from cut end A", Length::from_mm(run.on_bench_mm(at_mm)).show(unit))
    })
}

/// What a finding on one stretch of hose is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Topic {
    /// A bend as drawn, and the room it has.
    Bend,
    /// A gap as drawn.
    Gap,
    /// Hose that is pulled tight or has too much slack.
    Pull,
    /// The installed shape.
    Shape,
}

impl Topic {
    fn of(finding: &Finding) -> Option<Self> {
        Some(match finding.rule {
            "bend-radius" | "end-straight" | "clamp-straight" => Self::Bend,
            "clearance" | "near-own-port" | "hose-clearance" => Self::Gap,
            "taut" | "slack-range" | "motion-reach" => Self::Pull,
            "installed-radius"
            | "installed-clearance"
            | "installed-departure"
            | "installed-not-found"
            | "motion-radius"
            | "motion-clearance" => Self::Shape,
            _ => return None,
        })
    }
}

/// A finding with what decides whether another follows from it.
struct Linked<'a> {
    index: usize,
    finding: &'a Finding,
    topic: Option<Topic>,
    span: Option<usize>,
}

impl Linked<'_> {
    /// What is so at rest before what is so when things move.
    fn rank(&self) -> (Severity, Option<Topic>, bool, usize) {
        let moves = self.finding.rule.starts_with("motion");
        (self.finding.severity, self.topic, moves, self.index)
    }

    /// Whether `other`, which is no worse, comes of this.
    fn leads_to(&self, other: &Self) -> bool {
        let (Some(own), Some(others)) = (self.topic, other.topic) else { return false };
        let is_same_thing = || self.finding.other == other.finding.other;
        self.span.is_some()
            && self.span == other.span
            && match (own, others) {
                (Topic::Bend | Topic::Shape, Topic::Bend | Topic::Shape)
                | (Topic::Pull, Topic::Pull) => true,
                (Topic::Gap, Topic::Shape) | (Topic::Shape, Topic::Gap) => is_same_thing(),
                _ => false,
            }
    }
}

impl Findings {
    /// Of findings on `routing`, solved.
    pub fn of<F: Borrow<Finding>>(
        findings: &[F],
        routing: &Routing,
        solution: &RoutingSolution,
    ) -> Self {
        let mut told = Self::default();
        let mut notes = Vec::new();
        let ids: Vec<&str> = routing.runs.iter().map(|run| run.id.as_str()).collect();
        let places: HashMap<&str, usize> = ids.into_iter().zip(0..).collect();
        let mut of_hoses = vec![Vec::new(); routing.runs.len()];
        for (index, finding) in indexed(findings) {
            let place = finding.run.as_deref().and_then(|run| places.get(run));
            if let Some(own) = place.and_then(|place| of_hoses.get_mut(*place)) {
                own.push((index, finding));
            }
        }
        for (place, own) in of_hoses.into_iter().enumerate() {
            let (causes, quiet) = causes(own.into_iter(), solution.run(place));
            notes.extend(quiet);
            if !causes.is_empty() {
                told.hoses.push(OnHose { place, causes });
            }
        }
        let of_bay = indexed(findings).filter(|(_, f)| f.run.is_none());
        let (of_bay, quiet) = causes(of_bay, None);
        notes.extend(quiet);
        told.bay = of_bay;
        told.notes = by_rule(findings, &notes);
        let worst = |hose: &OnHose| findings[hose.causes[0].finding].borrow().severity;
        told.hoses.sort_by_key(worst);
        told.verdict = told.count(findings);
        told
    }

    /// The findings that come of others.
    pub fn consequences(&self) -> HashSet<usize> {
        let causes = self.hoses.iter().flat_map(|hose| &hose.causes).chain(&self.bay);
        causes.flat_map(|cause| cause.follows.iter().copied()).collect()
    }

    /// What was found on the hose in `place`.
    pub fn on(&self, place: usize) -> &[Cause] {
        self.hoses.iter().find(|hose| hose.place == place).map_or(&[], |hose| &hose.causes)
    }

    /// The verdict on one hose alone.
    pub fn verdict_on<F: Borrow<Finding>>(
        &self,
        place: usize,
        findings: &[F],
        run: &str,
    ) -> Verdict {
        let severity = |index: usize| findings.get(index).map(|f| f.borrow().severity);
        let causes = self.on(place).iter().filter_map(|cause| severity(cause.finding));
        let is_own = |index: &usize| {
            findings.get(*index).is_some_and(|f| f.borrow().run.as_deref() == Some(run))
        };
        let notes = self.notes.iter().filter(|notes| notes.findings.iter().any(is_own));
        Verdict::of(causes.chain(notes.map(|_| Severity::Note)))
    }

    /// The sources of the rules that found something, in the order of the rules.
    pub fn sources<F: Borrow<Finding>>(findings: &[F]) -> Vec<(&'static str, Vec<String>)> {
        let of_rule = |rule: &'static str| {
            let own = findings.iter().map(Borrow::borrow).filter(|finding| finding.rule == rule);
            let sources: BTreeSet<&str> = own.map(|finding| finding.source.as_str()).collect();
            let sources: Vec<String> = sources.into_iter().map(str::to_owned).collect();
            (!sources.is_empty()).then_some((rule, sources))
        };
        checks::RULES.iter().filter_map(|rule| of_rule(rule.id)).collect()
    }

    fn count<F: Borrow<Finding>>(&self, findings: &[F]) -> Verdict {
        let causes = self.hoses.iter().flat_map(|hose| &hose.causes).chain(&self.bay);
        let causes = causes.map(|cause| findings[cause.finding].borrow().severity);
        Verdict::of(causes.chain(self.notes.iter().map(|_| Severity::Note)))
    }
}

fn indexed<F: Borrow<Finding>>(findings: &[F]) -> impl Iterator<Item = (usize, &Finding)> {
    findings.iter().map(Borrow::borrow).enumerate()
}

/// Faults and warnings with what comes of each, worst first; and the notes that come of nothing.
fn causes<'a>(
    findings: impl Iterator<Item = (usize, &'a Finding)>,
    run: Option<&RunSolution>,
) -> (Vec<Cause>, Vec<usize>) {
    let mut sorted: Vec<Linked<'_>> = findings
        .map(|(index, finding)| Linked {
            index,
            finding,
            topic: Topic::of(finding),
            span: finding.at_mm.zip(run).and_then(|(at_mm, run)| span_at(run, at_mm)),
        })
        .collect();
    sorted.sort_by_key(Linked::rank);
    let mut leads: Vec<(&Linked<'_>, Cause)> = Vec::new();
    let mut notes = Vec::new();
    for one in &sorted {
        // The gap to the same thing as drawn before a bend on the same stretch.
        let under = leads
            .iter()
            .enumerate()
            .filter(|(_, (lead, _))| lead.leads_to(one))
            .min_by_key(|(_, (lead, _))| lead.topic != Some(Topic::Gap))
            .map(|(under, _)| under);
        if let Some((_, cause)) = under.and_then(|under| leads.get_mut(under)) {
            cause.follows.push(one.index);
        } else if one.finding.severity == Severity::Note {
            notes.push(one.index);
        } else {
            leads.push((one, Cause { finding: one.index, follows: Vec::new() }));
        }
    }
    (leads.into_iter().map(|(_, cause)| cause).collect(), notes)
}

/// The free length that holds a place along the drawn hose; the nearest where a clamp does.
fn span_at(run: &RunSolution, at_mm: f64) -> Option<usize> {
    let off = |from: f64, to: f64| (from - at_mm).max(at_mm - to).max(0.0);
    let spans = run.spans.iter();
    let nearest = spans.min_by(|a, b| off(a.from_mm, a.to_mm).total_cmp(&off(b.from_mm, b.to_mm)));
    nearest.map(|span| span.place)
}

fn by_rule<F: Borrow<Finding>>(findings: &[F], notes: &[usize]) -> Vec<Notes> {
    let of_rule = |rule: &'static str| {
        let is_of = |index: &usize| findings[*index].borrow().rule == rule;
        let found: Vec<usize> = notes.iter().copied().filter(is_of).collect();
        (!found.is_empty()).then_some(Notes { rule, findings: found })
    };
    checks::RULES.iter().filter_map(|rule| of_rule(rule.id)).collect()
}

#[cfg(test)]
mod tests;
